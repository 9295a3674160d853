"""The ball-change plan: what is held, when it changes, and what wears the lane."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_plan import CHANGE_PROB, STEP_GAMES, _step, ball_plan
from coachlib.coaching.simulation.line_search import BestLine

BOWLER = cl.load_bowler("two_handed_right")
DULL = dataclasses.replace(cl.load_ball("solid_1000"), name="dull", grit=500.0)
SMOOTH = cl.load_ball("pearl_polished")
LINE = cl.Line(36, 21)


def worth(dull, smooth):
    return {DULL: BestLine(LINE, dull), SMOOTH: BestLine(LINE, smooth)}


def test_a_ball_is_held_until_another_is_clearly_better():
    assert _step(1.0, worth(0.40, 0.42), DULL).ball == DULL
    changed = _step(1.0, worth(0.40, 0.40 + CHANGE_PROB + 0.01), DULL)
    assert (changed.ball, changed.is_change, changed.kept_prob) == (SMOOTH, True, 0.40)


def test_the_start_is_no_change_and_of_equals_the_first_of_the_bag():
    first = _step(0.0, worth(0.40, 0.41), None)
    assert (first.ball, first.is_change) == (DULL, False)
    assert _step(0.0, worth(0.30, 0.41), None).ball == SMOOTH


def test_a_ball_that_is_no_longer_known_is_changed():
    step = _step(1.0, {SMOOTH: BestLine(LINE, 0.4)}, DULL)
    assert (step.ball, step.is_change) == (SMOOTH, True)


def test_a_plan_has_a_step_every_half_game_and_follows_the_lane():
    told = []
    steps = ball_plan(
        BOWLER, [DULL, SMOOTH], cl.load_pattern("house_41"), 1.0, progress=lambda *n: told.append(n)
    )
    assert [step.games for step in steps] == [0.0, STEP_GAMES, 1.0]
    assert told == [(1, 3), (2, 3), (3, 3)]
    assert steps[0].ball == SMOOTH  # the dull one burns up
    assert all(0.2 < step.strike_prob < 0.8 for step in steps)


def test_what_is_asked_must_be_what_it_says():
    with pytest.raises(cl.InputError, match="at least 1 ball"):
        ball_plan(BOWLER, [], cl.load_pattern("house_41"))
    with pytest.raises(cl.InputError, match="n_games is 0"):
        ball_plan(BOWLER, [DULL], cl.load_pattern("house_41"), 0)
    with pytest.raises(cl.InputError, match="expected an OilPattern"):
        ball_plan(BOWLER, [DULL], "house_41")
