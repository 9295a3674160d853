"""The log's file: made for its owner alone, guarded, and never overwritten when it is not ours to read.

All invariants; no outside source.
"""

import contextlib
import os
import shutil
import sqlite3
import stat
import tempfile
from collections.abc import Iterator
from pathlib import Path

import pytest

from coachlib.errors import DataFileError
from coachlib.records.log import store
from tests.fault_trials import told_to_an_ordinary_user

posix_only = pytest.mark.skipif(os.name != "posix", reason="file modes and users are those of POSIX")


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "of the coach" / "logbook.sqlite"


def test_guards_are_on(path: Path) -> None:
    with store.opened(path) as db:
        pragmas = {
            name: db.execute(f"PRAGMA {name}").fetchone()[0] for name in ("synchronous", "secure_delete")
        }
        assert pragmas == {"synchronous": 2, "secure_delete": 1}
        assert db.execute("PRAGMA journal_mode").fetchone() == ("wal",)
        assert db.execute("PRAGMA user_version").fetchone() == (store.SCHEMA,)


def test_change_is_whole_or_not_at_all(path: Path) -> None:
    row = ("k", "then", "then", 1, "", 0, None)
    with contextlib.suppress(ZeroDivisionError), store.writing(path) as db:
        db.execute("INSERT INTO session VALUES (?, ?, ?, ?, ?, ?, ?)", row)
        raise ZeroDivisionError
    with store.opened(path) as db:
        assert db.execute("SELECT count(*) FROM session").fetchone() == (0,)
    with store.writing(path) as db:
        db.execute("INSERT INTO session VALUES (?, ?, ?, ?, ?, ?, ?)", row)
    with store.opened(path) as db:
        assert db.execute("SELECT * FROM session").fetchall() == [row]


def test_folder_of_the_environment(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "elsewhere"))
    assert store.default_path() == tmp_path / "elsewhere" / "logbook.sqlite"
    monkeypatch.delenv("COACHLIB_DATA")
    assert tmp_path not in store.default_path().parents
    assert "coachlib" in store.default_path().parts


def _mode(path: Path) -> int:
    return stat.S_IMODE(path.stat().st_mode)


@posix_only
def test_only_the_owner_may_look(path: Path) -> None:
    before = os.umask(0)  # the kindest setting must not open it to others
    try:
        with store.writing(path) as db:
            db.execute("INSERT INTO session VALUES ('k', '', '', 1, '', 0, NULL)")
            files = sorted(path.parent.iterdir())
            assert [file.name for file in files] == [path.name + tail for tail in ("", "-shm", "-wal")]
            assert {_mode(file) for file in files} == {0o600}
    finally:
        os.umask(before)
    assert _mode(path.parent) == 0o700


@posix_only
def test_file_opened_to_others_is_closed_again(path: Path) -> None:
    with store.opened(path):
        pass
    path.chmod(0o644)
    with store.opened(path):
        assert _mode(path) == 0o600


