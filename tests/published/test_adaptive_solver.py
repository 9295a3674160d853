"""The march against a general adaptive solver with events, on a lane without kinks.

Another method, not another author: SciPy's DOP853 integrates velocity and spin separately in time, recomputes
the slip's direction at every instant and finds the roll by an event; the march uses none of this. Tolerance
0.005 boards at half a foot; halving the step must divide the error by about four.
"""

import dataclasses
import itertools

import numpy as np
import pytest

from coachlib.physics.friction import Grip
from coachlib.physics.kernel import march
from coachlib.units import FT_M
from tests.adaptive import smooth_film_at, solved
from tests.marching import BOARD_M, launched, smooth_film_um, smooth_ground

PLAIN = Grip(dry_coef=0.24, wet_coef=0.01, rolling_coef=0.003, half_film_um=0.3)
WITH_TRACK = dataclasses.replace(PLAIN, track_frac=0.2, wipe_ft=4.0)
N_SHOTS = 40


def shots():
    draw = np.random.default_rng(5)
    return launched(
        draw.uniform(6.5, 9.0, N_SHOTS),
        draw.uniform(2.0, 5.5, N_SHOTS),
        draw.uniform(25.0, 70.0, N_SHOTS),
        0.35,
        draw.uniform(-2.5, 0.0, N_SHOTS),
        draw.uniform(14.0, 26.0, N_SHOTS) * BOARD_M,
    )


@pytest.fixture(scope="module", params=[PLAIN, WITH_TRACK], ids=["plain", "track"])
def compared(request):
    launch, grip = shots(), request.param
    return launch, grip, np.array([solved(launch, grip, shot) for shot in range(N_SHOTS)])


def test_within_five_thousandths_of_a_board(compared):
    launch, grip, expected = compared
    pins = march(launch, smooth_ground(0.5), grip)
    assert np.abs(pins.across_m - expected[:, 0]).max() / BOARD_M < 0.005
    rolled = np.isfinite(expected[:, 1])
    assert rolled.sum() >= 20
    np.testing.assert_array_equal(np.isfinite(pins.roll_m), rolled)
    assert np.abs(pins.roll_m - expected[:, 1])[rolled].max() / FT_M < 0.02


def test_half_the_step_is_a_quarter_of_the_error(compared):
    launch, grip, expected = compared
    errors = [
        np.sqrt(np.mean((march(launch, smooth_ground(step_ft), grip).across_m - expected[:, 0]) ** 2))
        for step_ft in (1.0, 0.5, 0.25)
    ]
    for coarse, fine in itertools.pairwise(errors):
        assert 3.3 < coarse / fine < 4.8


def test_both_roll_on_the_same_lane():
    draw = np.random.default_rng(6)
    for x_m, y_m in zip(draw.uniform(0, 18, 20), draw.uniform(0, 1, 20), strict=True):
        assert smooth_film_at(x_m, y_m) == pytest.approx(float(smooth_film_um(x_m, y_m)), rel=1e-12)
