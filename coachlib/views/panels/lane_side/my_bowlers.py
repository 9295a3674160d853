"""A plain link from the lane side to the students, wherever the students' panel can be opened live."""

import os

import anywidget
import traitlets

from coachlib.files import read_text
from coachlib.views.panels.shared.scripts import PANELS


class MyBowlers(anywidget.AnyWidget):
    """The link "My bowlers"; a page without the students' panel beside it shows nothing.

    Parameters
    ----------
    is_live : bool
        Whether the notebooks were opened by ``python -m coachlib``, which runs each one that is opened.
    """

    _esm = read_text(PANELS / "lane_side/my_bowlers.js")
    _css = read_text(PANELS / "lane_side/my_bowlers.css")

    is_live = traitlets.Bool().tag(sync=True)

    def __init__(self) -> None:
        super().__init__(is_live=os.environ.get("COACHLIB_LIVE") == "1")
