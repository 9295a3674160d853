"""Pins: names of leaves are checked elsewhere; here the set, its mirror and its gaps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.errors import InputError
from coachlib.world.hand import own_pins
from coachlib.world.pins import ALL_PINS, checked_pins, is_split

LEAVES = st.sets(st.sampled_from(ALL_PINS)).map(tuple)


@pytest.mark.parametrize(
    ("leave", "expected"),
    [
        # teaching examples, common practice, no source: these are called splits, those are not
        ((7, 10), True),
        ((4, 6), True),
        ((5, 7), True),
        ((2, 7), True),
        ((3, 10), True),
        ((8, 10), True),
        ((4, 9), True),
        ((4, 6, 7, 10), True),
        ((2, 4, 5, 8), False),
        ((6, 10), False),
        ((2, 8), False),
        ((5, 6), True),
        ((1, 5), False),
        ((1, 2, 10), False),
        ((10,), False),
        ((), False),
        ((5, 9), False),
    ],
)
def test_splits(leave, expected):
    assert is_split(leave) is expected


@pytest.mark.parametrize("bad", [(0,), (11,), (4, 4), ("4",), (True,), (4.0,)])
def test_pins_that_do_not_exist_or_come_twice(bad):
    with pytest.raises(InputError, match=r"leave holds .*expected"):
        checked_pins(bad)


@given(LEAVES)
def test_mirror_is_its_own_inverse_and_keeps_splits(leave):
    mirrored = own_pins(leave, "left")
    assert own_pins(mirrored, "left") == own_pins(leave, "right") == tuple(sorted(leave))
    assert is_split(mirrored) == is_split(leave)


def test_left_handers_six_is_four_in_the_own_frame():
    assert own_pins((6, 10), "left") == (4, 7)


def test_unknown_hand():
    with pytest.raises(InputError, match="hand is 'both'"):
        own_pins((1,), "both")
