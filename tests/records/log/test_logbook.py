"""The logbook: what was acknowledged is there afterwards, whatever happens to the process or the file.

All invariants; no outside source. A kill cannot show what a power cut does: there the file system has to keep
its word about synchronisation, and test_store only checks that it is asked for.
"""

import os
import random
import signal
import sqlite3
import tempfile
import time
from collections.abc import Callable
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
from coachlib.records.log import store
from coachlib.records.log.events import event_text, stepped
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import ARRIVAL_CLASSES
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

START = Session(bowler=Bowler(name="Ilta", hand="left"), line=Line(22, 11))
HELSINKI = timezone(timedelta(hours=3))
posix_only = pytest.mark.skipif(not hasattr(os, "fork"), reason="needs processes made by fork")


def _shot(n: int) -> Shot:
    return Shot(crossed_board=11.0, note=str(n))


@pytest.fixture
def logbook(tmp_path: Path) -> Logbook:
    return Logbook(tmp_path / "logbook.sqlite")


# Round trip

_boards = st.floats(0, 40)
_shots = st.builds(
    Shot,
    crossed_board=_boards,
    arrival=st.none() | _boards | st.sampled_from(ARRIVAL_CLASSES),
    leave=st.none() | st.sets(st.integers(1, 10)),
    motion=st.none() | st.sampled_from(("early", "even", "late")),
    speed_mph=st.none() | st.floats(8, 25),
    is_spare=st.booleans(),
    note=st.text(max_size=30),
)
_changes = st.fixed_dictionaries(
    {},
    optional={
        "line": st.builds(Line, st.floats(-5, 45), st.floats(1, 39), st.floats(5, 45)),
        "ball": st.none() | st.builds(Ball, name=st.text(max_size=9), grit=st.floats(180, 6000)),
        "pattern": st.none() | st.builds(OilPattern, name=st.text(max_size=9), length_ft=st.floats(20, 55)),
        "bowler": st.builds(Bowler, name=st.text(max_size=9), speed_mph=st.floats(8, 25)),
        "lane": st.sampled_from(("1", "7", "8")),
        "games_on_lane": st.floats(0, 60),
        "scoring_started": st.booleans(),
        "place": st.builds(Place, st.booleans(), st.none() | st.booleans()),
    },
)
_events = st.one_of(
    st.tuples(st.just("shot"), st.fixed_dictionaries({"shot": _shots})),
    st.tuples(st.just("change"), _changes),
    st.tuples(st.just("undo"), st.just({})),
    st.tuples(st.just("correct"), st.fixed_dictionaries({"number": st.integers(1, 4), "shot": _shots})),
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


@pytest.mark.parametrize(
    "text",
    [
        "'); DROP TABLE session; --",
        '"; DELETE FROM event; --',
        "=1+1",
        "<script>alert(1)</script>",
        "NUL \x00 inside",
        "\x1b[31m\r\n\t",
        "ε🎳\u202e\ufeff\U0010ffff",
        '{"schema": 9}',
        "%s %(x)s {0} ?",
    ],
)
def test_text_from_a_person_is_data(logbook: Logbook, text: str) -> None:
    session = Session(bowler=Bowler(name=text, pain=text), line=Line(22, 11), ball=Ball(text))
    shot = Shot(crossed_board=11, note=text)
    key = logbook.start(session)
    logbook.append(key, "shot", {"shot": shot})
    logbook.append(key, "advice", {text: text})
    assert logbook.replay(key) == steps.observe(session, shot)
    assert [row.bowler_name for row in logbook.sessions()] == [text]


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
    ("column", "value"), [("started", "yesterday"), ("last_event", None), ("n_shots", "many")]
)
def test_list_changed_by_hand(logbook: Logbook, column: str, value: object) -> None:
    key = _three_shots(logbook)
    value = b"" if value is None else value
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


def _append_on_and_on(logbook: Logbook, key: str, acknowledged: list[int]) -> None:
    for n in range(1, 1001):
        acknowledged.append(logbook.append(key, "shot", {"shot": _shot(n)}))


def test_disk_full_keeps_what_was_acknowledged(logbook: Logbook, monkeypatch: pytest.MonkeyPatch) -> None:
    key, plain = logbook.start(START), sqlite3.connect

    def small_disk(*args: Any, **kwargs: Any) -> sqlite3.Connection:
        db = plain(*args, **kwargs)
        db.execute("PRAGMA max_page_count = 12")
        return db

    monkeypatch.setattr(store.sqlite3, "connect", small_disk)
    acknowledged: list[int] = []
    with pytest.raises(DataFileError, match=r"has no room left on its disk; .* Free some space and try"):
        _append_on_and_on(logbook, key, acknowledged)
    n_kept = len(acknowledged)
    assert 3 < n_kept < 1000
    assert [seen.shot for seen in logbook.replay(key).shots] == [_shot(n) for n in acknowledged]
    monkeypatch.setattr(store.sqlite3, "connect", plain)
    assert logbook.append(key, "shot", {"shot": _shot(0)}) == n_kept + 1


