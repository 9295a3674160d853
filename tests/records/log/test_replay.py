"""A session walked through again: what was advised stays with its ball, and goes with it.

All invariants; no outside source. That states are replayed equal is tested in
tests/records/log/test_logbook.py.
"""

from pathlib import Path
from typing import Any

import pytest

from coachlib.coaching.session.session import Session, change, observe
from coachlib.errors import DataFileError
from coachlib.records import Logbook
from coachlib.records.log.events import event_text
from coachlib.records.log.replay import Replay, shown_as, walk_through
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

START = Session(bowler=Bowler(name="Ilta"), line=Line(22, 11))
SHOT = {"shot": Shot(arrival="high")}


def _rows(*steps: tuple[str, dict[str, Any]]) -> list[tuple[int, str, str]]:
    events = (("start", {"session": START}), *steps)
    return [(number, kind, event_text(payload)) for number, (kind, payload) in enumerate(events)]


def _advice(*steps: tuple[str, dict[str, Any]]) -> dict[int, Any]:
    return walk_through(_rows(*steps), "here").advice


def test_states_are_all_there() -> None:
    first = observe(START, Shot(arrival="high"))
    walk = walk_through(_rows(("shot", SHOT), ("advice", {"kind": "stay"})), "here")
    assert walk.states == [START, first]
    assert walk_through([], "here").states == []


def test_advice_belongs_to_the_ball_before_it() -> None:
    assert _advice(("shot", SHOT), ("shot", SHOT), ("advice", {"kind": "line"})) == {2: {"kind": "line"}}


def test_advice_is_taken_back_with_its_ball_and_replaced_by_a_later_one() -> None:
    taken_back = (("shot", SHOT), ("advice", {"kind": "line"}), ("undo", {}), ("shot", SHOT))
    walk = walk_through(_rows(*taken_back), "here")
    assert len(walk.states[-1].shots) == 1
    assert walk.advice == {}
    later = (("advice", {"kind": "stay"}), ("advice", {"kind": "watch"}))
    assert _advice(*taken_back, *later) == {1: {"kind": "watch"}}


def test_undo_of_a_change_leaves_the_advice(tmp_path: Path) -> None:
    logbook = Logbook(tmp_path / "l.sqlite")
    key = logbook.start(START)
    shot_and_advice = (("shot", SHOT), ("advice", {"kind": "line"}))
    logbook.append_all(key, [*shot_and_advice, ("change", {"line": Line(24, 12)})])
    before_change = Replay(observe(START, Shot(arrival="high")), {1: {"kind": "line"}})
    assert logbook.step(key, "undo", {}) == (4, before_change)
    assert logbook.story(key) == before_change


SPARE = {"shot": Shot(leave=(10,), is_spare=True)}
CORRECTED = ("correct", {"number": 1, "shot": Shot(arrival="pocket")})
TWO = (
    *(("shot", SHOT), ("advice", {"kind": "line"}), ("shot", SHOT), ("advice", {"kind": "watch"})),
    *(("shot", SPARE), ("change", {"line": Line(24, 12)})),
)


def test_a_correction_takes_back_what_was_said_of_the_ball_and_of_those_after_it() -> None:
    assert _advice(*TWO, CORRECTED) == {}
    assert _advice(*TWO, ("correct", {"number": 2, "shot": Shot(arrival="pocket")})) == {1: {"kind": "line"}}
    again = {"kind": "stay", "ball": 1}
    assert _advice(*TWO, CORRECTED, ("advice", again)) == {1: again}


def test_undo_of_a_correction_brings_back_what_was_said() -> None:
    said = _advice(*TWO)
    again = ("advice", {"kind": "stay", "ball": 1})
    assert _advice(*TWO, CORRECTED, again, ("undo", {})) == said
    assert _advice(*TWO, CORRECTED, again, ("shot", SHOT), ("undo", {}), ("undo", {})) == said


@pytest.mark.parametrize(
    "step",
    [("correct", {"number": 1, **SHOT}), ("correct", {"number": 3, "shot": Shot(leave=(), is_spare=True)})],
)
def test_a_correction_of_nothing_or_of_a_spare_ball_leaves_what_was_said(step: Any) -> None:
    assert _advice(*TWO, step) == {1: {"kind": "line"}, 2: {"kind": "watch"}}


@pytest.mark.parametrize("ball", [None, "1", True, 0, 7])
def test_an_advice_that_names_no_ball_of_the_session_belongs_to_the_last(ball: object) -> None:
    said = {"kind": "stay", "ball": ball}
    assert _advice(("shot", SHOT), ("shot", SHOT), ("advice", said)) == {2: said}


def test_event_that_does_not_fit_is_named() -> None:
    told = r"event 1 \(undo\) of session x in log cannot be read: .*There is nothing to undo yet"
    with pytest.raises(DataFileError, match=told):
        walk_through(_rows(("undo", {})), "session x in log")


def test_shown_under_another_name_at_every_moment() -> None:
    def played(name: str) -> Session:
        session = observe(Session(bowler=Bowler(name=name), line=Line(22, 11)), Shot(arrival="high"))
        return observe(change(session, lane="8", line=Line(24, 12)), Shot(leave=(10,)))

    assert shown_as(played("Ilta"), "Number 7") == played("Number 7")
