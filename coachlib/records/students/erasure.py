"""Erasing a student: from the log and from what was left around it, with a report that proves it.

What this cannot reach: copies that were exported, printed or sent, backups, and what a disk keeps of files
that were written over. The report says so.
"""

import contextlib
import dataclasses
import json
import sqlite3
from collections.abc import Iterable, Iterator, Sequence
from pathlib import Path
from typing import Any

from coachlib.errors import DataFileError
from coachlib.records.log import store
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.schema import OURS
from coachlib.records.students.students import Students
from coachlib.records.students.traces import (
    DATABASE,
    FEWEST_LETTERS,
    PlaceKind,
    TracePlace,
    blank,
    clear_notebook,
    n_found,
    places,
    word_pattern,
)

_BEYOND = (
    "Copies that you exported, printed or sent, and backups of this machine, are not reached from here; "
    "delete those yourself."
)
_FIX: dict[PlaceKind, str] = {
    "log": "Close other notebooks that use the log, and look again.",
    "set-aside log": "Delete that file once you need nothing in it.",
    "notebook": "It was typed there; take it out by hand, or erase with blank_typed=True.",
    "beside the notebooks": "Delete that file, or take the name out by hand.",
    "cache": "Delete that file.",
    "kernel history": "It keeps what is typed in any notebook; delete that file.",
    "copy": "It seems to be a copy that you made; delete it.",
}
_ALL_TEXTS = (
    "SELECT text FROM event UNION ALL SELECT text FROM student UNION ALL SELECT bowler_name FROM session"
)
_ID_AT = 68  # where SQLite keeps the application_id in the head of a file


@dataclasses.dataclass(frozen=True)
class Left:
    """A file in which something was still found, and how often."""

    place: TracePlace
    n_found: int

    @property
    def words(self) -> str:
        """What a person should know and do."""
        return f"{self.place.kind} {self.place.path}: found {self.n_found}×. {_FIX[self.place.kind]}"


@dataclasses.dataclass(frozen=True)
class Erasure:
    """What was erased, where it was searched afterwards, and what is left; the name itself is not in it.

    Parameters
    ----------
    n_sessions, n_events : int
        Taken out of the log.
    n_words, n_too_short : int
        Names and keys that were searched for, and names too short to be searched for in files.
    searched : tuple of Place
        Files that were searched byte by byte, after the erasing.
    cleaned : tuple of Place
        Files in which something was found and taken out.
    left : tuple of Left
        Files in which something still is.
    n_of_others : int
        How often one of the names stands in records of other students, which stay as they are: a namesake, or
        a note.
    is_scrubbed : bool
        Whether the log was written anew, so that no freed page keeps anything.
    """

    n_sessions: int
    n_events: int
    n_words: int
    n_too_short: int
    searched: tuple[TracePlace, ...]
    cleaned: tuple[TracePlace, ...]
    left: tuple[Left, ...]
    n_of_others: int
    is_scrubbed: bool

    @property
    def is_gone(self) -> bool:
        """Whether nothing was found in any file searched."""
        return self.is_scrubbed and not self.left

    @property
    def words(self) -> tuple[str, ...]:
        """The report, a sentence each."""
        words = [
            f"{self.n_sessions} sessions with {self.n_events} events were erased.",
            f"{len(self.searched)} files were searched for {self.n_words} names and keys; "
            + ("none was found." if self.is_gone else "not all is gone:"),
        ]
        words += [f"Taken out of {place.kind} {place.path}." for place in self.cleaned]
        words += [one.words for one in self.left]
        if not self.is_scrubbed:
            words.append("Another program held the log. Close it and call scrub(logbook).")
        if self.n_too_short:
            words.append(
                f"Names below {FEWEST_LETTERS} letters, not searched for in files: {self.n_too_short}."
            )
        if self.n_of_others:
            words.append(f"The name stands {self.n_of_others}× in records of others, which were not touched.")
        return (*words, _BEYOND)


