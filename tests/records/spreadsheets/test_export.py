"""Everything kept of a student can be taken away, whole, and under the alias where asked for.

All invariants; no outside source.
"""

import csv
import io
import json
import zipfile
from pathlib import Path

import pytest

from coachlib.errors import InputError
from coachlib.records import Logbook, Student, Students
from coachlib.records.spreadsheets.csv_log import import_sessions
from coachlib.records.spreadsheets.export import export_student, student_files
from coachlib.records.spreadsheets.spreadsheet_cells import plain_text
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

NAME = 'Åke "Ö" Koivu'


def _with_sessions(students: Students, alias: str = "Number 7") -> str:
    bowler = Bowler(hand="left", pain="wrist")
    key = students.add(Student(NAME, alias=alias, consent_note=f"father of {NAME} agreed", bowler=bowler))
    session_key = students.start(key, Line(22, 11), lane="7")
    steps = (
        ("shot", {"shot": Shot(leave=(4,), note=f"{NAME} was late")}),
        ("shot", {"shot": Shot(leave=())}),
        ("undo", {}),
        ("change", {"bowler": Bowler(name=NAME, hand="left")}),
    )
    students.logbook.append_all(session_key, steps)
    students.start(key, Line(25, 13))
    other = students.add(Student("Somebody Else"))
    students.logbook.append(
        students.start(other, Line(30, 15)), "shot", {"shot": Shot(note="private", leave=())}
    )
    return key


def test_everything_is_in_it_and_of_nobody_else(students: Students) -> None:
    key = _with_sessions(students)
    files = student_files(students.logbook, key)
    everything = json.loads(files["everything.json"])
    assert everything["student"]["name"] == NAME
    assert everything["student"]["consent_note"] == f"father of {NAME} agreed"
    assert everything["student"]["bowler"]["pain"] == "wrist"
    kinds = [[event["kind"] for event in session["events"]] for session in everything["sessions"]]
    assert kinds == [["start", "shot", "shot", "undo", "change"], ["start"]]
    assert all(event["at"] and event["schema"] == 1 for event in everything["sessions"][0]["events"])
    assert not any("private" in text or "Somebody" in text for text in files.values())


def test_folder_and_zip_hold_the_same_and_the_sheet_can_be_imported(
    students: Students, other: Logbook, tmp_path: Path
) -> None:
    key = _with_sessions(students)
    folder = export_student(students.logbook, key, tmp_path / "out")
    archive = zipfile.ZipFile(export_student(students.logbook, key, tmp_path / "out.zip"))
    assert sorted(archive.namelist()) == sorted(path.name for path in folder.iterdir())
    assert (folder / "sessions.csv").read_bytes() == archive.read("sessions.csv")
    keys = import_sessions(other, folder / "sessions.csv").keys
    assert [other.replay(one) for one in keys] == [students.logbook.replay(one) for one in keys]


def test_under_alias_the_name_is_nowhere(students: Students) -> None:
    key = _with_sessions(students)
    files = student_files(students.logbook, key, under_alias=True)
    for text in files.values():
        assert "Koivu" not in text
        assert "Åke" not in text
    everything = json.loads(files["everything.json"])
    assert everything["student"]["name"] == "Number 7"
    assert everything["student"]["consent_note"] == ""
    assert everything["sessions"][0]["events"][1]["payload"]["shot"]["note"] == "Number 7 was late"
    assert json.loads(student_files(students.logbook, key)["everything.json"])["student"]["name"] == NAME


@pytest.mark.parametrize("name", ["=1+1", 'a;=b"', "-x\n'y", "<b>Il</b>", "O'Neil, Åke"])
def test_under_alias_no_odd_name_stays(students: Students, name: str) -> None:
    key = students.add(Student(name, alias="Number 7"))
    students.logbook.append(
        students.start(key, Line(22, 11)), "shot", {"shot": Shot(leave=(), note=f"so {name}")}
    )
    sheet = student_files(students.logbook, key, under_alias=True)["sessions.csv"]
    cells = [cell for line in csv.reader(io.StringIO(sheet, newline="")) for cell in line]
    assert "so Number 7" in cells
    assert [cell for cell in cells if name in cell or name in plain_text(cell)] == []


def test_without_an_alias_there_is_none_to_export_under(students: Students, tmp_path: Path) -> None:
    key = _with_sessions(students, alias="")
    with pytest.raises(InputError, match=r"alias is ''; expected one to export under\. Give the student"):
        export_student(students.logbook, key, tmp_path / "out.zip", under_alias=True)
    assert not (tmp_path / "out.zip").exists()


def test_folder_with_other_files_is_left_alone(students: Students, tmp_path: Path) -> None:
    key = _with_sessions(students)
    with pytest.raises(InputError, match=r"expected a new or empty folder, or a \.zip file"):
        export_student(students.logbook, key, tmp_path)
    (tmp_path / "file").write_text("x")
    with pytest.raises(InputError, match="expected a new or empty folder"):
        export_student(students.logbook, key, tmp_path / "file")
    assert (tmp_path / "file").read_text() == "x"
    with pytest.raises(InputError, match="expected the key of a student"):
        export_student(students.logbook, "nobody", tmp_path / "out.zip")
