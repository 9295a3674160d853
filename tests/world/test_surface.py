"""Four words for a surface, and the grits they stand for."""

import pytest

import coachlib as cl
from coachlib.world.ball import resurfaced
from coachlib.world.surface import SURFACES, WORD_GRITS, grit_word, surface_of, with_surface

BALL = cl.load_ball("hybrid_2000")


@pytest.mark.parametrize(
    ("grit", "word"),
    [(180, "coarse"), (999, "coarse"), (1000, "medium"), (2999.0, "medium"), (3000, "fine"), (6000, "fine")],
)
def test_every_grit_that_is_allowed_has_one_word(grit, word):
    assert grit_word(grit) == surface_of(resurfaced(BALL, grit)) == word
    assert surface_of(resurfaced(BALL, grit, is_polished=True)) == "polished"


@pytest.mark.parametrize("word", SURFACES)
def test_a_ball_given_a_word_is_called_by_it(word):
    assert surface_of(with_surface(BALL, word)) == word


def test_a_word_stands_for_a_grit_of_its_own_range():
    assert {word: grit_word(grit) for word, grit in WORD_GRITS.items()} == {
        word: word for word in SURFACES[:3]
    }


def test_a_ball_that_is_called_so_already_keeps_its_grit_and_polish_keeps_the_grit_below():
    assert with_surface(BALL, "medium") is BALL
    assert with_surface(BALL, "polished").grit == BALL.grit


def test_another_word_is_told_with_the_four():
    with pytest.raises(
        cl.InputError, match="surface is 'dull'; expected one of 'coarse', 'medium', 'fine', 'p"
    ):
        with_surface(BALL, "dull")
