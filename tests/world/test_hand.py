"""Turning what is measured from the lane's right edge into the own frame."""

import pytest

from coachlib.world.hand import inside_side, outside_side


@pytest.mark.parametrize(
    ("hand", "inside", "outside"), [("right", "left", "right"), ("left", "right", "left")]
)
def test_sides(hand, inside, outside):
    assert (inside_side(hand), outside_side(hand)) == (inside, outside)
