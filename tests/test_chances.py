"""Chances of lines: common errors, the truth on a known lane, and the search for the best line."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.levers import fits_problems
from coachlib.physics.friction import grip_of
from coachlib.physics.motion import ground_of
from coachlib.physics.scatter import scattered
from coachlib.study.chances import Surface, best_line, line_chances, lines_about, start_line, strikes_of
from coachlib.study.hidden_bowler import as_said
from coachlib.world.release import release_on_line
from tests.hidden_lanes import BALL, CLUB, FLAT, HOUSE

SHEET = Surface(ground_of(HOUSE, "right"), grip_of(BALL))


def test_same_chance_as_the_library_says_with_its_own_scatter():
    # two ways to one number; laydown errors and one bad ball in 25 make ours a little smaller
    line = cl.Line(28.0, 16.0)
    ours = line_chances([line], as_said(CLUB), BALL, SHEET, 2048)[0]
    thrown = scattered(release_on_line(CLUB, 21.5, 16.0), CLUB, 2048, seed=5)
    path = cl.simulate(thrown, BALL, HOUSE, keep_path=False)
    theirs = np.mean(cl.strike_prob(path.arrival_board, path.entry_deg, path.speed_at_pins_mph, 15.0))
    assert ours == pytest.approx(theirs, abs=0.04)
    assert ours < theirs


def test_one_line_or_many_is_the_same():
    lines = [cl.Line(28.0, 16.0), cl.Line(24.0, 13.0)]
    together = line_chances(lines, as_said(CLUB), BALL, SHEET, 64)
    alone = [line_chances([line], as_said(CLUB), BALL, SHEET, 64)[0] for line in lines]
    np.testing.assert_allclose(together, alone, rtol=1e-12)


def test_other_draws_are_other_errors_and_much_the_same_chance():
    line = cl.Line(28.0, 16.0)
    chances = [line_chances([line], as_said(CLUB), BALL, SHEET, 256, draw=draw)[0] for draw in range(8)]
    assert len(set(chances)) == 8
    assert np.std(chances) < 0.02


def test_gutter_balls_never_strike():
    path = cl.simulate(cl.Release(8.0, [-6.0, 0.0], 19.0, 300.0, 45.0, 13.0), BALL, HOUSE)
    assert path.gutter.tolist() == [True, False]
    assert strikes_of(path, BALL)[0] == 0.0


def test_best_line_finds_the_top_of_a_known_hill():
    lines = lines_about(cl.Line(25.0, 14.0), CLUB, 5, 3)

    def hill(some, _n):
        return np.array([-abs(line.feet_board - 27.0) - abs(line.target_board - 15.0) for line in some])

    assert best_line(lines, hill) == cl.Line(27.0, 15.0)


def test_lines_about_fit_and_hold_the_line_itself():
    line = cl.Line(6.0, 2.0)
    lines = lines_about(line, CLUB, 3, 2)
    assert lines[0] == line
    assert len(set(lines)) == len(lines)
    assert not any(fits_problems(one, CLUB, line) for one in lines[1:])
    assert all(one.target_board >= 1 for one in lines)


def test_the_start_line_beats_its_neighbours_on_the_sheet():
    line = start_line(CLUB, BALL, FLAT)
    surface = Surface(ground_of(FLAT, "right"), grip_of(BALL))
    near = lines_about(line, CLUB, 3, 3)
    chances = line_chances(near, as_said(CLUB), BALL, surface, 256)
    assert chances[0] >= chances.max() - 0.03


def test_no_line_for_a_stance_that_does_not_exist():
    nowhere = dataclasses.replace(CLUB, feet_low_board=1.0, feet_high_board=2.0)
    with pytest.raises(cl.InputError, match=r"expected room for one line on the lane\. Widen"):
        start_line(nowhere, BALL, HOUSE)
