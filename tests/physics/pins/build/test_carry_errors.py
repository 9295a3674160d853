"""Counting errors of the carry table: limiting cases, and a whole resampling as a second method."""

import numpy as np
import pytest

from coachlib.errors import InputError
from coachlib.physics.pins.build import arrival_sampling as design
from coachlib.physics.pins.build.carry_build import Smoothing, build_table
from coachlib.physics.pins.build.carry_errors import binomial_error, effective_racks, strike_prob_error
from coachlib.physics.pins.carry import strike_prob

AT = np.array([[17.5, 4.0, 18.0, 14.0]])


def test_racks_on_the_spot_count_whole_and_racks_far_away_not_at_all():
    on_the_spot = np.repeat(AT, 50, axis=0)
    assert effective_racks(AT, on_the_spot) == pytest.approx(50.0)
    far = AT + np.array([[10.0, 0.0, 0.0, 0.0]])
    assert effective_racks(AT, np.vstack([on_the_spot, far])) == pytest.approx(50.0)
    assert effective_racks(AT, far)[0] == pytest.approx(0.0, abs=1e-6)


def test_a_rack_with_half_the_weight_adds_less_than_a_rack():
    # by hand: weights 1 and 1/2 give (1.5)² / 1.25 = 1.8
    away = np.sqrt(2 * np.log(2.0)) * Smoothing().board_boards
    pair = np.vstack([AT, AT + np.array([[away, 0.0, 0.0, 0.0]])])
    assert effective_racks(AT, pair) == pytest.approx(1.8)


def test_the_error_is_what_counting_other_racks_shows():
    # second method: the same arrivals with newly drawn strikes, 60 times; one sd of 60 is known to a tenth
    points, chance = design.arrival_points(0, 8192, 2), 0.7
    rng, shares = np.random.default_rng(4), []
    for _ in range(60):
        bits = np.where(rng.random(len(points)) < chance, 0, 512)
        table = build_table(points, bits, Smoothing(pull_racks=0.0))
        shares.append(float(strike_prob(17.5, 4.0, 18.0, 14.0, level_on=False, table=table)))
    expected = binomial_error(chance, effective_racks(AT, points))[0]
    assert np.std(shares) == pytest.approx(expected, rel=0.35)


def test_the_binomial_error():
    assert binomial_error(0.5, 100) == pytest.approx(0.05)  # textbook: sqrt(.25 / 100)
    assert binomial_error(1.0, 100) > 0.0  # all of 100 is not certainty
    assert np.isfinite(binomial_error(0.5, 0))


def test_the_shipped_chances_come_with_errors_of_their_shape():
    boards = np.array([[15.0, 17.5], [19.0, 20.0]])
    errors = strike_prob_error(boards, 5.0, 17.0, 15.0)
    assert errors.shape == boards.shape
    assert (errors > 0.001).all()
    assert (errors < 0.12).all()
    assert (strike_prob_error(boards, 5.0, 17.0, 15.0, level_on=False) >= errors).all()
    with pytest.raises(InputError, match=r"speed_mph is 0\.5; expected 1 to 40 mph"):
        strike_prob_error(17.5, 5.0, 0.5)
