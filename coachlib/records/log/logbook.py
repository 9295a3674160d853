"""The logbook: every event of every session, on disk before the caller is told so.

The log of observations is the truth and a session is its replay. Each event is tried on the session as logged
so far before it is kept, so whatever is in the log can be walked through again.
"""

import secrets
import sqlite3
from collections.abc import Iterable, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError, InputError, shown
from coachlib.records.log import store
from coachlib.records.log.entries import (
    LoggedSession,
    NewSession,
    Step,
    checked_event,
    insert_session,
    kept_student,
    rows_of,
    summary,
)
from coachlib.records.log.events import read_event, retraced
from coachlib.records.log.replay import EventRow, Replay, replay_with_advice, shown_as, states

_LISTED = "SELECT key, started, last_event, bowler_name, n_shots, student_key FROM session"


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
    cannot be read or written. Two notebooks may write at once.
    """

    def __init__(self, path: str | Path | None = None) -> None:
        self.path = store.default_path() if path is None else Path(path)

    def __repr__(self) -> str:
        return f"Logbook({self.path.name!r})"

    def start(self, session: Session, student_key: str | None = None) -> str:
        """Log the state in which a session starts.

        Parameters
        ----------
        session : Session
            As it stands now; shots already in it come along.
        student_key : str, optional
            Whose session it is, from :class:`coachlib.records.Students`.

        Returns
        -------
        str
            The key under which the session's events are kept.

        Raises
        ------
        InputError
            If `session` is none, or there is no such student.
        """
        new = NewSession(secrets.token_hex(8), datetime.now(UTC), session, (), student_key)
        self._put((new,), is_open=True)
        return new.key

    def add(self, sessions: Iterable[NewSession]) -> tuple[str, ...]:
        """Log whole sessions that were played before: all of them, or none where one is not right.

        Returns
        -------
        tuple of str
            Their keys.

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
        now = _now()
        read = [checked_event(kind, payload) for kind, payload in steps]
        with store.writing(self.path) as db:
            rows = _events(db, session_key)
            trail, number = self._walked(session_key, rows), len(rows) - 1
            for number, (kind, text, payload) in enumerate(read, start=len(rows)):
                trail = retraced(trail, kind, payload)
                db.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", (session_key, number, kind, now, text))
            db.execute(
                "UPDATE session SET last_event = ?, is_open = 1, bowler_name = ?, n_shots = ? WHERE key = ?",
                (now, *summary(trail[-1]), session_key),
            )
        return number

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
        InputError
            If there is no such session.
        DataFileError
            If an event is missing, was cut off or changed by hand: naming event and field.
        """
        return self.story(session_key).session

    def story(self, session_key: str) -> Replay:
        """Return a session and what was advised after each of its balls. Raises as :meth:`replay`."""
        return self.stories((session_key,))[0]

    def stories(self, session_keys: Iterable[str]) -> tuple[Replay, ...]:
        """Return several sessions with their advice, in the order asked for. Raises as :meth:`replay`."""
        found = []
        with store.opened(self.path) as db:
            for key in session_keys:
                found.append((key, _events(db, key), _shown_name(db, key)))
        return tuple(self._told(*one) for one in found)

    def latest(self, session_key: str, kind: str) -> dict[str, Any] | None:
        """Return the payload of a session's last event of a kind, or None where there is none."""
        with store.opened(self.path) as db:
            texts = [text for _, found, text in _events(db, session_key) if found == kind]
        return read_event(kind, texts[-1]) if texts else None

    def latest_open(self, student_key: str | None = None) -> str | None:
        """Return the key of the session not closed that was written to last, or None.

        Parameters
        ----------
        student_key : str, optional
            Look only among the sessions of this student.
        """
        where, values = _of_student("AND", student_key)
        with store.opened(self.path) as db:
            row = db.execute(
                f"SELECT key FROM session WHERE is_open {where} ORDER BY last_event DESC, rowid DESC", values
            ).fetchone()
        return None if row is None else str(row[0])

    def close(self, session_key: str) -> None:
        """Mark a session as finished; its events stay.

        Raises
        ------
        InputError
            If there is no such session.
        """
        self._update(session_key, "is_open = 0")

    def assign(self, session_key: str, student_key: str | None) -> None:
        """Give a session to a student, or with None to nobody; its events stay as they are.

        Raises
        ------
        InputError
            If there is no such session or student.
        """
        self._update(session_key, "student_key = ?", student_key)

    def set_aside(self) -> Path:
        """Rename a log that cannot be read, so that a new one can start; return where it lies now."""
        return store.set_aside(self.path)

    def _list(self, which: str, values: tuple[object, ...] = ()) -> tuple[LoggedSession, ...]:
        with store.opened(self.path) as db:
            rows = db.execute(f"{_LISTED} {which}", values).fetchall()
            students = db.execute("SELECT key, text FROM student").fetchall()
        names = {key: kept_student(key, text).shown_name for key, text in students}
        return tuple(self._listed(row, names) for row in rows)

    def _put(self, sessions: Sequence[NewSession], *, is_open: bool) -> None:
        made = [(new, *rows_of(new)) for new in sessions]
        with store.writing(self.path) as db:
            for new, rows, after in made:
                _check_student(db, new.student_key)
                started = new.started.astimezone(UTC).isoformat(timespec="microseconds")
                session_row = (new.key, started, started, int(is_open), *summary(after), new.student_key)
                insert_session(db, session_row)
                db.executemany(
                    "INSERT INTO event VALUES (?, ?, ?, ?, ?)",
                    [(new.key, number, kind, started, text) for number, (kind, text) in enumerate(rows)],
                )

    def _update(self, session_key: str, setting: str, *values: object) -> None:
        _check_key(session_key)
        with store.writing(self.path) as db:
            if values:
                _check_student(db, values[0])
            changed = db.execute(f"UPDATE session SET {setting} WHERE key = ?", (*values, session_key))
            if not changed.rowcount:
                raise _unknown(session_key)

    def _walked(self, session_key: str, rows: list[EventRow]) -> tuple[Session, ...]:
        trail = states(rows, self._where(session_key))
        if not trail:
            raise _unknown(session_key)
        return trail

    def _told(self, session_key: str, rows: list[EventRow], name: str | None) -> Replay:
        told = replay_with_advice(rows, self._where(session_key))
        if told is None:
            raise _unknown(session_key)
        return told if name is None else Replay(shown_as(told.session, name), told.advice)

    def _where(self, session_key: str) -> str:
        return f"session {session_key} in {self.path}"

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


