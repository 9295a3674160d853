"""Where a simulated ball ends, in words: never a number off the lane.

Geometry: a ball of 8.595 in and a pin of 4.766 in at the belly touch where their centres are 6.6805 in apart;
a board is 41.5 in / 39 (USBC: lane 41 to 42 in wide, 39 boards). Limits of the classes stand in
``world.lane``.
"""

import math
import re

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.coaching.wording.arrival_words import (
    HEAD_PIN_BOARDS,
    IN_GUTTER,
    PAST_HEAD_PIN,
    arrival_text,
    contact_in,
    is_at_head_pin,
)
from coachlib.world.lane import arrival_class


def test_the_head_pin_is_touched_as_far_as_both_radii_reach():
    assert pytest.approx((8.595 / 2 + 4.766 / 2) / (41.5 / 39)) == HEAD_PIN_BOARDS
    assert is_at_head_pin(20.0 + 6.27)
    assert not is_at_head_pin(20.0 + 6.29)
    assert contact_in(20.0) == pytest.approx(6.6805)
    assert contact_in(20.0 + HEAD_PIN_BOARDS) == pytest.approx(0.0, abs=1e-6)
    # the class "out" (misses the head pin) begins where the touch ends
    assert arrival_class(20.0 - HEAD_PIN_BOARDS - 0.05) == "out"
    assert arrival_class(20.0 - HEAD_PIN_BOARDS + 0.05) == "far_light"


@pytest.mark.parametrize(
    ("board", "where"),
    [
        (17.5, "at 17½"),
        (18.2, "at 18"),
        (19.6, "at 19½"),
        (16.6, "at 16½"),
        (59.5, IN_GUTTER),
        (-3.0, IN_GUTTER),
        (math.nan, IN_GUTTER),
        (30.0, PAST_HEAD_PIN),
        (10.0, PAST_HEAD_PIN),
    ],
)
def test_where_it_ends(board, where):
    assert arrival_text(board) == where


@given(st.floats(-200.0, 200.0))
def test_no_number_is_told_beyond_the_head_pin(board):
    numbers = [float(number) for number in re.findall(r"\d+", arrival_text(board))]
    assert all(number <= 26 for number in numbers)
    assert numbers == [] or is_at_head_pin(board)
