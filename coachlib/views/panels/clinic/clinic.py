"""The teacher's panel: choose level, hand and number, look at a paper, save papers, answers and lanes."""

from typing import Any

import anywidget
import traitlets

from coachlib.errors import DataFileError, InputError
from coachlib.study.questions.worksheet_levels import LEVELS
from coachlib.views.panels.clinic.clinic_order import (
    BLANK,
    FORMS,
    PARTS,
    clinic_pages,
    folder_of,
    order_from,
    page_preview,
    save_pages,
)
from coachlib.views.panels.shared.scripts import script, styled
from coachlib.views.panels.shared.typed import Answers


class Clinic(anywidget.AnyWidget):
    """The form and the preview; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    typed : dict, optional
        What stands in the form at first, by the names of
        :data:`coachlib.views.panels.clinic.clinic_order.BLANK`.
    """

    _esm = script("clinic/clinic.js")
    _css = styled("shared/style.css", "clinic/clinic.css")

    look = traitlets.Dict().tag(sync=True)
    typed = traitlets.Dict().tag(sync=True)
    errors = traitlets.Dict().tag(sync=True)

    is_strict = False
    """Whether what goes wrong is raised after it was told; for tests."""

    def __init__(self, typed: Answers | None = None) -> None:
        super().__init__(typed={**BLANK, **(typed or {})}, look=clinic_look())
        self.on_msg(lambda _widget, message, _buffers: self.handle(message))
        self.handle({"do": "preview", "typed": self.typed})

    def handle(self, message: dict[str, Any]) -> None:
        """Do what the page asks for; what goes wrong is told under its field and changes nothing."""
        typed = {**BLANK, **message.get("typed", {})}
        self.typed, self.errors = typed, {}
        try:
            if message.get("do") == "save":
                self._save(typed)
            else:
                page = page_preview(order_from(typed), typed["part"])
                self.look = clinic_look(page, pages=self.look.get("pages", {}))
        except (InputError, DataFileError) as error:
            self.look = {**self.look, "status": ""}
            self.errors = dict(getattr(error, "fields", {})) or {"form": str(error)}
            if self.is_strict:
                raise

    def _save(self, typed: Answers) -> None:
        order, folder = order_from(typed), folder_of(typed)
        self.look = {**self.look, "status": f"Making {_papers(order.n_papers)} …"}
        pages = clinic_pages(order)
        files = save_pages(pages, folder, order.sheet)
        status = (
            f"Saved {_papers(order.n_papers)}, the answers and lane paper: {len(files)} files in {folder}"
        )
        self.look = clinic_look(page_preview(order, typed["part"]), status, pages)


def clinic_look(page: str = "", status: str = "", pages: dict[str, str] | None = None) -> dict[str, Any]:
    """Return how the panel looks.

    Parameters
    ----------
    page : str
        The HTML text to be looked at.
    status : str
        What was saved where.
    pages : dict of str to str, optional
        What was made, by name, to be opened from the page and printed.
    """
    return {
        "levels": [[level.name, level.title] for level in LEVELS.values()],
        "about": {level.name: list(level.about) for level in LEVELS.values()},
        "parts": [list(part) for part in PARTS.items()],
        "forms": [list(form) for form in FORMS.items()],
        "page": page,
        "status": status,
        "pages": pages or {},
    }


def _papers(n_papers: int) -> str:
    return "1 paper" if n_papers == 1 else f"{n_papers} papers"
