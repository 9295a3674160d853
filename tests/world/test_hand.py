"""Turning what is measured from the lane's right edge into the own frame."""

import numpy as np
import pytest

from coachlib.errors import InputError
from coachlib.world.hand import inside_side, outside_side, own_pins


@pytest.mark.parametrize(
    ("hand", "inside", "outside"), [("right", "left", "right"), ("left", "right", "left")]
)
def test_sides(hand, inside, outside):
    assert (inside_side(hand), outside_side(hand)) == (inside, outside)


def test_left_handers_six_is_four_in_the_own_frame():
    assert own_pins((6, 10), "left") == own_pins(np.array([6, 10]), "left") == (4, 7)


def test_unknown_hand():
    with pytest.raises(InputError, match="hand is 'both'"):
        own_pins((1,), "both")


@pytest.mark.parametrize("pins", [None, 3, "49", np.array(3)])
def test_own_pins_need_a_list(pins):
    with pytest.raises(InputError, match=r"expected a list of pins 1 to 10"):
        own_pins(pins, "left")