def erase_student(
    logbook: Logbook,
    student_key: str,
    *,
    notebook_folders: Iterable[Path] = (),
    blank_typed: bool = False,
) -> Erasure:
    """Erase a student with all sessions, clean what was left around the log, and search for what remains.

    Parameters
    ----------
    logbook, student_key : Logbook, str
        Whom.
    notebook_folders : iterable of Path
        Folders where notebooks were run, beside the usual one.
    blank_typed : bool, default False
        Also put ``(erased)`` where a name was typed into a cell of those notebooks.

    Returns
    -------
    Erasure
        The proof; look at `is_gone` and `words`.

    Raises
    ------
    InputError
        If there is no such student.
    DataFileError
        If the log cannot be read or written; then nothing was erased.
    """
    keys, names = _keys_and_names(logbook, student_key)
    words = [*keys, *(name for name in names if len(name) >= FEWEST_LETTERS)]
    with store.writing(logbook.path) as db:
        n_events = _delete(db, student_key, keys[1:])
    is_scrubbed = scrub(logbook)
    where = places(logbook.path, notebook_folders)
    cleaned = tuple(place for place in where if _clean(place, words, keys, blank_typed=blank_typed))
    where = tuple(place for place in where if place.path.is_file())
    of_others = {"log": _n_in_log(logbook, words, is_whole=False)}
    found = [Left(place, n_found(place.path, words) - of_others.get(place.kind, 0)) for place in where]
    return Erasure(
        n_sessions=len(keys) - 1,
        n_events=n_events,
        n_words=len(words),
        n_too_short=len(names) - (len(words) - len(keys)),
        searched=where,
        cleaned=cleaned,
        left=tuple(left for left in found if left.n_found > 0),
        n_of_others=_n_in_log(logbook, words, is_whole=True),
        is_scrubbed=is_scrubbed,
    )


def scrub(logbook: Logbook) -> bool:
    """Write the log anew, without what its freed pages may keep; False while another program holds it."""
    try:
        return _scrubbed(logbook.path)
    except DataFileError:
        return False


def _scrubbed(path: Path) -> bool:
    with store.opened(path) as db:
        db.execute("VACUUM")
        is_busy = db.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchone()[0]
    return not is_busy


def _keys_and_names(logbook: Logbook, student_key: str) -> tuple[list[str], list[str]]:
    """Return the keys of a student and of the sessions, and all names under which the student was logged."""
    student = Students(logbook).get(student_key)
    keys = [student_key, *(row.key for row in logbook.sessions(student_key))]
    names = [student.name, student.alias]
    with store.opened(logbook.path) as db:
        question = (
            "SELECT text FROM event JOIN session ON session.key = session_key"
            " WHERE student_key = ? AND kind IN ('start', 'change')"
        )
        for (text,) in db.execute(question, (student_key,)):
            with contextlib.suppress(ValueError):  # an event that was cut off is erased all the same
                names += _bowler_names(json.loads(text))
    return keys, list(dict.fromkeys(name.strip() for name in names if name.strip()))


def _bowler_names(value: Any) -> Iterator[str]:
    if isinstance(value, dict):
        if isinstance(value.get("bowler"), dict):
            yield str(value["bowler"].get("name", ""))
        for part in value.values():
            yield from _bowler_names(part)
    elif isinstance(value, list):
        for part in value:
            yield from _bowler_names(part)


def _delete(db: sqlite3.Connection, student_key: str, session_keys: Sequence[str]) -> int:
    """Take a student out of a log and return how many events that were."""
    n_events = 0
    for key in session_keys:
        n_events += db.execute("DELETE FROM event WHERE session_key = ?", (key,)).rowcount
        db.execute("DELETE FROM session WHERE key = ?", (key,))
    db.execute("DELETE FROM student WHERE key = ?", (student_key,))
    return n_events


def _clean(place: TracePlace, words: Sequence[str], keys: Sequence[str], *, blank_typed: bool) -> bool:
    """Take the words out of a file of ours where they stand; return whether something was taken out."""
    before = n_found(place.path, words)
    if not before:
        return False
    if place.kind == "cache":
        place.path.unlink()
        return True
    if place.kind == "notebook":
        with contextlib.suppress(ValueError, AttributeError, TypeError):  # no notebook after all: leave it
            clear_notebook(place.path, words, blank_typed=blank_typed)
    elif place.kind == "set-aside log":
        _clean_aside(place.path, words, keys)
    elif place.kind == "beside the notebooks":
        blank(place.path, words)
    return n_found(place.path, words) < before


def _clean_aside(path: Path, words: Sequence[str], keys: Sequence[str]) -> None:
    """Take a student out of a log that was set aside; of one that cannot be read only the names and keys."""
    if not _is_ours(path):
        return
    with contextlib.suppress(DataFileError):
        with store.writing(path) as db:
            _delete(db, keys[0], keys[1:])
        _scrubbed(path)
    if path.is_file() and n_found(path, words):
        blank(path, words)


def _is_ours(path: Path) -> bool:
    """Return whether a file was our log, as far as its head tells; another program's is left alone."""
    with path.open("rb") as stream:
        head = stream.read(100)
    return not head.startswith(DATABASE) or head[_ID_AT : _ID_AT + 4] == OURS.to_bytes(4, "big")


def _n_in_log(logbook: Logbook, words: Sequence[str], *, is_whole: bool) -> int:
    """Return how often the words stand in what the log still keeps: the records of others."""
    pattern = word_pattern(words, is_whole=is_whole)
    with store.opened(logbook.path) as db:
        texts = [text for (text,) in db.execute(_ALL_TEXTS)]
    return sum(len(pattern.findall(str(text).encode())) for text in texts)
