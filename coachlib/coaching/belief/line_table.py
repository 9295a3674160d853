"""Every line on every possible lane, thrown once and then only looked up.

Lines are a grid of laydown boards and of how far the ball runs across to 15 ft. Every particle throws every
second of them as meant, and on a coarser grid with a little more speed, revs and rotation, which gives the
slopes. The march goes on where a ball has left the lane, so that everything stays smooth between grid points,
and a spline gives the lines between; whether the ball was in the gutter is a column of its own.
"""

import dataclasses
from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.lane_films import ground_of_lanes, start_m
from coachlib.coaching.belief.particles import TABLE_TARGET_FT, Particles
from coachlib.physics.friction import grip_of
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground, Landed
from coachlib.physics.motion import BOARD_M, launch_of
from coachlib.units import FT_M, ft_to_boards, mps_to_mph
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD
from coachlib.world.oil import OilPattern
from coachlib.world.release import Release

Floats = NDArray[np.float64]
Table = NDArray[np.float32]

LAYDOWN_BOARDS = np.linspace(1.0, 39.0, 25)
SLOPE_BOARDS = np.linspace(-17.0, 7.0, 49)
STEPS = (0.7, 20.0, 6.0)
"""How much more speed, revs and rotation the slopes are taken with [mph], [rpm], [deg]."""

THROWN = slice(0, None, 2)
"""Slopes of the lines that are thrown as meant; those between are read off a spline."""

COARSE = (slice(0, None, 2), slice(0, None, 4))
"""The grid of a little more speed, revs and rotation: every second laydown, every fourth slope."""

