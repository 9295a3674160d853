"""The logbook: what was logged is replayed equal, and what does not fit or was changed by hand is told.

All invariants; no outside source. Kills, several writers, full disks and hostile texts are tried in
tests/records/test_faults.py.
"""

import sqlite3
import tempfile
from datetime import UTC, datetime, timedelta, timezone
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import coachlib.coaching.session.session as steps
from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError, InputError
from coachlib.records import Logbook, NewSession, Student, Students
from coachlib.records.log.events import event_text, stepped
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot
from tests.records.steps import CHANGE_STEPS, SHOT_STEPS, SHOTS

START = Session(bowler=Bowler(name="Ilta", hand="left"), line=Line(22, 11))
HELSINKI = timezone(timedelta(hours=3))


def _shot(n: int) -> Shot:
    return Shot(crossed_board=11.0, note=str(n))


# Round trip

_events = st.one_of(
    SHOT_STEPS,
    CHANGE_STEPS,
    st.tuples(st.just("undo"), st.just({})),
    st.tuples(st.just("correct"), st.fixed_dictionaries({"number": st.integers(1, 4), "shot": SHOTS})),
    st.tuples(st.just("advice"), st.fixed_dictionaries({"headline": st.text(max_size=9)})),
)


def _try(logbook: Logbook, key: str, states: list[Session], kind: str, payload: dict[str, Any]) -> None:
    """Do one step in memory and in the log; what one refuses the other must refuse."""
    try:
        after = states[-2] if kind == "undo" and len(states) > 1 else stepped(states[-1], kind, payload)
    except InputError:
        with pytest.raises(InputError):
            logbook.append(key, kind, payload)
        return
    logbook.append(key, kind, payload)
    if kind == "undo":
        states.pop()
    elif after != states[-1]:
        states.append(after)


@settings(max_examples=60, deadline=None)
@given(st.lists(_events, max_size=12))
def test_what_is_written_is_replayed_equal(events: list[tuple[str, dict[str, Any]]]) -> None:
    with tempfile.TemporaryDirectory() as folder:
        logbook, states = Logbook(Path(folder) / "l.sqlite"), [START]
        key = logbook.start(START)
        for kind, payload in events:
            _try(logbook, key, states, kind, payload)
        session = states[-1]
        assert Logbook(logbook.path).replay(key) == session
        assert logbook.sessions()[0].n_shots == len(session.shots)
        assert logbook.sessions()[0].bowler_name == session.bowler.name


def test_shots_already_in_a_session_come_along(logbook: Logbook) -> None:
    session = steps.change(steps.observe(START, _shot(1)), lane="8")
    key = logbook.start(session)
    assert logbook.append(key, "undo", {}) == 1
    assert logbook.replay(key) == steps.undo(session)


def test_events_are_numbered_from_one_in_each_session(logbook: Logbook) -> None:
    first, second = logbook.start(START), logbook.start(START)
    assert [logbook.append(first, "shot", {"shot": _shot(n)}) for n in (1, 2)] == [1, 2]
    assert logbook.append(second, "advice", {"headline": "Stay"}) == 1


def test_advice_changes_nothing_and_undo_passes_over_it(logbook: Logbook) -> None:
    key = logbook.start(START)
    logbook.append(key, "shot", {"shot": _shot(1)})
    logbook.append(key, "advice", {"headline": "Stay"})
    logbook.append(key, "undo", {})
    assert logbook.replay(key) == START


def test_undo_takes_a_correction_back_and_then_the_ball_before_it(logbook: Logbook) -> None:
    key = logbook.start(START)
    logbook.append(key, "shot", {"shot": _shot(1)})
    logbook.append(key, "shot", {"shot": _shot(2)})
    seen = logbook.replay(key)
    logbook.append(key, "correct", {"number": 1, "shot": _shot(3)})
    logbook.append(key, "undo", {})
    assert logbook.replay(key) == seen
    logbook.append(key, "undo", {})
    assert logbook.replay(key) == steps.observe(START, _shot(1))


