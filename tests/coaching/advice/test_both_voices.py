"""The panel with both voices: what it waits for, what it says meanwhile, and what it keeps.

The wanted behaviour is the panel's own contract (common practice, no outside source). One bowler on one
unknown pattern serves all tests, so that the model's table is made once. Bowlers are invented.
"""

import asyncio
import dataclasses
import sqlite3
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from coachlib import Bowler, Line, Move, Session, Shot, advise, observe
from coachlib.coaching.wording.advice_text import say
from coachlib.records import Logbook
from coachlib.views.panels import LaneSide
from coachlib.views.panels.lane_side import getting_ready, lane_side
from coachlib.views.panels.lane_side import live_session as running
from coachlib.views.panels.lane_side.answer import BIG
from coachlib.views.panels.lane_side.getting_ready import FAILED
from tests.answers import ONE_AND_ONE, TWO_AND_ONE, answer, view_of, voice, worth

START = {"name": "Maija", "hand": "right", "feet": "22", "target": "12", "lanes": "7 8"}
HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
POCKET = {"crossed": "12", "arrival": "pocket", "leave": "all down"}
LONG_S = 120.0
STAY = worth(Move(), 3)


@pytest.fixture
def log(tmp_path: Path) -> Logbook:
    return Logbook(tmp_path / "log.sqlite")


@pytest.fixture
def panel(log: Logbook, monkeypatch: pytest.MonkeyPatch) -> LaneSide:
    """Return a panel that waits for the model, however slow the machine is."""
    monkeypatch.setattr(lane_side, "MOST_WAIT_S", LONG_S)
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START)
    return panel


def _session(panel: LaneSide) -> Session:
    assert panel.session is not None
    return panel.session


def _advices(log: Logbook) -> list[dict[str, Any]]:
    return [
        log.story(one.key).advice[number] for one in log.sessions() for number in log.story(one.key).advice
    ]


def _n_advice_events(log: Logbook) -> int:
    with sqlite3.connect(log.path) as db:
        return int(db.execute("SELECT count(*) FROM event WHERE kind = 'advice'").fetchone()[0])


@dataclasses.dataclass
class Held:
    """Holds the work in the background until told, then lets it be done or fail."""

    go: threading.Event = dataclasses.field(default_factory=threading.Event)
    problem: Exception | None = None
    make: Callable[..., None] = getting_ready._make_tables

    def work(self, session: Session, progress: Callable[[float], None]) -> None:
        assert self.go.wait(LONG_S)
        if self.problem:
            raise self.problem
        self.make(session, progress)


@pytest.fixture
def held(monkeypatch: pytest.MonkeyPatch) -> Iterator[Held]:
    held = Held()
    monkeypatch.setattr(getting_ready, "_make_tables", held.work)
    monkeypatch.setattr(lane_side, "MOST_WAIT_S", 0.0)
    yield held
    held.go.set()


def test_a_ball_is_answered_by_both_voices_and_all_of_it_is_kept(panel: LaneSide, log: Logbook) -> None:
    panel.read(HIGH)
    session = _session(panel)
    advice = advise(session)
    assert panel.answer.look == view_of(session, advice)
    assert f"{round(20 * (advice.stay_strike_prob or 0.0))} strikes in 20" in panel.answer.look["chances"]
    assert panel.answer.look["chances"] == say(advice).chances
    assert panel.grounds.look["model"] == say(advice).model
    assert panel.grounds.look["cause"] is not None
    assert [ball["number"] for ball in panel.grounds.trend["balls"]] == [1]
    (kept,) = _advices(log)
    assert kept["stay_strike_prob"] == round(advice.stay_strike_prob or 0.0, 4)
    assert kept["headline"] == panel.answer.look["headline"]
    assert panel.answer.waiting == ""


def test_each_lane_of_the_pair_has_its_own_worth(panel: LaneSide) -> None:
    for _ in range(2):
        panel.read(HIGH)
    panel.change_lane("8")
    there = advise(_session(panel))
    assert there.model is not None
    assert f"{round(20 * there.model.stay.strike_prob)} strikes in 20" in panel.answer.look["chances"]
    assert panel.grounds.trend["balls"] == []
    panel.change_lane("7")
    assert len(panel.grounds.trend["balls"]) == 2


