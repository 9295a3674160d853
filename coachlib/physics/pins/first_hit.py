"""The first hit: how the ball meets the head pin, by geometry and momentum alone.

A limiting case beside the simulated racks: two discs without friction, seen from above. The head pin leaves
along the line of centres; the ball is turned aside the more, the lighter it is.
"""

import math
from typing import NamedTuple

from coachlib.units import boards_to_in
from coachlib.world.lane import CENTRE_BOARD
from coachlib.world.pins import BALL_TO_PIN_IN

PIN_WEIGHT_LB = 3.5
RESTITUTION = 0.7  # 0.65 to 0.75 is used in models, from memory; no number was found published


class FirstHit(NamedTuple):
    """The head pin's way, the ball's heading after the hit, and how far it was turned outwards; + inside."""

    pin_deg: float
    ball_deg: float
    turned_deg: float


def first_hit(
    arrival_board: float, entry_deg: float, ball_weight_lb: float = 15.0, restitution: float = RESTITUTION
) -> FirstHit | None:
    """Return how a ball meets the head pin; None if it misses it.

    Parameters
    ----------
    arrival_board : float
        Where the ball's path crosses the head-pin plane, own frame. [board]
    entry_deg : float
        Its angle, positive towards the inside. [deg]
    ball_weight_lb : float
        Weight of the ball. [lb]
    restitution : float
        Share of the closing speed kept.

    Notes
    -----
    Assumes: discs at belly height, no friction, no spin. Grade: derived.
    """
    heading = math.radians(entry_deg)
    along, across = math.cos(heading), math.sin(heading)
    offset_in = boards_to_in(arrival_board - CENTRE_BOARD)
    past_in, reach_in = offset_in * along, BALL_TO_PIN_IN  # nearest approach of the two
    if abs(past_in) >= reach_in:
        return None
    to_pin = heading + math.asin(-past_in / reach_in)
    closing = math.cos(to_pin - heading)
    lost = (1.0 + restitution) * PIN_WEIGHT_LB / (ball_weight_lb + PIN_WEIGHT_LB) * closing
    after = math.atan2(across - lost * math.sin(to_pin), along - lost * math.cos(to_pin))
    return FirstHit(*(math.degrees(angle) for angle in (to_pin, after, heading - after)))
