"""The wear of a hidden lane: another law than the coach's model has.

The model takes a share of the film (:mod:`coachlib.physics.wear`). Here each pass skims a depth: nearly all
the same from thick film, less where little is left. A part of what it took comes down again when that
stretch of the ball has come round, so a little farther on, also past the oil's end. Depth, carried part and
distance are drawn by the lane's seed; all *our guess*, of a size that three games bring the same ball in
about a board higher.
"""

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from coachlib.interpolation import between_rows
from coachlib.study.hidden_lane.hidden_law import N_ROWS, ROW_FT
from coachlib.units import N_BOARDS

Floats = NDArray[np.float64]

FOOT_BOARDS = 1.6
"""Half width of the strip that a pass touches, fading to its edges (our guess) [boards]."""

_BOARDS = np.arange(1.0, N_BOARDS + 1.0)


@dataclasses.dataclass(frozen=True)
class HiddenWear:
    """One lane's wear.

    Parameters
    ----------
    depth_um : float
        What one pass skims from thick film. [µm]
    soft_um : float
        Film from which it skims half as much. [µm]
    carried_frac : float
        Share of it that comes down again.
    round_ft : float
        How far on most of it comes down. [ft]
    """

    depth_um: float = 0.05
    soft_um: float = 0.7
    carried_frac: float = 0.1
    round_ft: float = 4.0


def drawn_wear(rng: np.random.Generator) -> HiddenWear:
    """Return a wear drawn at random."""
    return HiddenWear(
        depth_um=float(rng.uniform(0.03, 0.07)),
        soft_um=float(rng.uniform(0.4, 1.0)),
        carried_frac=float(rng.uniform(0.0, 0.25)),
        round_ft=float(rng.uniform(3.0, 6.0)),
    )


def passes_over(path_board: NDArray[np.floating], n_balls: float = 1.0) -> Floats:
    """Return how often balls passed over each cell of the lane.

    Parameters
    ----------
    path_board : ndarray, shape (61, n_shots)
        Board at each foot, NaN from where a ball left the lane. [board]
    n_balls : float, default 1
        Shared among the shots.

    Returns
    -------
    ndarray, shape (120, 39)
        Exactly 0 where no ball rolled.
    """
    middle_ft = (np.arange(N_ROWS) + 0.5) * ROW_FT
    place = between_rows(path_board, middle_ft)
    touched = np.maximum(1.0 - np.abs(_BOARDS[:, None, None] - place) / FOOT_BOARDS, 0.0)
    return np.nan_to_num(touched).mean(axis=2).T * n_balls


def worn_film_um(film_um: Floats, passes: Floats, wear: HiddenWear) -> Floats:
    """Return the film after some passes, both of shape (120, 39) [µm]."""
    lifted = film_um * -np.expm1(-passes * wear.depth_um / (film_um + wear.soft_um))
    touched = passes.sum(axis=1)
    laid = _round_again(wear.round_ft) @ lifted.sum(axis=1) * wear.carried_frac
    per_pass = np.divide(laid, touched, out=np.zeros(N_ROWS), where=touched > 0.0)
    return film_um - lifted + passes * per_pass[:, None]


@functools.lru_cache(maxsize=64)
def _round_again(round_ft: float) -> Floats:
    """Return which share of what was lifted in a row (column) comes down in each later row."""
    ahead_ft = (np.arange(N_ROWS)[:, None] - np.arange(N_ROWS)) * ROW_FT
    share = np.where(ahead_ft > 0.0, ahead_ft * np.exp(-np.maximum(ahead_ft, 0.0) / (0.5 * round_ft)), 0.0)
    return share * (ROW_FT / (0.5 * round_ft) ** 2)
