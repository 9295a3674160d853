"""Every notebook is clean: numbered, small, run in order, without downloads, machine paths or saved widgets.

House rules, common practice, no outside source; the file format itself is checked by `nbformat`. That the
stored outputs are right is checked by `pytest --nbval` in a run of its own.
"""

import ast
import itertools
import json
import re
from pathlib import Path
from typing import Any

import nbformat
import pytest

NOTEBOOKS = sorted((Path(__file__).resolve().parent.parent / "notebooks").glob("*.ipynb"))
MAX_BYTES = 300_000
MAX_IMPORTS = 8
MAX_LINES = 15
MAX_APP_CELLS = 5
FEWEST_WORDS = 12
WIDGET = "application/vnd.jupyter.widget-view+json"
# Text after a slash that starts a path of somebody's machine, and drive letters.
MACHINE_PATH = re.compile(r"(?<![\w.:/])/(?:home|root|Users|tmp|work|usr|opt|mnt)/|\b[A-Z]:\\")
FETCHING = re.compile(
    r"https?://|^\s*[!%]|\bpip install\b|\bconda install\b|urlopen|requests\.", re.MULTILINE
)

every_notebook = pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)


def _cells(path: Path, kind: str) -> list[Any]:
    return [cell for cell in nbformat.read(path, as_version=4).cells if cell.cell_type == kind]


def _stored_text(cell: Any) -> str:
    """Return all plain text that a cell printed."""
    parts = [output.get("text", "") for output in cell.outputs]
    parts += [str(output.get("data", {}).get("text/plain", "")) for output in cell.outputs]
    return "\n".join(parts)


def _shows_widget(cell: Any) -> bool:
    return any(WIDGET in output.get("data", {}) for output in cell.outputs)


def test_there_are_notebooks() -> None:
    assert [path.stem for path in NOTEBOOKS][:2] == ["00_start", "10_lane_side"]


@every_notebook
def test_name_is_numbered(path: Path) -> None:
    assert re.fullmatch(r"\d\d[a-z]?_[a-z0-9_]+", path.stem)


@every_notebook
def test_file_is_valid_small_and_without_widget_state(path: Path) -> None:
    notebook = nbformat.read(path, as_version=4)
    nbformat.validate(notebook)
    assert path.stat().st_size < MAX_BYTES
    assert "widgets" not in notebook.metadata
    assert notebook.metadata["kernelspec"]["name"] == "python3"


@every_notebook
def test_first_code_cell_only_imports(path: Path) -> None:
    first = ast.parse(_cells(path, "code")[0].source)
    assert first.body
    assert all(isinstance(line, ast.Import | ast.ImportFrom) for line in first.body)
    stars = [
        line for line in ast.walk(first) if isinstance(line, ast.ImportFrom) and line.names[0].name == "*"
    ]
    assert stars == []


@every_notebook
def test_cells_are_short_and_were_run_in_order_without_error(path: Path) -> None:
    cells = _cells(path, "code")
    assert [cell.execution_count for cell in cells] == list(range(1, len(cells) + 1))
    for cell in cells:
        body = ast.parse(cell.source).body
        imports = [part for part in body if isinstance(part, ast.Import | ast.ImportFrom)]
        n_imported = sum((part.end_lineno or 0) - part.lineno + 1 for part in imports)  # a list of names
        assert len(cell.source.splitlines()) - n_imported <= MAX_LINES, cell.source
        assert len(imports) <= MAX_IMPORTS, cell.source
        assert [output.output_type for output in cell.outputs if output.output_type == "error"] == []
        assert [output.name for output in cell.outputs if output.get("name") == "stderr"] == []


@every_notebook
def test_words_stand_before_each_code_cell(path: Path) -> None:
    cells = nbformat.read(path, as_version=4).cells
    assert cells[0].cell_type == "markdown"
    for before, cell in itertools.pairwise(cells):
        if cell.cell_type == "code":
            assert before.cell_type == "markdown", cell.source
            assert len(before.source.split()) >= FEWEST_WORDS, before.source


@every_notebook
def test_nothing_is_fetched_or_installed_and_no_machine_path_is_named(path: Path) -> None:
    for cell in _cells(path, "code"):
        assert FETCHING.search(cell.source) is None, cell.source
    whole = json.dumps(nbformat.read(path, as_version=4), ensure_ascii=False)
    assert MACHINE_PATH.search(whole) is None


@every_notebook
def test_panels_are_not_compared_and_stored_text_is_the_same_every_time(path: Path) -> None:
    for cell in _cells(path, "code"):
        is_ignored = "# NBVAL_IGNORE_OUTPUT" in cell.source
        assert is_ignored or not _shows_widget(cell), f"a panel needs # NBVAL_IGNORE_OUTPUT: {cell.source}"
        assert is_ignored or re.search(r" object at 0x[0-9a-f]+>", _stored_text(cell)) is None, cell.source


@every_notebook
def test_pictures_are_stored_so_that_they_show_without_a_network(path: Path) -> None:
    for cell in _cells(path, "code"):
        for output in cell.outputs:
            kinds = set(output.get("data", {}))
            assert not any("vega" in kind or "javascript" in kind for kind in kinds), cell.source
            assert "<script" not in str(output.get("data", {}).get("text/html", "")), cell.source


@every_notebook
def test_a_panel_comes_in_an_app_of_few_cells_beside_plain_calls(path: Path) -> None:
    cells = _cells(path, "code")
    if path.stem.endswith("_lane_side"):
        assert len(cells) <= MAX_APP_CELLS
        assert any(_shows_widget(cell) for cell in cells)
        assert any("# NBVAL_IGNORE_OUTPUT" not in cell.source and _stored_text(cell) for cell in cells)


@every_notebook
def test_a_notebook_that_opens_on_a_panel_folds_its_imports_away(path: Path) -> None:
    imports, *rest = _cells(path, "code")
    if rest and _shows_widget(rest[0]):  # on a phone they would fill the first screen
        assert imports.metadata == {"jupyter": {"source_hidden": True}}


@pytest.mark.parametrize(
    ("text", "is_bad"),
    [
        ("see /opt/someone/data.csv", True),
        ("C:\\data", True),
        ("coachlib/data/rules.toml", False),
        ("1/2 and a/opt/b", False),
    ],
)
def test_the_search_for_machine_paths_finds_them(text: str, is_bad: bool) -> None:
    assert bool(MACHINE_PATH.search(text)) is is_bad


@pytest.mark.parametrize("source", ["!ls", "%pip install x", "a = urlopen(b)", "'https://example.org'"])
def test_the_search_for_downloads_finds_them(source: str) -> None:
    assert FETCHING.search(source)
