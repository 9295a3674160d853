"""Everything that is kept of a student, in files that they can take away."""

import io
import json
import zipfile
from collections.abc import Mapping
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

from coachlib.errors import InputError
from coachlib.records.log import store
from coachlib.records.log.events import event_text
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.store import write_private
from coachlib.records.log.student import Student
from coachlib.records.spreadsheets.csv_log import sessions_csv
from coachlib.records.spreadsheets.spreadsheet_cells import safe_text
from coachlib.records.students.students import Students

SCHEMA = 1
"""The schema of `everything.json`."""

_READ_ME = """What is in here

sessions.csv     one line a ball: what was seen, the line, what was advised; opens in a spreadsheet program
everything.json  all that is kept, as it is kept: the student, and every event of every session in order

Boards are counted from the bowler's own side. In sessions.csv pins are numbered as on the lane; in
everything.json they are numbered from the bowler's own side (a left-hander's 7-pin is 10). Units stand in the
names: _mph, _ft, _boards.
"""


def export_student(logbook: Logbook, student_key: str, path: Path, *, under_alias: bool = False) -> Path:
    """Write everything kept of a student to a folder, or to one ``.zip`` file, and return where it lies.

    Parameters
    ----------
    logbook, student_key : Logbook, str
        Whose records.
    path : Path
        A file that ends in ``.zip``, or a folder that is empty or not there yet.
    under_alias : bool, default False
        Put the alias wherever the name stands, and leave out the consent note, to show the records to others.

    Raises
    ------
    InputError
        If there is no such student, they have no alias to be shown under, or the folder holds other files.
    DataFileError
        If the log cannot be read, or the files not written.
    """
    path = Path(path)
    files = student_files(logbook, student_key, under_alias=under_alias)
    if path.suffix == ".zip":
        return write_private(path, _zipped(files))
    if path.exists() and (not path.is_dir() or any(path.iterdir())):
        message = (
            f"path is {str(path)!r}; expected a new or empty folder, or a .zip file. Choose another name."
        )
        raise InputError(message, {"path": message})
    for name, text in files.items():
        write_private(path / name, text.encode())
    return path


def student_files(logbook: Logbook, student_key: str, *, under_alias: bool = False) -> dict[str, str]:
    """Return the texts of an export by file name; see :func:`export_student`."""
    student = Students(logbook).get(student_key)
    rows = logbook.sessions(student_key)[::-1]
    everything = {
        "schema": SCHEMA,
        "exported": datetime.now(UTC).isoformat(timespec="seconds"),
        "student": json.loads(event_text({"student": student}))["payload"]["student"],
        "sessions": [_session(logbook, row.key) for row in rows],
    }
    sheet = sessions_csv(logbook, [row.key for row in rows])
    if under_alias:
        everything = _under_alias(student, everything)
        sheet = sheet.replace(_in_sheet(student.name), _in_sheet(student.shown_name))
    return {
        "READ ME.txt": _READ_ME,
        "sessions.csv": "\ufeff" + sheet,
        "everything.json": json.dumps(everything, ensure_ascii=False, indent=1),
    }


def student_zip(logbook: Logbook, student_key: str, *, under_alias: bool = False) -> bytes:
    """Return an export as the content of one ``.zip`` file; see :func:`export_student`."""
    return _zipped(student_files(logbook, student_key, under_alias=under_alias))


def _in_sheet(name: str) -> str:
    """Return a name as it stands inside a cell of a CSV file."""
    return safe_text("x" + name)[1:].replace('"', '""')


def _session(logbook: Logbook, session_key: str) -> dict[str, Any]:
    """Return a session with every event as it is kept."""
    with store.opened(logbook.path) as db:
        listed = db.execute("SELECT started, last_event, is_open FROM session WHERE key = ?", (session_key,))
        started, last_event, is_open = listed.fetchone()
        question = "SELECT number, kind, at, text FROM event WHERE session_key = ? ORDER BY number"
        events = db.execute(question, (session_key,)).fetchall()
    return {
        "key": session_key,
        "started": started,
        "last_event": last_event,
        "is_open": bool(is_open),
        "events": [
            {"number": number, "kind": kind, "at": at, **json.loads(text)}
            for number, kind, at, text in events
        ],
    }


def _under_alias(student: Student, everything: Mapping[str, Any]) -> dict[str, Any]:
    if not student.alias.strip():
        message = (
            f"alias is {student.alias!r}; expected one to export under. Give the student an alias first."
        )
        raise InputError(message, {"alias": message})
    renamed: dict[str, Any] = _replaced(everything, student)
    renamed["student"] |= {"name": student.shown_name, "consent_note": ""}
    return renamed


def _replaced(value: Any, student: Student) -> Any:
    """Return JSON with the alias in each text that holds the name, and as the name of each bowler."""
    if isinstance(value, str):
        return value.replace(student.name, student.shown_name)
    if isinstance(value, list):
        return [_replaced(part, student) for part in value]
    if isinstance(value, dict):
        renamed = {name: _replaced(part, student) for name, part in value.items()}
        if isinstance(bowler := renamed.get("bowler"), dict):
            bowler["name"] = student.shown_name
        return renamed
    return value


def _zipped(files: Mapping[str, str]) -> bytes:
    content = io.BytesIO()
    with zipfile.ZipFile(content, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in files.items():
            archive.writestr(name, text)
    return content.getvalue()
