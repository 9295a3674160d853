"""Which arrivals the carry table is made of: points spread evenly by a scrambled Sobol sequence."""

import math
import warnings

import numpy as np
from numpy.typing import NDArray

LOW_BOARD, HIGH_BOARD = 8.0, 32.0
DENSE_LOW_BOARD, DENSE_HIGH_BOARD = 14.0, 24.0
DENSITY = 3.0
"""How much denser the points lie between the two dense boards."""

LOW_DEG, HIGH_DEG = -2.0, 9.0
LOW_MPH, HIGH_MPH = 10.0, 22.0
LOW_LB, HIGH_LB = 6.0, 16.0


def arrival_points(first: int, n_points: int, seed: int) -> NDArray[np.float64]:
    """Return points `first` to `first + n_points` of the design.

    Parameters
    ----------
    first, n_points : int
        A batch asked for in pieces gives the same points.
    seed : int
        Of the scrambling.

    Returns
    -------
    ndarray, shape (n_points, 4)
        Arrival, entry angle, speed at the pins, ball weight. [board], [deg], [mph], [lb]
    """
    from scipy.stats import qmc

    sobol = qmc.Sobol(4, scramble=True, rng=np.random.default_rng(seed))
    if first:
        sobol.fast_forward(first)
    with warnings.catch_warnings(action="ignore", category=UserWarning):  # no power of two is meant
        unit = np.asarray(sobol.random(n_points))
    angle_deg = LOW_DEG + (HIGH_DEG - LOW_DEG) * unit[:, 1]
    speed_mph = LOW_MPH + (HIGH_MPH - LOW_MPH) * unit[:, 2]
    weight_lb = LOW_LB * np.exp(math.log(HIGH_LB / LOW_LB) * unit[:, 3])
    return np.column_stack([board_of_share(unit[:, 0]), angle_deg, speed_mph, weight_lb])


def board_of_share(share: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the board below which a share of the design's points lies."""
    corners = np.array([LOW_BOARD, DENSE_LOW_BOARD, DENSE_HIGH_BOARD, HIGH_BOARD])
    weights = np.diff(corners) * np.array([1.0, DENSITY, 1.0])
    return np.interp(share, np.append(0.0, np.cumsum(weights) / weights.sum()), corners)
