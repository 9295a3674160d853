"""Turning what is measured from the lane's right edge into the own frame."""

import numpy as np
import pytest

from coachlib.world.hand import inside_side, outside_side, own_boards


def test_boards_from_the_right_edge():
    boards = np.array([1.0, 17.5, 39.0])
    assert own_boards(boards, "right").tolist() == [1.0, 17.5, 39.0]
    assert own_boards(boards, "left").tolist() == [39.0, 22.5, 1.0]


@pytest.mark.parametrize(
    ("hand", "inside", "outside"), [("right", "left", "right"), ("left", "right", "left")]
)
def test_sides(hand, inside, outside):
    assert (inside_side(hand), outside_side(hand)) == (inside, outside)
