"""Who throws."""

import math

import numpy as np
import pytest

import coachlib as cl


def test_everything_but_the_hand_may_be_unknown():
    bowler = cl.Bowler()
    assert bowler.rev_rate_rpm is None
    assert bowler.axis_rotation_deg is None


@pytest.mark.parametrize(
    ("field", "value", "text"),
    [
        ("hand", "both", "expected one of 'right', 'left'"),
        ("speed_mph", 27.5, "expected 8 to 25 mph. If this is km/h, convert it with units.kmh_to_mph."),
        ("rev_rate_rpm", -1, "expected 0 to 700 rpm"),
        ("walk", "run", "expected one of 'slide', 'walk'"),
        ("stance_ft", float("inf"), "expected 3 to 18 ft"),
        ("age_years", "ten", "expected 4 to 110 years"),
        ("pain", 3, "a text of at most 200 letters"),
        ("feet_low_board", 45.0, "feet_low_board is 45; expected at most feet_high_board, 20 boards"),
    ],
)
def test_wrong_values(field, value, text):
    with pytest.raises(cl.InputError) as caught:
        cl.Bowler(**({"feet_high_board": 20} | {field: value}))
    assert text in caught.value.fields[field]


@pytest.mark.parametrize(
    ("slides", "walk"),
    [
        ((14, 19, 24), "slide"),
        ((17, 19.5, 22), "walk"),
        ((14.5, 19, 23.5), "slide"),
        ((18, 20, 22), "walk"),
        ((10, 11.25, 12.5), "walk"),  # the ends of the range are read
        ((10, 16.25, 22.5), "slide"),
    ],
)
def test_walk_test_tells_slope_one_from_one_half(slides, walk):
    assert cl.walk_from_test((20, 25, 30), slides) == walk


@pytest.mark.parametrize("kind", [list, tuple, np.array])
def test_walk_test_takes_any_list(kind):
    assert cl.walk_from_test(kind([20, 25, 30]), kind([14, 19, 24])) == "slide"


@pytest.mark.parametrize(
    ("stances", "slides", "field", "text"),
    [
        (None, (14, 19), "stance_boards", "stance_boards is None; expected a list of boards. Give e.g."),
        (np.array(20), (14, 19), "stance_boards", "stance_boards is 20; expected a list of boards."),
        ((20, 25), "14 19", "slide_boards", "slide_boards is '14 19'; expected a list of boards."),
        ((20, "x"), (14, 19), "stance_boards", "stance_boards is 'x'; expected -5 to 45 boards."),
        ((20, 25), (14, math.nan), "slide_boards", "slide_boards is nan; expected -5 to 45 boards."),
        ((20, 25), (14, 10**400), "slide_boards", "expected -5 to 45 boards."),
        ((20, 25), (14,), "slide_boards", "slide_boards holds 1 for 2 stances"),
        ((20, 20, 20), (14, 14, 14), "slide_boards", "stand on at least two different boards"),
        ((), (), "slide_boards", "stand on at least two different boards"),
        ((20, 25), (14, 14), "slide_boards", "slide_boards by 0.00 boards; we can use 0.25 to 1.25."),
        ((20, 25), (19, 14), "slide_boards", "slide_boards by -1.00 boards; we can use 0.25 to 1.25."),
        ((20, 24), (14, 19.5), "slide_boards", "slide_boards by 1.38 boards; we can use 0.25 to 1.25."),
    ],
)
def test_a_walk_test_that_says_nothing_is_refused(stances, slides, field, text):
    with pytest.raises(cl.InputError) as caught:
        cl.walk_from_test(stances, slides)
    assert text in caught.value.fields[field]


def test_shipped_bowlers():
    bowlers = [cl.load_bowler(name) for name in cl.bowler_names()]
    assert len(bowlers) == 8
    assert {bowler.hand for bowler in bowlers} == {"left", "right"}
    assert {bowler.walk for bowler in bowlers} == {"slide", "walk"}
    assert any(bowler.is_two_handed for bowler in bowlers)
    ages, revs = [bowler.age_years for bowler in bowlers], [bowler.rev_rate_rpm for bowler in bowlers]
    assert min(ages) < 18 < 65 < max(ages)
    assert min(revs) < 200 < 500 < max(revs)
