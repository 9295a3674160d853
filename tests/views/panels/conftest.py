"""A log of its own for every test, and the lane side on it."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from coachlib.records import Logbook
from coachlib.views.panels import LaneSide

START = {"name": "Maija", "hand": "right", "feet": "22", "target": "12", "lanes": "7 8"}

NewPanel = Callable[..., LaneSide]


@pytest.fixture
def log(tmp_path: Path) -> Logbook:
    return Logbook(tmp_path / "log.sqlite")


@pytest.fixture
def new_panel(log: Logbook) -> NewPanel:
    """Return what makes a lane side on the log, without the model; started where something is typed."""

    def made(**typed: Any) -> LaneSide:
        panel = LaneSide(log, model_on=False, is_strict=True)
        if typed:
            panel.set_up(START | typed)
        return panel

    return made


@pytest.fixture
def panel(new_panel: NewPanel) -> LaneSide:
    """Return a lane side that was started."""
    return new_panel(**START)