def test_the_latest_of_a_kind_is_what_was_kept_last(logbook: Logbook) -> None:
    key = logbook.start(START)
    assert logbook.latest(key, "preferences") is None
    first = {"lanes": ("7", "8"), "to": "bowler", "speed_unit": "mph"}
    for preferences in (first, first | {"to": "coach"}):
        logbook.append(key, "preferences", preferences)
    logbook.append(key, "shot", {"shot": _shot(1)})
    assert logbook.latest(key, "preferences") == first | {"to": "coach"}
    logbook.append(key, "undo", {})
    assert logbook.replay(key) == START


# The list of sessions


def test_sessions_are_listed_newest_first(logbook: Logbook) -> None:
    assert logbook.sessions() == ()
    keys = [
        logbook.start(Session(bowler=Bowler(name=name), line=Line(22, 11))) for name in ("Ilta", "Oskari")
    ]
    logbook.append(keys[0], "shot", {"shot": _shot(1)})
    listed = logbook.sessions()
    assert [(row.key, row.bowler_name, row.n_shots) for row in listed] == [
        (keys[1], "Oskari", 0),
        (keys[0], "Ilta", 1),
    ]
    assert listed[1].started < listed[1].last_event
    assert listed[0].started.utcoffset() is not None


def test_latest_open_is_the_one_written_to_last(logbook: Logbook) -> None:
    assert logbook.latest_open() is None
    first, second = logbook.start(START), logbook.start(START)
    assert logbook.latest_open() == second
    logbook.append(first, "shot", {"shot": _shot(1)})
    assert logbook.latest_open() == first
    logbook.close(first)
    assert logbook.latest_open() == second
    logbook.close(second)
    assert logbook.latest_open() is None
    assert len(logbook.replay(first).shots) == 1


def test_closed_session_opens_again_with_the_next_event(logbook: Logbook) -> None:
    key = logbook.start(START)
    logbook.close(key)
    logbook.append(key, "shot", {"shot": _shot(1)})
    assert logbook.latest_open() == key


# Bad input


@pytest.mark.parametrize("key", ["nobody", "'; DROP TABLE event; --", "\ud800", "", None, ["a"], 7])
def test_unknown_session(logbook: Logbook, key: Any) -> None:
    kept = logbook.start(START)
    told = r"^session_key is .*; expected the key of a session in this log\. Take one from Logbook"
    for call in (logbook.replay, logbook.close, lambda key: logbook.append(key, "undo", {})):
        with pytest.raises(InputError, match=told):
            call(key)
    assert logbook.replay(kept) == START


@pytest.mark.parametrize(
    ("kind", "payload", "told"),
    [
        ("undo", {}, "nothing to undo"),
        ("correct", {"number": 1, "shot": _shot(1)}, "number is 1; expected a ball of this session"),
        ("change", {"games_on_lane": 99.0}, "games_on_lane is 99.0; expected 0 to 60 games"),
        ("shot", {"shot": {"crossed_board": 99}}, "crossed_board is 99; expected 0 to 40 boards"),
        ("start", {"session": START}, "kind is 'start'; expected one of 'shot', 'change'"),
        ("throw", {}, "kind is 'throw'; expected one of 'shot'"),
        ("preferences", {"lanes": ("7",), "to": "nobody", "speed_unit": "mph"}, "to is 'nobody'"),
    ],
)
def test_event_that_does_not_fit_is_not_kept(
    logbook: Logbook, kind: str, payload: dict[str, Any], told: str
) -> None:
    key = logbook.start(START)
    with pytest.raises(InputError, match=told):
        logbook.append(key, kind, payload)
    assert logbook.replay(key) == START
    assert logbook.append(key, "shot", {"shot": _shot(1)}) == 1


