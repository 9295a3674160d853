"""Reading evenly spaced tables between their grid points, linear in every direction.

The one way in which the library does it: films, paths, the carry table and the tables of lines are all read
here. SciPy reads a table of plain numbers so too (the tests compare), but not several numbers at a point.
"""

import itertools
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

Table = NDArray[Any]


def cell_of(place: Table, n_points: int) -> tuple[NDArray[np.int32], Table]:
    """Return the grid point before each place on an axis, and how far past it the place lies, 0 to 1.

    Parameters
    ----------
    place : ndarray
        In steps of the axis from its first point; beyond its ends the end is meant.
    n_points : int
        Grid points of the axis, at least two.
    """
    inside = np.clip(place, 0.0, n_points - 1.0)
    before = np.minimum(inside.astype(np.int32), n_points - 2)
    return before, np.asarray(inside - before, dtype=inside.dtype)


def between_rows(table: Table, row: Table | float) -> Table:
    """Return the rows of a table at fractional places, linear between two rows.

    Parameters
    ----------
    table : ndarray, shape (n_rows, ...)
        At least two rows.
    row : float or ndarray
        Where, in rows; beyond the ends the end is meant.

    Returns
    -------
    ndarray, shape (*row.shape, ...)
    """
    before, share = cell_of(np.asarray(row), len(table))
    share = share.reshape(share.shape + (1,) * (table.ndim - 1))
    return np.asarray(table[before] * (1.0 - share) + table[before + 1] * share)


def multilinear(table: Table, places: Sequence[Table]) -> Table:
    """Return a table at places between its grid points, linear in the first ``len(places)`` directions.

    Parameters
    ----------
    table : ndarray, shape (n_1, ..., n_d, ...)
        What stands at each grid point: a number, or several.
    places : sequence of ndarray, all of one shape
        Where along each of the first d axes, in steps; beyond the ends the end is meant.

    Returns
    -------
    ndarray, shape (*place.shape, ...)
    """
    n_axes = len(places)
    cells = [cell_of(place, n) for place, n in zip(places, table.shape[:n_axes], strict=True)]
    flat = table.reshape(-1, *table.shape[n_axes:])
    strides = [int(np.prod(table.shape[axis + 1 : n_axes], dtype=int)) for axis in range(n_axes)]
    corner = sum(before * stride for (before, _), stride in zip(cells, strides, strict=True))
    total: Any = 0.0
    for far in itertools.product((0, 1), repeat=n_axes):
        weight: Any = 1.0
        for is_far, (_, share) in zip(far, cells, strict=True):
            weight = weight * (share if is_far else 1.0 - share)
        at_corner = flat[corner + int(np.dot(far, strides))]
        total = total + at_corner * weight.reshape(weight.shape + (1,) * (flat.ndim - 1))
    return np.asarray(total)
