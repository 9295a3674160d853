"""A surface in words, and a ball's name on another one."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.wording.surface_words import GRITS_HINT, resurfaced_name, surface_text
from coachlib.world.ball import resurfaced

BALL = cl.load_ball("solid_1000")


def test_the_word_comes_first_and_the_grit_behind_it():
    assert surface_text(BALL) == "medium, 1000 grit"
    assert surface_text(resurfaced(BALL, 360)) == "coarse, 360 grit"
    assert surface_text(cl.load_ball("pearl_polished")) == "polished"


@pytest.mark.parametrize(
    ("name", "grit", "is_polished", "said"),
    [
        ("solid_1000", 4000, False, "solid at 4000 grit"),
        ("pearl_polished", 2000, False, "pearl at 2000 grit"),
        ("hybrid_14lb", 2000, True, "polished hybrid of 14 lb"),
        ("plastic_spare", 500, False, "plastic spare ball at 500 grit"),
    ],
)
def test_a_ball_on_another_surface_has_a_name_a_person_would_say(name, grit, is_polished, said):
    ball = cl.load_ball(name)
    assert resurfaced_name(ball, resurfaced(ball, grit, is_polished)) == said


def test_a_long_name_stays_one_that_a_ball_may_have():
    ball = dataclasses.replace(BALL, name="n" * 60)
    now = resurfaced(ball, 500)
    assert len(dataclasses.replace(now, name=resurfaced_name(ball, now)).name) <= 60


def test_the_hint_says_where_each_word_begins():
    assert GRITS_HINT.startswith("Coarse is under 1000 grit, medium 1000 to 2999, fine 3000 and over")
