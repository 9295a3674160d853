"""The march against a general adaptive solver with events, on a lane without kinks.

Another method, not another author: SciPy's DOP853 integrates velocity and spin separately in time, recomputes
the slip's direction at every instant and finds the roll by an event; the march uses none of this. Tolerance
0.005 boards at half a foot; halving the step must divide the error by about four.
"""

import itertools

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from coachlib.physics.friction import STANDARD_GRAVITY_MPS2 as GRAVITY
from coachlib.physics.friction import Grip
from coachlib.physics.kernel import march
from coachlib.units import FT_M
from tests.marching import BOARD_M, LANE_M, launched, smooth_film_um, smooth_ground

PLAIN = Grip(dry_coef=0.24, wet_coef=0.01, rolling_coef=0.003, half_film_um=0.3)
WITH_TRACK = Grip(
    dry_coef=0.24, wet_coef=0.01, rolling_coef=0.003, half_film_um=0.3, track_frac=0.2, wipe_ft=4.0
)
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


def solved(launch, grip, shot, rtol=1e-10):
    """Return place across at the pins and where the roll begins, by DOP853."""

    def pull(state):
        x, y, *_, track = state
        film = smooth_film_um(x, y) + grip.track_frac * track
        coef = grip.wet_coef + (grip.dry_coef - grip.wet_coef) / (1.0 + (film / grip.half_film_um) ** 2)
        return coef * GRAVITY

    def sliding(_time, state):
        x, y, vx, vy, sx, sy, track = state
        slip = np.array([vx - sx, vy - sy])
        force = -pull(state) * slip / np.hypot(*slip)
        wipes = vx * (smooth_film_um(x, y) - track) / (grip.wipe_ft * FT_M)
        return [vx, vy, *force, *(-force / launch.kappa), wipes]

    def rolling(_time, state):
        speed = np.hypot(state[2], state[3])
        force = [
            -grip.rolling_coef * GRAVITY * state[2] / speed,
            -grip.rolling_coef * GRAVITY * state[3] / speed,
        ]
        return [state[2], state[3], *force, 0.0, 0.0, 0.0]

    first = np.array(
        [
            launch.along_mps[shot] - launch.spin_along_mps[shot],
            launch.across_mps[shot] - launch.spin_across_mps[shot],
        ]
    )

    def rolls(_time, state):
        return (state[2] - state[4]) * first[0] + (state[3] - state[5]) * first[1] - 1e-9

    def at_pins(_time, state):
        return state[0] - LANE_M

    rolls.terminal = at_pins.terminal = True
    start = [0.0, launch.across_m[shot], launch.along_mps[shot], launch.across_mps[shot]]
    start += [launch.spin_along_mps[shot], launch.spin_across_mps[shot], 0.0]
    slid = solve_ivp(sliding, (0.0, 6.0), start, "DOP853", events=(rolls, at_pins), rtol=rtol, atol=rtol)
    if slid.t_events[1].size:
        return slid.y[1, -1], np.nan
    rolled = solve_ivp(rolling, (0.0, 6.0), slid.y[:, -1], "DOP853", events=at_pins, rtol=rtol, atol=rtol)
    return rolled.y[1, -1], slid.y[0, -1]


@pytest.fixture(scope="module", params=["plain", "track"])
def compared(request):
    grip = PLAIN if request.param == "plain" else WITH_TRACK
    launch = shots()
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
