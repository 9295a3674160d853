"""What the end of a practice game says, from numbers made up here."""

import pytest

import coachlib as cl
from coachlib.study.game.practice_end import Lost, PracticeEnd, WayPlayed
from coachlib.study.game.practice_words import (
    again_text,
    fell_text,
    kept_text,
    lines_head,
    lines_text,
    lost_text,
    moves_text,
)
from tests.study.game.test_practice_game import game

NAMES = ("you", "never move", "rulebook", "advice", "oracle")
WAYS = tuple(map(WayPlayed, NAMES, (20.8, 18.1, 19.4, 22.0, 25.2), (23, 18, 17, 22, 26), (2,) * 5))


def end(*lost):
    return PracticeEnd(WAYS, lost)


def lost(number, line_prob, better_prob):
    return Lost(number, cl.Line(28.0, 16.0), cl.Line(31.0, 18.5), line_prob, better_prob)


def test_strikes_kept_are_told_for_every_way():
    told = kept_text(end(*(lost(number, 0.3, 0.4) for number in range(36))))
    assert told == (
        "You kept 21 strikes in 36. The others: never moving 18, the rulebook 19, our advice 22, "
        "somebody who sees the oil 25."
    )


def test_the_pins_that_fell_are_told_too():
    assert fell_text(end()).startswith(
        "Strikes that fell: you 23, never moving 18, the rulebook 17, our advice 22, "
        "somebody who sees the oil 26. “Kept”"
    )


def test_the_ball_where_most_was_lost_is_told_with_both_lines():
    told = lost_text(end(lost(1, 0.30, 0.40), lost(2, 0.21, 0.46), lost(3, 0.30, 0.50)))
    assert told == (
        "You lost most on ball 2: feet 28, target 16 was good for 4 strikes in 20 there, "
        "feet 31, target 18½ for 9."
    )


def test_what_the_lines_were_good_for_comes_first_and_what_struck_in_one_plain_sentence():
    told = end(*(lost(number, 0.36, 0.44) for number in range(10)))
    assert lines_head(told) == "Your lines were good for 4 strikes in 10"
    assert lines_text(told) == (
        "The best lines here were good for 4. With the luck of hand and pins you struck 23 times."
    )


def test_nothing_lost_is_said():
    assert lost_text(end(lost(1, 0.30, 0.31))).startswith("On no ball did the best line")


@pytest.mark.parametrize(("n_moves", "words"), [(0, "no move"), (1, "1 move"), (3, "3 moves")])
def test_moves_are_counted_in_words(n_moves, words):
    assert moves_text(WayPlayed("you", 1.0, 1, n_moves)) == words


def test_number_and_choices_are_told_to_play_it_again():
    told = again_text(game(7, bowler=cl.load_bowler("club_left")))
    assert "lane number 7, club left, hybrid 2000, house 41, 2 practice balls and 6 that count" in told
    assert "Everybody gets the same lane" in told
