"""Getting the model ready in the background; the library's table is replaced by a stand-in, so nothing waits.

Invariants of our own; no outside source.
"""

import threading
from collections.abc import Callable, Iterator

import pytest

from coachlib import Ball, Bowler, Line, Session, Shot, change, observe
from coachlib.views.panels.lane_side import getting_ready
from coachlib.views.panels.lane_side.getting_ready import FAILED, GettingReady

SESSION = Session(bowler=Bowler(name="Maija"), line=Line(22, 12))
LONG_S = 60.0


class Stage:
    """A stand-in for the work: it goes on when told, and counts."""

    def __init__(self) -> None:
        self.go, self.told, self.problem = threading.Event(), threading.Event(), None
        self.sessions: list[Session] = []

    def make(self, session: Session, progress: Callable[[float], None]) -> None:
        self.sessions.append(session)
        progress(0.44)
        assert self.go.wait(LONG_S)
        if self.problem:
            raise self.problem


@pytest.fixture
def stage(monkeypatch: pytest.MonkeyPatch) -> Iterator[Stage]:
    made = Stage()
    monkeypatch.setattr(getting_ready, "_make_tables", made.make)
    yield made
    made.go.set()


def test_work_begins_once_and_is_told_when_it_is_done(stage: Stage) -> None:
    ready = GettingReady(stage.told.set)
    for _ in range(3):
        ready.want(SESSION)
    assert not ready.is_ready(SESSION)
    stage.go.set()
    assert stage.told.wait(LONG_S)
    assert ready.is_ready(SESSION)
    assert ready.words(SESSION) == ""
    assert stage.sessions == [SESSION]


def test_another_line_name_or_shot_needs_no_new_work_but_another_ball_bowler_or_distance_does(
    stage: Stage,
) -> None:
    stage.go.set()
    ready = GettingReady(lambda: None)
    ready.wait(SESSION, LONG_S)
    same = observe(change(SESSION, line=Line(25, 14), bowler=Bowler(name="Oskar")), Shot(arrival="high"))
    assert ready.is_ready(same)
    for other in (
        change(SESSION, ball=Ball("another", grit=500)),
        change(SESSION, bowler=Bowler(rev_rate_rpm=420)),
        change(SESSION, line=Line(22, 12, 12)),
    ):
        assert not ready.is_ready(other)


def test_who_waits_is_not_held_up_for_longer(stage: Stage) -> None:
    ready = GettingReady(lambda: None)
    ready.wait(SESSION, 0.01)
    assert not ready.is_ready(SESSION)


def test_nothing_is_said_of_short_work_and_tenths_of_long_work(
    stage: Stage, monkeypatch: pytest.MonkeyPatch
) -> None:
    ready = GettingReady(stage.told.set)
    assert ready.words(SESSION) == ""
    monkeypatch.setattr(getting_ready, "QUIET_S", LONG_S)
    ready.wait(SESSION, 0.01)
    assert ready.words(SESSION) == ""
    monkeypatch.setattr(getting_ready, "QUIET_S", 0.0)
    later = change(SESSION, bowler=Bowler(rev_rate_rpm=420))
    stage.go.set()
    assert stage.told.wait(LONG_S)
    stage.go.clear()
    stage.told.clear()
    ready.want(later)
    assert stage.told.wait(LONG_S)  # of its progress
    assert ready.words(later) == "Getting the simulation ready: 4 of 10 …"


def test_work_that_fails_is_said_and_leaves_the_rule_of_thumb(stage: Stage) -> None:
    stage.problem = MemoryError("no room")
    stage.go.set()
    ready = GettingReady(stage.told.set)
    ready.wait(SESSION, LONG_S)
    assert not ready.is_ready(SESSION)
    assert ready.words(SESSION) == FAILED
    assert stage.told.wait(LONG_S)


def test_giving_up_holds_for_this_session_alone(stage: Stage) -> None:
    stage.go.set()
    ready, other = GettingReady(lambda: None), change(SESSION, bowler=Bowler(rev_rate_rpm=420))
    ready.wait(SESSION, LONG_S)
    ready.wait(other, LONG_S)
    ready.give_up(SESSION)
    assert (ready.is_ready(SESSION), ready.is_ready(other)) == (False, True)
    assert ready.words(SESSION) == FAILED
