"""The first hit against a worked table, and what must hold for any hit.

Limiting case, derived from stated geometry and mechanics only: ball 15 lb on pin 3.5 lb, discs without
friction, first contact on board 17.5.
"""

import math

import pytest

from coachlib.physics.pins.first_hit import first_hit
from coachlib.units import BOARD_IN

CONTACT_IN = 6.128  # the ball's centre in front of the head-pin spot at first contact on board 17.5


def arrival(contact_board, entry_deg):
    """Return the board on the head-pin plane of a ball that first touches the pin on a board near 17.5."""
    return contact_board + CONTACT_IN * math.tan(math.radians(entry_deg)) / BOARD_IN


@pytest.mark.parametrize(
    ("restitution", "entry_deg", "heading_deg"),
    [(0.7, 0, -9.15), (0.7, 2, -6.63), (0.7, 4, -4.05), (0.7, 6, -1.42), (0.7, 8, 1.28), (0.6, 6, -0.82),
     (0.8, 6, -2.04)],
)  # fmt: skip
def test_the_ball_heads_where_the_worked_table_says(restitution, entry_deg, heading_deg):
    hit = first_hit(arrival(17.5, entry_deg), entry_deg, 15.0, restitution)
    assert hit.pin_deg == pytest.approx(23.47, abs=0.01)
    assert hit.ball_deg == pytest.approx(heading_deg, abs=0.01)
    assert hit.turned_deg == pytest.approx(entry_deg - heading_deg, abs=0.01)


@pytest.mark.parametrize(("board", "pin_deg"), [(17.0, 28.55), (17.5, 23.47), (18.0, 18.58), (19.0, 9.17)])
def test_the_pin_leaves_along_the_line_of_centres(board, pin_deg):
    assert first_hit(board, 0.0).pin_deg == pytest.approx(pin_deg, abs=0.01)


@pytest.mark.parametrize(("weight_lb", "turned_deg"), [(10, 11.90), (12, 9.59), (14, 8.02), (16, 6.90)])
def test_a_lighter_ball_is_turned_aside_more(weight_lb, turned_deg):
    assert first_hit(arrival(17.5, 6), 6.0, weight_lb).turned_deg == pytest.approx(turned_deg, abs=0.01)


def test_mirror_full_hit_and_miss():
    inside, outside = first_hit(21.0, -3.0), first_hit(19.0, 3.0)
    assert inside == pytest.approx([-angle for angle in outside])
    assert first_hit(20.0, 0.0) == pytest.approx((0.0, 0.0, 0.0), abs=1e-12)
    assert first_hit(20.0 - 6.28, 0.0) is None  # 6.278 boards: the sum of the radii
    assert first_hit(20.0 - 6.27, 0.0) is not None
