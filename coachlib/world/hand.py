"""Left and right: the only place where what is seen is turned into the own frame, and back.

Boards are already counted from the bowler's own side by everybody at the lane, so only three things turn:
pins (numbered alike for both hands), whatever is measured from the lane's right edge, and left or right
themselves. Every turn is its own inverse.
"""

from collections.abc import Iterable
from typing import Literal, get_args

from coachlib.errors import checked_choice
from coachlib.world.pins import MIRROR_PIN, checked_pins

Hand = Literal["right", "left"]
HANDS: tuple[Hand, ...] = get_args(Hand)
Side = Literal["left", "right"]


def checked_hand(hand: object) -> Hand:
    """Return `hand`, or raise an error that lists the two."""
    return checked_choice("hand", hand, HANDS)  # type: ignore[return-value]


def own_pins(pins: Iterable[int], hand: Hand) -> tuple[int, ...]:
    """Return pins as numbered on the lane in the own frame, or back again.

    Parameters
    ----------
    pins : iterable of int
        Pin numbers 1 to 10.
    hand : {"right", "left"}
        For ``"left"`` each pin is mirrored (6 becomes 4, 10 becomes 7).

    Returns
    -------
    tuple of int
        Sorted.

    Raises
    ------
    InputError
        For a pin that does not exist, a pin given twice, or an unknown hand.
    """
    standing = checked_pins(pins)
    if checked_hand(hand) == "left":
        standing = tuple(sorted(MIRROR_PIN[pin] for pin in standing))
    return standing


def inside_side(hand: Hand) -> Side:
    """Return the side, seen from behind the bowler, that lies inside: left for a right-hander."""
    return "left" if checked_hand(hand) == "right" else "right"


def outside_side(hand: Hand) -> Side:
    """Return the side of the bowling hand."""
    return checked_hand(hand)
