"""The logbook: every event of every session, on disk before the caller is told so.

The log of observations is the truth and a session is its replay. Each event is tried on the session as logged
so far before it is kept, so whatever is in the log can be walked through again.
"""

import secrets
import sqlite3
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, NamedTuple

from coachlib.coaching.session import Session
from coachlib.errors import DataFileError, InputError, checked_choice, shown
from coachlib.records import store
from coachlib.records.events import APPENDED_KINDS, event_text, read_event, retraced

_Row = tuple[Any, ...]


class LoggedSession(NamedTuple):
    """One line of the list of sessions; times are UTC."""

    key: str
    started: datetime
    last_event: datetime
    bowler_name: str
    n_shots: int


class Story(NamedTuple):
    """A session as logged, and what was answered to each of its balls.

    Parameters
    ----------
    session : Session
        As it stands now.
    advice : mapping of int to dict
        The last answer logged to a ball, by its number.
    """

    session: Session
    advice: Mapping[int, dict[str, Any]]


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

    def start(self, session: Session) -> str:
        """Log the state in which a session starts.

        Parameters
        ----------
        session : Session
            As it stands now; shots already in it come along.

        Returns
        -------
        str
            The key under which the session's events are kept.
        """
        key, text, now = secrets.token_hex(8), event_text({"session": session}), _now()
        kept = read_event("start", text)["session"]
        with store.writing(self.path) as db:
            db.execute("INSERT INTO session VALUES (?, ?, ?, 1, ?, ?)", (key, now, now, *_summary(kept)))
            db.execute("INSERT INTO event VALUES (?, 0, 'start', ?, ?)", (key, now, text))
        return key

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
        checked_choice("kind", kind, APPENDED_KINDS)
        text, now = event_text(payload), _now()
        step = read_event(kind, text)  # what will be read later is what is tried now
        with store.writing(self.path) as db:
            rows = _events(db, session_key)
            number, after = len(rows), retraced(self._walked(session_key, rows), kind, step)[-1]
            db.execute("INSERT INTO event VALUES (?, ?, ?, ?, ?)", (session_key, number, kind, now, text))
            db.execute(
                "UPDATE session SET last_event = ?, is_open = 1, bowler_name = ?, n_shots = ? WHERE key = ?",
                (now, *_summary(after), session_key),
            )
        return number

    def sessions(self) -> tuple[LoggedSession, ...]:
        """Return all sessions, the one started last first."""
        with store.opened(self.path) as db:
            rows = db.execute(
                "SELECT key, started, last_event, bowler_name, n_shots FROM session"
                " ORDER BY started DESC, rowid DESC"
            ).fetchall()
        return tuple(self._listed(row) for row in rows)

    def replay(self, session_key: str) -> Session:
        """Return a session rebuilt from its events.

        Raises
        ------
        InputError
            If there is no such session.
        DataFileError
            If an event is missing, was cut off or changed by hand: naming event and field.
        """
        with store.opened(self.path) as db:
            rows = _events(db, session_key)
        return self._walked(session_key, rows)[-1]

    def story(self, session_key: str) -> Story:
        """Return a session and what was answered to each of its balls. Raises as :meth:`replay`."""
        with store.opened(self.path) as db:
            rows = _events(db, session_key)
        advice: dict[int, dict[str, Any]] = {}
        return Story(self._walked(session_key, rows, advice)[-1], advice)

    def latest(self, session_key: str, kind: str) -> dict[str, Any] | None:
        """Return the payload of a session's last event of a kind, or None where there is none."""
        with store.opened(self.path) as db:
            texts = [text for _, found, text in _events(db, session_key) if found == kind]
        return read_event(kind, texts[-1]) if texts else None

    def latest_open(self) -> str | None:
        """Return the key of the session not closed that was written to last, or None."""
        with store.opened(self.path) as db:
            row = db.execute(
                "SELECT key FROM session WHERE is_open ORDER BY last_event DESC, rowid DESC"
            ).fetchone()
        return None if row is None else str(row[0])

    def close(self, session_key: str) -> None:
        """Mark a session as finished; its events stay.

        Raises
        ------
        InputError
            If there is no such session.
        """
        _check_key(session_key)
        with store.writing(self.path) as db:
            closed = db.execute("UPDATE session SET is_open = 0 WHERE key = ?", (session_key,))
            if not closed.rowcount:
                raise _unknown(session_key)

    def set_aside(self) -> Path:
        """Rename a log that cannot be read, so that a new one can start; return where it lies now."""
        return store.set_aside(self.path)

    def _walked(
        self, session_key: str, rows: list[_Row], advice: dict[int, dict[str, Any]] | None = None
    ) -> tuple[Session, ...]:
        """Return the states of a session; in `advice` is put what was answered to each ball."""
        trail: tuple[Session, ...] = ()
        for expected, (found, kind, text) in enumerate(rows):
            try:
                trail = _step(trail, expected, found, kind, text)
                if advice is not None:
                    _note_advice(advice, kind, text, len(trail[-1].shots))
            except InputError as error:
                message = (
                    f"event {found} ({kind}) of session {session_key} in {self.path} cannot be read: {error} "
                    "Nothing was changed. Mend that event in a copy of the file, or start a new session."
                )
                raise DataFileError(message) from error
        if not trail:
            raise _unknown(session_key)
        return trail

    def _listed(self, row: _Row) -> LoggedSession:
        key, started, last_event, bowler_name, n_shots = row
        try:
            times = datetime.fromisoformat(started), datetime.fromisoformat(last_event)
            return LoggedSession(key, *times, str(bowler_name), int(n_shots))
        except (TypeError, ValueError) as error:
            message = (
                f"session {key} in {self.path} has a line that cannot be read ({error}); expected two "
                "times and a number of shots. Nothing was changed. Mend the line in a copy of the file."
            )
            raise DataFileError(message) from error


