"""From thrown racks to the carry table: kernel counts on a grid of arrivals.

Each rack counts at every grid point near its arrival, the less the farther it lies (Gaussian in board, angle,
speed and weight). Where few racks lie near, for thin and crossed hits, a second, wider count speaks with the
weight of a few racks, and the overall mix last. All widths and weights were chosen by held-out log-loss, see
:func:`held_out_log_loss`. Grade of the result: *simulated*; nothing here was measured on real pins.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.carry_table import (
    SCHEMA,
    CarryTable,
    are_inside,
    leave_shares,
    pocket_carry_frac,
    weighted_shares,
)

TELEVISED_CARRY_FRAC = 40 / 54
"""Strikes among pocket hits of televised professionals: 40 of 54; J. Thomas, column, seen second-hand."""


@dataclasses.dataclass(frozen=True)
class Smoothing:
    """How far a rack's evidence reaches, near and wide, and with how many racks wide and overall mix speak.

    Parameters
    ----------
    board_boards, angle_deg, speed_mph, weight_lb : float
        One standard deviation of the near count.
    wide_board_boards, wide_angle_deg, wide_speed_mph, wide_weight_lb : float
        That of the wide count.
    wide_racks : float
        With how many racks' weight the wide count speaks at every grid point.
    pull_racks : float
        With how many racks' weight wide and near are pulled to the overall mix.
    """

    board_boards: float = 0.15
    angle_deg: float = 1.0
    speed_mph: float = 3.0
    weight_lb: float = 1.5
    wide_board_boards: float = 0.3
    wide_angle_deg: float = 2.0
    wide_speed_mph: float = 9.0
    wide_weight_lb: float = 4.0
    wide_racks: float = 2.0
    pull_racks: float = 0.3

    @property
    def near(self) -> tuple[float, ...]:
        """Widths of the near count in board, angle, speed and weight."""
        return self.board_boards, self.angle_deg, self.speed_mph, self.weight_lb

    @property
    def wide(self) -> tuple[float, ...]:
        """Widths of the wide count in the same order."""
        return self.wide_board_boards, self.wide_angle_deg, self.wide_speed_mph, self.wide_weight_lb


def build_table(
    points: NDArray[np.float64],
    standing_bits: NDArray[np.int64],
    smoothing: Smoothing | None = None,
    settings: str = "{}",
) -> CarryTable:
    """Return the table of racks thrown at `points` that left `standing_bits`.

    Parameters
    ----------
    points : ndarray, shape (n, 4)
        Arrival, entry angle, speed, weight of each rack. [board], [deg], [mph], [lb]
    standing_bits : ndarray of int, shape (n,)
        Pins left, pin 1 is bit 0.
    smoothing : Smoothing, optional
        Other than the chosen one.
    settings : str
        What the racks were thrown with, as JSON; kept in the file.
    """
    smoothing = smoothing or Smoothing()
    leaves, which = ordered_leaves(standing_bits)
    overall = np.bincount(which, minlength=len(leaves)) / len(which)
    counts = smoothed_counts(points, which, overall, smoothing)
    table = CarryTable(SCHEMA, leaves, counts, overall, smoothing.pull_racks, 1.0, len(points), settings)
    return dataclasses.replace(table, level=min(1.0, TELEVISED_CARRY_FRAC / pocket_carry_frac(table)))


def ordered_leaves(standing_bits: NDArray[np.int64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the leaves, the strike first and then the commonest, and which of them each rack left."""
    found, which, n_racks = np.unique(standing_bits, return_inverse=True, return_counts=True)
    order = np.lexsort((found, -n_racks, found != 0))
    leaves, rank = found[order], np.argsort(order)
    if leaves[0] != 0:
        return np.append(0, leaves), rank[which] + 1
    return leaves, rank[which]


def smoothed_counts(
    points: NDArray[np.float64],
    which: NDArray[np.int64],
    overall_frac: NDArray[np.float64],
    smoothing: Smoothing,
) -> NDArray[np.float32]:
    """Return near counts with a few racks' weight of wide ones, shape (n_nodes, n_leaves)."""
    near, wide = (
        kernel_counts(points, which, len(overall_frac), widths) for widths in (smoothing.near, smoothing.wide)
    )
    return near + np.float32(smoothing.wide_racks) * leave_shares(wide, overall_frac, smoothing.pull_racks)


def kernel_counts(
    points: NDArray[np.float64], which: NDArray[np.int64], n_leaves: int, widths: tuple[float, ...]
) -> NDArray[np.float32]:
    """Return how many racks count at each grid point for each leave, shape (n_nodes, n_leaves)."""
    board, *others = (
        np.exp(-0.5 * ((points[:, [number]] - axis) / width) ** 2)
        for number, (axis, width) in enumerate(zip(CarryTable.axes(), widths, strict=True))
    )
    other = np.einsum("ia,is,iw->iasw", *others).reshape(len(points), -1)
    columns = [(board[which == leave].T @ other[which == leave]).ravel() for leave in range(n_leaves)]
    return np.column_stack(columns).astype(np.float32)


def held_out_log_loss(
    points: NDArray[np.float64], standing_bits: NDArray[np.int64], smoothing: Smoothing
) -> float:
    """Return the mean surprise at racks not counted: -log of the chance given to what they left.

    Every fourth rack is held out in turn, inside the table's range only.
    """
    leaves, which = ordered_leaves(standing_bits)
    part = np.arange(len(points)) % 4
    losses = []
    for held in range(4):
        kept = part != held
        overall = (np.bincount(which[kept], minlength=len(leaves)) + 0.01) / (kept.sum() + 0.01 * len(leaves))
        counts = smoothed_counts(points[kept], which[kept], overall, smoothing)
        shares = leave_shares(counts, overall, smoothing.pull_racks)
        losses.append(_log_loss(shares, points[~kept], which[~kept]))
    return float(np.mean(np.concatenate(losses)))


def _log_loss(
    shares: NDArray[np.float32], points: NDArray[np.float64], which: NDArray[np.int64]
) -> NDArray[np.float64]:
    inside = are_inside(points)
    points, which = points[inside], which[inside]
    found = np.empty(len(points))
    for first in range(0, len(points), 4096):
        rows = slice(first, first + 4096)
        mixed = weighted_shares(shares, points[rows])
        found[rows] = mixed[np.arange(len(mixed)), which[rows]]
    return -np.log(found)
