"""The logbook: every event of every session, on disk before the caller is told so.

The log of observations is the truth and a session is its replay. Each event is tried on the session as logged
so far before it is kept, so whatever is in the log can be walked through again.
"""

import secrets
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, Literal

from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError, InputError, shown
from coachlib.records.log import store
from coachlib.records.log.entries import (
    LoggedSession,
    NewSession,
    Step,
    checked_event,
    insert_session,
    rows_of,
    summary,
)
from coachlib.records.log.events import read_event, read_student
from coachlib.records.log.replay import EventRow, Replay, Walk, shown_as, walk_through

_LISTED = "SELECT key, started, last_event, bowler_name, n_shots, student_key FROM session"
_LISTS = {"session": "Logbook().sessions()", "student": "Students(logbook).listed()"}
"""Where a key can be taken from."""


class Logbook:
    """The log of sessions in one file on this machine.

    Parameters
    ----------
    path : path-like, optional
        The file; by default in the folder that the environment variable `COACHLIB_DATA` names, else in the
        user's own data folder. Folder and file are made when first needed, for their owner's eyes only.

    Notes
    -----
    All methods raise :class:`DataFileError` if the file is damaged, of a newer version, another program's, or
    cannot be read or written; and :class:`InputError` for a session or a student that is not in it. Two
    notebooks may write at once.
    """

    def __init__(self, path: str | Path | None = None) -> None:
        self.path = store.default_path() if path is None else Path(path)

    def __repr__(self) -> str:
        return f"Logbook({self.path.name!r})"

    def start(self, session: Session, student_key: str | None = None) -> str:
        """Log the state in which a session starts, and return the key under which its events are kept.

        Parameters
        ----------
        session : Session
            As it stands now; shots already in it come along.
        student_key : str, optional
            Whose session it is, from :class:`coachlib.records.Students`.
        """
        new = NewSession(secrets.token_hex(8), datetime.now(UTC), session, (), student_key)
        self._put((new,), is_open=True)
        return new.key

    def add(self, sessions: Iterable[NewSession]) -> tuple[str, ...]:
        """Log whole sessions that were played before: all, or none where one is not right; return their keys.

        Raises
        ------
        InputError
            If an event does not fit, a session is in the log already, or there is no such student.
        """
        sessions = tuple(sessions)
        self._put(sessions, is_open=False)
        return tuple(new.key for new in sessions)

    def append(self, session_key: str, kind: str, payload: Mapping[str, Any]) -> int:
        """Log one event; it is on disk when this returns.

        Parameters
        ----------
        session_key : str
            From :meth:`start` or :meth:`sessions`; a closed session is opened again.
        kind : {"shot", "change", "undo", "correct", "advice", "preferences"}
            What happened.
        payload : mapping
            The step's arguments by name: ``{"shot": …}``; ``{"line": …}`` and so on for a change; ``{}`` for
            undo; ``{"number": 2, "shot": …}``. For an advice anything that can be written as JSON; for
            preferences the lanes of the pair, who is spoken to and the speed unit.

        Returns
        -------
        int
            The event's number in its session, 1 for the first one after the start.

        Raises
        ------
        InputError
            If the session is unknown or the event does not fit it; then nothing was kept.
        """
        return self.append_all(session_key, ((kind, payload),))

    def append_all(self, session_key: str, steps: Iterable[Step]) -> int:
        """Log several events, all of them or none, and return the number of the last; see :meth:`append`."""
        return self._append(session_key, steps)[0]

    def step(self, session_key: str, kind: str, payload: Mapping[str, Any]) -> tuple[int, Replay]:
        """Log one event as :meth:`append`; return its number, and as :meth:`story` what it led to."""
        number, walk, name = self._append(session_key, ((kind, payload),))
        return number, _shown(walk, name)

    def sessions(self, student_key: str | None = None) -> tuple[LoggedSession, ...]:
        """Return all sessions, or those of one student, the one started last first."""
        where, values = _of_student("WHERE", student_key)
        return self._list(f"{where} ORDER BY started DESC, rowid DESC", values)

    def open_sessions(self) -> tuple[LoggedSession, ...]:
        """Return the sessions not closed, the one started first first: who takes turns stays in place."""
        return self._list("WHERE is_open ORDER BY started, rowid")

    def replay(self, session_key: str) -> Session:
        """Return a session rebuilt from its events; a student's under the name that is shown.

        Raises
        ------
        DataFileError
            If an event is missing, was cut off or changed by hand: naming event and field.
        """
        return self.story(session_key).session

    def story(self, session_key: str) -> Replay:
        """Return a session and what was advised after each of its balls. Raises as :meth:`replay`."""
        return self.stories((session_key,))[0]

    def stories(self, session_keys: Iterable[str]) -> tuple[Replay, ...]:
        """Return several sessions with their advice, in the order asked for. Raises as :meth:`replay`."""
        with store.opened(self.path) as db:
            found = [(key, _events(db, key), _shown_name(db, key)) for key in session_keys]
        return tuple(_shown(self._walked(key, rows), name) for key, rows, name in found)

    def latest(self, session_key: str, kind: str) -> dict[str, Any] | None:
        """Return the payload of a session's last event of a kind, or None where there is none."""
        with store.opened(self.path) as db:
            texts = [text for _, found, text in _events(db, session_key) if found == kind]
        return read_event(kind, texts[-1]) if texts else None

    def latest_open(self, student_key: str | None = None) -> str | None:
        """Return the key of the session not closed that was written to last, of one student or of all."""
        where, values = _of_student("AND", student_key)
        with store.opened(self.path) as db:
            row = db.execute(
                f"SELECT key FROM session WHERE is_open {where} ORDER BY last_event DESC, rowid DESC", values
            ).fetchone()
        return None if row is None else str(row[0])

    def close(self, session_key: str) -> None:
        """Mark a session as finished; its events stay."""
        self._update(session_key, "is_open = 0")

    def assign(self, session_key: str, student_key: str | None) -> None:
        """Give a session to a student, or with None to nobody; its events stay as they are."""
        self._update(session_key, "student_key = ?", student_key)

    def set_aside(self) -> Path:
        """Rename a log that cannot be read, so that a new one can start; return where it lies now."""
        return store.set_aside(self.path)

    def _append(self, session_key: str, steps: Iterable[Step]) -> tuple[int, Walk, str | None]:
        """Log events; return the last one's number, where they led and the name that is shown."""
        now = _text_of(datetime.now(UTC))
        read = [checked_event(kind, payload) for kind, payload in steps]
        with store.writing(self.path) as db:
            rows = _events(db, session_key)
            walk, number = self._walked(session_key, rows), len(rows) - 1
            for number, (kind, text, payload) in enumerate(read, start=len(rows)):
                walk.take(kind, payload)
                db.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", (session_key, number, kind, now, text))
            db.execute(
                "UPDATE session SET last_event = ?, is_open = 1, bowler_name = ?, n_shots = ? WHERE key = ?",
                (now, *summary(walk.states[-1]), session_key),
            )
            return number, walk, _shown_name(db, session_key)

    def _list(self, which: str, values: tuple[object, ...] = ()) -> tuple[LoggedSession, ...]:
        with store.opened(self.path) as db:
            rows = db.execute(f"{_LISTED} {which}", values).fetchall()
            students = db.execute("SELECT key, text FROM student").fetchall()
        names = {key: read_student(key, text).shown_name for key, text in students}
        return tuple(self._listed(row, names) for row in rows)

    def _put(self, sessions: Sequence[NewSession], *, is_open: bool) -> None:
        made = [(new, *rows_of(new)) for new in sessions]
        with store.writing(self.path) as db:
            for new, rows, after in made:
                _check_student(db, new.student_key)
                started = _text_of(new.started)
                insert_session(
                    db, (new.key, started, started, int(is_open), *summary(after), new.student_key)
                )
                db.executemany(
                    "INSERT INTO event VALUES (?, ?, ?, ?, ?)",
                    [(new.key, number, kind, started, text) for number, (kind, text) in enumerate(rows)],
                )

    def _update(self, session_key: str, setting: str, *values: object) -> None:
        _check_key("session", session_key)
        with store.writing(self.path) as db:
            for student_key in values:
                _check_student(db, student_key)
            changed = db.execute(f"UPDATE session SET {setting} WHERE key = ?", (*values, session_key))
            _check_key("session", session_key, is_there=bool(changed.rowcount))

    def _walked(self, session_key: str, rows: list[EventRow]) -> Walk:
        _check_key("session", session_key, is_there=bool(rows))
        return walk_through(rows, f"session {session_key} in {self.path}")

    def _listed(self, row: EventRow, names: Mapping[str, str]) -> LoggedSession:
        key, started, last_event, bowler_name, n_shots, student_key = row
        try:
            times = datetime.fromisoformat(started), datetime.fromisoformat(last_event)
            name = names.get(student_key, str(bowler_name))
            return LoggedSession(key, *times, name, int(n_shots), student_key)
        except (TypeError, ValueError) as error:
            message = (
                f"session {key} in {self.path} has a line that cannot be read ({error}); expected two "
                "times and a number of shots. Nothing was changed. Mend the line in a copy of the file."
            )
            raise DataFileError(message) from error


