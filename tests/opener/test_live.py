"""Notebooks with panels are run before they are handed out, once, and no other file is touched.

Our own promises; no outside source. The browser part is in tests/notebooks/test_my_bowlers.py.
"""

from collections.abc import Iterator
from pathlib import Path
from typing import Any

import nbformat
import pytest

from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from coachlib.opener.notebook_page import WIDGET, cells_to_run

PANEL = "import ipywidgets\nipywidgets.IntSlider()"


def _notebook(*cells: tuple[str, bool]) -> Any:
    """Return a notebook of code cells; those marked have a panel stored as their output."""
    made = nbformat.v4.new_notebook()
    for source, has_panel in cells:
        cell = nbformat.v4.new_code_cell(source)
        if has_panel:
            cell.outputs = [nbformat.v4.new_output("display_data", {WIDGET: {"model_id": "gone"}})]
        made.cells.append(cell)
    return made


LESSON = (("x = 1", False), (PANEL, True), ("y = undefined", False))


def test_needed_are_the_cells_as_far_as_the_last_panel() -> None:
    notebook = _notebook(*LESSON)
    assert [cell.source for cell in cells_to_run(notebook)] == ["x = 1", PANEL]
    assert cells_to_run(_notebook(("1 + 1", False))) == []


@pytest.fixture(scope="module")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[tuple[servers.Server, Path]]:
    """Return a server as the command starts it, on a folder with notebooks of ours and one of the person."""
    base = tmp_path_factory.mktemp("live")
    shipped, folder = base / "shipped", base / "folder"
    shipped.mkdir()
    broken = (("import nothing_of_that_name", False), (PANEL, True))
    for name, cells in {"panel": LESSON, "broken": broken, "words": (("1 + 1", False),)}.items():
        nbformat.write(_notebook(*cells), shipped / f"{name}.ipynb")
    folders.copy_notebooks(shipped, folder)
    nbformat.write(_notebook(*LESSON), folder / "own.ipynb")
    server = servers.start_lab(
        folder, "127.0.0.1", servers.any_port("127.0.0.1"), "a-token-for-tests", n_warm=0
    )
    try:
        servers.wait_for_server(server)
        yield server, folder
    finally:
        servers.stop(server)


def _asked(server: servers.Server, name: str) -> list[Any]:
    found = server.call("GET", f"api/contents/{name}?type=notebook&content=1")
    return [cell for cell in found["content"]["cells"] if cell["cell_type"] == "code"]


def _sessions(server: servers.Server, name: str) -> list[Any]:
    return [one for one in server.call("GET", "api/sessions") if one["path"] == name]


def test_a_notebook_of_ours_is_run_as_far_as_its_panel_and_only_once(
    running: tuple[servers.Server, Path],
) -> None:
    server, folder = running
    cells = _asked(server, "panel.ipynb")
    (shown,) = [output["data"][WIDGET]["model_id"] for output in cells[1]["outputs"]]
    assert shown != "gone"
    assert [cell["execution_count"] for cell in cells] == [1, 2, None]
    again = _asked(server, "panel.ipynb")
    assert again[1]["outputs"][0]["data"][WIDGET]["model_id"] == shown
    assert len(_sessions(server, "panel.ipynb")) == 1
    notary = nbformat.sign.NotebookNotary(data_dir=str(folder / ".jupyter" / "data"))
    assert notary.check_signature(nbformat.read(folder / "panel.ipynb", as_version=4))


@pytest.mark.parametrize("name", ["words.ipynb", "own.ipynb"])
def test_no_kernel_is_started_for_a_lesson_nor_for_a_notebook_of_the_person(
    running: tuple[servers.Server, Path], name: str
) -> None:
    server, folder = running
    before = (folder / name).read_bytes()
    _asked(server, name)
    assert _sessions(server, name) == []
    assert (folder / name).read_bytes() == before


def test_the_list_of_files_and_a_look_without_content_start_nothing(
    running: tuple[servers.Server, Path],
) -> None:
    server, _ = running
    server.call("GET", "api/contents/?content=1")
    server.call("GET", "api/contents/broken.ipynb?content=0")
    assert _sessions(server, "broken.ipynb") == []


def test_a_cell_that_fails_is_shown_and_the_notebook_opens_all_the_same(
    running: tuple[servers.Server, Path],
) -> None:
    server, _ = running
    cells = _asked(server, "broken.ipynb")
    assert cells[0]["outputs"][0]["ename"] == "ModuleNotFoundError"


def test_every_shipped_notebook_that_shows_a_panel_is_known_as_one() -> None:
    shown = {
        path.name
        for path in folders.shipped_notebooks().glob("*.ipynb")
        if cells_to_run(nbformat.read(path, as_version=4))
    }
    wanted = {"10_lane_side.ipynb", "20_students.ipynb", "30c_parallel_moves.ipynb", "34a_two_balls.ipynb"}
    assert shown >= wanted | {"41_practice_lane.ipynb", "50_clinic.ipynb"}
