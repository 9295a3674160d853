"""Release errors: the spreads asked for, the same for the same seed, within what a hand can do."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.scatter import scattered, scattered_each, standard_errors
from coachlib.units import ft_to_boards
from coachlib.world.release import release_on_line

BOWLER = cl.load_bowler("club_right")
MEANT = release_on_line(BOWLER, 22.0, 16.0)


def test_spreads_are_the_bowler_s():
    thrown = scattered(MEANT, BOWLER, 1024, seed=1)
    crossed = 22.0 + np.tan(np.radians(thrown.launch_deg)) * ft_to_boards(15.0)
    assert crossed.mean() == pytest.approx(16.0, abs=0.01)
    assert crossed.std() == pytest.approx(0.97, rel=0.02)
    for name, usual, spread in (
        ("speed_mph", 17.0, 0.4),
        ("rev_rate_rpm", 300.0, 15.0),
        ("axis_rotation_deg", 45.0, 4.0),
        ("axis_tilt_deg", 13.0, 2.0),
    ):
        assert getattr(thrown, name).mean() == pytest.approx(usual, rel=1e-3), name
        assert getattr(thrown, name).std() == pytest.approx(spread, rel=0.02), name
    assert float(thrown.laydown_board) == 22.0


def test_range_of_ten_shots_is_the_published_one():
    # US Bowler, July 2012, p. 11: averages of 200+ stay within 3 boards in ten shots
    draw = standard_errors(4096, seed=2)[:, 0]
    order = np.random.default_rng(3).permutation(4096)[:4090].reshape(-1, 10)
    ranges = 0.97 * (draw[order].max(axis=1) - draw[order].min(axis=1))
    assert ranges.mean() == pytest.approx(3.0, abs=0.1)


def test_same_seed_same_errors_whatever_is_thrown():
    one, other = scattered(MEANT, BOWLER, 20, seed=4), scattered(MEANT, BOWLER, 20, seed=4)
    assert one == other
    assert one != scattered(MEANT, BOWLER, 20, seed=5)
    moved = scattered(release_on_line(BOWLER, 24.0, 17.0), BOWLER, 20, seed=4)
    np.testing.assert_array_equal(moved.speed_mph, one.speed_mph)


def test_errors_are_even_and_not_related():
    errors = standard_errors(256)
    assert np.abs(errors.mean(axis=0)).max() < 0.02
    assert np.abs(np.corrcoef(errors.T) - np.eye(5)).max() < 0.1
    assert np.abs(errors).max() <= 3.5


def test_each_number_has_its_own_error():
    thrown = scattered(MEANT, BOWLER, 256)
    rows = [thrown.launch_deg, thrown.speed_mph, thrown.rev_rate_rpm, thrown.axis_rotation_deg]
    related = np.corrcoef(np.stack([*rows, thrown.axis_tilt_deg]))
    assert np.abs(related - np.eye(5)).max() < 0.1


def test_fewer_balls_are_the_first_of_more():
    np.testing.assert_array_equal(standard_errors(20, 7), standard_errors(32, 7)[:20])


def test_nobody_leaves_what_a_hand_can_do():
    wild = dataclasses.replace(
        BOWLER, speed_mph=9.0, speed_sd_mph=5.0, rev_rate_rpm=10, rev_rate_sd_rpm=150.0, arrow_sd_boards=6.0
    )
    thrown = scattered(release_on_line(wild, 20.0, 16.0), wild, 512)
    assert thrown.speed_mph.min() >= 8.0
    assert thrown.rev_rate_rpm.min() >= 0.0


def test_only_one_shot_is_scattered():
    with pytest.raises(cl.InputError, match=r"release has 20 shots; expected 1, the one that is meant"):
        scattered(scattered(MEANT, BOWLER, 20), BOWLER, 20)


@pytest.mark.parametrize("n_shots", [0, 2_000_000, float("nan")])
def test_how_many(n_shots):
    with pytest.raises(cl.InputError, match=r"n_shots is .*; expected 1 to 1,000,000"):
        scattered(MEANT, BOWLER, n_shots)


def test_aim_s_spread_is_counted_at_the_target():
    far = scattered(MEANT, BOWLER, 256, target_ft=30.0)
    crossed = 22.0 + np.tan(np.radians(far.launch_deg)) * ft_to_boards(30.0)
    assert crossed.std() == pytest.approx(0.97, rel=0.03)


def test_many_releases_get_the_errors_that_each_alone_would():
    other = release_on_line(BOWLER, 25.0, 17.0)
    names = [field.name for field in dataclasses.fields(cl.Release)]
    both = cl.Release(*(np.stack([getattr(one, name) for one in (MEANT, other)]) for name in names))
    thrown = scattered_each(both, BOWLER, 64, seed=3, target_ft=12.0)
    for number, meant in enumerate((MEANT, other)):
        alone = scattered(meant, BOWLER, 64, seed=3, target_ft=12.0)
        for name in names:
            part = getattr(thrown, name)[64 * number : 64 * (number + 1)]
            assert np.array_equal(part, np.broadcast_to(getattr(alone, name), 64)), name
