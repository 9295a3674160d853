"""Every older log is lifted whole and reads as before, or is left as it was.

All invariants; no outside source. The older logs are built in tests/old_logs.py by statements of their time.
"""

import sqlite3
import threading
from pathlib import Path

import pytest

from coachlib.coaching.session.session import Session, change, observe
from coachlib.errors import DataFileError
from coachlib.records import Logbook, Student, Students
from coachlib.records.log import schema
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.shot import Shot
from tests.old_logs import KEY, OLDER

LOGGED = observe(
    change(
        observe(
            Session(bowler=Bowler(name="Ilta", hand="left", speed_mph=15.5), line=Line(22, 11), lane="7"),
            Shot(crossed_board=11.5, arrival="high", leave=(4,)),
        ),
        line=Line(24, 12),
    ),
    Shot(crossed_board=12.0, arrival=17.5, leave=()),
)


def _asked(path: Path, question: str) -> list[tuple[object, ...]]:
    db = sqlite3.connect(path)
    rows = db.execute(question).fetchall()
    db.close()
    return rows


def _tables(path: Path) -> set[tuple[object, ...]]:
    """Return what the tables are made of: their columns with types, and the names of all indices."""
    columns = set(_asked(path, "SELECT m.name, c.* FROM sqlite_master m, pragma_table_info(m.name) c"))
    return columns | set(_asked(path, "SELECT type, name FROM sqlite_master"))


def test_there_is_a_log_of_every_older_schema() -> None:
    assert sorted(OLDER) == list(range(1, schema.SCHEMA))


@pytest.mark.parametrize("older", OLDER)
def test_older_log_is_lifted_and_reads_as_before(tmp_path: Path, older: int) -> None:
    path = tmp_path / "logbook.sqlite"
    OLDER[older](path)
    assert _asked(path, "PRAGMA user_version") == [(older,)]
    logbook = Logbook(path)
    assert logbook.replay(KEY) == LOGGED
    assert _asked(path, "PRAGMA user_version") == [(schema.SCHEMA,)]
    (listed,) = logbook.sessions()
    assert (listed.key, listed.bowler_name, listed.n_shots, listed.student_key) == (KEY, "Ilta", 2, None)
    assert logbook.story(KEY).advice[1]["kind"] == "line"


@pytest.mark.parametrize("older", OLDER)
def test_lifted_log_has_the_tables_of_a_new_one(tmp_path: Path, older: int) -> None:
    OLDER[older](tmp_path / "old.sqlite")
    for name in ("old", "new"):
        Logbook(tmp_path / f"{name}.sqlite").sessions()
    assert _tables(tmp_path / "old.sqlite") == _tables(tmp_path / "new.sqlite")


@pytest.mark.parametrize("older", OLDER)
def test_lifted_log_takes_students_and_balls(tmp_path: Path, older: int) -> None:
    OLDER[older](tmp_path / "logbook.sqlite")
    logbook = Logbook(tmp_path / "logbook.sqlite")
    student = Students(logbook).add(Student("Ilta Koivu", alias="Number 7"))
    logbook.assign(KEY, student)
    assert logbook.append(KEY, "shot", {"shot": Shot(leave=(10,))}) == 5
    assert [row.bowler_name for row in logbook.sessions(student)] == ["Number 7"]


@pytest.mark.parametrize("older", OLDER)
def test_lifting_that_fails_leaves_the_log_as_it_was(
    tmp_path: Path, older: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "logbook.sqlite"
    OLDER[older](path)
    before = _tables(path)
    broken = (*schema.STEPS[:-1], (*schema.STEPS[-1], "CREATE TABLE event (twice TEXT)"))
    monkeypatch.setattr(schema, "STEPS", broken)
    with pytest.raises(DataFileError, match="table event already exists"):
        Logbook(path).sessions()
    assert _tables(path) == before
    assert _asked(path, "PRAGMA user_version") == [(older,)]
    monkeypatch.undo()
    assert Logbook(path).replay(KEY) == LOGGED


@pytest.mark.parametrize("older", OLDER)
def test_several_notebooks_lift_the_same_log_at_once(tmp_path: Path, older: int) -> None:
    path = tmp_path / "logbook.sqlite"
    OLDER[older](path)
    gate, read = threading.Barrier(6), []

    def look() -> None:
        gate.wait()
        read.append(Logbook(path).replay(KEY))

    threads = [threading.Thread(target=look) for _ in range(6)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    assert read == [LOGGED] * 6
