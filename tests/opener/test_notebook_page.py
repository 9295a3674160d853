"""A notebook as a page: what it leaves out, what it runs, and that what is stored is shown and harmless.

Our own promises; no outside source.
"""

import base64
from pathlib import Path
from typing import Any

import nbformat
import pytest

from coachlib.opener import folder as folders
from coachlib.opener.notebook_page import (
    FOLDED,
    LIVE,
    NOTEBOOK_ONLY,
    RUNS,
    SVG,
    WIDGET,
    as_page,
    lay_pages,
    stored_page,
)
from coachlib.views.look import shared

DRAWING = '<svg xmlns="http://www.w3.org/2000/svg"><clipPath id="clip0"/></svg>'


def _code(source: str, *outputs: Any, tag: str = "") -> Any:
    cell = nbformat.v4.new_code_cell(source, outputs=list(outputs))
    if tag:
        cell.metadata["tags"] = [tag]
    return cell


def _printed(text: str) -> Any:
    return nbformat.v4.new_output("stream", text=text)


def _shown(kind: str, data: str, words: str = "") -> Any:
    return nbformat.v4.new_output("display_data", {kind: data, "text/plain": words})


def _notebook(*cells: Any) -> Any:
    return nbformat.v4.new_notebook(cells=[nbformat.v4.new_markdown_cell("# A title"), *cells])


def _laid(tmp_path: Path, notebook: Any, name: str = "30_moves.ipynb") -> Any:
    """Return a notebook as it lies among the pages of a working folder."""
    shipped = tmp_path / "shipped"
    shipped.mkdir()
    nbformat.write(notebook, shipped / name)
    folders.copy_notebooks(shipped, tmp_path / "live")
    return nbformat.read(lay_pages(tmp_path / "live") / name, as_version=4)


def test_what_only_a_notebook_needs_stays_out_and_the_notebook_as_it_is() -> None:
    notebook = _notebook(_code("plain_calls()", tag=NOTEBOOK_ONLY), _code("shown()"))
    assert [cell.source for cell in as_page(notebook).cells] == ["# A title", "shown()"]
    assert len(notebook.cells) == 3


def test_a_page_without_a_panel_is_shown_as_stored_and_holds_no_code() -> None:
    notebook = _notebook(_code("secret_call()", _printed("two <b>boards</b>\n\nand one")))
    page = stored_page(notebook, "30_moves.ipynb", is_beside_notebooks=True)
    assert "secret_call" not in page
    assert "two &lt;b&gt;boards&lt;/b&gt;\n\nand one</pre>" in page
    assert "<title>A title</title>" in page
    assert 'href="../../doc/tree/30_moves.ipynb"' in page
    assert "doc/tree" not in stored_page(notebook, "30_moves.ipynb", is_beside_notebooks=False)


def test_a_drawing_is_an_image_with_its_words_so_that_inner_names_never_meet() -> None:
    notebook = _notebook(*(_code("chart", _shown(SVG, DRAWING, 'The "lane"')) for _ in range(2)))
    page = stored_page(notebook, "30_moves.ipynb", is_beside_notebooks=False)
    assert "clipPath" not in page
    assert page.count(base64.b64encode(DRAWING.encode()).decode()) == 2
    assert page.count("""alt='The "lane"'""") == 2


def test_a_drawing_tells_its_shape_so_that_it_can_fill_a_screen() -> None:
    sized = '<svg xmlns="http://www.w3.org/2000/svg" width="300" height="150" viewBox="0 0 300 150"></svg>'
    for drawing, told in (
        (sized, True),
        (sized.replace("0 0 300 150", "0 0 300 0"), False),
        (DRAWING, False),
    ):
        page = stored_page(_notebook(_code("x", _shown(SVG, drawing))), "a.ipynb", is_beside_notebooks=False)
        assert ("--drawing-ratio:2.000" in page) is told
        assert page.count("coach-drawing") == 1


def test_a_stored_page_has_the_bar_and_chooses_its_look_first() -> None:
    page = stored_page(_notebook(), "30_moves.ipynb", is_beside_notebooks=False)
    assert page.index(shared("page_look.html")) < page.index('rel="stylesheet"') < page.index("<body")
    assert page.count(shared("page_switches.html")) == 1


def test_what_is_stored_is_shown_with_the_names_that_a_person_says() -> None:
    heads = '<th class="c">skid_ft</th><th>strikes</th><th></th>'
    table = f"<table><tr>{heads}</tr><tr><td>solid_1000</td></tr></table>"
    cells = (_code("x", _printed("house_41  27 over 13")), _code("y", _shown("text/html", table)))
    page = stored_page(_notebook(*cells), "30_moves.ipynb", is_beside_notebooks=False)
    for shown in ("house 41  27 over 13", "skid, ft", "<th>strikes</th>", "solid 1000"):
        assert shown in page
    assert "skid_ft" not in page
    assert "solid_1000" not in page


