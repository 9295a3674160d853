"""The rooms keep to themselves: imports run one way, and files are opened in few places.

The contracts stand in pyproject.toml; that each of them can fail is shown on a copy with one wrong import.
"""

import ast
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parent.parent
LIBRARY = ROOT / "coachlib"
# `opener` lays out the notebooks and Jupyter's own files; all other reading and writing is for these two.
MAY_OPEN = ("files.py", "records", "opener")
OPENING = {
    "open",
    "read_text",
    "write_text",
    "read_bytes",
    "write_bytes",
    "read_csv",
    "to_csv",
    "fromfile",
    "loadtxt",
}


def _lint(folder: Path) -> subprocess.CompletedProcess[str]:
    code = "import sys; from importlinter.cli import lint_imports; sys.exit(lint_imports(no_cache=True))"
    command = [sys.executable, "-c", f"import sys; sys.path.insert(0, {str(folder)!r}); {code}"]
    return subprocess.run(command, cwd=folder, capture_output=True, text=True, check=False)


def test_contracts_are_kept() -> None:
    answer = _lint(ROOT)
    assert answer.returncode == 0, answer.stdout
    assert "5 kept, 0 broken" in answer.stdout


@pytest.mark.parametrize(
    ("module", "line", "contract"),
    [
        ("world/lane.py", "import coachlib.coaching", "Rooms import only to the left BROKEN"),
        ("world/levers.py", "import altair", "Altair only in views BROKEN"),
        ("world/lane.py", "import ipywidgets", "Widgets only in views.panels BROKEN"),
        ("physics/motion.py", "import pandas", "No pandas in physics BROKEN"),
        ("drawer.py", "import math", "Rooms import only to the left BROKEN"),
    ],
)
def test_a_wrong_import_breaks_its_contract(tmp_path: Path, module: str, line: str, contract: str) -> None:
    shutil.copytree(LIBRARY, tmp_path / "coachlib", ignore=shutil.ignore_patterns("__pycache__"))
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    path = tmp_path / "coachlib" / module
    path.parent.mkdir(exist_ok=True)
    (path.parent / "__init__.py").touch()
    with path.open("a", encoding="utf-8") as file:
        file.write(f"\n{line}\n")
    answer = _lint(tmp_path)
    assert answer.returncode != 0
    assert contract in answer.stdout


def _openings(source: str) -> list[str]:
    """Return the calls in `source` that open, read or write a file."""
    found = []
    for node in ast.walk(ast.parse(source)):
        if isinstance(node, ast.Call):
            is_plain = isinstance(node.func, ast.Name) and node.func.id == "open"
            is_method = isinstance(node.func, ast.Attribute) and node.func.attr in OPENING
            if is_plain or (is_method and not ast.unparse(node.func).startswith("webbrowser.")):
                found.append(f"line {node.lineno}: {ast.unparse(node.func)}")
    return found


def test_the_search_for_openings_finds_them() -> None:
    source = "open('a')\nPath('a').read_text()\nwebbrowser.open('a')\nlen('a')\npath.open('wb')"
    assert [found.split(":")[0] for found in _openings(source)] == ["line 1", "line 2", "line 5"]


def test_files_are_opened_only_where_they_may_be() -> None:
    modules = [path for path in LIBRARY.rglob("*.py") if path.relative_to(LIBRARY).parts[0] not in MAY_OPEN]
    assert len(modules) > 10
    found = {str(path.relative_to(ROOT)): _openings(path.read_text(encoding="utf-8")) for path in modules}
    assert {path: calls for path, calls in found.items() if calls} == {}
