"""The lane picture that changes while one looks: a scene in, an SVG in the browser out."""

from collections.abc import Mapping
from typing import Any

import anywidget
import traitlets

from coachlib.views.look import shared
from coachlib.views.panels.shared.parts import joined

VIEWS = ("", "whole", "end")


class LanePicture(anywidget.AnyWidget):
    """The lane from above, drawn in the browser from a scene; a new scene redraws it in place.

    Across where there is room, upright below 520 px; light and dark follow the page or notebook. Where
    balls are simulated, the ball of each line can be played along its path in the time it takes. For a screen
    reader it is one picture whose name is the scene's summary; what the ball does is said where it stops.

    Parameters
    ----------
    scene : dict
        As :meth:`show` puts it there: a scene but its oil; an empty one draws nothing.
    oil : dict
        The scene's oil, apart from it because it is large and seldom changes.
    bet : dict
        A bet drawn over the lane, see :mod:`coachlib.views.panels.lesson.lesson_view`; empty for none.
    view : {"", "whole", "end"}
        The whole lane or its last 20 ft; "" takes what was chosen last in this browser.
    is_playable : bool, default True
        Whether a simulated ball can be played; a scene without one has nothing to play.
    """

    _esm = joined(
        "shared/lane_place.js",
        "shared/lane_text.js",
        "shared/lane_balls.js",
        "shared/lane_words.js",
        "shared/lane_bet.js",
        "shared/lane_roll.js",
        "shared/lane_play.js",
        "shared/lane_picture.js",
    )
    _css = shared("look.css") + joined("shared/lane_picture.css")

    scene = traitlets.Dict(help="What to draw, see coachlib.views.lane.scene.").tag(sync=True)
    oil = traitlets.Dict(allow_none=True, default_value=None).tag(sync=True)
    bet = traitlets.Dict().tag(sync=True)
    view = traitlets.Enum(VIEWS, "").tag(sync=True)
    is_playable = traitlets.Bool(True, help="Whether a simulated ball can be played.").tag(sync=True)

    def show(self, scene: Mapping[str, Any]) -> None:
        """Draw a scene; its oil is sent only when it is another one."""
        with self.hold_sync():
            self.oil = scene["oil"]
            self.scene = {name: part for name, part in scene.items() if name != "oil"}
