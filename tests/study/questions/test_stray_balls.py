"""How far good balls stray: counts by hand, and limits that need no simulation."""

import dataclasses
import itertools

import numpy as np
import pytest

from coachlib.study.questions.asker import starting_session, usual_learner
from coachlib.study.questions.stray_balls import are_over_target, count_on_side, same_side_prob
from coachlib.study.questions.what_changes import coming_in

BOARDS = np.array([np.nan, 15.0, 16.7, 16.8, 17.5, 18.2, 18.3, 22.0])


def on_pocket(**changes):
    bowler = dataclasses.replace(usual_learner(), **changes)
    return coming_in(starting_session(bowler), 17.5)


@pytest.mark.parametrize(("side", "n"), [("light", 3), ("pocket", 3), ("high", 2)])
def test_balls_are_counted_by_the_limits_of_the_pocket(side, n):
    assert count_on_side(BOARDS, side) == n


def test_balls_over_the_target_are_about_two_of_three_for_a_spread_of_one_board():
    # normal distribution: 68 of 100 within one standard deviation
    assert are_over_target(on_pocket(arrow_sd_boards=1.0)).mean() == pytest.approx(0.68, abs=0.1)


def test_the_more_balls_the_less_luck():
    probs = [same_side_prob(on_pocket(), n) for n in (1, 2, 3, 4)]
    assert probs == sorted(probs, reverse=True)
    assert probs[0] > 0.6
    # at best both sides are alike: half of it for every ball more
    assert all(later >= earlier * 0.499 * probs[0] for earlier, later in itertools.pairwise(probs))


def test_who_hardly_errs_hardly_strays():
    steady = on_pocket(arrow_sd_boards=0.1, speed_sd_mph=0.01, rev_rate_sd_rpm=0.1, axis_rotation_sd_deg=0.1)
    assert same_side_prob(steady, 1) < 0.05