# Several processes


def _forked(work: Callable[[int], object]) -> tuple[int, int]:
    """Run `work(pipe)` in a child process; return its id and the end of the pipe that can be read."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            work(writer)
            os._exit(0)
        finally:
            os._exit(1)
    os.close(writer)
    return child, reader


def _append_shots(path: Path, key: str, pipe: int, numbers: range) -> None:
    logbook = Logbook(path)
    for n in numbers:
        logbook.append(key, "shot", {"shot": _shot(n)})
        os.write(pipe, b"%d\n" % n)  # the acknowledgement: after append has returned


def _acknowledged(reader: int) -> list[int]:
    with os.fdopen(reader, "rb") as pipe:
        return [int(line) for line in pipe.read().splitlines()]


def _first_acknowledged(reader: int, n_lines: int) -> list[int]:
    """Wait for so many acknowledgements, so that on a busy machine the kill comes no earlier."""
    seen = b""
    while seen.count(b"\n") < n_lines:
        seen += os.read(reader, 1)
    return [int(line) for line in seen.splitlines()]


@posix_only
def test_killed_writer_loses_no_acknowledged_event(logbook: Logbook) -> None:
    draw, acknowledged, logged = random.Random(11), [], []
    key = logbook.start(START)
    for life in range(36):
        mine = range(1000 * life, 1000 * life + 1000)
        child, reader = _forked(lambda pipe, mine=mine: _append_shots(logbook.path, key, pipe, mine))
        acknowledged += _first_acknowledged(reader, draw.randint(0, 8))
        time.sleep(draw.uniform(0, 0.01))
        os.kill(child, signal.SIGKILL)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == -signal.SIGKILL
        acknowledged += _acknowledged(reader)
        logged = [int(seen.shot.note) for seen in logbook.replay(key).shots]
        assert [n for n in acknowledged if n not in logged] == []
        assert len(logged) <= len(acknowledged) + life + 1  # at most the one event a kill cut off
    assert logged == sorted(set(logged))
    assert len(acknowledged) > 100
    with sqlite3.connect(logbook.path) as db:
        assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    db.close()


@posix_only
@pytest.mark.parametrize("share_a_session", [True, False])
def test_two_writers_at_once(logbook: Logbook, share_a_session: bool) -> None:
    keys = [logbook.start(START)] * 2 if share_a_session else [logbook.start(START), logbook.start(START)]
    numbers = range(0, 200), range(1000, 1200)
    children = [
        _forked(lambda pipe, key=key, mine=mine: _append_shots(logbook.path, key, pipe, mine))
        for key, mine in zip(keys, numbers, strict=True)
    ]
    for (child, reader), mine in zip(children, numbers, strict=True):
        assert _acknowledged(reader) == list(mine)
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
    for key, mine in zip(keys, numbers, strict=True):
        logged = [int(seen.shot.note) for seen in logbook.replay(key).shots]
        assert [n for n in logged if n in mine] == list(mine)
        assert len(logged) == (400 if share_a_session else 200)


def _start_at_the_signal(path: Path, gate: tuple[int, int], pipe: int) -> None:
    os.close(gate[1])
    os.read(gate[0], 1)  # returns when the last end for writing is closed: at once for all
    os.write(pipe, Logbook(path).start(START).encode())


@posix_only
@pytest.mark.parametrize("name", [f"{n}.sqlite" for n in range(12)])
def test_log_made_by_several_at_once(tmp_path: Path, name: str) -> None:
    path, gate, keys = tmp_path / name, os.pipe(), []
    children = [_forked(lambda pipe: _start_at_the_signal(path, gate, pipe)) for _ in range(8)]
    os.close(gate[1])
    for child, reader in children:
        with os.fdopen(reader) as pipe:
            keys.append(pipe.read())
        assert os.waitstatus_to_exitcode(os.waitpid(child, 0)[1]) == 0
    os.close(gate[0])
    assert sorted(row.key for row in Logbook(path).sessions()) == sorted(keys)


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


def test_open_sessions_stand_in_the_order_in_which_they_began(tmp_path: Path) -> None:
    logbook = Logbook(tmp_path / "turns.sqlite")
    first, second, third = (logbook.start(Session(Bowler(name=name), Line(22, 12))) for name in "abc")
    logbook.append(first, "shot", {"shot": Shot(crossed_board=12)})
    logbook.close(second)
    assert [one.key for one in logbook.open_sessions()] == [first, third]
