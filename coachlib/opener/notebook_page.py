"""A notebook as a page: what stays out, what is run for whoever opens it, and what is shown as it is stored.

Two marks (tags) on a cell decide. Without them a page is the notebook without its code.
"""

import base64
import copy
import html
import itertools
import re
import shutil
from functools import cache
from pathlib import Path
from typing import Any, Final

import nbformat
from nbconvert import HTMLExporter

from coachlib.coaching.wording.names import short_name
from coachlib.opener.folder import laid_names
from coachlib.views.print.page import filled, own_markup
from coachlib.world.ball import ball_names
from coachlib.world.bowler import bowler_names
from coachlib.world.oil import pattern_names

PAGES: Final = "pages"
NOTEBOOK_ONLY: Final = "notebook-only"
"""A cell that a page leaves out: worked examples by plain calls and what stands around them."""
LIVE: Final = "live"
"""A cell that a page runs. Where no cell bears it, all run; else the others show what they stored."""
FOLDED: Final = "folded"
"""Cells in a row that a page folds away under the heading of the first: theory, tables, limits."""
RUNS: Final = "coach_page_runs"
"""Stands in the metadata of a laid page that has to be run."""
SVG: Final = "image/svg+xml"
WIDGET: Final = "application/vnd.jupyter.widget-view+json"
_COLUMNS = re.compile(r"\S {2,}\S.*\n.*\S {2,}\S")
_CODE_HEAD = re.compile(r"(<th[^>]*>)([a-z]+(?:_[a-z0-9]+)+)</th>")
UNITS: Final = ("ft", "in", "board", "boards", "deg", "mph", "rpm", "pct", "lb")
_SIZE = re.compile(r'\s*<svg[^>]*\sviewBox="[\d.]+ [\d.]+ ([\d.]+) ([\d.]*[1-9][\d.]*)"')
_LINE_END = re.compile(r"\n\s*")
_LINK = re.compile(r"\]\((\d\d[a-z]?_\w+\.ipynb)\)")
Notebook = nbformat.NotebookNode


def lay_pages(folder: Path) -> Path:
    """Lay every notebook of a working folder as a page into a folder of its own, and return that folder.

    Nothing but pages can be opened there.
    """
    pages = folder / PAGES
    if pages.is_dir():
        shutil.rmtree(pages)
    pages.mkdir(parents=True)
    for name in sorted(laid_names(folder)):
        notebook = read_notebook(folder / name)
        if notebook is not None:
            page = as_page(notebook)
            nbformat.write(_to_run(page) if cells_to_run(page) else page, pages / name)
    return pages


def read_notebook(path: Path) -> Any:
    """Return a notebook, or None for a file that is none."""
    try:
        return nbformat.read(path, as_version=4)
    except Exception:  # whatever stands in it: nbformat raises many kinds
        return None


def cells_to_run(notebook: Any) -> list[Any]:
    """Return the code cells of a notebook up to the last one that shows a panel; none where none does."""
    cells = [cell for cell in notebook.cells if cell.cell_type == "code"]
    with_panel = [at for at, cell in enumerate(cells) if _shows_panel(cell)]
    return cells[: with_panel[-1] + 1] if with_panel else []


def as_page(notebook: Notebook) -> Notebook:
    """Return a notebook without the cells that only a notebook needs; the one given stays as it is."""
    page = copy.deepcopy(notebook)
    page.cells = [cell for cell in page.cells if NOTEBOOK_ONLY not in _tags(cell)]
    return page


def stored_page(page: Notebook, name: str, *, is_beside_notebooks: bool) -> str:
    """Return a page as HTML, as it is stored: at once, with no program behind it.

    Parameters
    ----------
    page : NotebookNode
        Its texts and outputs; code is not shown.
    name : str
        Its file name.
    is_beside_notebooks : bool
        Whether the same thing can be opened as a notebook here.

    Returns
    -------
    str
        For the address ``coach/page/NAME``.
    """
    still = copy.deepcopy(page)
    still.cells = _with_folds([_still(cell) for cell in still.cells])
    exporter = HTMLExporter(template_name="basic", exclude_input_prompt=True)
    body, _ = exporter.from_notebook_node(still)
    title = next(iter(re.findall(r"^# (.+)$", still.cells[0].source, re.MULTILINE)), name)
    beside = f"../../doc/tree/{name}" if is_beside_notebooks else ""
    return filled("stored_page.html", title=title, body=own_markup(body), beside=beside)


