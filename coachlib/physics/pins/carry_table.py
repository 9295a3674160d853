"""The carry table: what it holds, and how it is read between its grid points."""

import dataclasses
import functools
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.interpolation import multilinear

SCHEMA = 1
BOARDS = np.linspace(8.0, 32.0, 97)
ANGLES_DEG = np.linspace(-2.0, 8.0, 6)
SPEEDS_MPH = np.linspace(10.0, 22.0, 4)
WEIGHTS_LB = np.linspace(8.0, 16.0, 5)
GRID_SHAPE = (97, 6, 4, 5)
_CHUNK = 32_768


@dataclasses.dataclass(frozen=True)
class CarryTable:
    """Simulated racks, counted on a grid of arrivals.

    Parameters
    ----------
    schema : int
        Layout of the file.
    leaves : ndarray of int, shape (n_leaves,)
        Every leave seen, as bits (pin 1 is bit 0), the strike first.
    counts : ndarray, shape (n_nodes, n_leaves)
        Racks that count at a grid point; grid points in the order board, angle, speed, weight.
    overall_frac : ndarray, shape (n_leaves,)
        Share of each leave among all racks.
    pull_racks : float
        With how many racks' weight every grid point is pulled to the overall mix.
    level : float
        Factor on every strike chance that brings the carry to the televised one; grade *tuned*.
    n_racks : int
        Racks behind the table.
    settings : str
        What they were thrown with, as JSON.
    """

    schema: int
    leaves: NDArray[np.int64]
    counts: NDArray[np.float32]
    overall_frac: NDArray[np.float64]
    pull_racks: float
    level: float
    n_racks: int
    settings: str

    @staticmethod
    def axes() -> tuple[NDArray[np.float64], ...]:
        """Return the grid's boards, angles [deg], speeds [mph] and weights [lb]."""
        return BOARDS, ANGLES_DEG, SPEEDS_MPH, WEIGHTS_LB

    @functools.cached_property
    def shares(self) -> NDArray[np.float32]:
        """The chance of each leave at each grid point, level off, shape (n_nodes, n_leaves)."""
        return leave_shares(self.counts, self.overall_frac, self.pull_racks)

    @functools.cached_property
    def strike_shares(self) -> NDArray[np.float64]:
        """The chance of a strike at each grid point, level off."""
        totals = self.counts.sum(axis=1, dtype=np.float64) + self.pull_racks
        return (self.counts[:, 0] + self.pull_racks * self.overall_frac[0]) / totals

    @functools.cached_property
    def standing(self) -> NDArray[np.bool_]:
        """The leaves as pins 1 to 10, shape (n_leaves, 10)."""
        return (self.leaves[:, None] >> np.arange(10) & 1).astype(bool)

    @functools.cached_property
    def leave_sets(self) -> tuple[frozenset[int], ...]:
        """The leaves as sets of pins."""
        return tuple(frozenset((np.flatnonzero(row) + 1).tolist()) for row in self.standing)


def leave_shares(
    counts: NDArray[np.float32], overall_frac: NDArray[np.float64], pull_racks: float
) -> NDArray[np.float32]:
    """Return counts as chances, pulled to the overall mix where few racks count."""
    pulled = counts + (pull_racks * overall_frac).astype(np.float32)
    return pulled / pulled.sum(axis=1, keepdims=True)


def are_inside(points: NDArray[np.float64]) -> NDArray[np.bool_]:
    """Return which arrivals lie inside the table; outside its edge is read."""
    inside = [
        (axis[0] <= values) & (values <= axis[-1])
        for axis, values in zip(CarryTable.axes(), points.T, strict=True)
    ]
    return np.asarray(np.all(inside, axis=0))


def weighted_shares(shares: NDArray[Any], points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return rows (or numbers) of the grid, interpolated linearly in all four inputs, at each arrival."""
    axes = CarryTable.axes()
    places = [
        (values - axis[0]) * ((len(axis) - 1) / (axis[-1] - axis[0]))
        for axis, values in zip(axes, points.T, strict=True)
    ]
    return multilinear(shares.reshape(*map(len, axes), *shares.shape[1:]), places)


def table_strike_chances(table: CarryTable, points: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the strike chance of each arrival, level off."""
    firsts = range(0, len(points), _CHUNK)
    chunks = [weighted_shares(table.strike_shares, points[first : first + _CHUNK]) for first in firsts]
    return np.concatenate([np.zeros(0), *chunks])


def pocket_carry_frac(table: CarryTable) -> float:
    """Return the share of strikes among a professional's pocket hits, level off.

    These arrive at 17.5 +- 1.3 boards, 4 to 6 deg, 17 mph, 15 lb. The spread at the arrows is that
    of an average of about 200 (0.97 board); 82 of 100 such balls hit this pocket, as on television.
    """
    axes = (np.linspace(16.2, 18.8, 261), np.linspace(4.0, 6.0, 5), [17.0], [15.0])
    points = np.stack(np.meshgrid(*axes, indexing="ij"), axis=-1).reshape(-1, 4)
    weights = np.exp(-0.5 * ((points[:, 0] - 17.5) / 0.97) ** 2)
    return float(np.average(table_strike_chances(table, points), weights=weights))
