"""An empty log and its students, for all tests of the records."""

from pathlib import Path

import pytest

from coachlib.records import Logbook, Students


@pytest.fixture
def logbook(tmp_path: Path) -> Logbook:
    return Logbook(tmp_path / "logbook.sqlite")


@pytest.fixture
def other(tmp_path: Path) -> Logbook:
    """Return the log of somebody else."""
    return Logbook(tmp_path / "other.sqlite")


@pytest.fixture
def students(logbook: Logbook) -> Students:
    return Students(logbook)