def test_start_with_something_else(logbook: Logbook) -> None:
    with pytest.raises(InputError, match="session is 'Ilta'"):
        logbook.start("Ilta")  # type: ignore[arg-type]
    assert logbook.sessions() == ()


# Damage


def _changed_by_hand(logbook: Logbook, statement: str, *values: object) -> None:
    with sqlite3.connect(logbook.path) as db:
        assert db.execute(statement, values).rowcount == 1
    db.close()


def _three_shots(logbook: Logbook) -> str:
    key = logbook.start(START)
    for n in (1, 2, 3):
        logbook.append(key, "shot", {"shot": _shot(n)})
    return key


_NEWER = '{"schema":2,"payload":{}}'
_FAST = '{"schema":1,"payload":{"shot":{"speed_mph":99.0,"crossed_board":1.0}}}'
_EMPTY = '{"schema":1,"payload":{"shot":{"note":"x"}}}'


@pytest.mark.parametrize(
    ("text", "told"),
    [
        (event_text({"shot": _shot(2)})[:-7], r"the event's text is .*; expected one whole JSON object"),
        ("", r"the event's text is ''; expected one whole JSON object"),
        (b"\xff\xfe", r"the event's text is .*; expected one whole JSON object"),
        (_NEWER, r"schema is 2; expected a number from 1 to 1, .* newer coachlib"),
        (_FAST, r"shot: speed_mph is 99\.0; expected 8 to 25 mph"),
        (_EMPTY, r"crossed_board, arrival and leave are all missing"),
    ],
)
def test_event_cut_off_or_changed_by_hand(logbook: Logbook, text: object, told: str) -> None:
    key = _three_shots(logbook)
    _changed_by_hand(logbook, "UPDATE event SET text = ? WHERE number = 2", text)
    where = rf"^event 2 \(shot\) of session {key} in .*logbook\.sqlite"
    whole = rf"{where} cannot be read: {told}.* Nothing was changed\. Mend"
    with pytest.raises(DataFileError, match=whole):
        logbook.replay(key)
    with pytest.raises(DataFileError, match=whole):
        logbook.append(key, "shot", {"shot": _shot(4)})
    assert [row.n_shots for row in logbook.sessions()] == [3]


@pytest.mark.parametrize(
    ("statement", "told"),
    [
        (
            "DELETE FROM event WHERE number = 1",
            r"event 2 \(shot\) .*: event 1 is missing; expected all numbers",
        ),
        ("DELETE FROM event WHERE number = 0", r"event 1 \(shot\) .*: event 0 is missing"),
        (
            "UPDATE event SET kind = 'thrown' WHERE number = 3",
            r"event 3 \(thrown\) .*: kind is 'thrown'; expected one of",
        ),
        (
            "UPDATE event SET kind = 'start' WHERE number = 3",
            r"event 3 \(start\) .*: kind is 'start'; expected 'start' for",
        ),
        (
            "UPDATE event SET kind = 'undo' WHERE number = 1",
            r"event 1 \(undo\) .*: shot is no field of a 'undo' event",
        ),
        (
            "UPDATE event SET kind = 'shot' WHERE number = 0",
            r"event 0 \(shot\) .*: kind is 'shot'; expected 'start' for",
        ),
    ],
)
def test_log_changed_by_hand(logbook: Logbook, statement: str, told: str) -> None:
    key = _three_shots(logbook)
    _changed_by_hand(logbook, statement)
    with pytest.raises(DataFileError, match=told):
        logbook.replay(key)


@pytest.mark.parametrize(
    ("column", "value"), [("started", "yesterday"), ("last_event", b""), ("n_shots", "many")]
)
def test_list_changed_by_hand(logbook: Logbook, column: str, value: object) -> None:
    key = _three_shots(logbook)
    _changed_by_hand(logbook, f"UPDATE session SET {column} = ?", value)
    with pytest.raises(DataFileError, match=f"session {key} in .* has a line that cannot be read"):
        logbook.sessions()


