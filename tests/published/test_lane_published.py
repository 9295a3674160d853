"""Lane and pin deck against published measures.

Sources
-------
USBC lane specification as quoted in specification articles on a retailer's coaching pages (second-hand,
seen 2026): 60 ft from foul line to head-pin spot; lane width 41 1/2 in; pins 12 in apart in an equilateral
triangle of 36 in; the 7- and 10-spots 2 1/2 to 3 in from the lane's edge (nominal 2 3/4).
Int. J. Sports Sci. & Coaching, doi 10.1177/17479541241306543: 39 boards; pins between 18.29 m and 19.08 m
from the foul line. Tolerance: half of the last digit printed.
Coordinates of the spots: derived from the triangle alone, to 1e-3 in.
"""

import pytest

from coachlib import units
from coachlib.world import lane
from coachlib.world.pins import pin_board, pin_ft

SPOTS = {  # pin: (x right of centre in, ft from the foul line, board), derived from the 12 in triangle
    1: (0.0, 60.0, 20.0),
    2: (-6.0, 60.8660, 25.639),
    3: (6.0, 60.8660, 14.361),
    4: (-12.0, 61.7321, 31.277),
    5: (0.0, 61.7321, 20.0),
    6: (12.0, 61.7321, 8.723),
    7: (-18.0, 62.5981, 36.916),
    8: (-6.0, 62.5981, 25.639),
    9: (6.0, 62.5981, 14.361),
    10: (18.0, 62.5981, 3.084),
}


@pytest.mark.parametrize("pin", SPOTS)
def test_spots(pin):
    right_in, along_ft, board = SPOTS[pin]
    assert units.boards_to_in(lane.CENTRE_BOARD - pin_board(pin)) == pytest.approx(right_in, abs=1e-3)
    assert pin_ft(pin) == pytest.approx(along_ft, abs=5e-5)
    assert pin_board(pin) == pytest.approx(board, abs=5e-4)


def test_corner_spots_lie_as_far_from_the_edge_as_the_rulebook_prints():
    to_edge_in = units.boards_to_in(pin_board(10) - lane.LOW_EDGE_BOARD)
    assert to_edge_in == pytest.approx(2.75, abs=1e-6)
    assert 2.5 <= to_edge_in <= 3.0


def test_first_and_last_row_in_metres():
    assert round(pin_ft(1) * units.FT_M, 2) == 18.29
    assert round(pin_ft(10) * units.FT_M, 2) == 19.08


def test_board_width():
    assert units.N_BOARDS == 39
    assert units.BOARD_IN == pytest.approx(1.0641, abs=5e-5)
    assert round(units.BOARD_IN, 2) == 1.06


def test_arrows_on_every_fifth_board():
    # seven arrows on boards 5 to 35, 12 to 16 ft beyond the foul line: D. Wiedman, Bowling, 2nd ed.
    assert lane.ARROW_BOARDS == (5, 10, 15, 20, 25, 30, 35)
    assert all(12 <= distance_ft <= 16 for distance_ft in lane.ARROWS_FT)
