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
from coachlib.physics.kinematics import Floats, Ground, Landed, Launch
from coachlib.units import BOARD_IN, FT_M, IN_M, mph_to_mps, rpm_to_radps
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
        Keep the board at each foot; not needed where only the pins count. 244 bytes a shot.
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
    _check_size(release.n_shots, keep_path)
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
    return Path(
        path_board=_boards(landed.rows_m, gutter),
        arrival_board=_where(~gutter, arrival),
        entry_deg=_where(~gutter, np.degrees(np.arctan2(landed.across_mps, landed.along_mps))),
        speed_at_pins_mph=_where(~gutter, speed),
        time_s=_where(~gutter, landed.time_s),
        hook_ft=_where(~gutter, landed.hook_m / FT_M),
        roll_ft=_where(~gutter, landed.roll_m / FT_M),
        breakpoint_ft=_where(has_break, landed.turn_m / FT_M),
        breakpoint_board=_where(has_break, landed.turn_across_m / BOARD_M),
        breakpoint_turn_deg_per_ft=_where(has_break, np.degrees(landed.turn_rad_per_m) * FT_M),
        gutter=gutter,
    )


def _where(holds: NDArray[np.bool_], values: Floats) -> Floats:
    return np.where(holds, values, np.nan)


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


def _check_size(n_shots: int, keep_path: bool) -> None:
    most = MOST_PATHS if keep_path else MOST_SHOTS
    if n_shots <= most:
        return
    fix = "Pass keep_path=False, or throw them in parts." if keep_path else "Throw them in parts."
    message = f"release has {n_shots} shots; expected 1 to {most} shots{' with paths' * keep_path}. {fix}"
    raise_input_errors({"release": message})
