"""The coach's students: who they are, and the sessions of each."""

import secrets
import sqlite3
from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.errors import InputError, checked_thing
from coachlib.records.log import store
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.events import event_text, read_student
from coachlib.records.log.logbook import Logbook, student_text
from coachlib.records.log.student import Student
from coachlib.world.line import Line

_LISTED = (
    "SELECT student.key, student.text, count(session.key), coalesce(sum(n_shots), 0), max(last_event)"
    " FROM student LEFT JOIN session ON student_key = student.key GROUP BY student.key"
)


class ListedStudent(NamedTuple):
    """One line of the list of students, under the name that is shown; the time is UTC."""

    key: str
    shown_name: str
    n_sessions: int
    n_shots: int
    last_event: datetime | None


class Students:
    """The students of a log.

    Parameters
    ----------
    logbook : Logbook, optional
        The log; by default the person's own.

    Notes
    -----
    All methods raise :class:`DataFileError` where the log does, and :class:`InputError` for a student that is
    not in it.
    """

    def __init__(self, logbook: Logbook | None = None) -> None:
        self.logbook = logbook or Logbook()

    def __repr__(self) -> str:
        return f"Students({self.logbook!r})"

    def add(self, student: Student) -> str:
        """Keep a student and return the key under which they are kept.

        Raises
        ------
        InputError
            If `student` is none, or another one is shown under the same name.
        """
        checked_thing("student", student, Student)
        key, text = secrets.token_hex(8), event_text({"student": student})
        with store.writing(self.logbook.path) as db:
            _check_name(db, student, key)
            db.execute("INSERT INTO student VALUES (?, ?, ?)", (key, datetime.now(UTC).isoformat(), text))
        return key

    def get(self, student_key: str) -> Student:
        """Return a student."""
        with store.opened(self.logbook.path) as db:
            return _found(db, student_key)

    def change(self, student_key: str, change: Callable[[Student], Student]) -> Student:
        """Keep a student differently, and return them as they are kept now.

        Parameters
        ----------
        student_key : str
            Who.
        change : callable
            What becomes of the student as they are kept: ``lambda one: replace(one, alias="Number 7")``. Two
            notebooks that change different things at once then lose neither.

        Raises
        ------
        InputError
            If what it makes is no student, or another one is shown under the same name.
        """
        with store.writing(self.logbook.path) as db:
            changed = checked_thing("student", change(_found(db, student_key)), Student)
            _check_name(db, changed, student_key)
            text = event_text({"student": changed})
            db.execute("UPDATE student SET text = ? WHERE key = ?", (text, student_key))
        return changed

    def listed(self) -> tuple[ListedStudent, ...]:
        """Return all students with the number of their sessions and balls, in the order of their names."""
        with store.opened(self.logbook.path) as db:
            rows = db.execute(_LISTED).fetchall()
        return tuple(sorted(map(_line, rows), key=lambda one: (one.shown_name.casefold(), one.key)))

    def sessions(self, student_key: str) -> tuple[LoggedSession, ...]:
        """Return the sessions of a student, the one started last first."""
        self.get(student_key)
        return self.logbook.sessions(student_key)

    def start(self, student_key: str, line: Line, **held: Any) -> str:
        """Start a session of a student on the numbers kept of them, and return its key.

        Parameters
        ----------
        student_key : str
            Who throws.
        line : Line
            The line to play.
        **held
            Whatever else :class:`coachlib.Session` takes: ``ball``, ``pattern``, ``lane``, ``games_on_lane``.
        """
        session = Session(bowler=self.get(student_key).as_bowler, line=line, **held)
        return self.logbook.start(session, student_key)


def _found(db: sqlite3.Connection, student_key: str) -> Student:
    return read_student(student_key, student_text(db, student_key))


def _line(row: tuple[Any, ...]) -> ListedStudent:
    key, text, n_sessions, n_shots, last_event = row
    last = None if last_event is None else datetime.fromisoformat(last_event)
    return ListedStudent(key, read_student(key, text).shown_name, n_sessions, n_shots, last)


def _check_name(db: sqlite3.Connection, student: Student, key: str) -> None:
    """Raise where a list could not tell two students apart."""
    others = db.execute("SELECT key, text FROM student WHERE key != ?", (key,)).fetchall()
    if student.shown_name.casefold() in {read_student(*row).shown_name.casefold() for row in others}:
        field = "alias" if student.alias.strip() else "name"
        message = (
            "Add a letter of the family name, or give an alias. Another student is shown as "
            f"“{student.shown_name}” already: each {field} needs to be different."
        )
        raise InputError(message, {field: message})
