"""Chances of lines: common errors, and the truth on a known lane."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.friction import grip_of
from coachlib.physics.motion import ground_of
from coachlib.physics.scatter import scattered
from coachlib.study.hidden_lane.hidden_bowler import as_said, true_chances
from coachlib.study.hidden_lane.hidden_law import Surface
from coachlib.world.release import release_on_line
from tests.hidden_lanes import BALL, CLUB, HOUSE

SHEET = Surface(ground_of(HOUSE, "right"), grip_of(BALL))


def test_same_chance_as_the_library_says_with_its_own_scatter():
    # two ways to one number; laydown errors and one bad ball in 25 make ours a little smaller
    line = cl.Line(28.0, 16.0)
    ours = true_chances([line], as_said(CLUB), BALL, SHEET, 2048)[0]
    thrown = scattered(release_on_line(CLUB, 21.5, 16.0), CLUB, 2048, seed=5)
    path = cl.simulate(thrown, BALL, HOUSE, keep_path=False)
    theirs = np.mean(cl.strike_prob(path.arrival_board, path.entry_deg, path.speed_at_pins_mph, 15.0))
    assert ours == pytest.approx(theirs, abs=0.04)
    assert ours < theirs


def test_one_line_or_many_is_the_same():
    lines = [cl.Line(28.0, 16.0), cl.Line(24.0, 13.0)]
    together = true_chances(lines, as_said(CLUB), BALL, SHEET, 64)
    alone = [true_chances([line], as_said(CLUB), BALL, SHEET, 64)[0] for line in lines]
    np.testing.assert_allclose(together, alone, rtol=1e-12)


def test_other_draws_are_other_errors_and_much_the_same_chance():
    line = cl.Line(28.0, 16.0)
    chances = [true_chances([line], as_said(CLUB), BALL, SHEET, 256, draw=draw)[0] for draw in range(8)]
    assert len(set(chances)) == 8
    assert np.std(chances) < 0.02
