"""The teacher's panel: choose level, hand and number, look at a paper, save papers, answers and lanes."""

from collections.abc import Mapping, Sequence
from typing import Any

from coachlib.study.questions.worksheet_levels import LEVELS
from coachlib.views.panels.clinic.clinic_order import (
    BLANK,
    FORMS,
    PARTS,
    ClinicOrder,
    clinic_pages,
    folder_of,
    order_from,
    page_preview,
    page_titles,
    save_pages,
)
from coachlib.views.panels.shared.panel import Panel, action
from coachlib.views.panels.shared.parts import Form, script, styled
from coachlib.views.panels.shared.typed import Answers, counted
from coachlib.views.print.page import can_make_pdf


class Clinic(Panel, Form):
    """The form and the preview; as the last line of a notebook cell it shows itself.

    Parameters
    ----------
    typed : dict, optional
        What stands in the form at first, by the names of
        :data:`coachlib.views.panels.clinic.clinic_order.BLANK`.
    """

    _esm = script("clinic/clinic.js")
    _css = styled("shared/style.css", "clinic/clinic.css")

    def __init__(self, typed: Answers | None = None) -> None:
        super().__init__(typed={**BLANK, **(typed or {})}, look=clinic_view())
        self.listen_to(self)
        self.preview(self.typed)

    @action()
    def preview(self, typed: Answers) -> None:
        """Show what is to be looked at before it is saved."""
        order = self._order(typed)
        self.look = clinic_view(page_preview(order, self.typed["part"]), pages=self.look.get("pages", []))

    @action()
    def save(self, typed: Answers) -> None:
        """Save papers, answers and lane paper."""
        order, folder = self._order(typed), folder_of(typed)
        papers = counted(order.n_papers, "paper")
        self.look = {**self.look, "status": f"Making {papers} …", "pages": []}
        pages = clinic_pages(order)
        files = save_pages(pages, folder, order.sheet)
        status = f"Saved {papers}, the answers and lane paper: {len(files)} files in {folder}"
        links = list(zip(page_titles(order), pages.values(), strict=True))
        self.look = clinic_view(page_preview(order, self.typed["part"]), status, links)

    def show_errors(self, place: str, errors: Mapping[str, str]) -> None:
        """Show what is wrong under its field, and take back the links to earlier papers."""
        super().show_errors(place, errors)
        if errors:
            self.look = {**self.look, "status": "", "pages": []}

    def _order(self, typed: Answers) -> ClinicOrder:
        self.typed = {**BLANK, **typed}
        return order_from(self.typed)


def clinic_view(page: str = "", status: str = "", pages: Sequence[Sequence[str]] = ()) -> dict[str, Any]:
    """Return how the panel looks: the HTML `page` to look at, and the saved `pages` as title and HTML."""
    return {
        "levels": [[level.name, level.title] for level in LEVELS.values()],
        "about": {level.name: list(level.about) for level in LEVELS.values()},
        "parts": [list(part) for part in PARTS.items()],
        "forms": [list(form) for form in FORMS.items() if form[0] == "html" or can_make_pdf()],
        "page": page,
        "status": status,
        "pages": [list(one) for one in pages],
    }
