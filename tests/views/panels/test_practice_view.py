"""What the practice panel shows: only what an eye saw, turned for the hand, and the end of the game.

Our own promises (no outside source).
"""

import copy
import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.game.true_balls import true_balls
from coachlib.study.hidden_lane.hidden_bowler import N_ERRORS
from coachlib.views.panels.practice.practice_view import (
    balls_view,
    end_view,
    headline_seen,
    practice_scene,
    seen_view,
    start_view,
    throw_view,
    waiting_view,
)
from coachlib.views.panels.shared.trend import trend_view
from tests.hidden_lanes import HOUSE
from tests.study.game.test_practice_end import ended
from tests.study.game.test_practice_game import OTHER_LINE, finished, game

LEFT = cl.load_bowler("club_left")


@pytest.mark.parametrize(
    ("shot", "hand", "words"),
    [
        (cl.Shot(arrival="high", leave=(4, 9)), "right", "High, pins 4 9"),
        (cl.Shot(arrival="high", leave=(4, 9)), "left", "High, pins 6 8"),
        (cl.Shot(arrival="far_light", leave=()), "right", "Very light, all down"),
        (cl.Shot(arrival="crossover", leave=(5,)), "left", "Across, pins 5"),
        (cl.Shot(arrival=17.5), "right", "Hit board 17½"),
        (cl.Shot(leave=(10,)), "left", "Pins 7"),
        (cl.Shot(crossed_board=12), "right", "Nobody saw hit or pins"),
    ],
)
def test_the_headline_says_arrival_and_pins_as_the_bowler_sees_them(shot, hand, words):
    assert headline_seen(shot, hand) == words


def test_before_the_first_ball_the_line_stands_there():
    look = seen_view(game())
    assert look["headline"] == "Feet 27, target 13"
    assert "2 practice balls, then 6 count" in look["why"]


def test_the_first_decision_after_practice_is_announced():
    one = game()
    for is_big in (False, True, False):
        one.throw()
        assert ("your biggest one" in seen_view(one)["big"]) is is_big
        assert bool(seen_view(one)["big"]) is is_big


STRUCK, LEFT_TEN = cl.Shot(arrival="pocket", leave=()), cl.Shot(leave=(10,))
NOT_SEEN = cl.Shot(arrival="high")


@pytest.mark.parametrize(
    ("shots", "words"),
    [
        ([STRUCK, STRUCK, LEFT_TEN], "Of the last 3 balls 2 struck."),
        ([LEFT_TEN, LEFT_TEN], "Of the last 2 balls none struck."),
        ([STRUCK, LEFT_TEN, NOT_SEEN], "You saw the pins of 2 of the last 3 balls: 1 struck."),
        ([LEFT_TEN] * 2 + [NOT_SEEN], "You saw the pins of 2 of the last 3 balls: none struck."),
        ([NOT_SEEN, NOT_SEEN], "Nobody saw the pins of the last 2 balls."),
    ],
)
def test_strikes_are_counted_among_the_balls_whose_pins_were_seen(shots, words):
    one = game()
    for shot in shots:
        one.session = cl.observe(one.session, shot)
    assert seen_view(one, len(shots))["why"] == words
    assert seen_view(one, 1)["why"] == ""


@pytest.mark.parametrize(
    ("n_thrown", "title", "n_many", "many_text"),
    [
        (0, "Practice ball 1 of 2", 2, "Throw 2, the rest of practice"),
        (1, "Practice ball 2 of 2", 0, ""),
        (2, "Ball 3 of 14", 10, "Throw ten"),
        (5, "Ball 6 of 14", 9, "Throw the last 9"),
        (13, "Ball 14 of 14", 0, ""),
    ],
)
def test_the_next_throw_says_which_ball_it_is_and_how_many_may_be_thrown(n_thrown, title, n_many, many_text):
    one = game(n_scored=12)
    for _ in range(n_thrown):
        one.throw()
    look = throw_view(one)
    assert (look["title"], look["n_many"], look["n_thrown"]) == (title, n_many, n_thrown)
    assert look["many_text"] == many_text or not n_many
    assert not look["is_over"]


def _all_shown(one):
    looks = [seen_view(one, 3), throw_view(one), balls_view(one), practice_scene(one)]
    return [*looks, start_view(one, {}, False), trend_view(one.session)]


