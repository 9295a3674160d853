"""The oil of a hidden lane: how it differs from its sheet, and how it wears.

A sheet says what the machine was told. What lies there has more or less film, ends earlier or later, rises a
little farther out or in, is uneven from board to board, and has a strip that others wore before. All shares
are *our guess*. Everything is in the own frame of the bowler who plays: both hands find the same lane.

The wear follows another law than the coach's model, which takes a share of the film
(:mod:`coachlib.physics.wear`). Here each pass skims a depth: nearly all the same from thick film, less where
little is left. A part of what it took comes down again when that stretch of the ball has come round, so a
little farther on, also past the oil's end. Depth, carried part and distance are drawn by the lane's seed; all
*our guess*, of a size that three games bring the same ball in about a board higher.
"""

import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from coachlib.interpolation import between_rows
from coachlib.physics.motion import ground_of
from coachlib.study.hidden_lane.hidden_law import N_ROWS, ROW_FT, Floats
from coachlib.units import N_BOARDS
from coachlib.world.hand import Hand
from coachlib.world.lane import CENTRE_BOARD
from coachlib.world.oil import OilPattern

STRIP_SLANT_BOARDS = 6.0
"""How much farther inside a worn strip lies at the foul line than at its middle, where it is 40 ft on."""

FOOT_BOARDS = 1.6
"""Half width of the strip that a pass touches, fading to its edges (our guess) [boards]."""

_BOARDS = np.arange(1.0, N_BOARDS + 1.0)
_MIDDLE_FT = (np.arange(N_ROWS) + 0.5) * ROW_FT


@dataclasses.dataclass(frozen=True)
class OilDifference:
    """How a lane differs from its sheet.

    Parameters
    ----------
    film_factor : float
        On every film.
    longer_ft : float
        The oil ends so much later; negative is earlier. [ft]
    ramp_out_boards : float
        On the bowler's side the rise to the middle's film lies so much farther out. [boards]
    strip_board, strip_boards, strip_depth_frac : float
        Middle of the worn strip at 40 ft, its half width, and the share of the film gone in its middle.
    uneven : tuple of 39 floats
        Factor on the film of each board.
    """

    film_factor: float = 1.0
    longer_ft: float = 0.0
    ramp_out_boards: float = 0.0
    strip_board: float = 10.0
    strip_boards: float = 3.0
    strip_depth_frac: float = 0.0
    uneven: tuple[float, ...] = (1.0,) * N_BOARDS


def drawn_difference(rng: np.random.Generator) -> OilDifference:
    """Return a difference drawn at random."""
    factor, longer, ramp = rng.standard_normal(3)
    return OilDifference(
        film_factor=float(np.exp(0.2 * factor)),
        longer_ft=0.6 * float(longer),
        ramp_out_boards=0.5 * float(ramp),
        strip_board=float(rng.uniform(4.0, 18.0)),
        strip_boards=float(rng.uniform(2.0, 4.0)),
        strip_depth_frac=0.5 * float(rng.random() ** 2),
        uneven=tuple(np.exp(0.04 * rng.standard_normal(N_BOARDS)).tolist()),
    )


def hidden_film_um(pattern: OilPattern, hand: Hand, difference: OilDifference) -> Floats:
    """Return the film that lies there before the first ball, shape (120, 39), own frame [µm].

    Raises
    ------
    InputError
        If the pattern has no film.
    """
    film_um = ground_of(pattern, hand, ROW_FT).film_um[:, 1:-1]
    film_um = _stretched(film_um, pattern.length_ft, difference.longer_ft)
    film_um = _ramp_moved(film_um, difference.ramp_out_boards)
    return film_um * difference.film_factor * np.array(difference.uneven) * _strip_left(difference)


def _stretched(film_um: Floats, length_ft: float, longer_ft: float) -> Floats:
    """Return the film with its end moved, everything before in proportion."""
    from_ft = _MIDDLE_FT * length_ft / (length_ft + longer_ft)
    return np.stack([np.interp(from_ft, _MIDDLE_FT, column) for column in film_um.T], axis=1)


def _ramp_moved(film_um: Floats, out_boards: float) -> Floats:
    """Return the film with the bowler's side moved out, less and less towards the centre."""
    share = np.clip((CENTRE_BOARD - _BOARDS) / 10.0, 0.0, 1.0)
    from_board = _BOARDS + out_boards * share
    return np.stack([np.interp(from_board, _BOARDS, row) for row in film_um])


def _strip_left(difference: OilDifference) -> Floats:
    """Return which share of the film is left in and beside the strip that others wore."""
    middle = difference.strip_board + STRIP_SLANT_BOARDS * np.clip(1.0 - _MIDDLE_FT / 40.0, 0.0, 1.0)
    away = np.abs(_BOARDS - middle[:, None]) / difference.strip_boards
    return 1.0 - difference.strip_depth_frac * np.clip(1.0 - away**2, 0.0, 1.0)


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
    place = between_rows(path_board, _MIDDLE_FT)
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
