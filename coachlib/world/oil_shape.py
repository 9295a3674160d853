"""Usual shapes of oil, and made-up patterns with one thing changed at a time.

The shapes are for a lane known by its length and kind and for the patterns of the library. Invented, after
what is common: more oil in front than behind; on a house pattern a slope of oil that stands farther in the
farther down the lane, on a flat one nearly as much outside as in the middle. A ramp sets how much more oil
lies inside, over how many boards.
"""

import dataclasses
from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_number, raise_input_errors
from coachlib.units import N_BOARDS
from coachlib.world.array_field import film_rows
from coachlib.world.oil import OilPattern

USUAL_VOLUME_ML = 25.0
STEP_FT = 0.5
_FINE = 16
_BOARDS = np.arange(1.0, N_BOARDS + 1.0)
_FROM_SIDE_BOARD = np.minimum(_BOARDS, N_BOARDS + 1.0 - _BOARDS)

Shape = Callable[[NDArray[np.float64], float], NDArray[np.float64]]


def ramp_pattern(
    ratio: float,
    ramp_boards: float = 6.0,
    middle_board: float = 11.0,
    length_ft: float = 41.0,
    volume_ml: float = USUAL_VOLUME_ML,
) -> OilPattern:
    """Return a pattern that rises evenly from little oil outside to much inside, alike on both sides.

    Parameters
    ----------
    ratio : float
        Film inside over film outside; 1 is the same film from gutter to gutter.
    ramp_boards : float, default 6
        Over how many boards it rises. [boards]
    middle_board : float, default 11
        Where the middle of the rise lies, at every distance. [board]
    length_ft : float, default 41
        Where the oil ends. [ft]
    volume_ml : float, default 25
        Oil on the lane. [mL]

    Raises
    ------
    InputError
        If a value is out of range.
    """
    ratio = checked_number("ratio", ratio, 1, 100, "", "Give film inside over film outside.")
    ramp_boards = checked_number("ramp_boards", ramp_boards, 0.5, 18, "boards")
    middle_board = checked_number("middle_board", middle_board, 3, 18, "boards")
    volume_ml = checked_number("volume_ml", volume_ml, 1, 60, "mL", "Usual are 18 to 30 mL.")
    risen = np.clip((_FROM_SIDE_BOARD - middle_board) / ramp_boards + 0.5, 0.0, 1.0)
    across = (1.0 + (ratio - 1.0) * risen) / ratio
    middle_ft = (np.arange(round(length_ft / STEP_FT)) + 0.5) * STEP_FT
    along = np.interp(middle_ft, (0.0, length_ft - 6.0, length_ft), (1.4, 0.75, 0.4))
    film = along[:, None] * across
    made = OilPattern(f"ramp {ratio:g} to 1", length_ft, "other", film_rows(film), STEP_FT)
    return dataclasses.replace(made, film_um=film_rows(film * volume_ml / made.volume_ml))


def with_typical_film(pattern: OilPattern, volume_ml: float = USUAL_VOLUME_ML) -> OilPattern:
    """Return the pattern with a usual film of its kind and length; one that has a film stays as it is.

    Parameters
    ----------
    pattern : OilPattern
        Kind ``house`` or ``flat``.
    volume_ml : float, default 25
        Oil on the lane. [mL]

    Raises
    ------
    InputError
        For kind ``other``, of which nothing is known.
    """
    if pattern.has_film:
        return pattern
    if pattern.kind == "other":
        message = (
            "kind is 'other' and the pattern has no film; expected 'house' or 'flat'. Choose the nearer one, "
            "or give the film."
        )
        raise_input_errors({"kind": message})
    shape = _house if pattern.kind == "house" else _flat
    volume_ml = checked_number("volume_ml", volume_ml, 1, 60, "mL", "Usual are 18 to 30 mL.")
    film = _cell_means(shape, pattern.length_ft)
    made = dataclasses.replace(pattern, film_um=film_rows(film), step_ft=STEP_FT)
    film *= volume_ml / made.volume_ml
    return dataclasses.replace(made, film_um=film_rows(film))


def _cell_means(shape: Shape, length_ft: float) -> NDArray[np.float64]:
    """Return the mean film of each stretch, up to half a foot past the end."""
    n_rows = int(np.ceil((length_ft + STEP_FT) / STEP_FT))
    fine_ft = (np.arange(n_rows * _FINE) + 0.5) * STEP_FT / _FINE
    return shape(fine_ft[:, None], length_ft).reshape(n_rows, _FINE, N_BOARDS).mean(axis=1)


def _house(along_ft: NDArray[np.float64], length_ft: float) -> NDArray[np.float64]:
    """Return a slope that moves in from boards 3-9 to 8-16, fast at first; a twentieth outside."""
    share = np.sqrt(np.minimum(along_ft / length_ft, 1.0))
    inner = np.clip((_FROM_SIDE_BOARD - (3.0 + 5.0 * share)) / (6.0 + 2.0 * share), 0.0, 1.0)
    outside = np.where(along_ft < length_ft - 6.0, 0.05, 0.0)
    knots_ft = (0.0, length_ft - 6.0, length_ft, length_ft + 0.5)
    return (outside + (1.0 - outside) * inner) * np.interp(along_ft, knots_ft, (1.5, 0.75, 0.35, 0.0))


def _flat(along_ft: NDArray[np.float64], length_ft: float) -> NDArray[np.float64]:
    """Return a third outside board 6, all inside board 16, and a sharp end."""
    across = np.interp(_FROM_SIDE_BOARD, (6.0, 16.0), (1.0 / 3.0, 1.0))
    knots_ft = (0.0, length_ft - 6.0, length_ft)
    return across * np.interp(along_ft, knots_ft, (1.3, 0.75, 0.5)) * (along_ft < length_ft)
