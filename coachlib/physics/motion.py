"""The ball on the oil: from a release to a path.

Valid for: a whole ball of the same inertia about every axis, on a level lane, with Coulomb friction that
hangs on film, cover and surface (:mod:`coachlib.physics.friction`).

Not modelled: friction's dependence on slip speed and temperature, the oil's viscosity, oil soaked up over
games, lane tilt (0.040 in across, the most the rules allow, moves a ball 0.7 to 1.0 board in 2.4 s),
thumb-hole track, bounce at the release, spin friction under the ball, the core's own swing (at most 0.15
board, tests/published/test_full_tensor.py).
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import raise_input_errors
from coachlib.interpolation import between_rows
from coachlib.physics.friction import DEFAULT_LAW, FrictionLaw, grip_of
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground, Landed, Launch
from coachlib.units import BOARD_IN, FT_M, IN_M, mph_to_mps, mps_to_mph, rpm_to_radps
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import Release

STEP_FT = 0.5
MOST_SHOTS = 2_000_000
MOST_PATHS = 200_000
BOARD_M = BOARD_IN * IN_M
BREAKPOINT_LAUNCH_DEG = -1.0
"""Launched less far to the outside, a breakpoint's distance says nothing [deg]."""


def simulate(
    release: Release,
    ball: Ball,
    pattern: OilPattern,
    hand: Hand = "right",
    keep_path: bool = True,
    law: FrictionLaw = DEFAULT_LAW,
) -> Path:
    """Return where one shot or many go.

    Parameters
    ----------
    release : Release
        What left the hand, own frame.
    ball : Ball
        Its cover, surface, inertia and flare count.
    pattern : OilPattern
        A pattern with film.
    hand : {"right", "left"}
        The bowling hand: it turns the film, nothing else.
    keep_path : bool, default True
        Keep board and time at each foot; not needed where only the pins count. 488 bytes a shot.
    law : FrictionLaw, optional
        The friction law.

    Returns
    -------
    Path
        One column a shot, also for a single one.

    Raises
    ------
    InputError
        If the pattern has no film, the hand is unknown, or there are too many shots for one call.
    ModelError
        If a shot stops before the pins.

    Notes
    -----
    Steps of half a foot. Where skid, hook and roll begin is defined in :class:`coachlib.world.path.Path`.
    """
    most = MOST_PATHS if keep_path else MOST_SHOTS
    if release.n_shots > most:
        fix = "Pass keep_path=False, or throw them in parts." if keep_path else "Throw them in parts."
        expected = f"expected 1 to {most} shots{' with paths' * keep_path}"
        raise_input_errors({"release": f"release has {release.n_shots} shots; {expected}. {fix}"})
    launch = launch_of(release, ball)
    ground = ground_of(pattern, hand)
    row_every = round(1.0 / STEP_FT) if keep_path else 0
    return path_of(release, march(launch, ground, grip_of(ball, law), row_every))


def launch_of(release: Release, ball: Ball) -> Launch:
    """Return a release in SI: places, velocities, and the velocity that the spin would roll at."""
    values = {field.name: getattr(release, field.name) for field in dataclasses.fields(release)}
    board, launch, speed, revs, rotation, tilt = (
        np.ascontiguousarray(np.broadcast_to(value, release.n_shots)) for value in values.values()
    )
    heading = np.radians(launch)
    spin_heading = heading + np.radians(rotation)
    speed_mps = speed * mph_to_mps(1.0)
    radius_m = 0.5 * ball.diameter_in * IN_M
    spin_mps = revs * rpm_to_radps(1.0) * radius_m * np.cos(np.radians(tilt))
    return Launch(
        across_m=board * BOARD_M,
        along_mps=speed_mps * np.cos(heading),
        across_mps=speed_mps * np.sin(heading),
        spin_along_mps=spin_mps * np.cos(spin_heading),
        spin_across_mps=spin_mps * np.sin(spin_heading),
        kappa=ball.kappa,
    )


def ground_of(pattern: OilPattern, hand: Hand, step_ft: float = STEP_FT) -> Ground:
    """Return a pattern's film as the kernel reads it: mean film of each step, to the head pin."""
    film_um = pattern.own_film_um(hand)
    edges_ft = np.linspace(0.0, HEAD_PIN_FT, round(HEAD_PIN_FT / step_ft) + 1)
    laid = np.vstack([np.zeros(film_um.shape[1]), np.cumsum(film_um, axis=0)])
    reached = between_rows(laid, edges_ft / pattern.step_ft)
    means_um = np.maximum(np.diff(reached, axis=0), 0.0) * (pattern.step_ft / step_ft)
    return Ground(edges_ft * FT_M, np.hstack([means_um[:, :1], means_um, means_um[:, -1:]]), BOARD_M)


