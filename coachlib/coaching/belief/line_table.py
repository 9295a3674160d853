"""Every line on every possible lane, thrown once and then only looked up, also between its grid points.

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

from coachlib.coaching.belief.lane_films import ground_of_lanes, march_on_lanes
from coachlib.coaching.belief.particles import TABLE_TARGET_FT, Particles
from coachlib.interpolation import cell_of
from coachlib.physics.kinematics import Ground
from coachlib.physics.motion import BOARD_M
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
    """Return the table of lines of one ball on the film of a sheet, which the bowling hand turns.

    `progress` is called with the share done, 0 to 1.
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
    lanes = particles.some(np.arange(particles.n_particles)[block])
    lane = np.repeat(np.arange(lanes.n_particles), len(lines))
    laydown, slope, *more = np.tile(lines, (lanes.n_particles, 1)).T
    release = Release(
        laydown_board=laydown,
        launch_deg=np.degrees(np.arctan(slope / ft_to_boards(TABLE_TARGET_FT))),
        speed_mph=lanes.speed_mph[lane] + more[0],
        rev_rate_rpm=lanes.rev_rate_rpm[lane] + more[1],
        axis_rotation_deg=lanes.axis_rotation_deg[lane] + more[2],
        axis_tilt_deg=lanes.axis_tilt_deg,
    )
    landed = march_on_lanes(release, ball, ground, lanes, lane)
    arrival = landed.across_m / BOARD_M
    columns = {
        "arrival_board": np.clip(arrival, *_LIMIT_BOARD),
        "entry_deg": np.degrees(np.arctan2(landed.across_mps, landed.along_mps)),
        "turn_ft": np.where(np.isnan(landed.turn_m), HEAD_PIN_FT, landed.turn_m / FT_M),
        "farthest_out": np.fmin(arrival, landed.turn_across_m / BOARD_M),
        "along_mps": landed.along_mps,
    }
    shape = (lanes.n_particles, len(lines))
    return {name: values.reshape(shape).astype(np.float32) for name, values in columns.items()}


@dataclasses.dataclass(frozen=True, eq=False)
class GridCells:
    """Places on a grid of lines, one row a particle: the cell's lowest corner and how far in it they lie."""

    row: NDArray[np.intp]
    corner: NDArray[np.integer]
    part: tuple[Floats, Floats]
    n_slopes: int

    def read(self, table: Table) -> Floats:
        """Return a table at these places, linear in both directions."""
        flat, width = table.ravel(), self.n_slopes
        corner = self.corner + (self.row * (table.shape[1] * width))[:, None]
        far, across = self.part
        near = flat[corner] * (1.0 - across) + flat[corner + 1] * across
        next_row = flat[corner + width] * (1.0 - across) + flat[corner + width + 1] * across
        return near * (1.0 - far) + next_row * far


def cells_at(
    row: NDArray[np.intp],
    laydown_board: Floats,
    slope_boards: Floats,
    axes: tuple[Floats, Floats] = (LAYDOWN_BOARDS, SLOPE_BOARDS),
) -> GridCells:
    """Return where lines lie on the grid; beyond its edge they are read at the edge.

    Parameters
    ----------
    row : ndarray of int, shape (n_particles,)
        Each particle's row of the tables.
    laydown_board : ndarray, shape (n_particles, n) or (n_particles, 1)
        Where each particle lays the ball down. [board]
    slope_boards : ndarray, shape (n_particles, n)
        How far it runs across to 15 ft. [boards]
    axes : (ndarray, ndarray)
        The grid's laydown boards and slopes, each evenly spaced.
    """
    below, far = _place(laydown_board, axes[0])
    left, across = _place(slope_boards, axes[1])
    return GridCells(row, below * len(axes[1]) + left, (far, across), len(axes[1]))


def laydowns_around(laydown_board: Floats) -> slice:
    """Return the grid's laydown boards that some lines lie between, at least two."""
    ends = np.array([laydown_board.min(), laydown_board.max()])
    first, last = _place(ends, LAYDOWN_BOARDS)[0].tolist()
    return slice(first, last + 2)


def _place(values: Floats, axis: Floats) -> tuple[NDArray[np.int32], Floats]:
    return cell_of((values - axis[0]) / (axis[1] - axis[0]), len(axis))
