"""Reading tables of lines between their grid points, many lines on many lanes at once."""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.lines import LAYDOWN_BOARDS, SLOPE_BOARDS

Floats = NDArray[np.float64]
Table = NDArray[np.float32]


@dataclasses.dataclass(frozen=True, eq=False)
class Cells:
    """Places on a grid of lines, one row a particle: the cell's lowest corner and how far in it they lie."""

    corner: NDArray[np.intp]
    part: tuple[Floats, Floats]
    n_slopes: int

    def read(self, table: Table) -> Floats:
        """Return a table of all particles at these places, linear in both directions."""
        flat, width = table.ravel(), self.n_slopes
        far, across = self.part
        near = flat[self.corner] * (1.0 - across) + flat[self.corner + 1] * across
        next_row = flat[self.corner + width] * (1.0 - across) + flat[self.corner + width + 1] * across
        return near * (1.0 - far) + next_row * far


def cells_at(laydown_board: Floats, slope_boards: Floats, step: tuple[int, int] = (1, 1)) -> Cells:
    """Return where lines lie on the grid; beyond its edge they are read at the edge.

    Parameters
    ----------
    laydown_board : ndarray, shape (n_particles, n) or (n_particles, 1)
        Where each particle lays the ball down. [board]
    slope_boards : ndarray, shape (n_particles, n)
        How far it runs across to 15 ft. [boards]
    step : (int, int)
        Every so-many-th grid point of laydown and slope.
    """
    n_particles = max(len(laydown_board), len(slope_boards))
    rows, columns = len(LAYDOWN_BOARDS[:: step[0]]), len(SLOPE_BOARDS[:: step[1]])
    below, far = _place(laydown_board, LAYDOWN_BOARDS[:: step[0]])
    left, across = _place(slope_boards, SLOPE_BOARDS[:: step[1]])
    particle = np.arange(n_particles)[:, None]
    return Cells((particle * rows + below) * columns + left, (far, across), columns)


def _place(values: Floats, axis: Floats) -> tuple[NDArray[np.intp], Floats]:
    place = np.clip((values - axis[0]) / (axis[1] - axis[0]), 0.0, len(axis) - 1.0)
    below = np.minimum(place.astype(np.intp), len(axis) - 2)
    return below, place - below
