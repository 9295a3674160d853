"""The vocabulary of the rulebook."""

import math
import re

import pytest

from coachlib.coaching.rules.session_facts import read_session, spare_facts
from coachlib.coaching.rules.vocabulary import FACTS, checked_facts, described
from coachlib.coaching.session.session import Session, observe
from coachlib.errors import InputError
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

UNITS_OF_SUFFIX = {
    "boards": "boards",
    "ft": "ft",
    "mph": "mph",
    "deg": "deg",
    "rpm": "rpm",
    "years": "years",
    "ml": "mL",
}


def test_flags_and_counts_are_named_as_such():
    flags = {name for name, fact in FACTS.items() if fact.kind == "flag"}
    assert flags
    assert {name for name in flags if not re.match(r"(is|has)_", name)} == {"scoring_started"}
    assert all(FACTS[name].kind == "number" for name in FACTS if name.startswith("n_"))


@pytest.mark.parametrize(("suffix", "unit"), UNITS_OF_SUFFIX.items())
def test_unit_and_suffix_agree(suffix, unit):
    by_suffix = {
        name for name in FACTS if name.endswith(f"_{suffix}") or name.endswith(f"_{suffix}_per_shot")
    }
    assert by_suffix
    assert by_suffix == {name for name, fact in FACTS.items() if fact.unit == unit}


def test_every_fact_has_a_meaning_and_choices_where_it_needs_them():
    assert all(len(fact.meaning) > 2 for fact in FACTS.values())
    assert {name for name, fact in FACTS.items() if bool(fact.choices) != (fact.kind == "choice")} == set()


def test_a_fact_describes_itself():
    assert described("hit") == (
        "hit ['flat' | 'ringing' | 'unknown']: "
        "how the last pin was missed: its neighbour fell flat, or flew round it"
    )
    assert described("err_boards").startswith("err_boards [boards]: ")
    assert described("is_strike") == "is_strike [flag]: all ten fell"


def test_an_unknown_fact_is_not_described():
    with pytest.raises(InputError, match="fact is 'err'; expected one of 'task'"):
        described("err")


@pytest.mark.parametrize(
    ("name", "value", "allowed"),
    [
        ("n_ok", True, "a number"),
        ("err_boards", math.nan, "a number of boards"),
        ("err_boards", "1", "a number of boards"),
        ("is_strike", 1, "true or false"),
        ("motion", "soon", "one of 'early', 'even'"),
        ("leave_key", 10, "a text"),
    ],
)
def test_wrong_values_are_told(name, value, allowed):
    with pytest.raises(InputError, match=f"{name} is .*; expected {allowed}.*Give that, or None") as caught:
        checked_facts({name: value})
    assert list(caught.value.fields) == [name]


def test_all_wrong_facts_are_told_at_once():
    with pytest.raises(InputError, match=r"Use a name of coachlib\.coaching\.rules\.vocabulary") as caught:
        checked_facts({"n_okay": 1, "is_strike": "yes", "n_ok": 1, "hit": None})
    assert set(caught.value.fields) == {"n_okay", "is_strike"}


def test_what_the_reading_fills_is_in_the_vocabulary():
    session = Session(bowler=Bowler(), line=Line(22, 11))
    for leave in ((4,), (6, 10), ()):
        session = observe(
            session, Shot(crossed_board=11.5, arrival="high", leave=leave, motion="early", hit="flat")
        )
        facts = read_session(session).facts
        assert checked_facts(facts) is facts
    spare = spare_facts(observe(session, Shot(leave=(10,))))
    assert spare
    assert checked_facts(spare) is spare
