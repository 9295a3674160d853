"""The hidden bowler: true means near what was said, errors by a ball's number, tired in the end; chances."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.friction import grip_of
from coachlib.physics.motion import ground_of
from coachlib.physics.scatter import scattered
from coachlib.study.hidden_lane.hidden_bowler import (
    BAD_FRAC,
    N_ERRORS,
    as_said,
    ball_errors,
    drawn_bowler,
    even_errors,
    true_chances,
)
from coachlib.study.hidden_lane.hidden_law import Surface
from coachlib.study.seasons.judge import N_DRAWS
from coachlib.units import ft_to_boards
from coachlib.world.levers import laydown_board
from coachlib.world.release import release_on_line
from tests.hidden_lanes import BALL, CLUB, HOUSE

ZERO = np.zeros((1, N_ERRORS))
LINES = [cl.Line(28.0, 16.0), cl.Line(20.0, 12.0, 12.0)]
SHEET = Surface(ground_of(HOUSE, "right"), grip_of(BALL))
WALKER = cl.load_bowler("walker_right")


@pytest.mark.parametrize("bowler", [CLUB, WALKER])
def test_as_said_with_no_error_is_the_line(bowler):
    release = as_said(bowler).releases(LINES, ZERO)
    for number, line in enumerate(LINES):
        laydown = laydown_board(line, bowler)
        assert release.laydown_board[number] == pytest.approx(laydown)
        slope = (line.target_board - laydown) / ft_to_boards(line.target_ft)
        assert release.launch_deg[number] == pytest.approx(np.degrees(np.arctan(slope)))
    assert set(release.speed_mph) == {bowler.speed_mph}


def test_unknown_fields_are_as_usual():
    release = as_said(cl.Bowler()).releases(LINES[:1], ZERO)
    usual = (release.speed_mph[0], release.rev_rate_rpm[0], release.axis_rotation_deg[0])
    assert usual == (17.0, 300.0, 45.0)


def test_true_means_lie_around_what_was_said():
    drawn = [drawn_bowler(CLUB, np.random.default_rng(seed)).bowler for seed in range(400)]
    for name, mean, sd in (
        ("speed_mph", 17.0, 0.4),
        ("rev_rate_rpm", 300.0, 18.0),
        ("axis_rotation_deg", 45.0, 5.0),
        ("laydown_offset_boards", 6.5, 0.5),
    ):
        values = np.array([getattr(one, name) for one in drawn])
        assert values.mean() == pytest.approx(mean, abs=4 * sd / 20)
        assert values.std() == pytest.approx(sd, rel=0.15)


def test_walkers_walk_a_little_less_and_sliders_a_little_more():
    for bowler, near in ((CLUB, 0.0), (WALKER, 1.0)):
        shares = [drawn_bowler(bowler, np.random.default_rng(seed)).walk_frac for seed in range(50)]
        assert all(0.0 <= share <= 1.0 and abs(share - near) < 0.5 for share in shares)
        assert 0.02 < np.mean(np.abs(np.array(shares) - near)) < 0.2


def test_the_same_ball_number_makes_the_same_error_on_any_line():
    errors = ball_errors(np.random.default_rng((3, 100, 7)))
    np.testing.assert_array_equal(errors, ball_errors(np.random.default_rng((3, 100, 7))))
    one, other = as_said(CLUB).releases([cl.Line(28.0, 16.0), cl.Line(30.0, 17.0)], errors).speed_mph
    assert one == other


def test_some_balls_are_bad():
    missed = np.array([ball_errors(np.random.default_rng(seed))[0, 6] for seed in range(3000)])
    is_bad = missed != 0.0
    assert is_bad.mean() == pytest.approx(BAD_FRAC, abs=0.012)
    assert np.abs(missed[is_bad]).min() >= 2.0
    assert np.abs(missed[is_bad]).max() <= 4.0
    assert (even_errors(100)[:, 6] != 0.0).mean() == pytest.approx(BAD_FRAC)


def test_even_errors_are_standard_and_not_to_be_changed():
    errors = even_errors(256)
    np.testing.assert_allclose(errors[:, :6].mean(axis=0), 0.0, atol=0.05)
    np.testing.assert_allclose(errors[:, :6].std(axis=0), 1.0, atol=0.05)
    with pytest.raises(ValueError, match="read-only"):
        errors[0, 0] = 1.0


@pytest.mark.parametrize("draw", range(N_DRAWS + 1))
def test_even_errors_hang_on_one_another_in_no_draw(draw):
    # a judge that mixes aim and laydown calls the same line better in one draw than in the next
    shared = np.corrcoef(even_errors(256, draw)[:, :6], rowvar=False) - np.eye(6)
    assert np.abs(shared).max() < 0.1


def test_fatigue_takes_speed_and_revs():
    tired = dataclasses.replace(as_said(CLUB), tired_mph=0.5, tired_revs_frac=0.03)
    fresh, late, later = (tired.releases(LINES[:1], ZERO, number) for number in (0, 40, 80))
    assert late.speed_mph[0] == pytest.approx(fresh.speed_mph[0] - 0.5)
    assert late.rev_rate_rpm[0] == pytest.approx(0.97 * fresh.rev_rate_rpm[0])
    assert late == later


def chances(lines, n_balls, **more):
    return true_chances(lines, as_said(CLUB), BALL, SHEET, n_balls, **more)


def test_same_chance_as_the_library_says_with_its_own_scatter():
    # two ways to one number; laydown errors and one bad ball in 25 make ours a little smaller
    ours = chances(LINES[:1], 2048)[0]
    thrown = scattered(release_on_line(CLUB, 21.5, 16.0), CLUB, 2048, seed=5)
    path = cl.simulate(thrown, BALL, HOUSE, keep_path=False)
    theirs = np.mean(cl.strike_prob(path.arrival_board, path.entry_deg, path.speed_at_pins_mph, 15.0))
    assert ours == pytest.approx(theirs, abs=0.04)
    assert ours < theirs


def test_one_line_or_many_is_the_same():
    lines = [cl.Line(28.0, 16.0), cl.Line(24.0, 13.0)]
    alone = [chances([line], 64)[0] for line in lines]
    np.testing.assert_allclose(chances(lines, 64), alone, rtol=1e-12)


def test_other_draws_are_other_errors_and_much_the_same_chance():
    found = [chances(LINES[:1], 256, draw=draw)[0] for draw in range(8)]
    assert len(set(found)) == 8
    assert np.std(found) < 0.02
