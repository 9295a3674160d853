"""A student is erased from the log and from what lies around it, and what is left is told.

All invariants; no outside source. The search itself is tested in tests/records/students/test_traces.py.
"""

import json
import sqlite3
from pathlib import Path

import pytest

from coachlib.errors import InputError
from coachlib.records import Logbook, Student, Students
from coachlib.records.log import store
from coachlib.records.spreadsheets.export import export_student
from coachlib.records.students.erasure import erase_student, scrub
from coachlib.records.students.traces import n_found
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot

NAME, ALIAS, EARLIER = "Ilta Koivunlehti", "Number Seventeen", "Ilta K."


@pytest.fixture
def house(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return a folder in which everything of the library lies, apart from everything else."""
    monkeypatch.setattr(
        "coachlib.records.students.traces.live_folder", lambda: tmp_path / "live" / "notebooks"
    )
    monkeypatch.setattr("platformdirs.user_cache_path", lambda *_, **__: tmp_path / "cache")
    monkeypatch.setenv("IPYTHONDIR", str(tmp_path / "kernel"))
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "data"))
    return tmp_path


@pytest.fixture
def students(house: Path) -> Students:
    return Students(Logbook())


def _play(students: Students, key: str, n_balls: int = 40) -> str:
    session_key = students.start(key, Line(22, 11))
    name = students.get(key).name
    steps = [("shot", {"shot": Shot(leave=(4,), note=f"{name} ball {n}")}) for n in range(n_balls)]
    students.logbook.append_all(session_key, steps)
    return session_key


def _with_two(students: Students) -> tuple[str, str]:
    key = students.add(Student(NAME, alias=ALIAS, consent_note=f"the mother of {NAME} agreed"))
    for _ in range(3):
        session_key = _play(students, key)
    students.logbook.append(session_key, "change", {"bowler": Bowler(name=EARLIER)})
    other = students.add(Student("Oskari"))
    _play(students, other)
    return key, other


def _files(folder: Path) -> list[Path]:
    return [path for path in folder.rglob("*") if path.is_file()]


def _n(folder: Path, *words: str) -> int:
    return sum(path.read_bytes().count(word.encode()) for path in _files(folder) for word in words)


def test_nothing_of_the_student_is_left_in_the_log_and_the_others_stay(
    house: Path, students: Students
) -> None:
    key, other = _with_two(students)
    before = students.logbook.replay(students.sessions(other)[0].key)
    session_keys = [row.key for row in students.sessions(key)]
    words = (NAME, ALIAS, EARLIER, key, *session_keys)
    assert all(_n(house / "data", word) for word in words)
    report = erase_student(students.logbook, key)
    assert report.is_gone
    assert (report.n_sessions, report.n_events, report.n_words) == (3, 3 * 41 + 1, 3 + 1 + 3)
    assert {place.kind for place in report.searched} == {"log"}
    assert all(_n(house / "data", word) == 0 for word in words)
    assert [one.shown_name for one in students.listed()] == ["Oskari"]
    assert students.logbook.replay(students.sessions(other)[0].key) == before
    with pytest.raises(InputError, match="expected the key of a student"):
        erase_student(students.logbook, key)
    said = " ".join(report.words)
    assert "3 sessions with 124 events were erased." in said
    assert "none was found" in said
    assert "backups of this machine, are not reached from here" in said
    assert not any(name in said for name in (NAME, ALIAS, EARLIER))


def test_name_in_free_pages_and_in_the_write_ahead_file_is_gone(house: Path, students: Students) -> None:
    """A reader that stays open keeps the write-ahead file alive, with every page as it once was."""
    key, _ = _with_two(students)
    reader = sqlite3.connect(students.logbook.path)
    assert reader.execute("SELECT count(*) FROM event").fetchone()[0] > 100
    students.logbook.append(students.sessions(key)[0].key, "shot", {"shot": Shot(leave=(), note=NAME)})
    assert n_found(students.logbook.path.with_name("logbook.sqlite-wal"), [NAME]) > 0
    report = erase_student(students.logbook, key)
    assert report.is_gone
    reader.close()
    assert _n(house / "data", NAME, ALIAS, EARLIER, key) == 0


def test_log_that_is_held_by_another_is_told_and_scrubbed_later(
    house: Path, students: Students, monkeypatch: pytest.MonkeyPatch
) -> None:
    key, _ = _with_two(students)
    monkeypatch.setattr(store, "BUSY_S", 0.05)
    reader = sqlite3.connect(students.logbook.path, isolation_level=None)
    reader.execute("BEGIN")
    reader.execute("SELECT * FROM session").fetchall()
    report = erase_student(students.logbook, key)
    assert not report.is_gone
    assert not report.is_scrubbed
    assert "Another program held the log. Close it and call scrub(logbook)." in report.words
    assert students.sessions(students.listed()[0].key)
    reader.close()
    assert scrub(students.logbook)
    assert _n(house / "data", NAME, ALIAS, EARLIER, key) == 0


def test_namesake_and_notes_of_others_stay_and_are_counted(house: Path, students: Students) -> None:
    key, other = _with_two(students)
    note = Shot(leave=(), note=f"threw with {NAME}")
    students.logbook.append(students.sessions(other)[0].key, "shot", {"shot": note})
    report = erase_student(students.logbook, key)
    assert report.is_gone
    assert report.n_of_others == 1
    assert "The name stands 1× in records of others, which were not touched." in report.words
    assert students.logbook.replay(students.sessions(other)[0].key).shots[-1].shot == note


def test_set_aside_logs_are_cleaned_readable_or_not(house: Path, students: Students) -> None:
    key, _ = _with_two(students)
    readable, damaged, theirs = (house / "data" / f"logbook.aside-{n}.sqlite" for n in (1, 2, 3))
    content = students.logbook.path.read_bytes()
    readable.write_bytes(content)
    damaged.write_bytes(content[:4096] + b"\xa5" * 8192 + content[12288:] + NAME.encode())
    database = sqlite3.connect(theirs)
    with database:
        database.execute("CREATE TABLE guests (name TEXT)")
        database.execute("INSERT INTO guests VALUES (?)", (NAME,))
    database.close()
    before = theirs.read_bytes()
    report = erase_student(students.logbook, key)
    assert _n(readable.parent / readable.name, NAME) == 0
    assert n_found(readable, [NAME, key]) == n_found(damaged, [NAME, key]) == 0
    assert len(damaged.read_bytes()) == len(content) + len(NAME.encode())
    assert [row.n_shots for row in Logbook(readable).sessions()] == [40]
    assert theirs.read_bytes() == before
    assert [left.place.path for left in report.left] == [theirs]
    assert not report.is_gone
    assert {place.path for place in report.cleaned} == {readable, damaged}


def _executed_copy(folder: Path, source: str) -> Path:
    folder.mkdir(parents=True, exist_ok=True)
    output = {"output_type": "stream", "name": "stdout", "text": [f"{NAME}: 2 and 1\n"]}
    cell = {"cell_type": "code", "execution_count": 1, "source": source, "outputs": [output], "metadata": {}}
    path = folder / "10_lane_side.ipynb"
    path.write_text(json.dumps({"cells": [cell], "metadata": {}, "nbformat": 4, "nbformat_minor": 5}))
    return path


def test_executed_notebooks_server_log_and_cache_are_cleaned(house: Path, students: Students) -> None:
    key, _ = _with_two(students)
    copies = [
        _executed_copy(house / "live" / folder, "cl.LaneSide()")
        for folder in ("notebooks", "notebooks/kept", "notebooks-2/.ipynb_checkpoints")
    ]
    copies.append(_executed_copy(house / "mine", "cl.LaneSide()"))
    server_log, cache = house / "live" / "notebooks" / ".jupyter" / "server.log", house / "cache" / "x.json"
    for path in (server_log, cache):
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"who={NAME};")
    assert n_found(copies[0], [NAME]) == 1
    report = erase_student(students.logbook, key, notebook_folders=[house / "mine"])
    assert report.is_gone
    assert {place.path for place in report.cleaned} == {*copies, server_log, cache}
    assert server_log.read_text() == f"who={'x' * len(NAME)};"
    assert not cache.exists()
    assert _n(house, NAME, ALIAS, EARLIER, key) == 0


def test_name_that_was_typed_is_told_and_erased_where_asked(house: Path, students: Students) -> None:
    key, other = _with_two(students)
    copy = _executed_copy(house / "live" / "notebooks", f"bowler = cl.Bowler(name={NAME!r})")
    report = erase_student(students.logbook, key)
    assert [(left.place.path, left.n_found) for left in report.left] == [(copy, 1)]
    assert "It was typed there; take it out by hand, or erase with blank_typed=True." in report.left[0].words
    assert json.loads(copy.read_text())["cells"][0]["outputs"] == []
    again = students.add(Student(NAME))
    assert erase_student(students.logbook, again, blank_typed=True).is_gone
    assert json.loads(copy.read_text())["cells"][0]["source"] == "bowler = cl.Bowler(name='(erased)')"
    assert students.get(other).name == "Oskari"


def test_copies_and_kernel_history_are_told_and_left_alone(house: Path, students: Students) -> None:
    key, _ = _with_two(students)
    history = house / "kernel" / "profile_default" / "history.sqlite"
    history.parent.mkdir(parents=True)
    history.write_text(f"cl.Bowler(name='{NAME}')")
    archive = export_student(students.logbook, key, house / "data" / "taken.zip")
    before = archive.read_bytes()
    report = erase_student(students.logbook, key)
    assert not report.is_gone
    assert {left.place.kind: left.place.path for left in report.left} == {
        "kernel history": history,
        "copy": archive,
    }
    assert archive.read_bytes() == before
    assert any("delete it" in said for said in report.words)


def test_name_of_two_letters_is_erased_from_the_log_and_not_searched(house: Path, students: Students) -> None:
    key = students.add(Student("Al"))
    _play(students, key)
    report = erase_student(students.logbook, key)
    assert report.is_gone
    assert report.n_too_short == 1
    assert "Names below 3 letters, not searched for in files: 1." in report.words
    assert students.listed() == ()


def test_event_that_was_cut_off_is_erased_too(house: Path, students: Students) -> None:
    key = students.add(Student(NAME))
    _play(students, key)
    database = sqlite3.connect(students.logbook.path)
    with database:
        database.execute("UPDATE event SET text = substr(text, 1, 40) WHERE kind = 'start'")
    database.close()
    assert erase_student(students.logbook, key).is_gone
    assert students.logbook.sessions() == ()
