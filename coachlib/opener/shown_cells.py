"""Which cells of a notebook are needed before its panels are live: all as far as the last panel."""

import copy
from typing import Any

WIDGET = "application/vnd.jupyter.widget-view+json"


def cells_to_run(notebook: Any) -> list[Any]:
    """Return the code cells of a notebook up to the last one that shows a panel; none where none does."""
    cells = [cell for cell in notebook.cells if cell.cell_type == "code"]
    with_panel = [at for at, cell in enumerate(cells) if _shows_panel(cell)]
    return cells[: with_panel[-1] + 1] if with_panel else []


def cut_below_panel(notebook: Any) -> Any:
    """Return a notebook as far as its last panel: what stands below is for reading, not for a page.

    One that shows no panel comes back whole.
    """
    needed = cells_to_run(notebook)
    if not needed:
        return notebook
    cut = copy.copy(notebook)
    last = max(at for at, cell in enumerate(notebook.cells) if cell is needed[-1])
    cut.cells = notebook.cells[: last + 1]
    return cut


def _shows_panel(cell: Any) -> bool:
    return any(WIDGET in output.get("data", {}) for output in cell.outputs)
