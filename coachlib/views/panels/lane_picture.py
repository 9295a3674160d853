"""The lane picture that changes while one looks: a scene in, an SVG in the browser out."""

from pathlib import Path

import anywidget
import traitlets

_HERE = Path(__file__).parent


class LanePicture(anywidget.AnyWidget):
    """The lane from above, drawn in the browser from a scene; a new scene redraws it in place.

    Across where there is room, upright below 520 px; light and dark follow the notebook. Nothing in it can be
    clicked: for a screen reader it is one picture whose name is the scene's summary.

    Parameters
    ----------
    scene : dict
        As returned by :func:`coachlib.views.scene.lane_scene`; an empty one draws nothing.
    """

    _esm = _HERE / "lane_picture.js"
    _css = _HERE / "lane_picture.css"

    scene = traitlets.Dict(help="What to draw, see coachlib.views.scene.").tag(sync=True)