def test_before_the_model_is_ready_the_rule_answers_and_the_model_is_added(held: Held, log: Logbook) -> None:
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START)
    panel.read(HIGH)
    session = _session(panel)
    assert panel.answer.look == view_of(session, advise(session, model_on=False))
    assert "stay_strike_prob" not in _advices(log)[0]
    held.go.set()
    assert panel.ready is not None
    panel.ready.wait(session, LONG_S)
    panel.catch_up()
    assert panel.answer.look == view_of(session, advise(session))
    assert "stay_strike_prob" in _advices(log)[0]
    assert (_n_advice_events(log), log.replay(log.latest_open() or "")) == (2, session)
    panel.catch_up()
    assert _n_advice_events(log) == 2


def test_the_picture_tells_its_count_from_the_answers_once_the_model_speaks(log: Logbook) -> None:
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START | {"pattern": "house_41"})
    assert panel.running is not None
    panel.running.wait_for_model(LONG_S)
    panel.refresh()
    assert panel.answer.look["chances"]
    told = panel.lane.scene["played"]["path"]["n_strikes"]
    assert f"{told} strikes in 20" in panel.answer.look["chances"]
    silent = LaneSide(log, model_on=False, is_strict=True)
    silent.set_up(START | {"pattern": "house_41"})
    assert silent.lane.scene["played"]["path"] is None


def test_the_model_comes_by_itself_where_a_loop_runs(held: Held, log: Logbook) -> None:
    async def seen() -> str:
        panel = LaneSide(log, is_strict=True)
        panel.set_up(START)
        assert panel.answer.look["chances"] == ""
        came = asyncio.Event()
        panel.answer.observe(lambda _: came.set(), "look")
        held.go.set()
        await asyncio.wait_for(came.wait(), LONG_S)
        return str(panel.answer.look["chances"])

    assert "strikes in 20 on this line" in asyncio.run(seen())


def test_news_after_the_session_ended_change_nothing(held: Held, log: Logbook) -> None:
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START)
    panel.end()
    held.go.set()
    panel.catch_up()
    assert panel.session is None


def test_a_table_that_fails_leaves_the_rule_of_thumb_and_says_so(held: Held, log: Logbook) -> None:
    held.problem = MemoryError("no room")
    held.go.set()
    panel = LaneSide(log, is_strict=True)
    panel.set_up(START)
    assert panel.ready is not None
    panel.ready.wait(_session(panel), LONG_S)
    panel.read(HIGH)
    session = _session(panel)
    assert panel.answer.look == view_of(session, advise(session, model_on=False))
    assert panel.answer.waiting == FAILED
    assert len(session.shots) == 1


def test_a_model_that_stops_later_leaves_the_rule_of_thumb_too(
    panel: LaneSide, monkeypatch: pytest.MonkeyPatch
) -> None:
    panel.read(HIGH)

    def stops(session: Session, rulebook: Any = None, *, model_on: bool = True) -> Any:
        if model_on:
            raise FloatingPointError
        return advise(session, rulebook, model_on=False)

    monkeypatch.setattr(running, "advise", stops)
    panel.read(POCKET)
    session = _session(panel)
    assert len(session.shots) == 2
    assert panel.answer.look == view_of(session, advise(session, model_on=False))
    assert panel.answer.waiting == FAILED


def test_the_list_of_balls_tells_what_was_said_and_reopening_needs_no_model(
    panel: LaneSide, log: Logbook
) -> None:
    for shot in (HIGH, HIGH, HIGH, POCKET):
        panel.read(shot)
    panel.change_lane("8")
    rows = panel.shots.look["rows"]
    reopened = LaneSide(log, model_on=False, is_strict=True)
    reopened.go_on()
    assert reopened.shots.look["rows"] == rows
    assert reopened.session == panel.session


