"""What `import coachlib` loads: no view, no widget and nothing heavy, so that it is quick everywhere.

Each check runs in a fresh interpreter; how long it takes is the benchmark's business.
"""

import json
import subprocess
import sys

import pytest

_ASK = "import sys, json; {code}; print(json.dumps(sorted(sys.modules)))"
_WIDGETS = {"ipywidgets", "anywidget", "altair", "vl_convert", "IPython", "jupyterlab", "voila"}
_HEAVY = {"pandas", "scipy", "jinja2"}  # imported inside the functions that need them


def _loaded(code: str) -> set[str]:
    """Return the names of all modules loaded after some code, in an interpreter of its own."""
    answer = subprocess.run(
        [sys.executable, "-c", _ASK.format(code=code)], capture_output=True, text=True, check=True
    )
    return set(json.loads(answer.stdout))


def test_the_check_sees_what_is_loaded() -> None:
    assert {"json", "anywidget", "ipywidgets"} <= _loaded("import anywidget")
    assert "coachlib" not in _loaded("pass")


def test_coachlib_loads_no_view_and_no_widget() -> None:
    loaded = _loaded("import coachlib")
    assert "coachlib" in loaded
    outer = ("coachlib.views", "coachlib.records", "coachlib.opener")
    assert sorted(name for name in loaded if name.startswith(outer)) == []
    assert sorted(loaded & (_WIDGETS | _HEAVY)) == []


@pytest.mark.parametrize("room", ["errors", "units", "validation", "world", "coaching.session", "records"])
def test_rooms_before_the_views_load_no_widget(room: str) -> None:
    loaded = _loaded(f"import coachlib.{room}")
    assert f"coachlib.{room}" in loaded
    assert sorted(loaded & (_WIDGETS | _HEAVY)) == []
