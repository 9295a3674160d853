"""The strike chance of every line on every possible lane, under the bowler's own scatter.

Nothing is drawn: the spread of the arrival from speed, revs, rotation and laydown widens the carry table, the
spread of the aim averages along the aim. Two lines differ by what they are and by nothing else.
"""

import functools
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.line_table import (
    COARSE_AXES,
    LAYDOWN_BOARDS,
    SLOPE_BOARDS,
    LineTable,
    line_weights,
)
from coachlib.coaching.belief.particles import TABLE_TARGET_FT
from coachlib.interpolation import multilinear
from coachlib.physics.pins.carry import strike_prob
from coachlib.physics.pins.carry_table import ANGLES_DEG
from coachlib.world.bowler import Bowler

Floats = NDArray[np.float64]
Table = NDArray[np.float32]

LAYDOWN_SD_BOARDS = 0.4
"""Spread of the laydown from ball to ball (our guess) [boards]."""

MOST_SHIFT_BOARDS = 6.0
"""No change of speed, revs or rotation moves an arrival farther: slopes hold near the line only."""

ALL_LAYDOWNS = slice(0, len(LAYDOWN_BOARDS))

WIDTHS_BOARDS = np.linspace(0.0, 3.5, 8)
FINE = 2
"""The aim is averaged on a grid this many times finer than the table's."""

_LANES_A_BLOCK = 32
_BOARDS = np.linspace(8.0, 28.0, 161)
_STEP = float(_BOARDS[1] - _BOARDS[0])


def spread_boards(table: LineTable, bowler: Bowler) -> Table:
    """Return the spread of the arrival from all but the aim, on the table's grid [boards]."""
    parts = (
        table.per_mph * bowler.speed_sd_mph,
        table.per_rpm * bowler.rev_rate_sd_rpm,
        table.per_deg * bowler.axis_rotation_sd_deg,
    )
    coarse = np.sqrt(
        sum(np.clip(part, -MOST_SHIFT_BOARDS, MOST_SHIFT_BOARDS) ** 2 for part in parts)
        + LAYDOWN_SD_BOARDS**2
    )
    return refined(coarse.astype(np.float32))


def shifted_for_wear(
    table: LineTable, rows: NDArray[np.intp], slower_mph: float, laydowns: slice = ALL_LAYDOWNS
) -> LineTable:
    """Return some lanes of a table as they play where balls come in as if thrown so much slower.

    Where balls arrive is moved; their angle, their turn and the gutter are left as thrown on the fresh lane.
    With `laydowns`, the lines from these of the grid's laydown boards alone; the coarse columns stay whole.
    """
    meant = ("arrival_board", "entry_deg", "turn_ft", "gutter_frac")
    coarse = {name: getattr(table, name)[rows] for name in ("per_mph", "per_rpm", "per_deg")}
    columns = {name: getattr(table, name)[rows, laydowns] for name in meant}
    shift = refined(-slower_mph * coarse["per_mph"], laydowns)
    columns["arrival_board"] += np.clip(shift, -MOST_SHIFT_BOARDS, MOST_SHIFT_BOARDS)
    return LineTable(**columns, **coarse, speed_at_pins_mph=table.speed_at_pins_mph)


def line_strike_chances(
    table: LineTable,
    spread: Table,
    aim_sd_boards: float,
    ball_weight_lb: float,
) -> Table:
    """Return the strike chance of each line on each lane, on the table's grid.

    `spread`, shape (n_lanes, n_laydowns, 49) as the table's own columns, is that of :func:`spread_boards`;
    `aim_sd_boards` is the spread of the bowler's aim at 15 ft. [boards]
    """
    chances = _widened(table.speed_at_pins_mph, ball_weight_lb)

    def of_lanes(first: int) -> Table:
        some = slice(first, first + _LANES_A_BLOCK)
        places = (table.arrival_board[some], table.entry_deg[some], spread[some])
        fine = _at(chances, *(_between(one) for one in places))
        fine *= 1.0 - _between(table.gutter_frac[some])
        return _averaged(fine, aim_sd_boards)[:, :, ::FINE].astype(np.float32)

    with ThreadPoolExecutor(2) as threads:
        return np.concatenate(list(threads.map(of_lanes, range(0, len(spread), _LANES_A_BLOCK))))


def chances_at(
    arrival: Floats, entry: Floats, spread: Floats, speed_mph: float, ball_weight_lb: float
) -> Floats:
    """Return the strike chance at arrivals [board], entry angles [deg] and spreads of arrival [boards].

    Arrays of one shape; the bowler's spread of aim is not in it.
    """
    places = (np.asarray(one, dtype=np.float32) for one in (arrival, entry, spread))
    return np.asarray(_at(_widened(speed_mph, ball_weight_lb), *places), dtype=np.float64)


def aim_sd_at_table_ft(bowler: Bowler, target_ft: float) -> float:
    """Return the spread of the aim where lines are tabulated [boards]."""
    return bowler.arrow_sd_boards * TABLE_TARGET_FT / target_ft


@functools.lru_cache(maxsize=8)
def _widened(speed_mph: float, ball_weight_lb: float) -> Floats:
    """Return strike chances by width of spread, board and angle, shape (8, 161, 6)."""
    from scipy.ndimage import gaussian_filter1d

    board, angle = np.meshgrid(_BOARDS, ANGLES_DEG, indexing="ij")
    speed = np.clip(speed_mph, 10.0, 22.0)
    plain = strike_prob(board, angle, speed, max(ball_weight_lb, 8.0))
    wide = [gaussian_filter1d(plain, width / _STEP, axis=0, mode="nearest") for width in WIDTHS_BOARDS[1:]]
    return np.stack([plain, *wide])


def _at(chances: Floats, arrival: Table, entry: Table, spread: Table) -> Table:
    """Return the widened chances at arrivals, angles and spreads, linear in all three."""
    places = (
        spread / WIDTHS_BOARDS[1],
        (arrival - _BOARDS[0]) / _STEP,
        (entry - ANGLES_DEG[0]) / (ANGLES_DEG[1] - ANGLES_DEG[0]),
    )
    return multilinear(chances.astype(np.float32), [np.asarray(place, np.float32) for place in places])


def _between(values: Table) -> Table:
    """Return values along the aim with one more between each two."""
    n_fine = FINE * (values.shape[2] - 1) + 1
    fine = np.empty((*values.shape[:2], n_fine), dtype=np.float32)
    fine[:, :, ::FINE] = values
    fine[:, :, 1::FINE] = 0.5 * (values[:, :, :-1] + values[:, :, 1:])
    return fine


def _averaged(values: Table, aim_sd_boards: float) -> Floats:
    from scipy.ndimage import gaussian_filter1d

    step = float(SLOPE_BOARDS[1] - SLOPE_BOARDS[0]) / FINE
    return np.asarray(gaussian_filter1d(values, aim_sd_boards / step, axis=2, mode="nearest", truncate=3.5))


def refined(coarse: Table, laydowns: slice = ALL_LAYDOWNS) -> Table:
    """Return a table of the coarse grid on the full one, or on some of its laydown boards."""
    rows = line_weights(LAYDOWN_BOARDS[laydowns], COARSE_AXES[0])
    columns = line_weights(SLOPE_BOARDS, COARSE_AXES[1])
    return np.asarray(np.matmul(np.matmul(rows, coarse), columns.T))
