"""Spares against published systems and the geometry behind them.

Sources
-------
"Spares systems", two UK club pages (seen 2026): pins, stance and foul line as 45 : 15 : 30 ft; 3-6-9 from 15
or 12 ft behind the foul line. What an exact system would need follows from the pins' spots: 5.64, 11.28 and
16.92 boards from the centre to the 2, 4 and 7 (derived); stance moves of 3.76, 7.52, 11.28 from 15 ft and
3.38, 6.77, 10.15 from 12 ft, half of the last digit.
Ball of 8.595 in, pin of 4.766 in, lane of 41.5 in: federation specification, quoted second-hand. The window
of a single pin is 12.56 boards, that of a corner pin beside the gutter 8.86 (derived). Tolerance 0.01.
"""

import pytest

import coachlib as cl
from coachlib.coaching.spares.spare_lines import pin_window, stance_for
from coachlib.world.pins import pin_board

STANCE_MOVES = {15.0: (3.76, 7.52, 11.28), 12.0: (3.38, 6.77, 10.15)}


@pytest.mark.parametrize(("pin", "width_boards"), [(5, 12.56), (2, 12.56), (4, 12.56), (7, 8.86), (10, 8.86)])
def test_windows_of_single_pins(pin, width_boards):
    low, high = pin_window(pin)
    # the 4 stands 8.2 boards from the edge: its window is not cut
    assert high - low == pytest.approx(width_boards, abs=0.01)


@pytest.mark.parametrize("stance_ft", [15.0, 12.0])
@pytest.mark.parametrize("number", [0, 1, 2])
def test_stance_moves_over_one_target_to_the_2_4_and_7(stance_ft, number):
    # as printed, all pins taken at 60 ft
    bowler = cl.Bowler(walk="walk", stance_ft=stance_ft)
    pin = (2, 4, 7)[number]
    centre = stance_for(20.0, 60.0, 20.0, bowler)
    moved = stance_for(pin_board(pin), 60.0, 20.0, bowler)
    assert centre - moved == pytest.approx(STANCE_MOVES[stance_ft][number], abs=0.006)


def test_pins_stance_and_foul_line_are_as_printed():
    # 2 boards of stance are 1 at the foul line and 3 at the pins
    bowler = cl.Bowler(walk="walk", stance_ft=15.0)
    assert stance_for(17.0, 60.0, 20.0, bowler) - stance_for(20.0, 60.0, 20.0, bowler) == pytest.approx(2.0)