def student_text(db: sqlite3.Connection, student_key: object) -> str:
    """Return what the file keeps of a student; raises :class:`InputError` for a key that is no student's."""
    _check_key("student", student_key)
    row = db.execute("SELECT text FROM student WHERE key = ?", (student_key,)).fetchone()
    _check_key("student", student_key, is_there=row is not None)
    text: str = row[0]
    return text


def _events(db: sqlite3.Connection, session_key: str) -> list[EventRow]:
    _check_key("session", session_key)
    question = "SELECT number, kind, text FROM event WHERE session_key = ? ORDER BY number"
    return db.execute(question, (session_key,)).fetchall()


def _shown_name(db: sqlite3.Connection, session_key: str) -> str | None:
    """Return how the student of a session is called where it is shown; None where it is nobody's."""
    question = (
        "SELECT student.key, student.text FROM session JOIN student ON student.key = student_key"
        " WHERE session.key = ?"
    )
    row = db.execute(question, (session_key,)).fetchone()
    return None if row is None else read_student(*row).shown_name


def _shown(walk: Walk, name: str | None) -> Replay:
    """Return where a walk led, under the name that is shown."""
    session = walk.states[-1]
    return Replay(session if name is None else shown_as(session, name), walk.advice)


def _check_student(db: sqlite3.Connection, student_key: object) -> None:
    if student_key is not None:
        student_text(db, student_key)


def _of_student(word: str, student_key: object) -> tuple[str, tuple[object, ...]]:
    """Return the condition that picks the sessions of a student, and its value; neither for None."""
    if student_key is None:
        return "", ()
    _check_key("student", student_key)
    return f"{word} student_key = ?", (student_key,)


def _check_key(noun: Literal["session", "student"], key: object, *, is_there: bool = True) -> None:
    """Raise for a key that is not there, or can be none: the database takes no other text."""
    if is_there and isinstance(key, str) and key.isascii():
        return
    name = f"{noun}_key"
    message = (
        f"{name} is {shown(key)}; expected the key of a {noun} in this log. Take one from {_LISTS[noun]}."
    )
    raise InputError(message, {name: message})


def _text_of(time: datetime) -> str:
    return time.astimezone(UTC).isoformat(timespec="microseconds")