COARSE_AXES = (LAYDOWN_BOARDS[COARSE[0]], SLOPE_BOARDS[COARSE[1]])
_COARSE_OF_THROWN = (COARSE[0], slice(0, None, COARSE[1].step // THROWN.step))

USUAL_AT_PINS_MPH = 15.0
LANES_A_BLOCK = 64
"""Lanes that are thrown on in one march; few long calls, so that two threads seldom wait for a turn."""

_LIMIT_BOARD = (-30.0, 70.0)


@dataclasses.dataclass(frozen=True, eq=False)
class LineTable:
    """Where every line ends on every possible lane.

    Parameters
    ----------
    arrival_board : ndarray, shape (n_particles, 25, 49)
        Where the ball as meant crosses the head-pin plane, carried on also beside the lane. [board]
    entry_deg : ndarray, same shape
        Its heading there. [deg]
    turn_ft : ndarray, same shape
        Where it is farthest out; 60 where it does not turn back. [ft]
    gutter_frac : ndarray, same shape
        1 where it left the lane before the pins, else 0.
    per_mph, per_rpm, per_deg : ndarray, shape (n_particles, 13, 13)
        Boards of arrival a mph of speed, a rpm of revs, a degree of rotation, on the coarse grid.
    speed_at_pins_mph : float
        Mean over all lines that reach the pins. [mph]
    """

    arrival_board: Table
    entry_deg: Table
    turn_ft: Table
    gutter_frac: Table
    per_mph: Table
    per_rpm: Table
    per_deg: Table
    speed_at_pins_mph: float


def tabulate(
    particles: Particles,
    ball: Ball,
    pattern: OilPattern,
    hand: Hand,
    progress: Callable[[float], None] | None = None,
) -> LineTable:
    """Return the table of lines of one ball.

    Parameters
    ----------
    particles : Particles
        Lanes and bowlers.
    ball : Ball
        Its cover, surface and inertia.
    pattern : OilPattern
        The sheet, with film.
    hand : {"right", "left"}
        The bowling hand: it turns the sheet.
    progress : callable, optional
        Called with the share done, 0 to 1.
    """
    first = range(0, particles.n_particles, LANES_A_BLOCK)
    blocks = [slice(start, min(start + LANES_A_BLOCK, particles.n_particles)) for start in first]
    with ThreadPoolExecutor(2) as threads:
        parts = []
        for part in threads.map(lambda block: _block(particles, block, ball, pattern, hand), blocks):
            parts.append(part)
            if progress is not None:
                progress(len(parts) / len(blocks))
    columns = {name: np.concatenate([part[name] for part in parts]) for name in parts[0] if name != "speed"}
    return LineTable(**columns, speed_at_pins_mph=float(np.mean([part["speed"] for part in parts])))


def _block(
    particles: Particles, block: slice, ball: Ball, pattern: OilPattern, hand: Hand
) -> dict[str, Table]:
    """Return the columns of a block of lanes; all lines and all changes of speed and spin in one march."""
    lay, slope = np.meshgrid(LAYDOWN_BOARDS, SLOPE_BOARDS[THROWN], indexing="ij")
    few_lay, few_slope = np.meshgrid(*COARSE_AXES, indexing="ij")
    more = np.repeat(np.vstack([np.zeros(3), np.diag(STEPS)]), [lay.size, *3 * [few_lay.size]], axis=0)
    lines = np.column_stack([np.append(lay, 3 * [few_lay]), np.append(slope, 3 * [few_slope]), more])
    thrown = _thrown(particles, block, lines, ball, ground_of_lanes(particles, block, pattern, hand))
    meant = {name: values[:, : lay.size].reshape(-1, *lay.shape) for name, values in thrown.items()}
    changed = thrown["arrival_board"][:, lay.size :].reshape(-1, 3, *few_lay.shape)
    base = meant["arrival_board"][:, *_COARSE_OF_THROWN]
    steps = np.array(STEPS, dtype=np.float32)[:, None, None]
    slopes = ((changed - base[:, None]) / steps).astype(np.float32)
    named = {name: slopes[:, number] for number, name in enumerate(("per_mph", "per_rpm", "per_deg"))}
    return _filled(meant) | named | {"speed": np.array(_mean_at_pins_mph(meant), dtype=np.float32)}


def _mean_at_pins_mph(meant: dict[str, Table]) -> float:
    along_mps = meant["along_mps"][~_is_gutter(meant["farthest_out"], meant["arrival_board"])]
    return mps_to_mph(float(along_mps.mean())) if along_mps.size else USUAL_AT_PINS_MPH


def _filled(meant: dict[str, Table]) -> dict[str, Table]:
    """Return what lines as meant do on the whole grid; what bends smoothly is read off a spline."""
    from scipy.interpolate import CubicSpline

    thrown = SLOPE_BOARDS[THROWN]
    smooth = np.stack([meant["arrival_board"], meant["entry_deg"]])
    arrival, entry = CubicSpline(thrown, smooth, axis=-1)(SLOPE_BOARDS)
    arrival = np.clip(arrival, *_LIMIT_BOARD)
    across = line_weights(SLOPE_BOARDS, thrown).T
    columns = {
        "arrival_board": arrival,
        "entry_deg": entry,
        "turn_ft": meant["turn_ft"] @ across,
        "gutter_frac": _is_gutter(meant["farthest_out"] @ across, arrival),
    }
    return {name: values.astype(np.float32) for name, values in columns.items()}


def _is_gutter(farthest_out: Table, arrival: Table) -> NDArray[np.bool_]:
    return np.asarray((farthest_out < LOW_EDGE_BOARD) | (arrival > HIGH_EDGE_BOARD))


def line_weights(fine: Floats, coarse: Floats) -> Table:
    """Return the matrix that interpolates linearly from a coarse axis to a fine one."""
    return np.stack([np.interp(fine, coarse, one) for one in np.eye(len(coarse))], axis=1).astype(np.float32)


def _thrown(
    particles: Particles, block: slice, lines: Floats, ball: Ball, ground: Ground
) -> dict[str, Table]:
    """Return where each line ends on each lane of a block, arrays of shape (n_lanes, n_lines).

    `lines` has a row for each: laydown, slope, and how much more speed, revs and rotation.
    """
    n_lanes, n_lines = particles.film_frac[block].size, len(lines)

    def each(values: Floats) -> Floats:
        return np.repeat(values[block], n_lines)

    laydown, slope, *more = np.tile(lines, (n_lanes, 1)).T
    release = Release(
        laydown_board=laydown,
        launch_deg=np.degrees(np.arctan(slope / ft_to_boards(TABLE_TARGET_FT))),
        speed_mph=each(particles.speed_mph) + more[0],
        rev_rate_rpm=each(particles.rev_rate_rpm) + more[1],
        axis_rotation_deg=each(particles.axis_rotation_deg) + more[2],
        axis_tilt_deg=particles.axis_tilt_deg,
    )
    launch, grip = launch_of(release, ball), grip_of(ball)
    over = np.repeat(start_m(n_lanes), n_lines)
    own_grip = dataclasses.replace(
        grip,
        dry_coef=grip.dry_coef * each(particles.dry_frac),
        wet_coef=grip.wet_coef * each(particles.wet_frac),
    )
    moved_over = dataclasses.replace(launch, across_m=launch.across_m + over)
    landed = march(moved_over, ground, own_grip, chunk=over.size)  # few long calls: threads wait for no turn
    return _columns(landed, over, (n_lanes, n_lines))


def _columns(landed: Landed, over: Floats, shape: tuple[int, ...]) -> dict[str, Table]:
    arrival = (landed.across_m - over) / BOARD_M
    farthest_out = np.fmin(arrival, (landed.turn_across_m - over) / BOARD_M)
    turn_ft = np.where(np.isnan(landed.turn_m), HEAD_PIN_FT, landed.turn_m / FT_M)
    columns = {
        "arrival_board": np.clip(arrival, *_LIMIT_BOARD),
        "entry_deg": np.degrees(np.arctan2(landed.across_mps, landed.along_mps)),
        "turn_ft": turn_ft,
        "farthest_out": farthest_out,
        "along_mps": landed.along_mps,
    }
    return {name: values.reshape(shape).astype(np.float32) for name, values in columns.items()}