def test_what_is_shown_during_the_game_does_not_hang_on_the_truth():
    one = game(8)
    one.throw(2)
    one.move(OTHER_LINE)
    one.throw(3)
    other = copy.copy(one)  # the same balls seen, another lane and other chances behind them
    other._world = game(9).fresh_lane()
    other._throws = tuple(
        dataclasses.replace(thrown, struck=not thrown.struck, strike_prob=1.0 - thrown.strike_prob)
        for thrown in one._throws
    )
    assert _all_shown(one) == _all_shown(other)
    assert practice_scene(game(8))["oil"] == practice_scene(game(9))["oil"]  # the sheet, whatever lies there


def test_the_lane_shows_the_line_changed_to_beside_the_one_thrown():
    one = game()
    assert practice_scene(one)["advised"] is None
    one.throw()
    one.move(OTHER_LINE)
    scene = practice_scene(one)
    assert (scene["played"]["feet_board"], scene["advised"]["feet_board"]) == (27.0, OTHER_LINE.feet_board)
    assert scene["played"]["path"] is None


def test_the_table_has_every_ball_newest_first_with_practice_marked():
    one = game(bowler=LEFT, pattern=HOUSE)
    one.throw(2)
    one.throw(3)
    rows = balls_view(one)["rows"]
    assert [row["number"] for row in rows] == [5, 4, 3, 2, 1]
    assert [row["is_practice"] for row in rows] == [False, False, False, True, True]
    assert rows[0]["line"] == "27, 13"


def test_the_end_has_a_row_for_each_way_and_says_all_of_it():
    one = finished(game(8))
    end = ended(one)
    look = end_view(one, end)
    names = ["You", "Never moving", "The rulebook", "Our advice", "Somebody who sees the oil"]
    assert [row["name"] for row in look["rows"]] == names
    assert [row["is_you"] for row in look["rows"]] == [True, False, False, False, False]
    assert look["rows"][0]["kept_frac"] == pytest.approx(end.ways[0].kept / 6, abs=1e-4)
    worth = sum(one.line_prob for one in end.lost)
    assert look["headline"] == f"Your lines were good for {worth:.0f} strikes in 6"
    assert look["sentence"].startswith("The best lines here were good for ")
    assert "you struck " in look["sentence"]
    told = dict(look["tells"])
    assert "lane number 8" in told["The same lane again"]
    assert "promises no strikes" in told["How far to trust it"]
    assert look["summary"].startswith("Your lines were good for ")


def test_while_the_end_is_worked_out_that_is_said():
    assert waiting_view(finished(game()))["headline"] == "The same balls, played other ways"


def test_the_bar_names_who_plays_what():
    assert (
        start_view(game(9), {}, False)["line"]
        == "club bowler, right-handed · house pattern, 41 ft · lane number 9"
    )
    assert start_view(None, {"club_left": LEFT}, True)["bowlers"] == [
        ["club_left", "club bowler, left-handed"]
    ]


def test_the_real_lane_is_drawn_only_when_the_game_is_over():
    one = game()
    one.throw(2)
    with pytest.raises(cl.InputError, match="6 balls left; expected the end of the game"):
        true_balls(one)
    over = finished(game())
    paths, scene = true_balls(over), practice_scene(over)
    assert (scene["source"], scene["advised"]) == ("hidden", None)
    assert scene["played"]["path"]["meant_board"] == pytest.approx(paths.meant_board, abs=0.00501)
    assert scene["played"]["path"]["rolling"]["time_s"][-1] == pytest.approx(paths.path.time_s[0], abs=0.001)
    assert "not on balls seen" not in scene["note"]
    assert scene["note"] in scene["summary"]


def test_the_real_lane_is_the_one_the_balls_were_thrown_on():
    # without error, on the lane as the last ball left it: the judge's own throw
    over = finished(game(8))
    lane, line = over.lane_at_end, over.session.shots[-1].line
    release = lane.hidden.bowler.releases([line], np.zeros((1, N_ERRORS)), lane.n_thrown)
    arrival = lane.surface().roll(release, over.ball).arrival_board[0]
    assert true_balls(over).arrival_board == pytest.approx(arrival, abs=1e-9)
    assert true_balls(over).arrival_board != pytest.approx(
        true_balls(finished(game(9))).arrival_board, abs=0.5
    )