def path_of(release: Release, landed: Landed) -> Path:
    """Return what the kernel handed over in people's units, with the gutter as an outcome."""
    arrival = landed.across_m / BOARD_M
    farthest_out = np.fmin(arrival, landed.turn_across_m / BOARD_M)  # a path is bent one way: its ends decide
    gutter = (farthest_out < LOW_EDGE_BOARD) | (arrival > HIGH_EDGE_BOARD)
    has_break = ~gutter & (release.launch_deg <= BREAKPOINT_LAUNCH_DEG)
    speed = np.hypot(landed.along_mps, landed.across_mps) / mph_to_mps(1.0)
    path_board = _boards(landed.rows_m, gutter)
    return Path(
        path_board=path_board,
        path_time_s=_times(landed.rows_s, path_board, gutter),
        arrival_board=np.where(gutter, np.nan, arrival),
        entry_deg=np.where(gutter, np.nan, np.degrees(np.arctan2(landed.across_mps, landed.along_mps))),
        speed_at_pins_mph=np.where(gutter, np.nan, speed),
        time_s=np.where(gutter, np.nan, landed.time_s),
        hook_ft=np.where(gutter, np.nan, landed.hook_m / FT_M),
        roll_ft=np.where(gutter, np.nan, landed.roll_m / FT_M),
        breakpoint_ft=np.where(has_break, landed.turn_m / FT_M, np.nan),
        breakpoint_board=np.where(has_break, landed.turn_across_m / BOARD_M, np.nan),
        breakpoint_turn_deg_per_ft=np.where(has_break, np.degrees(landed.turn_rad_per_m) * FT_M, np.nan),
        gutter=gutter,
    )


def _boards(rows_m: NDArray[np.float32], gutter: NDArray[np.bool_]) -> NDArray[np.float32]:
    """Return rows in boards, in place, nothing from where a ball left the lane."""
    rows_m /= np.float32(BOARD_M)
    lost = np.flatnonzero(gutter)
    if lost.size and len(rows_m):
        columns = rows_m[:, lost]
        is_off = (columns < LOW_EDGE_BOARD) | (columns > HIGH_EDGE_BOARD)
        columns[np.maximum.accumulate(is_off, axis=0)] = np.nan
        rows_m[:, lost] = columns
    return rows_m


def _times(
    rows_s: NDArray[np.float32], path_board: NDArray[np.float32], gutter: NDArray[np.bool_]
) -> NDArray[np.float32]:
    """Return the times of rows, in place, nothing from where a ball left the lane."""
    lost = np.flatnonzero(gutter)
    if lost.size and len(rows_s):
        rows_s[:, lost] = np.where(np.isnan(path_board[:, lost]), np.float32(np.nan), rows_s[:, lost])
    return rows_s


def turn_when_rolled_deg(release: Release, ball: Ball) -> NDArray[np.float64]:
    """Return how far the heading has turned from the launch when the ball rolls, + inside [deg].

    Mechanics alone, whatever the lane did to the ball. While it slides, friction only trades spin for speed
    along one fixed direction. When it rolls, its velocity is therefore the same mixture of the two, on oil or
    on dry boards, early or late. The entry angle of a ball that rolls before the pins is this and the launch
    together.

    Notes
    -----
    ``v_roll = (v + kappa * s) / (1 + kappa)`` with v the velocity at the hand and s the velocity at which the
    spin would roll. Valid for: a ball that has stopped slipping before the pins. Assumes: Coulomb friction,
    the same inertia about every axis. Not modelled: rolling resistance after that (0.1 mph).

    References
    ----------
    .. [1] The identity for a ball without spin, 5/7 of the speed for a solid one, stands in every textbook of
       mechanics. Checked in tests/published/test_full_roll.py.
    """
    along, across = _rolled_mps(release, ball)
    return np.asarray(np.degrees(np.arctan2(across, along)) - release.launch_deg)


def loss_when_rolled_mph(release: Release, ball: Ball) -> NDArray[np.float64]:
    """Return how much slower than at the hand the ball is when it rolls, valid as the turn there [mph]."""
    return np.asarray(release.speed_mph - np.hypot(*_rolled_mps(release, ball)) * mps_to_mph(1.0))


def _rolled_mps(release: Release, ball: Ball) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    launch = launch_of(release, ball)
    share = launch.kappa / (1.0 + launch.kappa)
    along = (1.0 - share) * launch.along_mps + share * launch.spin_along_mps
    across = (1.0 - share) * launch.across_mps + share * launch.spin_across_mps
    return along, across
