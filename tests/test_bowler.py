"""Who throws."""

import pytest

import coachlib as cl


def test_everything_but_the_hand_may_be_unknown():
    bowler = cl.Bowler()
    assert bowler.rev_rate_rpm is None
    assert bowler.axis_rotation_deg is None


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("hand", "both", "expected one of 'right', 'left'"),
        ("speed_mph", 27.5, "expected 8 to 25 mph. If this is km/h, convert it with units.kmh_to_mph."),
        ("rev_rate_rpm", -1, "expected 0 to 700 rpm"),
        ("walk", "run", "expected one of 'slide', 'walk'"),
        ("stance_ft", float("inf"), "expected 3 to 18 ft"),
        ("age_years", "ten", "expected 4 to 110 years"),
        ("pain", 3, "a text of at most 200 letters"),
    ],
)
def test_wrong_values(field, value, said):
    with pytest.raises(cl.InputError) as caught:
        cl.Bowler(**{field: value})
    assert said in caught.value.fields[field]


def test_stance_limits_in_order():
    with pytest.raises(
        cl.InputError, match="feet_low_board is 30; expected at most feet_high_board, 20 boards"
    ):
        cl.Bowler(feet_low_board=30, feet_high_board=20)


@pytest.mark.parametrize(
    ("slides", "walk"),
    [((14, 19, 24), "slide"), ((17, 19.5, 22), "walk"), ((14.5, 19, 23.5), "slide"), ((18, 20, 22), "walk")],
)
def test_walk_test_tells_slope_one_from_one_half(slides, walk):
    assert cl.walk_from_test((20, 25, 30), slides) == walk


@pytest.mark.parametrize(("stances", "slides"), [((20, 25), (14,)), ((20, 20, 20), (14, 14, 14)), ((), ())])
def test_walk_test_needs_two_stances(stances, slides):
    with pytest.raises(cl.InputError, match="at least two different stances"):
        cl.walk_from_test(stances, slides)