def test_a_log_from_before_words_were_kept_is_answered_by_the_rule(log: Logbook) -> None:
    start = Session(bowler=Bowler(), line=Line(22, 12), lane="7")
    session, key = observe(start, Shot(arrival="high")), log.start(start)
    log.append(key, "shot", {"shot": Shot(arrival="high")})
    log.append(key, "advice", {"kind": "watch", "rule_ids": ["an_old_rule"]})
    log.append(key, "change", {"line": Line(23, 12)})
    panel = LaneSide(log, model_on=False, is_strict=True)
    panel.go_on()
    said = say(advise(session, model_on=False)).headline
    assert panel.shots.look["rows"][-1]["answer"] == said


def test_back_to_the_last_line_that_worked_and_undo(panel: LaneSide, log: Logbook) -> None:
    panel.read(POCKET)
    assert panel.answer.look["back"] == ""
    panel.open_form()  # the form shows the games played so far; fewer would say fresh oil
    panel.set_up(panel.who.typed | {"feet": "26", "target": "14"})
    assert panel.answer.look["back"] == "Back to the last line that worked: feet 22, target 12"
    panel.read(HIGH | {"crossed": "14"})
    panel.back()
    assert _session(panel).line == Line(22, 12)
    assert panel.who.look["status"] == "back to feet 22, target 12, logged"
    assert panel.answer.look["back"] == ""
    assert log.replay(log.latest_open() or "") == panel.session
    panel.back()  # nothing to go back to: nothing happens
    panel.undo()
    assert _session(panel).line == Line(26, 14)


def test_the_line_that_worked_is_forgotten_with_its_oil(panel: LaneSide) -> None:
    panel.read(POCKET)
    panel.open_form()
    panel.set_up(panel.who.typed | {"feet": "26", "target": "14", "games": "0"})
    assert panel.answer.look["back"] == ""


def test_the_first_move_after_practice_is_announced() -> None:
    model = voice(STAY, worth(TWO_AND_ONE, 6), worth(TWO_AND_ONE, 6))
    advice = answer(model, is_big=True)
    look = view_of(advice.session, advice)
    assert look["big"] == BIG
    assert look["summary"].startswith("First move after practice: your biggest decision.")
    small = dataclasses.replace(advice, is_big=False)
    assert view_of(small.session, small)["big"] == ""


def test_what_does_not_fit_is_named_and_its_ball_can_be_corrected() -> None:
    advice = answer(voice(STAY, STAY, odd="crossing"), kind="stay", agree=False)
    look = view_of(advice.session, advice)
    assert "where it crossed (board 12)" in look["odd"]
    assert look["odd_ball"] == 3
    quiet = answer(voice(STAY, STAY), kind="stay", agree=False)
    assert view_of(quiet.session, quiet)["odd_ball"] is None


def test_an_answer_is_put_into_words_once(panel: LaneSide, monkeypatch: pytest.MonkeyPatch) -> None:
    said: list[Any] = []
    monkeypatch.setattr(running, "say", lambda advice, **to: said.append(advice) or say(advice, **to))
    panel.read(HIGH)
    panel.spare(2, "made")
    panel.read(HIGH)
    panel.move()
    panel.refresh()
    panel.undo()
    n_said = len(said)
    assert n_said >= 4
    panel.read(POCKET)
    assert len(said) == n_said + 1
    panel.refresh()
    panel.open_form()
    panel.close_form()
    panel.catch_up()
    assert len(said) == len({id(advice) for advice in said}) == n_said + 1


def test_voices_that_differ_are_both_said_and_other_moves_told_by_what_they_lose() -> None:
    model = voice(STAY, worth(TWO_AND_ONE, 6), worth(ONE_AND_ONE, 4))
    advice = answer(model, rule_move=ONE_AND_ONE, agree=False)
    look = view_of(advice.session, advice)
    assert look["label"] == "Ball 3, lane 7"
    assert look["voices"] == "Rule of thumb: 1 and 1 left. From what you saw, 2 and 1 left looks better."
    assert look["runners_up"] == (
        ("Stay", "3 fewer in 20"),
        ("1 and 1 left (feet 23, target 13), the rule of thumb", "2 fewer in 20"),
    )
