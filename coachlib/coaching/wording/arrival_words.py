"""How a ball comes in, in words: the classes of arrival, and where a simulated ball ends.

No number is ever told off the lane. A simulated path goes on beside the lane and past the pins, because that
keeps its numbers smooth. A person sees a ball in the gutter, or one that passes the head pin.
"""

import math
from typing import NamedTuple

from coachlib.units import BOARD_IN, boards_to_in
from coachlib.world.lane import CENTRE_BOARD, HIGH_EDGE_BOARD, LOW_EDGE_BOARD, ArrivalClass
from coachlib.world.parsing import board_text
from coachlib.world.pins import BALL_TO_PIN_IN

HEAD_PIN_BOARDS = BALL_TO_PIN_IN / BOARD_IN
"""A ball whose centre passes farther than this from the head pin's does not touch it [boards]."""

IN_GUTTER, PAST_HEAD_PIN = "in the gutter", "past the head pin"
NEAR_POCKET_BOARDS = 0.75


class ArrivalWords(NamedTuple):
    """A class of arrival: a short word, its name read aloud, what the ball did and what it does."""

    short: str
    name: str
    did: str
    does: str


ARRIVAL_WORDS: dict[ArrivalClass, ArrivalWords] = {
    "past": ArrivalWords("past", "past the head pin", "went past the head pin", "goes past the head pin"),
    "crossover": ArrivalWords("across", "across, past the nose", "crossed over", "crosses over"),
    "nose": ArrivalWords("nose", "nose", "went through the nose", "goes through the nose"),
    "high": ArrivalWords("high", "high", "came in high", "comes in high"),
    "pocket": ArrivalWords("pocket", "pocket", "hit the pocket", "hits the pocket"),
    "light": ArrivalWords("light", "light", "came in light", "comes in light"),
    "far_light": ArrivalWords("very light", "very light", "came in very light", "comes in very light"),
    "out": ArrivalWords("missed", "missed the head pin", "missed the head pin", "misses the head pin"),
}
"""From the far side to the own one."""


def arrival_text(arrival_board: float) -> str:
    """Return where a ball ends by its board at the head-pin plane; NaN, or off the lane, is in the gutter.

    ``at 17½``, ``past the head pin`` or ``in the gutter``.
    """
    if is_at_head_pin(arrival_board):
        return f"at {half_text(arrival_board)}"
    return PAST_HEAD_PIN if LOW_EDGE_BOARD <= arrival_board <= HIGH_EDGE_BOARD else IN_GUTTER


def is_at_head_pin(arrival_board: float) -> bool:
    """Return whether a ball that arrives there touches the head pin."""
    return math.isfinite(arrival_board) and abs(arrival_board - CENTRE_BOARD) <= HEAD_PIN_BOARDS


def contact_in(arrival_board: float) -> float:
    """Return how many inches before the head pin's centre the ball's is when the two first touch [in]."""
    across_in = boards_to_in(arrival_board - CENTRE_BOARD)
    return math.sqrt(max(0.0, BALL_TO_PIN_IN**2 - across_in**2))


def half_text(board: float) -> str:
    """Return a simulated board to the half that can be told apart: ``17½``."""
    return board_text(round(2 * board) / 2)
