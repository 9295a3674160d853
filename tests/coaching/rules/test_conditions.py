"""Conditions as data: when they hold, how many entries were met, and what is wrong with a bad one."""

import pytest

from coachlib.coaching.rules.conditions import condition_problems, fact_names, n_held

SETTINGS = {"patience": 3.0}


@pytest.mark.parametrize(
    ("when", "facts", "expected"),
    [
        ({"motion": "early"}, {"motion": "early"}, 1),
        ({"motion": "early"}, {"motion": "late"}, 0),
        ({"motion": ["early", "even"]}, {"motion": "even"}, 1),
        ({"motion": ["early", "even"]}, {"motion": "late"}, 0),
        ({"is_strike": False}, {"is_strike": False}, 1),
        ({"is_strike": False}, {"is_strike": True}, 0),
        ({"n_ok": 1, "motion": "early"}, {"n_ok": 1, "motion": "early"}, 2),
        ({"n_ok": 1, "motion": "early"}, {"n_ok": 1, "motion": "late"}, 0),
    ],
)
def test_values_and_lists(when, facts, expected):
    assert n_held(when, facts, SETTINGS) == expected


@pytest.mark.parametrize(
    ("limits", "value", "expected"),
    [
        ({"min": 2}, 2.0, True),
        ({"min": 2}, 1.99, False),
        ({"max": 2}, 2.0, True),
        ({"max": 2}, 2.01, False),
        ({"above": 2}, 2.0, False),
        ({"above": 2}, 2.01, True),
        ({"below": 2}, 2.0, False),
        ({"below": 2}, 1.99, True),
        ({"min": 1, "max": 2}, 1.5, True),
        ({"min": 1, "max": 2}, 2.5, False),
        ({"min": 1, "max": 2}, 0.5, False),
        ({"min": "patience"}, 3, True),
        ({"min": "patience"}, 2, False),
    ],
)
def test_limits(limits, value, expected):
    assert bool(n_held({"n_same": limits}, {"n_same": value}, SETTINGS)) is expected


@pytest.mark.parametrize(("n_ok", "expected"), [(2, 1), (3, 0)])
def test_a_limit_may_be_another_fact(n_ok, expected):
    assert (
        n_held({"n_ok": {"below": "shots_needed"}}, {"n_ok": n_ok, "shots_needed": 3}, SETTINGS) == expected
    )


@pytest.mark.parametrize(
    "when", [{"n_ok": {"below": "shots_needed"}}, {"n_ok": {"min": 0}}, {"n_ok": 2}, {"n_ok": [2]}]
)
@pytest.mark.parametrize("facts", [{}, {"n_ok": None}, {"n_ok": None, "shots_needed": 3}])
def test_an_unknown_fact_fulfils_nothing(when, facts):
    assert n_held(when, facts, SETTINGS) == 0


def test_an_unknown_limit_is_not_kept():
    assert n_held({"n_ok": {"below": "shots_needed"}}, {"n_ok": 1}, SETTINGS) == 0


ANY = {"any": [{"motion": "early"}, {"motion": "late", "n_ok": 1}]}


@pytest.mark.parametrize(
    ("facts", "expected"),
    [({"motion": "early"}, 1), ({"motion": "late", "n_ok": 1}, 2), ({"motion": "late"}, 0), ({}, 0)],
)
def test_any_counts_its_best_table(facts, expected):
    assert n_held(ANY, facts, SETTINGS) == expected


NONE = {"none": [{"is_on_target": False}, {"motion": "late"}]}


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        ({}, 1),
        ({"is_on_target": True, "motion": "early"}, 1),
        ({"is_on_target": False}, 0),
        ({"motion": "late"}, 0),
    ],
)
def test_none_wants_nothing_of_it_to_be_known(facts, expected):
    assert n_held(NONE, facts, SETTINGS) == expected


def test_tables_may_stand_in_tables():
    when = {"any": [{"hand": "left", "none": [{"lane_gap_boards": {"min": 0.25}}]}]}
    assert n_held(when, {"hand": "left"}, SETTINGS) == 2
    assert n_held(when, {"hand": "left", "lane_gap_boards": 0.5}, SETTINGS) == 0
    assert set(fact_names(when)) == {"hand", "lane_gap_boards"}


@pytest.mark.parametrize(
    "when",
    [ANY, NONE, {"n_same": {"min": "patience"}}, {"n_ok": {"below": "shots_needed"}}, {"key_pin": [2, 4]}],
)
def test_sound_conditions_have_no_problems(when):
    assert condition_problems(when, SETTINGS) == []


@pytest.mark.parametrize(
    ("when", "message"),
    [
        (None, "condition is None; expected a table with at least one fact"),
        ({}, "condition is {}; expected a table with at least one fact"),
        ({"motoin": "early"}, "fact is 'motoin'; expected one of 'task'"),
        ({"motion": "soon"}, "motion is 'soon'; expected one of 'early'"),
        ({"motion": ["early", "soon"]}, "motion is 'soon'; expected one of 'early'"),
        ({"motion": []}, "motion is []; expected values"),
        ({"motion": {"min": 2}}, "motion is {'min': 2}; expected one of 'early'"),
        ({"is_strike": "yes"}, "is_strike is 'yes'; expected true or false"),
        ({"is_strike": {"min": 1}}, "is_strike is {'min': 1}; expected true or false"),
        ({"leave_key": 10}, "leave_key is 10; expected a text"),
        ({"n_ok": {}}, "n_ok is {}; expected a number or limits (min, max, above, below)"),
        ({"n_ok": {"least": 2}}, "n_ok: limit is 'least'; expected one of 'min', 'max', 'above', 'below'"),
        (
            {"n_ok": {"min": "patients"}},
            "n_ok: min is 'patients'; expected a number, one of the settings patience",
        ),
        ({"n_ok": {"min": True}}, "n_ok: min is True; expected a number"),
        ({"n_ok": {"min": float("nan")}}, "n_ok: min is nan; expected a number"),
        ({"n_ok": {"min": "motion"}}, "n_ok: min is 'motion'; expected a number"),
        ({"any": {"n_ok": 1}}, "any is {'n_ok': 1}; expected a list of tables"),
        ({"none": []}, "none is []; expected a list of tables"),
        ({"any": [{"n_okay": 1}]}, "fact is 'n_okay'; expected one of"),
        ({"any": ["n_ok"]}, "condition is 'n_ok'; expected a table"),
        ({"n_ok": {"min": 5, "max": 2}}, "n_ok is {'min': 5, 'max': 2}; expected the lower limit below the"),
        ({"n_ok": {"above": 3, "below": 2.5}}, "expected the lower limit below the upper one. Swap the two."),
    ],
)
def test_wrong_conditions_are_told(when, message):
    problems = condition_problems(when, SETTINGS)
    assert len(problems) == 1
    assert message in problems[0]
    assert problems[0].endswith(".")


def test_all_problems_are_told_at_once():
    assert len(condition_problems({"n_okay": 1, "motion": "soon", "any": [{"hti": 1}]}, SETTINGS)) == 3


@pytest.mark.parametrize(
    "limits", [{"min": 2, "max": 2}, {"above": 1, "max": 3}, {"min": "patience", "max": 1}]
)
def test_a_range_that_may_hold_something_is_sound(limits):
    assert condition_problems({"n_ok": limits}, SETTINGS) == []
