"""The others on a hidden lane: they find the pocket and wear the lane where they roll."""

import dataclasses

import numpy as np

from coachlib.study.hidden_lane.hidden_bowler import N_ERRORS
from coachlib.study.hidden_lane.hidden_law import HiddenLaw, hidden_surface
from coachlib.study.hidden_lane.hidden_oil import FOOT_BOARDS, OilDifference, hidden_film_um
from coachlib.study.hidden_lane.other_bowlers import USUAL_BALL, _lines, drawn_others, passes_of_others
from tests.hidden_lanes import FLAT

FILM_UM = hidden_film_um(FLAT, "right", OilDifference())
LAW = HiddenLaw("mixed", 2.2, 0.47)
OTHERS = tuple(
    dataclasses.replace(other, is_across=False) for other in drawn_others(np.random.default_rng(4), 4)
)


def test_they_aim_at_the_pocket():
    surface = hidden_surface(FILM_UM, USUAL_BALL, LAW)
    for other, line in zip(OTHERS, _lines(list(OTHERS), surface), strict=True):
        path = surface.roll(other.bowler.releases([line], np.zeros((1, N_ERRORS))), USUAL_BALL)
        assert abs(path.arrival_board[0] - 17.5) < 2.0


def test_each_passes_once_over_every_row():
    passes = passes_of_others(OTHERS, FILM_UM, LAW)
    np.testing.assert_allclose(passes[:100].sum(axis=1), len(OTHERS) * FOOT_BOARDS, rtol=0.1)
    assert (passes[:, 35:] == 0.0).all()


def test_who_plays_the_other_side_wears_the_other_side():
    across = tuple(dataclasses.replace(other, is_across=True) for other in OTHERS)
    there, here = passes_of_others(across, FILM_UM[:, ::-1], LAW), passes_of_others(OTHERS, FILM_UM, LAW)
    np.testing.assert_array_equal(there, here[:, ::-1])


def test_nobody_wears_nothing():
    assert passes_of_others((), FILM_UM, LAW).sum() == 0.0


def test_most_play_on_the_same_side():
    sides = [other.is_across for seed in range(60) for other in drawn_others(np.random.default_rng(seed), 3)]
    assert 0.1 < np.mean(sides) < 0.3
