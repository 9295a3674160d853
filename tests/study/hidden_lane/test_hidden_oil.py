"""The oil of a hidden lane: each difference does what its name says, and nothing else."""

import dataclasses

import numpy as np
import pytest

from coachlib.study.hidden_lane.hidden_oil import OilDifference, drawn_difference, hidden_film_um
from tests.hidden_lanes import HOUSE, mirrored, uneven

SAME = OilDifference()


def film(**changes):
    return hidden_film_um(HOUSE, "right", dataclasses.replace(SAME, **changes))


def test_no_difference_is_the_sheet():
    np.testing.assert_allclose(film()[: len(HOUSE.film_um)], HOUSE.film_array_um, atol=1e-12)


def test_film_factor_is_on_every_film():
    np.testing.assert_allclose(film(film_factor=1.3), 1.3 * film(), rtol=1e-12)


def test_a_longer_pattern_ends_later():
    ends = [0.5 * (1 + np.flatnonzero(film(longer_ft=more)[:, 19] > 0.05).max()) for more in (-2.0, 0.0, 2.0)]
    assert ends == pytest.approx([ends[1] - 2.0, ends[1], ends[1] + 2.0], abs=0.5)


def test_a_ramp_farther_out_oils_the_bowlers_side_only():
    moved, same = film(ramp_out_boards=1.0), film()
    assert (moved[:60, 3:10].sum(axis=1) > same[:60, 3:10].sum(axis=1)).all()
    np.testing.assert_allclose(moved[:, 19:], same[:, 19:], atol=1e-12)


def test_a_strip_thins_its_boards_only():
    left, same = film(strip_board=10.0, strip_boards=2.0, strip_depth_frac=0.4)[75], film()[75]
    assert left[9] == pytest.approx(0.6 * same[9], rel=0.05)
    np.testing.assert_array_equal(left[13:], same[13:])


def test_drawn_lanes_differ_and_film_is_never_negative():
    films = [
        hidden_film_um(HOUSE, "right", drawn_difference(np.random.default_rng(seed))) for seed in range(12)
    ]
    assert all(one.shape == (120, 39) and one.min() >= 0.0 for one in films)
    volumes = [one.sum() for one in films]
    assert len(set(volumes)) == 12
    assert 0.5 < min(volumes) / film().sum() < 1.0 < max(volumes) / film().sum() < 1.7


def test_the_mirrored_lane_is_the_same_for_the_other_hand():
    pattern, difference = uneven(HOUSE), drawn_difference(np.random.default_rng(5))
    right = hidden_film_um(pattern, "right", difference)
    np.testing.assert_array_equal(right, hidden_film_um(mirrored(pattern), "left", difference))
    assert not np.array_equal(right, hidden_film_um(pattern, "left", difference))
