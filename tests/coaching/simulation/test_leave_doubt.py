"""Pins that do not go with the hit: asked after several, never of a leave that coaches know as that hit's.

What leaves what is published in part (see tests/published/test_carry_facts.py); the thresholds are our own.
"""

import pytest

import coachlib as cl
from coachlib.coaching.simulation.leave_doubt import class_chances, leave_doubt
from tests.answers import SESSION


def _after(*shots, hand="right"):
    session = cl.change(SESSION, bowler=cl.Bowler(hand=hand))
    for arrival, leave in shots:
        session = cl.observe(session, cl.Shot(crossed_board=12, arrival=arrival, leave=leave))
    return session


FAR_SIX = ("high", (6,))  # the 4-pin, as a left-hander sees it on the lane


def test_a_leave_against_the_hit_is_asked_about_from_the_second_on():
    assert leave_doubt(_after()) is None
    assert leave_doubt(_after(FAR_SIX)) is None
    assert leave_doubt(_after(FAR_SIX, FAR_SIX)) == ("high", (6,), "crossover", 2)
    assert leave_doubt(_after(FAR_SIX, ("high", (4,)), FAR_SIX)).n_balls == 2
    assert leave_doubt(_after(FAR_SIX, FAR_SIX, ("high", (4,)))) is None, "the last ball is fine"


@pytest.mark.parametrize(
    "shot",
    [
        ("high", (4,)),
        ("high", (4, 9)),
        ("pocket", (10,)),
        ("pocket", (7, 10)),
        ("light", (5,)),
        ("light", (10,)),
        ("light", (2, 4, 5)),
        ("nose", (4, 6, 7, 10)),
        ("crossover", (3, 10)),
        ("out", tuple(range(1, 11))),
        ("pocket", ()),
        ("high", None),
    ],
)
def test_what_goes_together_is_never_asked_about(shot):
    assert leave_doubt(_after(shot, shot, shot)) is None


@pytest.mark.parametrize("shot", [("high", (5,)), ("light", (4, 9)), ("light", (3, 10))])
def test_a_leave_of_the_other_side_is_asked_about(shot):
    assert leave_doubt(_after(shot, shot)).leave == shot[1]


@pytest.mark.parametrize(("hand", "pin"), [("left", "4"), ("right", "6")])
def test_it_is_asked_in_the_pins_of_the_hand(hand, pin):
    said = cl.say(cl.advise(_after(FAR_SIX, FAR_SIX, FAR_SIX, hand=hand), model_on=False))
    assert said.odd == (
        f"You said high three times, but for a {hand}-hander a ball that leaves the {pin}-pin usually "
        "crosses over. Check hit or pins."
    )
    assert said.odd in said.summary


def test_a_lone_four_pin_is_a_high_balls_leave():
    chances = class_chances((4,))
    assert max(chances, key=lambda one: chances[one]) == "high"
