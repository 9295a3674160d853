"""The film of an oil pattern as a field: rows of 39 boards, whatever way it is given."""

import dataclasses
from typing import Any

import numpy as np
from numpy.typing import NDArray
from pydantic_core import core_schema

from coachlib.units import N_BOARDS
from coachlib.world.lane import HEAD_PIN_FT

MOST_FILM_UM = 30.0
"""More than this is a unit taken wrong: a usual film is 1 to 4, the thickest laid about 10 [µm]."""

FilmRows = tuple[tuple[float, ...], ...]


@dataclasses.dataclass(frozen=True)
class FilmCheck:
    """The check of such a field: every film a number from 0 to 30 µm, every row 39 boards."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Return the check that pydantic runs on the field."""
        return core_schema.no_info_plain_validator_function(_checked)


def film_rows(film_um: NDArray[np.float64]) -> FilmRows:
    """Return a film as the tuples that a pattern keeps, which can be compared."""
    return tuple(map(tuple, film_um.tolist()))


def _checked(value: Any) -> FilmRows:
    if isinstance(value, list | tuple) and len(value) == 0:
        return ()
    try:
        film = np.array(value, dtype=float)
    except (TypeError, ValueError):
        film = np.empty(0)
    if film.ndim != 2 or film.shape[1] != N_BOARDS:
        message = (
            f"film_um has shape {film.shape}; expected rows of {N_BOARDS} numbers, (n_steps, {N_BOARDS}). "
            "Give a row a stretch, in it every board from the right edge."
        )
        raise ValueError(message)
    wrong = np.argwhere(~((film >= 0.0) & (film <= MOST_FILM_UM)))
    if wrong.size:
        row, column = (int(place) for place in wrong[0])
        message = (
            f"film_um, row {row + 1}, board {column + 1}: is {film[row, column]:g}; expected 0 to "
            f"{MOST_FILM_UM:g} um. Measure again; if it is mL or units, convert it."
        )
        raise ValueError(message)
    return film_rows(film)


def length_problem(n_rows: int, step_ft: float) -> str:
    """Return what is wrong with a film's length, or an empty text."""
    if n_rows * step_ft <= HEAD_PIN_FT:
        return ""
    return (
        f"film_um is {n_rows * step_ft:g} ft long; expected at most {HEAD_PIN_FT:g} ft. "
        "Check step_ft and the number of rows."
    )
