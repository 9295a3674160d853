"""Reading tables of lines between their grid points, many lines on many lanes at once."""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.line_table import LAYDOWN_BOARDS, SLOPE_BOARDS
from coachlib.interpolation import cell_of

Floats = NDArray[np.float64]
Table = NDArray[np.float32]


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
        The grid's laydown boards and slopes, each evenly spaced. [board], [boards]
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
