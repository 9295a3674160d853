"""How sure a strike chance is: the racks that count at an arrival, and the error of counting them.

A rack counts the less the farther it lies from the arrival asked for, so that the racks behind a chance are
fewer than those nearby. Their effective number is (sum of weights)² / (sum of squared weights), after
L. Kish, "Survey Sampling", 1965 (from memory). The error is that of counting alone: what the simulator's
numbers may be wrong by, about 10 in 100, comes on top and is common to all arrivals.
"""

import functools

import numpy as np
from numpy.typing import ArrayLike, NDArray

from coachlib.physics.pins.build.carry_build import Smoothing
from coachlib.physics.pins.build.carry_ship import read_shipped_racks
from coachlib.physics.pins.carry import checked_points, strike_prob
from coachlib.physics.pins.carry_file import shipped_table


def effective_racks(
    points: NDArray[np.float64], rack_points: NDArray[np.float64] | None = None
) -> NDArray[np.float64]:
    """Return the effective number of racks behind the chances at some arrivals.

    Parameters
    ----------
    points : ndarray, shape (n, 4)
        Arrival, entry angle, speed at the pins, weight of the ball. [board], [deg], [mph], [lb]
    rack_points : ndarray, shape (n_racks, 4), optional
        Where the racks were thrown; those behind the shipped table by default.

    Returns
    -------
    ndarray, shape (n,)
        0 where no rack lies near.
    """
    racks = _shipped_points() if rack_points is None else rack_points
    widths = Smoothing().near
    counts = []
    for point in points:
        weights = np.exp(-0.5 * np.sum(((racks - point) / widths) ** 2, axis=1))
        counts.append(weights.sum() ** 2 / max(float(np.sum(weights**2)), 1e-300))
    return np.array(counts)


def strike_prob_error(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike = 15.0,
    *,
    level_on: bool = True,
) -> NDArray[np.float64]:
    """Return one standard error of counting for the strike chances of :func:`coachlib.strike_prob`.

    Parameters
    ----------
    arrival_board, entry_deg, speed_mph, ball_weight_lb, level_on
        As there, for the shipped table.

    Returns
    -------
    ndarray
        Of the arrays' shape.

    Raises
    ------
    InputError
        If a value is no number or off the lane.

    Notes
    -----
    Assumes: racks are independent. Not in it: that the chance is smoothed over 0.15 board and 1.2 deg, which
    rounds off steps of the true one.
    """
    points, shape = checked_points(arrival_board, entry_deg, speed_mph, ball_weight_lb)
    chance = strike_prob(*points.T, level_on=False)
    error = binomial_error(chance, effective_racks(points))
    return (error * (shipped_table().level if level_on else 1.0)).reshape(shape)


def binomial_error(share: ArrayLike, n_racks: ArrayLike) -> NDArray[np.float64]:
    """Return one standard error of a share counted in racks; never less than that of a share of 1 in 100."""
    share, n_racks = np.asarray(share, dtype=float), np.maximum(n_racks, 1.0)
    return np.sqrt(np.maximum(share * (1.0 - share), 0.0099) / n_racks)


@functools.cache
def share_error(board: float, entry_deg: float, speed_mph: float, weight_lb: float, share: float) -> float:
    """Return one standard error of a share that the shipped racks show at an arrival."""
    n_racks = effective_racks(np.array([[board, entry_deg, speed_mph, weight_lb]]))
    return float(binomial_error(share, n_racks)[0])


@functools.cache
def _shipped_points() -> NDArray[np.float64]:
    return read_shipped_racks().points
