"""From the forms of the practice panel to a game and a line: what is read, and what is refused.

Our own promises (common practice of forms, no outside source).
"""

import pytest

import coachlib as cl
from coachlib.views.panels.practice.practice_form import (
    COUNTS,
    game_from,
    known_bowlers,
    line_and_ball,
    start_answers,
    throw_answers,
)

OWN = cl.Bowler(name="Ilta", hand="left")
FORM = {
    "bowler": "club_left",
    "ball": "solid_1000",
    "pattern": "flat_42",
    "lane_number": "12",
    "n_scored": "24",
}


def test_a_filled_form_is_that_game():
    game = game_from(FORM, known_bowlers(None))
    assert (game.bowler, game.ball) == (cl.load_bowler("club_left"), cl.load_ball("solid_1000"))
    assert (game.pattern, game.seed) == (cl.load_pattern("flat_42"), 12)
    assert (game.n_practice, game.n_scored) == (4, 24)


def test_the_form_as_proposed_starts_a_game():
    bowlers = known_bowlers(None)
    game = game_from(start_answers(bowlers, 5), bowlers)
    assert (game.seed, game.n_scored) == (5, 36)
    assert str(game.n_scored) in COUNTS


@pytest.mark.parametrize(("name", "listed"), [("Ilta", "Ilta"), ("", "you")])
def test_a_bowlers_own_stands_first(name, listed):
    own = cl.Bowler(name=name, hand="left")
    bowlers = known_bowlers(own)
    assert next(iter(bowlers)) == listed
    assert game_from({**FORM, "bowler": listed}, bowlers).bowler == own
    assert set(cl.bowler_names()) < set(bowlers)


@pytest.mark.parametrize("number", ["", "1.5", "-1", "seven", "1000000", "9" * 400, "²"])
def test_a_lane_number_that_is_none_is_told(number):
    told = r"Lane number: type a whole number, 0 to 999,999, (not “.*”|the field is empty)\. The same"
    with pytest.raises(cl.InputError, match=told) as caught:
        game_from({**FORM, "lane_number": number}, known_bowlers(None))
    assert set(caught.value.fields) == {"lane_number"}


def test_all_wrong_fields_are_told_at_once():
    wrong = {"bowler": "nobody", "ball": "", "pattern": "", "lane_number": "x", "n_scored": "13"}
    with pytest.raises(cl.InputError, match=r"Ball: choose one of the list\. Nothing is chosen") as caught:
        game_from(wrong, known_bowlers(None))
    assert set(caught.value.fields) == set(wrong)


def test_line_and_ball_are_read_as_people_write_them():
    line, ball = line_and_ball({"feet": "27½", "target": "15", "ball": "pearl_polished"})
    assert (line, ball) == (cl.Line(27.5, 15.0), cl.load_ball("pearl_polished"))


@pytest.mark.parametrize(
    ("typed", "text"),
    [
        ({"feet": ""}, "Feet: type a number, -5 to 45 boards. The field is empty."),
        ({"target": "45"}, "Target: type 1 to 39 boards, not 45."),
        ({"feet": "left"}, "Feet: type a number such as 12 or 12½, -5 to 45 boards, not “left”."),
        ({"ball": "none"}, "Ball: choose one of hybrid_2000"),
    ],
)
def test_a_line_that_is_none_is_told_at_its_field(typed, text):
    with pytest.raises(cl.InputError, match=text) as error:
        line_and_ball({"feet": "27", "target": "15", "ball": "hybrid_2000", **typed})
    assert set(error.value.fields) == set(typed)


def test_what_is_held_fills_the_form_and_is_read_back():
    game = game_from(FORM, known_bowlers(None))
    game.move(cl.Line(26.5, 15.0))
    assert line_and_ball(throw_answers(game)) == (cl.Line(26.5, 15.0), game.ball)
