"""From thrown racks to the carry table: kernel counts on a grid of arrivals.

Each rack counts at every grid point near its arrival, the less the farther it lies (Gaussian in board, angle,
speed and weight). Bandwidths and the pull to the overall mix were chosen by held-out log-loss, see
:func:`held_out_log_loss`. Grade of the result: *simulated*; nothing here was measured on real pins.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.carry_table import SCHEMA, CarryTable, leave_shares, pocket_carry_frac, weighted_shares

TELEVISED_CARRY_FRAC = 40 / 54
"""Strikes among pocket hits of televised professionals: 40 of 54; J. Thomas, column, seen second-hand."""


@dataclasses.dataclass(frozen=True)
class Smoothing:
    """How far a rack's evidence reaches, one standard deviation, and the pull to the overall mix in racks."""

    board_boards: float = 0.15
    angle_deg: float = 1.2
    speed_mph: float = 3.0
    weight_lb: float = 1.5
    pull_racks: float = 1.0


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
    counts = kernel_counts(points, which, len(leaves), smoothing)
    overall = np.bincount(which, minlength=len(leaves)) / len(which)
    table = CarryTable(SCHEMA, leaves, counts, overall, smoothing.pull_racks, 1.0, len(points), settings)
    return dataclasses.replace(table, level=min(1.0, TELEVISED_CARRY_FRAC / pocket_carry_frac(table)))


def ordered_leaves(standing_bits: NDArray[np.int64]) -> tuple[NDArray[np.int64], NDArray[np.int64]]:
    """Return the leaves, the strike first and then the commonest, and which of them each rack left."""
    seen, which, n_seen = np.unique(standing_bits, return_inverse=True, return_counts=True)
    order = np.lexsort((seen, -n_seen, seen != 0))
    rank = np.empty_like(order)
    rank[order] = np.arange(len(order))
    leaves = seen[order]
    if leaves[0] != 0:
        return np.append(0, leaves), rank[which] + 1
    return leaves, rank[which]


def kernel_counts(
    points: NDArray[np.float64], which: NDArray[np.int64], n_leaves: int, smoothing: Smoothing
) -> NDArray[np.float32]:
    """Return how many racks count at each grid point for each leave, shape (n_nodes, n_leaves)."""
    widths = (smoothing.board_boards, smoothing.angle_deg, smoothing.speed_mph, smoothing.weight_lb)
    board, *others = (
        np.exp(-0.5 * ((points[:, [number]] - axis) / width) ** 2)
        for number, (axis, width) in enumerate(zip(CarryTable.axes(), widths, strict=True))
    )
    other = np.einsum("ia,is,iw->iasw", *others).reshape(len(points), -1)
    columns = [(board[which == leave].T @ other[which == leave]).ravel() for leave in range(n_leaves)]
    return np.column_stack(columns).astype(np.float32)


def held_out_log_loss(
    points: NDArray[np.float64], standing_bits: NDArray[np.int64], smoothing: Smoothing, n_parts: int = 4
) -> float:
    """Return the mean surprise at racks not seen before: -log of the chance given to what they left.

    Every `n_parts`-th rack is held out in turn, inside the table's range only.
    """
    leaves, which = ordered_leaves(standing_bits)
    part = np.arange(len(points)) % n_parts
    losses = []
    for held in range(n_parts):
        seen = part != held
        counts = kernel_counts(points[seen], which[seen], len(leaves), smoothing)
        overall = (np.bincount(which[seen], minlength=len(leaves)) + 0.01) / (seen.sum() + 0.01 * len(leaves))
        shares = leave_shares(counts, overall, smoothing.pull_racks)
        losses.append(_log_loss(shares, points[~seen], which[~seen]))
    return float(np.mean(np.concatenate(losses)))


def _log_loss(
    shares: NDArray[np.float32], points: NDArray[np.float64], which: NDArray[np.int64]
) -> NDArray[np.float64]:
    lows, highs = zip(*((axis[0], axis[-1]) for axis in CarryTable.axes()), strict=True)
    inside = ((points >= lows) & (points <= highs)).all(axis=1)
    points, which = points[inside], which[inside]
    found = np.empty(len(points))
    for first in range(0, len(points), 4096):
        rows = slice(first, first + 4096)
        mixed = weighted_shares(shares, points[rows])
        found[rows] = mixed[np.arange(len(mixed)), which[rows]]
    return -np.log(found)
