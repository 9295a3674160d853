"""Leaves stand in for an arrival that was not seen."""

import pytest

from coachlib.coaching.session.ball_reading import arrival_class, leave_key
from coachlib.world.shot import Shot


@pytest.mark.parametrize(
    ("leave", "expected"),
    [
        # P. Ridenour (USBC research): the classic 10-pin comes from a pocket hit at about board 16.5
        ((10,), "pocket"),
        # coaching columns: 4-pin is high, next comes 4-9 or 4-6-7-9-10; 3-6-7-10 and 6-7-10 through the nose
        ((4,), "high"),
        ((4, 9), "high"),
        ((3, 6, 7, 10), "nose"),
        ((6, 7, 10), "nose"),
        # bucket and 5-pin light: glossaries; washout thin to very thin: common practice, no source
        ((2, 4, 5, 8), "light"),
        ((5,), "light"),
        ((1, 2, 10), "far_light"),
        ((3, 6, 10), "crossover"),
        ((), "pocket"),
        ((1, 3, 7), None),
    ],
)
def test_what_leaves_tell(leave, expected):
    assert arrival_class(Shot(leave=leave)) == expected


def test_key_is_rising():
    assert leave_key((9, 4)) == "4 9"
    assert leave_key(()) == ""
