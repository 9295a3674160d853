"""The frame and the arrival classes."""

import pytest

from coachlib.world import lane


@pytest.mark.parametrize(
    ("board", "expected"),
    [
        (13.69, "out"),
        (13.7, "far_light"),
        (15.09, "far_light"),
        (15.1, "light"),
        (16.79, "light"),
        (16.8, "pocket"),
        (18.2, "pocket"),
        (18.21, "high"),
        (19.2, "high"),
        (20.8, "nose"),
        (20.81, "crossover"),
    ],
)
def test_class_limits(board, expected):
    assert lane.arrival_class(board) == expected


@pytest.mark.parametrize("name", lane.ARRIVAL_CLASSES)
def test_a_class_is_stood_for_by_a_board_inside_it(name):
    assert lane.arrival_class(lane.arrival_class_board(name)) == name


def test_lane_is_symmetric_about_its_centre():
    assert lane.LOW_EDGE_BOARD + lane.HIGH_EDGE_BOARD == 2 * lane.CENTRE_BOARD
    assert [40 - board for board in reversed(lane.ARROW_BOARDS)] == list(lane.ARROW_BOARDS)
    assert [40 - board for board in reversed(lane.DOT_BOARDS)] == list(lane.DOT_BOARDS)
