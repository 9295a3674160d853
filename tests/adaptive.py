"""The same ball on the same smooth lane by a general adaptive solver: SciPy's DOP853, one shot at a time.

It shares no step with the march: velocity and spin are integrated in time, the slip's direction is found anew
at every instant, the roll and the pins are events.
"""

import math

import numpy as np
from scipy.integrate import solve_ivp

from coachlib.physics.friction import STANDARD_GRAVITY_MPS2 as GRAVITY
from coachlib.units import FT_M
from tests.marching import BOARD_M, LANE_M


def smooth_film_at(x_m, y_m):
    """Return the film of `marching.smooth_film_um` at one place, without arrays."""
    along = (1.8 - 0.06 * x_m) / (1.0 + math.exp((x_m - 12.2) / 0.6))
    return 2.2 * along * (0.15 + 0.85 / (1.0 + math.exp(-(y_m / BOARD_M - 10.0) / 1.5)))


def solved(launch, grip, shot, rtol=1e-10):
    """Return place across at the pins and where the roll begins (NaN if it slides all the way)."""
    ahead, aside = launch.along_mps[shot], launch.across_mps[shot]
    spin_ahead, spin_aside = launch.spin_along_mps[shot], launch.spin_across_mps[shot]
    first_ahead, first_aside = ahead - spin_ahead, aside - spin_aside
    kappa, wipe_m = launch.kappa, grip.wipe_ft * FT_M

    def sliding(_time, state):
        x, y, vx, vy, sx, sy, track = state
        met_um = smooth_film_at(x, y)
        film = (met_um + grip.track_frac * track) / grip.half_film_um
        pull = GRAVITY * (grip.wet_coef + (grip.dry_coef - grip.wet_coef) / (1.0 + film * film))
        slip = math.hypot(vx - sx, vy - sy)
        fx, fy = -pull * (vx - sx) / slip, -pull * (vy - sy) / slip
        return vx, vy, fx, fy, -fx / kappa, -fy / kappa, vx * (met_um - track) / wipe_m

    def rolling(_time, state):
        _, _, vx, vy = state
        pull = grip.rolling_coef * GRAVITY / math.hypot(vx, vy)
        return vx, vy, -pull * vx, -pull * vy

    def rolls(_time, state):
        return (state[2] - state[4]) * first_ahead + (state[3] - state[5]) * first_aside - 1e-9

    def at_pins(_time, state):
        return state[0] - LANE_M

    rolls.terminal = at_pins.terminal = True
    start = (0.0, launch.across_m[shot], ahead, aside, spin_ahead, spin_aside, 0.0)
    slid = solve_ivp(sliding, (0.0, 6.0), start, "DOP853", events=(rolls, at_pins), rtol=rtol, atol=rtol)
    if slid.t_events[1].size:
        return slid.y[1, -1], np.nan
    rolled = solve_ivp(rolling, (0.0, 6.0), slid.y[:4, -1], "DOP853", events=at_pins, rtol=rtol, atol=rtol)
    return rolled.y[1, -1], slid.y[0, -1]
