"""The form for what was seen of one ball, and how it looks for a hand and a line."""

import math
from typing import Any

import traitlets

from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.units import boards_to_in
from coachlib.views.panels.shared.form import GUTTER, HIT_WORDS, HITS, MOTIONS
from coachlib.views.panels.shared.parts import Form, joined
from coachlib.world.hand import Hand, inside_side
from coachlib.world.lane import ARRIVAL_CLASSES, ARROW_BOARDS, CENTRE_BOARD, arrival_class_board
from coachlib.world.pins import BALL_TO_PIN_IN

GUTTER_IN = (8.6, 6.5)
"""Where the tile of a gutter ball draws it, beside and before the head pin (no place on the lane). [in]"""

MOTION_WORDS = {"skid_long": "skids long", "over_hook": "over-hooks", "roll_out": "rolls out"}


class Entry(Form):
    """The form, see :func:`entry_view`.

    Parameters
    ----------
    stale : bool
        Whether the ball in the form was read already: the next first tap clears it.
    more_open : bool
        Whether the drawer "More" stands open.
    """

    _esm = joined("shared/parts.js", "lane_side/spare_ball.js", "lane_side/entry.js")

    stale = traitlets.Bool().tag(sync=True)
    more_open = traitlets.Bool().tag(sync=True)


def entry_view(
    session: Session,
    speed_unit: str = "mph",
    correcting: int | None = None,
    spare: dict[str, Any] | None = None,
    can_ask_spare: bool = False,
) -> dict[str, Any]:
    """Return how the form looks: the next ball, or one being corrected on the line it was thrown on.

    Parameters
    ----------
    correcting : int or None
        The earlier ball in the form.
    spare : dict or None
        What is asked of the spare ball, see :func:`coachlib.views.panels.lane_side.spare_ball.spare_view`; it
        takes the place of the form.
    can_ask_spare : bool
        Whether the pins just left were passed over, so that one may come back to them.
    """
    setting = session.setting if correcting is None else session.shots[correcting - 1].setting
    return {
        "ball": len(session.shots) + 1,
        "lane": setting.lane,
        "correcting": correcting,
        "spare": spare if correcting is None else None,
        "can_ask_spare": can_ask_spare,
        "target_board": setting.line.target_board,
        "target_ft": setting.line.target_ft,
        "inside_side": inside_side(setting.bowler.hand),
        "arrows": list(ARROW_BOARDS),
        "arrivals": arrival_tiles(setting.bowler.hand),
        "motions": [[name, MOTION_WORDS.get(name, name)] for name in MOTIONS],
        "hits": [[name, HIT_WORDS[name]] for name in HITS],
        "speed_unit": speed_unit,
    }


def arrival_tiles(hand: Hand) -> list[dict[str, Any]]:
    """Return the arrival classes from left to right as seen from behind, each ball beside the head pin."""
    to_right = -1.0 if inside_side(hand) == "left" else 1.0
    tiles = []
    for key in ARRIVAL_CLASSES:
        across_in = boards_to_in(arrival_class_board(key) - CENTRE_BOARD)
        along_in = math.sqrt(max(BALL_TO_PIN_IN**2 - across_in**2, 4.0))
        word, name, *_ = ARRIVAL_WORDS[key]
        place = {"across_in": round(to_right * across_in, 2), "along_in": round(along_in, 2)}
        tiles.append({"key": key, "word": word, "name": name, **place})
    gutter = {"across_in": round(-to_right * GUTTER_IN[0], 2), "along_in": GUTTER_IN[1]}
    tiles.append({"key": GUTTER, "word": "gutter", "name": "gutter ball, all ten stand", **gutter})
    return sorted(tiles, key=lambda tile: tile["across_in"])
