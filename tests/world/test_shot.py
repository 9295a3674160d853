"""What was seen of one ball."""

import numpy as np
import pytest

import coachlib as cl


def test_class_and_board_stand_for_each_other():
    assert cl.Shot(arrival="high").arrival_board == 18.7
    assert cl.Shot(arrival=18.7).arrival_class == "high"
    assert cl.Shot(crossed_board=11).arrival_class is None


def test_strike_is_an_empty_leave_on_a_first_ball():
    assert cl.Shot(leave=()).is_strike
    assert not cl.Shot(leave=(), is_spare=True).is_strike
    assert not cl.Shot(crossed_board=11).is_strike


def test_leave_is_kept_sorted_whatever_it_comes_in():
    assert cl.Shot(leave=(9, 4)) == cl.Shot(leave=[4, 9])
    assert cl.Shot(leave={4, 9}).leave == (4, 9)


def test_one_of_crossing_arrival_leave_is_needed():
    with pytest.raises(cl.InputError, match="crossed_board, arrival and leave are all missing"):
        cl.Shot(motion="early")
    assert cl.Shot(is_spare=True).is_spare


@pytest.mark.parametrize(
    ("field", "value"),
    [
        ("crossed_board", 41),
        ("crossed_board", "eleven"),
        ("arrival", "hi"),
        ("arrival", 45),
        ("arrival", float("nan")),
        ("leave", (11,)),
        ("leave", (4, 4)),
        ("motion", "erly"),
        ("speed_mph", 27.5),
        ("breakpoint_ft", 5),
        ("slide_board", 60),
        ("hit", "loud"),
        ("note", "x" * 2001),
        ("is_spare", "yes"),
    ],
)
def test_every_field_refuses_nonsense_by_name(field, value):
    with pytest.raises(cl.InputError) as caught:
        cl.Shot(**({"crossed_board": 11, "arrival": "high"} | {field: value}))
    assert list(caught.value.fields) == [field]
    assert "expected" in caught.value.fields[field]


@pytest.mark.parametrize(
    ("leave", "text"),
    [
        ("4 9", "leave is '4 9'; expected a list of pins 1 to 10, or () for a strike. Give them as numbers"),
        ((4, "x"), "leave holds x; expected pins 1 to 10. Type the pins left, e.g. 4 9."),
        ((True,), "leave holds True; expected pins 1 to 10."),
    ],
)
def test_a_leave_says_what_it_takes(leave, text):
    with pytest.raises(cl.InputError) as caught:
        cl.Shot(leave=leave)
    assert caught.value.fields["leave"].startswith(text)


def test_pins_from_numpy_are_pins():
    assert cl.Shot(leave=np.array([9, 4])) == cl.Shot(leave=(4, 9))


@pytest.mark.parametrize("arrival", [True, 45, "hi"])
def test_an_arrival_is_a_board_or_a_class(arrival):
    expected = "expected a number from 0 to 40 boards, or one of 'out', .* the pocket is"
    with pytest.raises(cl.InputError, match=rf"arrival is {arrival!r}; {expected}"):
        cl.Shot(arrival=arrival)