@posix_only
def test_own_folder_is_closed_but_a_folder_given_is_left_alone(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    for name in ("own", "given"):
        (tmp_path / name).mkdir(mode=0o755)
        (tmp_path / name).chmod(0o755)
    monkeypatch.setattr(store.platformdirs, "user_data_path", lambda *_, **__: tmp_path / "own")
    for name in ("own", "given"):
        with store.opened(tmp_path / name / "logbook.sqlite"):
            pass
    assert (_mode(tmp_path / "own"), _mode(tmp_path / "given")) == (0o700, 0o755)


def test_newer_schema_is_told_and_left_alone(path: Path) -> None:
    with store.opened(path) as db:
        db.execute(f"PRAGMA user_version = {store.SCHEMA + 1}")
    before = path.read_bytes()
    told = rf"logbook\.sqlite is of schema {store.SCHEMA + 1}; expected {store.SCHEMA}, .* Update coachlib\."
    with pytest.raises(DataFileError, match=told), store.opened(path):
        pass
    assert path.read_bytes() == before


def test_database_of_another_program_is_told_and_left_alone(tmp_path: Path) -> None:
    path = tmp_path / "theirs.sqlite"
    theirs = sqlite3.connect(path)
    theirs.execute("CREATE TABLE recipe (name TEXT)")
    theirs.close()
    before = path.read_bytes()
    told = r"theirs\.sqlite is another program's database; expected a log of this library\. Nothing"
    with pytest.raises(DataFileError, match=told), store.opened(path):
        pass
    assert path.read_bytes() == before


@pytest.mark.parametrize("content", [b"feet;eyes\n22;11\n" * 99, b"SQLite format 3\x00" + b"\xff" * 4000])
def test_file_that_is_no_database_is_told_and_left_alone(tmp_path: Path, content: bytes) -> None:
    path = tmp_path / "logbook.sqlite"
    path.write_bytes(content)
    told = r"logbook\.sqlite is damaged \(.*\); expected a log of this library\. .*set_aside"
    with pytest.raises(DataFileError, match=told), store.opened(path):
        pass
    assert path.read_bytes() == content


def test_table_taken_away_is_damage(path: Path) -> None:
    with store.opened(path) as db:
        db.execute("DROP TABLE event")
    with pytest.raises(DataFileError, match=r"is damaged \(no such table: event\)"), store.opened(path) as db:
        db.execute("SELECT * FROM event")


def test_set_aside_overwrites_nothing(path: Path) -> None:
    path.parent.mkdir()
    for n, content in enumerate((b"first bad log", b"second bad log"), start=1):
        path.write_bytes(content)
        aside = store.set_aside(path)
        assert aside.name == f"logbook.aside-{n}.sqlite"
        assert not path.exists()
    assert [file.read_bytes() for file in sorted(path.parent.iterdir())] == [
        b"first bad log",
        b"second bad log",
    ]


def test_set_aside_takes_along_what_belongs_to_the_file(path: Path) -> None:
    path.parent.mkdir()
    for tail in ("", "-wal", "-shm"):
        path.with_name(path.name + tail).write_text(tail)
    aside = store.set_aside(path)
    assert sorted(file.name for file in path.parent.iterdir()) == [
        aside.name + tail for tail in ("", "-shm", "-wal")
    ]


def test_nothing_to_set_aside(path: Path) -> None:
    with pytest.raises(DataFileError, match="could not be renamed"):
        store.set_aside(path)


def test_another_program_holds_the_file(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(store, "BUSY_S", 0.05)
    with store.writing(path) as db:
        db.execute("DELETE FROM session")
        with pytest.raises(DataFileError, match=r"was held by another program .* Close the other program"):
            with store.writing(path):
                pytest.fail("two writers at once")


def test_folder_where_a_file_stands(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    with (
        pytest.raises(DataFileError, match="cannot be opened for writing"),
        store.opened(tmp_path / "file" / "l"),
    ):
        pass


def test_path_that_is_a_folder(tmp_path: Path) -> None:
    with pytest.raises(DataFileError, match="cannot be opened for writing"), store.opened(tmp_path):
        pass


@pytest.fixture
def folder_for_all() -> Iterator[Path]:
    """Return a folder that every user of the machine may enter; the usual one is the tester's alone."""
    folder = Path(tempfile.mkdtemp())
    folder.chmod(0o755)
    yield folder
    folder.chmod(0o755)
    shutil.rmtree(folder)


@posix_only
def test_read_only_folder(folder_for_all: Path) -> None:
    path = folder_for_all / "logbook.sqlite"
    folder_for_all.chmod(0o777)
    assert told_to_an_ordinary_user(folder_for_all / "other.sqlite") == "opened"  # the check can fail
    folder_for_all.chmod(0o555)
    told = told_to_an_ordinary_user(path)
    assert told.startswith(
        f"log {path} cannot be opened for writing; expected a file in a folder you may write to."
    )
    assert "set COACHLIB_DATA to another folder" in told
    assert not path.exists()


@posix_only
def test_read_only_folder_with_a_log_in_it(folder_for_all: Path) -> None:
    folder_for_all.chmod(0o777)
    path = folder_for_all / "logbook.sqlite"
    assert told_to_an_ordinary_user(path) == "opened"
    folder_for_all.chmod(0o555)
    before = path.read_bytes()
    assert "cannot be opened for writing" in told_to_an_ordinary_user(path)
    assert path.read_bytes() == before


@pytest.mark.parametrize("place", ["logbook.sqlite", "data/mine/logbook.sqlite", "notebooks/../l.sqlite"])
def test_never_inside_the_source(monkeypatch: pytest.MonkeyPatch, repository: Path, place: str) -> None:
    monkeypatch.setenv("COACHLIB_DATA", str((repository / place).parent))
    told = r"lies inside the library's source; expected a folder elsewhere, .* leave the path out"
    for path in (repository / place, store.default_path()):
        with pytest.raises(DataFileError, match=told), store.opened(path):
            pass
        assert not path.exists()


def test_link_into_the_source_is_seen_through(repository: Path, tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(repository / "data")
    with pytest.raises(DataFileError, match="inside the library's source"):
        with store.opened(tmp_path / "link" / "logbook.sqlite"):
            pass
    assert not (repository / "data" / "logbook.sqlite").exists()


# Other files for their owner's eyes


@posix_only
def test_only_the_owner_may_look_at_a_file_written(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        path = store.write_private(tmp_path / "new" / "x.csv", b"one")
    finally:
        os.umask(before)
    assert _mode(path) == 0o600
    assert _mode(path.parent) == 0o700


def test_older_file_is_replaced_and_nothing_else_left(tmp_path: Path) -> None:
    store.write_private(tmp_path / "x.csv", b"a longer one")
    assert store.write_private(tmp_path / "x.csv", b"two").read_bytes() == b"two"
    assert [file.name for file in tmp_path.iterdir()] == ["x.csv"]


def test_file_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    (tmp_path / "folder").mkdir()
    for path in (tmp_path / "file" / "x.csv", tmp_path / "folder"):
        with pytest.raises(DataFileError, match=r"could not be written .* Choose another place"):
            store.write_private(path, b"one")
    assert sorted(file.name for file in tmp_path.iterdir()) == ["file", "folder"]


def test_no_file_is_written_inside_the_source(repository: Path) -> None:
    with pytest.raises(DataFileError, match=r"file .* lies inside the library's source"):
        store.write_private(repository / "data" / "x.csv", b"one")
    assert not (repository / "data" / "x.csv").exists()