def _events(db: sqlite3.Connection, session_key: str) -> list[EventRow]:
    _check_key(session_key)
    question = "SELECT number, kind, text FROM event WHERE session_key = ? ORDER BY number"
    return db.execute(question, (session_key,)).fetchall()


def _shown_name(db: sqlite3.Connection, session_key: str) -> str | None:
    """Return how the student of a session is called where it is shown; None where it is nobody's."""
    question = (
        "SELECT student.key, student.text FROM session JOIN student ON student.key = student_key"
        " WHERE session.key = ?"
    )
    row = db.execute(question, (session_key,)).fetchone()
    return None if row is None else kept_student(*row).shown_name


def _check_key(session_key: object) -> None:
    if not isinstance(session_key, str) or not session_key.isascii():
        raise _unknown(session_key)


def _check_student(db: sqlite3.Connection, student_key: object) -> None:
    if student_key is None:
        return
    is_text = isinstance(student_key, str) and student_key.isascii()
    if not is_text or not db.execute("SELECT 1 FROM student WHERE key = ?", (student_key,)).fetchone():
        raise unknown_student(student_key)


def _of_student(word: str, student_key: object) -> tuple[str, tuple[object, ...]]:
    """Return the condition that picks the sessions of a student, and its value; neither for None."""
    if student_key is None:
        return "", ()
    if not isinstance(student_key, str) or not student_key.isascii():
        raise unknown_student(student_key)
    return f"{word} student_key = ?", (student_key,)


def unknown_student(student_key: object) -> InputError:
    """Return the error for a key that is no student's."""
    message = (
        f"student_key is {shown(student_key)}; expected the key of a student in this log. "
        "Take one from Students(logbook).listed()."
    )
    return InputError(message, {"student_key": message})


def _unknown(session_key: object) -> InputError:
    message = (
        f"session_key is {shown(session_key)}; expected the key of a session in this log. "
        "Take one from Logbook().sessions()."
    )
    return InputError(message, {"session_key": message})


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")
