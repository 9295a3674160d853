"""Checks and messages: what, the value, what is allowed with its unit, what to do."""

import math

import numpy as np
import pytest

from coachlib.errors import InputError, checked_choice, checked_number, checked_thing, shown


class Lamp:
    """A thing to be asked for."""


class Apron:
    """Another, with a vowel."""


@pytest.mark.parametrize("value", [8, 25.0, np.float64(17.5), np.int64(9)])
def test_number_in_range_comes_back_as_float(value):
    assert checked_number("speed_mph", value, 8, 25, "mph") == float(value)


@pytest.mark.parametrize("value", [7.99, 25.01, math.nan, math.inf, "17", True, None, 10**400])
def test_anything_else_is_refused_with_four_parts(value):
    with pytest.raises(
        InputError, match=r"^speed_mph is .*; expected 8 to 25 mph\. Ask for mph\.$"
    ) as caught:
        checked_number("speed_mph", value, 8, 25, "mph", "Ask for mph.")
    assert list(caught.value.fields) == ["speed_mph"]


def test_unknown_name_lists_the_valid_ones():
    with pytest.raises(InputError, match="hand is 'lft'; expected one of 'right', 'left'"):
        checked_choice("hand", "lft", ("right", "left"))


def test_long_values_are_cut_in_messages():
    assert len(shown("x" * 10_000)) < 45


def test_a_number_too_long_for_python_to_write_is_told_all_the_same():
    with pytest.raises(InputError, match=r"^speed_mph is a number too long to show; expected 8 to 25 mph\."):
        checked_number("speed_mph", 10**5000, 8, 25, "mph")


def test_a_thing_of_the_right_kind_comes_back():
    value = [1]
    assert checked_thing("shots", value, list) is value


@pytest.mark.parametrize(
    ("kind", "fix", "text"),
    [
        (Lamp, "", "lamp is 'x'; expected a Lamp. Make one with Lamp(…)."),
        (Apron, "Sew one.", "lamp is 'x'; expected an Apron. Sew one."),
    ],
)
def test_another_thing_is_refused_with_four_parts(kind, fix, text):
    with pytest.raises(InputError) as caught:
        checked_thing("lamp", "x", kind, fix)
    assert (str(caught.value), caught.value.fields) == (text, {"lamp": text})
