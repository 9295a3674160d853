"""Pins: names of leaves are checked elsewhere; here the set, its mirror and its gaps."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.errors import InputError
from coachlib.world.hand import own_pins
from coachlib.world.pins import ALL_PINS, checked_pins, is_split, leave_name

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


@pytest.mark.parametrize(
    ("leave", "name"),
    [
        # common practice, no source
        ((), "strike"),
        ((10,), "10-pin"),
        ((8, 2, 5, 4), "bucket 2-4-5-8"),
        ((3, 5, 6, 9), "bucket 3-5-6-9"),
        ((1, 3, 7), "washout 1-3-7"),
        ((3, 10), "baby split 3-10"),
        ((4, 6, 7, 9, 10), "Greek church 4-6-7-9-10"),
        ((4, 6, 7, 8, 10), "Greek church 4-6-7-8-10"),
        ((8, 10), "split 8-10"),
        ((7, 10), "split 7-10"),
        ((3, 9), "double wood 3-9"),
        ((3, 6, 10), "3-6-10"),
    ],
)
def test_names_of_leaves(leave, name):
    assert leave_name(leave) == name


@given(LEAVES)
def test_a_leave_and_its_mirror_image_have_the_same_name(leave):
    words = [leave_name(own_pins(leave, hand)).rpartition(" ")[0] for hand in ("left", "right")]
    assert words[0] == words[1]


def test_a_pin_that_does_not_exist_has_no_name():
    with pytest.raises(InputError, match="leave holds 11; expected pins 1 to 10"):
        leave_name((11,))