def _to_run(page: Notebook) -> Notebook:
    """Return a page ready to be run; its links lead to where all pages are found."""
    page.metadata[RUNS] = True
    has_live = any(LIVE in _tags(cell) for cell in page.cells)
    page.cells = [_still(cell) if has_live and LIVE not in _tags(cell) else cell for cell in page.cells]
    page.cells = _with_folds(page.cells)
    for cell in page.cells:
        if cell.cell_type == "markdown":
            cell.source = _LINK.sub(r"](/coach/page/\1)", cell.source)
        elif cell.cell_type == "code":
            cell.outputs, cell.execution_count = [], None
    return page


def _still(cell: Any) -> Any:
    """Return a cell of code as a text that shows what it stored; any other cell as it is."""
    if cell.cell_type != "code":
        return cell
    shown = "\n\n".join(filter(None, (_shown(output) for output in cell.outputs)))
    return nbformat.v4.new_markdown_cell(shown, id=cell.get("id"), metadata={"tags": list(_tags(cell))})


def _with_folds(cells: list[Any]) -> list[Any]:
    """Return the cells with each row of folded ones as one text that opens at its heading."""
    shown = []
    for is_folded, group in itertools.groupby(cells, _is_folded):
        row = list(group)
        shown += [_fold(part) for part in _at_headings(row)] if is_folded else row
    return shown


def _is_folded(cell: Any) -> bool:
    return cell.cell_type == "markdown" and FOLDED in _tags(cell)


def _at_headings(cells: list[Any]) -> list[list[Any]]:
    """Return a row of cells cut before each one that begins with a heading."""
    parts: list[list[Any]] = []
    for cell in cells:
        if not parts or cell.source.startswith("## "):
            parts.append([])
        parts[-1].append(cell)
    return parts


def _fold(cells: list[Any]) -> Any:
    """Return some cells as one that is closed at first; its heading is what opens it."""
    head, _, rest = cells[0].source.partition("\n")
    title = html.escape(head.removeprefix("## ").strip())
    body = "\n\n".join([rest.strip(), *(cell.source for cell in cells[1:])])
    text = f'<details class="coach-fold">\n<summary>{title}</summary>\n\n{body}\n\n</details>'
    return nbformat.v4.new_markdown_cell(text, id=cells[0].get("id"))


def _shown(output: Any) -> str:
    """Return an output as HTML. A drawing becomes an image: its inner names must not meet another's."""
    if output.output_type == "stream":
        return _said(_with_said_names("".join(output.text)))
    data = output.get("data", {})
    if WIDGET in data:  # it lives in a notebook alone
        return ""
    words = "".join(data.get("text/plain", ""))
    if SVG in data:
        drawing = "".join(data[SVG])
        packed, alt = base64.b64encode(drawing.encode()).decode("ascii"), html.escape(words, quote=True)
        return f'<img class="coach-drawing"{_ratio(drawing)} src="data:{SVG};base64,{packed}" alt="{alt}">'
    if "text/html" in data:
        table = _with_said_names(_LINE_END.sub("", "".join(data["text/html"])))
        table = _CODE_HEAD.sub(_said_head, table)
        table = table.replace("<th></th>", "<td></td>")  # the corner of a table is no heading
        return f'<div class="coach-table" tabindex="0">{table}</div>'
    return _said(words) if words else ""


def _ratio(drawing: str) -> str:
    """Return how many times a drawing is as wide as high, for the style rules; nothing if it does not say."""
    size = _SIZE.match(drawing)
    return f' style="--drawing-ratio:{float(size[1]) / float(size[2]):.3f}"' if size else ""


def _said(text: str) -> str:
    """Return printed words; in one line of source, so that a blank one does not end the HTML in Markdown."""
    kind = "coach-columns" if _COLUMNS.search(text) else "coach-said"
    return f'<pre class="{kind}" tabindex="0">{html.escape(text.rstrip())}</pre>'.replace("\n", "&#10;")


def _shows_panel(cell: Any) -> bool:
    return any(WIDGET in output.get("data", {}) for output in cell.outputs)


def _with_said_names(text: str) -> str:
    """Return a text with invented things as a person says them; no letter moves: columns stay in line."""
    return re.sub("|".join(_names()), lambda hit: short_name(hit.group()), text)


@cache
def _names() -> tuple[str, ...]:
    return tuple(rf"\b{name}\b" for name in (*ball_names(), *bowler_names(), *pattern_names()))


def _said_head(head: re.Match[str]) -> str:
    """Return the head of a column or row without underscores, its unit behind a comma."""
    words = head.group(2).split("_")
    unit = f", {words.pop()}" if words[-1] in UNITS else ""
    return f"{head.group(1)}{' '.join(words)}{unit}</th>"


def _tags(cell: Any) -> tuple[str, ...]:
    return tuple(cell.metadata.get("tags", ()))
