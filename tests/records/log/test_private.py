"""Files for their owner's eyes: whole or not at all. All invariants; no outside source."""

import os
import stat
from pathlib import Path

import pytest

from coachlib.errors import DataFileError
from coachlib.records.log.private import write_private


@pytest.mark.skipif(os.name != "posix", reason="file modes are those of POSIX")
def test_only_the_owner_may_look(tmp_path: Path) -> None:
    before = os.umask(0)
    try:
        path = write_private(tmp_path / "new" / "x.csv", b"one")
    finally:
        os.umask(before)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o700


def test_older_file_is_replaced_and_nothing_else_left(tmp_path: Path) -> None:
    write_private(tmp_path / "x.csv", b"a longer one")
    assert write_private(tmp_path / "x.csv", b"two").read_bytes() == b"two"
    assert [file.name for file in tmp_path.iterdir()] == ["x.csv"]


def test_file_that_cannot_be_written_is_told(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("x")
    (tmp_path / "folder").mkdir()
    for path in (tmp_path / "file" / "x.csv", tmp_path / "folder"):
        with pytest.raises(DataFileError, match=r"could not be written .* Choose another place"):
            write_private(path, b"one")
    assert sorted(file.name for file in tmp_path.iterdir()) == ["file", "folder"]


def test_never_inside_the_source(repository: Path) -> None:
    with pytest.raises(DataFileError, match=r"file .* lies inside the library's source"):
        write_private(repository / "data" / "x.csv", b"one")
    assert not (repository / "data" / "x.csv").exists()
