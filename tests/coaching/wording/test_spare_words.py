"""Sentences for the pins left: boards for feet and target in every one, sides and pins as the bowler sees."""

import itertools
import re

import pytest

import coachlib as cl
from coachlib.coaching.wording.spare_words import FEET_END
from coachlib.world.hand import own_pins
from coachlib.world.pins import ALL_PINS

BOARDS = re.compile(r"^Feet [\d½]+, target [\d½]+")


def spare_said(pins, hand="right", arrival=None, **fields):
    """Return what is said of pins as numbered on the lane."""
    session = cl.Session(bowler=cl.Bowler(hand=hand, **fields), line=cl.Line(22, 11))
    shot = cl.Shot(leave=own_pins(pins, hand), arrival=arrival)
    return cl.say(cl.advise(cl.observe(session, shot), model_on=False)).spare


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("walk", ["slide", "walk"])
def test_every_leave_has_boards_for_feet_and_target(hand, walk):
    some = [leave for n in (1, 2, 3) for leave in itertools.combinations(ALL_PINS, n)]
    assert len(some) == 175
    for leave in [*some[::3], (4, 6, 7, 10), (1, 2, 4, 10), ALL_PINS]:
        said = spare_said(leave, hand, "out" if leave == ALL_PINS else None, walk=walk)
        assert BOARDS.match(said), (leave, said)
        assert "{" not in said


@pytest.mark.parametrize(
    ("pins", "hand", "start"),
    [
        ((10,), "right", "Feet 31, target 20, straight at the 10-pin."),
        ((7,), "left", "Feet 31, target 20, straight at the 7-pin."),
        ((7,), "right", "Feet 22, target 20, straight at the 7-pin."),
        ((10,), "left", "Feet 22, target 20, straight at the 10-pin."),
        ((2, 8), "right", "Feet 19½, target 11 with the strike ball, at the 2-pin."),
        ((3, 9), "left", "Feet 19½, target 11 with the strike ball, at the 3-pin."),
    ],
)
def test_the_line_comes_first(pins, hand, start):
    assert spare_said(pins, hand).startswith(start)


@pytest.mark.parametrize(
    ("pins", "words"),
    [
        ((4, 5), "at the gap between the 4 and the 5"),
        ((3, 10), "at the gap between the 3 and the 10"),
        ((3, 9, 10), "at the gap between the 3 and the 10"),
        ((5, 10), "thin on the left of the 5-pin, so that it slides to the 10-pin"),
        ((5, 7), "thin on the right of the 5-pin, so that it slides to the 7-pin"),
        ((1, 2, 10), "on the left of the head pin, so that it slides to the 10-pin"),
        ((1, 2, 4, 10), "on the left of the head pin, so that it slides to the 10-pin"),
        ((1, 3, 7), "on the right of the head pin, so that it slides to the 7-pin"),
    ],
)
@pytest.mark.parametrize("hand", ["right", "left"])
def test_pins_that_can_be_made_have_a_line_and_no_sure_pin(pins, words, hand):
    said = spare_said(pins, hand)
    assert words in said
    assert "sure pin" not in said
    assert "front pin, on the side that sends" not in said


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_big_four_gets_take_two_and_the_far_corners_one(hand):
    assert "Take two" in spare_said((4, 6, 7, 10), hand)
    assert "sure pin" in spare_said((7, 10), hand)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_a_full_rack_is_the_strike_line_again_and_has_no_key_pin(hand):
    said = spare_said(ALL_PINS, hand, "out")
    assert said.startswith("Feet 22, target 11, the strike line again.")
    assert "front pin" not in said


def test_feet_without_room_are_told():
    assert FEET_END in spare_said((10,), walk="walk", feet_high_board=30.0)
    assert FEET_END not in spare_said((10,), walk="walk")


def test_with_pain_no_flatter_release_is_named():
    session = cl.Session(bowler=cl.Bowler(pain="wrist"), line=cl.Line(22, 11), goes_on_with_pain=True)
    session = cl.observe(session, cl.Shot(leave=(4,)))
    assert "release" not in cl.say(cl.advise(session, model_on=False)).spare
