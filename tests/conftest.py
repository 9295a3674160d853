"""Fixtures shared by all tests: no test may touch the person's own records."""

import os
from collections.abc import Iterator
from pathlib import Path

import pytest
from hypothesis import settings

# A slow machine is no failure; in CI the same examples are tried each time.
settings.register_profile("coach", deadline=None, derandomize="CI" in os.environ)
settings.load_profile("coach")

# Where platformdirs looks for the user's folders: Linux, macOS, Windows.
_HOME_VARIABLES = ("XDG_DATA_HOME", "XDG_CACHE_HOME", "XDG_CONFIG_HOME", "HOME", "LOCALAPPDATA", "APPDATA")


@pytest.fixture(scope="session", autouse=True)
def own_home(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Point all user folders to an empty place for the whole run, kernels and servers included."""
    home = tmp_path_factory.mktemp("home")
    before = {name: os.environ.get(name) for name in _HOME_VARIABLES}
    os.environ.update(dict.fromkeys(_HOME_VARIABLES, str(home)))
    before["COACHLIB_DATA"] = os.environ.pop("COACHLIB_DATA", None)
    yield home
    for name, value in before.items():
        if value is None:
            os.environ.pop(name, None)
        else:
            os.environ[name] = value


@pytest.fixture
def repository() -> Path:
    """Return the root of the checkout."""
    return Path(__file__).resolve().parent.parent
