"""A change in one line: what it is, what it is worth beside staying, and on how many lanes."""

import pytest

import coachlib as cl
from coachlib.coaching.advice.change_values import Worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.wording.changes_words import worth_line

LINE = cl.Line(26, 13)


def told(move, strike=0.40, stay=0.30, better=0.62):
    return Worth(move, LINE, strike / DISPLAY_FACTOR, stay / DISPLAY_FACTOR, better)


def test_a_change_is_said_with_both_chances_and_the_lanes():
    line = worth_line(told(cl.Move(speed_mph=0.5)), "right")
    assert line == "Half a mph faster: about 8 strikes in 20, up from 6. Better on 6 in 10 likely lanes."


@pytest.mark.parametrize(("hand", "side"), [("right", "left"), ("left", "right")])
def test_sides_are_the_bowler_s(hand, side):
    line = worth_line(told(cl.Move(feet_boards=2, target_boards=1)), hand, "solid_1000")
    assert line.startswith(f"solid_1000, 2 and 1 {side}: about 8 strikes in 20")
    assert worth_line(told(cl.Move()), hand, "solid_1000").startswith("solid_1000: about 8 strikes in 20")


def test_a_difference_less_than_the_noise_is_called_about_the_same():
    turned = cl.Move(rotation_deg=-10)
    assert worth_line(told(turned, 0.40, 0.385), "right").endswith(
        ": about the same as now, 8 strikes in 20."
    )
    assert worth_line(told(turned, 0.43, 0.42), "right").endswith(": about the same as now, 8 strikes in 20.")
    assert "the same" not in worth_line(told(turned, 0.43, 0.38), "right")
