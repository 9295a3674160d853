"""One property of a ball after the other, over its usual range."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_sensitivity import RANGES, ball_effects
from coachlib.coaching.simulation.what_if import simulate_lines

SESSION = cl.Session(
    bowler=cl.load_bowler("club_right"),
    line=cl.Line(29, 16),
    ball=cl.load_ball("hybrid_2000"),
    pattern=cl.load_pattern("house_41"),
)


def test_every_property_is_told_the_greatest_first():
    effects = ball_effects(SESSION)
    assert {one.name for one in effects} == set(RANGES)
    sizes = [abs(one.arrival_change_boards) for one in effects]
    assert sizes == sorted(sizes, reverse=True)


def test_an_effect_is_the_difference_of_two_balls():
    effect = next(one for one in ball_effects(SESSION) if one.name.startswith("radius"))
    low, high = (
        simulate_lines(dataclasses.replace(SESSION, ball=dataclasses.replace(SESSION.ball, rg_in=rg_in)))
        for rg_in in (2.60, 2.48)
    )
    assert effect.arrival_change_boards == pytest.approx(
        high.arrival_board[0] - low.arrival_board[0], abs=1e-6
    )
    assert effect.entry_change_deg == pytest.approx(high.entry_deg[0] - low.entry_deg[0], abs=1e-6)


def test_weight_alone_does_not_change_the_path():
    # limiting case: a rigid ball's path hangs on its radius of gyration, not on its mass
    effect = next(one for one in ball_effects(SESSION) if one.name.startswith("weight"))
    assert (effect.arrival_change_boards, effect.skid_change_ft) == (0.0, 0.0)
