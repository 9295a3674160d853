"""The levers of feet and eyes against published rules and straight geometry.

Sources
-------
"Spares systems", two UK club pages (seen 2026): a stance move of 2 boards gives 1 at the foul line and 3 at
the pins; the 3-6-9 and 2-4-6 systems, walked from 15 or 12 ft behind the foul line.
B. Learn Jr., USBC coaching tip "Approach position", and a coaching magazine, "Fundamentals of target line
adjustments" (20 Mar 2017): 1-and-1, 2-and-1 and 3-and-2 by name; pivots at 30 and 45 ft when feet and
slide move together. All numbers of the table: similar triangles, derived; tolerance half of the last digit
given.
"""

import math

import pytest

import coachlib as cl
from coachlib.units import ft_to_boards
from coachlib.world.levers import aim_lever

INF = math.inf
# feet, eyes: angle deg | slide: at 40, 45, 60 ft, pivot | walk from 15 ft: slide board, at 60 ft, pivot
TABLE = [
    (1, 0, -0.339, -1.67, -2, -3, 15, 0.5, -1.5, 15),
    (0, 1, 0.339, 2.67, 3, 4, 0, 0.5, 2.5, -15),
    (1, 1, 0, 1, 1, 1, INF, 1, 1, INF),
    (2, 2, 0, 2, 2, 2, INF, 2, 2, INF),
    (2, 1, -0.339, -0.67, -1, -2, 30, 1.5, -0.5, 45),
    (3, 1, -0.677, -2.33, -3, -5, 22.5, 2, -2, 30),
    (3, 2, -0.339, 0.33, 0, -1, 45, 2.5, 0.5, 75),
    (4, 2, -0.677, -1.33, -2, -4, 30, 3, -1, 45),
    (4, 3, -0.339, 1.33, 1, 0, 60, 3.5, 1.5, 105),
    (5, 2, -1.016, -3, -4, -7, 25, 3.5, -2.5, 35),
    (5, 3, -0.677, -0.33, -1, -3, 37.5, 4, 0, 60),
    (7, 3, -1.355, -3.67, -5, -9, 26.25, 5, -3, 37.5),
    (10, 4, -2.031, -6, -8, -14, 25, 7, -5, 35),
]


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]}-{row[1]}")
def test_slide_model(row):
    move = cl.Move(row[0], row[1])
    turned = (move.target_boards - cl.line_shift_boards(move, 0.0)) / ft_to_boards(15.0)
    assert math.degrees(math.atan(turned)) == pytest.approx(row[2], abs=6e-4)
    shifts = [cl.line_shift_boards(move, at_ft=at_ft, walk="slide") for at_ft in (40, 45, 60)]
    assert shifts == pytest.approx(row[3:6], abs=5e-3)
    assert cl.pivot_ft(move, walk="slide") == pytest.approx(row[6], abs=1e-9)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]}-{row[1]}")
def test_walk_model(row):
    move = cl.Move(row[0], row[1])
    shifts = [cl.line_shift_boards(move, at_ft=at_ft, walk="walk", stance_ft=15) for at_ft in (0, 60)]
    assert shifts == pytest.approx(row[7:9], abs=1e-9)
    assert cl.pivot_ft(move, walk="walk", stance_ft=15) == pytest.approx(row[9], abs=1e-9)


@pytest.mark.parametrize("row", TABLE, ids=lambda row: f"{row[0]}-{row[1]}")
@pytest.mark.parametrize("walk", ["slide", "walk"])
def test_nothing_moves_at_the_pivot(row, walk):
    move = cl.Move(row[0], row[1])
    at_ft = cl.pivot_ft(move, walk=walk)
    if -20 <= at_ft <= 63:
        assert cl.line_shift_boards(move, at_ft=at_ft, walk=walk) == pytest.approx(0, abs=1e-9)
    else:
        assert abs(at_ft) > 63


def test_three_one_two():
    # UK club pages: 3 at the pins, 1 at the foul line, for 2 in the stance
    move = cl.Move(feet_boards=2)
    assert cl.line_shift_boards(move, at_ft=0, walk="walk") == 1
    assert cl.line_shift_boards(move, at_ft=60, walk="walk") == -3


@pytest.mark.parametrize(("stance_ft", "expected"), [(15, (4.5, 9, 13.5)), (12, (5, 10, 15))])
def test_three_six_nine_falls_short_of_the_pins(stance_ft, expected):
    got = [-cl.line_shift_boards(cl.Move(feet_boards=feet), 60, "walk", 15, stance_ft) for feet in (3, 6, 9)]
    assert got == pytest.approx(expected, abs=1e-9)
    slid = [-cl.line_shift_boards(cl.Move(feet_boards=feet), 60, "slide") for feet in (3, 6, 9)]
    assert slid == [9, 18, 27]


@pytest.mark.parametrize(("stance_ft", "expected"), [(15, (5, 10, 15)), (12, (16 / 3, 32 / 3, 16))])
def test_two_four_six_with_the_eyes(stance_ft, expected):
    got = [cl.line_shift_boards(cl.Move(target_boards=eyes), 60, "walk", 15, stance_ft) for eyes in (2, 4, 6)]
    assert got == pytest.approx(expected, abs=1e-9)


@pytest.mark.parametrize(
    ("target_ft", "at_60", "pivot"),
    [(12.5, -2.80, 25.0), (13.6, -2.41, 27.2), (14.6, -2.11, 29.2), (15.7, -1.82, 31.4)],
)
def test_two_and_one_over_staggered_arrows(target_ft, at_60, pivot):
    move = cl.Move(2, 1)
    assert cl.line_shift_boards(move, 60, "slide", target_ft) == pytest.approx(at_60, abs=5e-3)
    assert cl.pivot_ft(move, "slide", target_ft) == pytest.approx(pivot, abs=5e-2)


@pytest.mark.parametrize(("target_ft", "lever"), [(7.5, 8), (12, 5), (15, 4), (30, 2), (40, 1.5)])
def test_aim_lever(target_ft, lever):
    assert aim_lever(target_ft) == pytest.approx(lever)


def test_dpins_is_four_eyes_less_three_laydown():
    # straight-line lever over arrows at 15 ft: shift at 60 ft = 4 dA - 3 dL
    for feet in range(-5, 6):
        for eyes in range(-5, 6):
            assert cl.line_shift_boards(cl.Move(feet, eyes), 60.0) == pytest.approx(4 * eyes - 3 * feet)