def test_damaged_pages_are_told_and_kept(logbook: Logbook) -> None:
    key = _three_shots(logbook)
    content = bytearray(logbook.path.read_bytes())
    content[4096:] = b"\xa5" * (len(content) - 4096)
    logbook.path.write_bytes(content)
    with pytest.raises(DataFileError, match=r"logbook\.sqlite is damaged \("):
        logbook.replay(key)
    aside = logbook.set_aside()
    assert aside.read_bytes() == content
    assert logbook.replay(logbook.start(START)) == START


# Whole sessions, several events, and whose they are


def _new(key: str, *notes: int, student_key: str | None = None) -> NewSession:
    steps = [("shot", {"shot": _shot(n)}) for n in notes]
    return NewSession(key, datetime(2024, 10, 1, 19, tzinfo=HELSINKI), START, steps, student_key)


def test_sessions_played_before_are_added_whole_and_closed(logbook: Logbook) -> None:
    assert logbook.add([_new("a1", 1, 2), _new("b2")]) == ("a1", "b2")
    assert logbook.replay("a1") == steps.observe(steps.observe(START, _shot(1)), _shot(2))
    assert logbook.latest_open() is None
    assert {row.started for row in logbook.sessions()} == {datetime(2024, 10, 1, 16, tzinfo=UTC)}
    assert logbook.append("a1", "shot", {"shot": _shot(3)}) == 3


@pytest.mark.parametrize(
    ("second", "told"),
    [
        (_new("a1", 2), r"session a1 of 2024-10-01 is in this log already; .* Nothing was added"),
        (_new("b2", 2, student_key="nobody"), r"student_key is 'nobody'; expected the key of a student"),
        (_new("b2")._replace(steps=[("undo", {})]), "nothing to undo"),
    ],
)
def test_one_wrong_session_and_none_is_added(logbook: Logbook, second: NewSession, told: str) -> None:
    with pytest.raises(InputError, match=told):
        logbook.add([_new("a1", 1), second])
    assert logbook.sessions() == ()


def test_several_events_are_kept_together_or_not_at_all(logbook: Logbook) -> None:
    key = logbook.start(START)
    both = [("shot", {"shot": _shot(1)}), ("correct", {"number": 1, "shot": _shot(2)})]
    assert logbook.append_all(key, both) == 2
    kept = logbook.replay(key)
    assert kept == steps.correct(steps.observe(START, _shot(1)), 1, _shot(2))
    with pytest.raises(InputError, match="number is 9"):
        logbook.append_all(key, [*both, ("correct", {"number": 9, "shot": _shot(3)})])
    assert logbook.replay(key) == kept


def test_a_session_is_given_to_a_student_and_taken_back(logbook: Logbook) -> None:
    student = Students(logbook).add(Student("Ilta Koivu", alias="Number 7"))
    key = logbook.start(START)
    logbook.assign(key, student)
    assert [row.key for row in logbook.sessions(student)] == [key]
    assert logbook.replay(key).bowler.name == "Number 7"
    logbook.assign(key, None)
    assert logbook.sessions(student) == ()
    assert logbook.replay(key) == START
    for wrong in ((key, "nobody"), ("nobody", student)):
        with pytest.raises(InputError, match="'nobody'; expected the key"):
            logbook.assign(*wrong)


@pytest.mark.parametrize("key", ["\ud800", 7, ["a"]])
def test_key_that_can_be_no_students(logbook: Logbook, key: Any) -> None:
    for call in (logbook.sessions, logbook.latest_open):
        with pytest.raises(InputError, match="expected the key of a student in this log"):
            call(key)


def test_open_sessions_stand_in_the_order_in_which_they_began(logbook: Logbook) -> None:
    first, second, third = (logbook.start(Session(Bowler(name=name), Line(22, 12))) for name in "abc")
    logbook.append(first, "shot", {"shot": Shot(crossed_board=12)})
    logbook.close(second)
    assert [one.key for one in logbook.open_sessions()] == [first, third]