def _step(
    trail: tuple[Session, ...], expected: int, found: int, kind: str, text: object
) -> tuple[Session, ...]:
    """Return the session's states after one more event as it stands in the file."""
    if found != expected:
        message = f"event {expected} is missing; expected all numbers from 0 on. It was taken out by hand."
        raise InputError(message)
    if (kind == "start") == bool(trail):
        message = f"kind is {kind!r}; expected 'start' for event 0 and no other. It was changed by hand."
        raise InputError(message)
    payload = read_event(kind, text)
    return retraced(trail, kind, payload) if trail else (payload["session"],)


def _events(db: sqlite3.Connection, session_key: str) -> list[_Row]:
    _check_key(session_key)
    question = "SELECT number, kind, text FROM event WHERE session_key = ? ORDER BY number"
    return db.execute(question, (session_key,)).fetchall()


def _summary(session: Session) -> tuple[str, int]:
    """Return what the list of sessions shows, kept beside the events so that the list needs no replay."""
    return session.bowler.name, len(session.shots)


def _note_advice(advice: dict[int, dict[str, Any]], kind: str, text: object, n_balls: int) -> None:
    """Keep an advice under its ball; what was said to a ball taken back is taken back with it."""
    if kind == "advice":
        advice[n_balls] = read_event(kind, text)
    elif kind == "undo":
        for number in [number for number in advice if number > n_balls]:
            del advice[number]


def _check_key(session_key: object) -> None:
    if not isinstance(session_key, str) or not session_key.isascii():
        raise _unknown(session_key)


def _unknown(session_key: object) -> InputError:
    message = (
        f"session_key is {shown(session_key)}; expected the key of a session in this log. "
        "Take one from Logbook().sessions()."
    )
    return InputError(message, {"session_key": message})


def _now() -> str:
    return datetime.now(UTC).isoformat(timespec="microseconds")