def test_a_panel_that_does_not_run_leaves_nothing() -> None:
    notebook = _notebook(_code("bar", _shown(WIDGET, "gone", "ProgressBar(children=())")))
    assert "ProgressBar" not in stored_page(notebook, "30_moves.ipynb", is_beside_notebooks=False)


def test_a_page_fetches_nothing_from_elsewhere() -> None:
    page = stored_page(_notebook(_code("1 + 1")), "30_moves.ipynb", is_beside_notebooks=True)
    assert "http" not in page


def test_a_page_with_a_panel_is_run_and_keeps_nothing_that_it_once_showed(tmp_path: Path) -> None:
    link = nbformat.v4.new_markdown_cell("See [speed](32a_speed.ipynb).")
    page = _laid(tmp_path, _notebook(link, _code("panel()", _shown(WIDGET, "gone", "a student's name"))))
    assert page.metadata[RUNS] is True
    assert [cell.outputs for cell in page.cells if cell.cell_type == "code"] == [[]]
    assert "(/coach/page/32a_speed.ipynb)" in page.cells[1].source


def test_where_cells_are_marked_live_only_those_run(tmp_path: Path) -> None:
    cells = (
        _code("import coachlib", tag=LIVE),
        _code("slow()", _printed("an hour later")),
        _code("panel()", _shown(WIDGET, "gone"), tag=LIVE),
    )
    page = _laid(tmp_path, _notebook(*cells))
    assert [cell.source for cell in page.cells if cell.cell_type == "code"] == ["import coachlib", "panel()"]
    assert "an hour later" in page.cells[2].source


def test_a_damaged_copy_is_no_page_and_the_others_are_laid(tmp_path: Path) -> None:
    shipped = tmp_path / "shipped"
    shipped.mkdir()
    for name in ("30_moves.ipynb", "32a_speed.ipynb"):
        nbformat.write(_notebook(), shipped / name)
    folders.copy_notebooks(shipped, tmp_path / "live")
    (tmp_path / "live" / "30_moves.ipynb").write_text("{", encoding="utf-8")
    assert [path.name for path in lay_pages(tmp_path / "live").iterdir()] == ["32a_speed.ipynb"]


def test_pages_laid_anew_hold_nothing_of_the_last_ones(tmp_path: Path) -> None:
    _laid(tmp_path, _notebook())
    stray = tmp_path / "live" / "pages" / "a stranger's.ipynb"
    stray.touch()
    lay_pages(tmp_path / "live")
    assert not stray.exists()


@pytest.mark.parametrize("mark", [NOTEBOOK_ONLY, LIVE, FOLDED])
def test_shipped_notebooks_use_the_marks(mark: str) -> None:
    tags = [
        tag
        for path in folders.shipped_notebooks().glob("*.ipynb")
        for cell in nbformat.read(path, as_version=4).cells
        for tag in cell.metadata.get("tags", ())
    ]
    assert mark in tags
    assert set(tags) <= {NOTEBOOK_ONLY, LIVE, FOLDED}


def test_no_shipped_page_speaks_of_cells_kernels_or_imports() -> None:
    """A page has none; the words are for those who opened the notebook."""
    for path in folders.shipped_notebooks().glob("*.ipynb"):
        texts = [
            cell.source
            for cell in as_page(nbformat.read(path, as_version=4)).cells
            if cell.cell_type == "markdown"
        ]
        assert texts
        for word in ("The library's calls", "import ", "kernel"):
            assert [text for text in texts if word in text] == [], f"{path.name}: {word}"


def _folded(text: str) -> Any:
    return nbformat.v4.new_markdown_cell(text, metadata={"tags": [FOLDED]})


def test_theory_is_folded_under_its_heading_with_what_it_shows() -> None:
    cells = [
        _folded("## Why?\n\nA **sum**."),
        _code("secret_call()", _printed("four"), tag=FOLDED),
        _folded("## When not"),
    ]
    page = stored_page(_notebook(*cells), "30_moves.ipynb", is_beside_notebooks=False)
    first, second = page.split("<details")[1:]
    assert "<summary>Why?</summary>" in first
    assert "<strong>sum</strong>" in first
    assert "four" in first.split("</details>")[0]
    assert "<summary>When not</summary>" in second
    assert "secret_call" not in page


def test_a_page_that_runs_folds_too_and_runs_its_panel_alone(tmp_path: Path) -> None:
    panel = _code("Panel()", _shown(WIDGET, "{}"), tag=LIVE)
    page = _laid(
        tmp_path, _notebook(panel, _folded("## Why?\n\nA sum."), _code("x", _printed("four"), tag=FOLDED))
    )
    title, run, fold = page.cells
    assert (title.source, run.source) == ("# A title", "Panel()")
    assert fold.source.startswith('<details class="coach-fold">\n<summary>Why?</summary>\n\nA sum.')
    assert "four" in fold.source
