"""Fields that hold arrays: one number or many, one for each shot, and the film of an oil pattern."""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from pydantic_core import core_schema

from coachlib.errors import InputError, raise_input_errors, range_message
from coachlib.units import N_BOARDS
from coachlib.world.lane import HEAD_PIN_FT

Many = float | NDArray[np.float64]
"""How such a field is typed; what it holds is always a read-only array."""


@dataclasses.dataclass(frozen=True)
class ManyLimits:
    """What a field of one number or many may hold; each counts as in :class:`coachlib.validation.Limits`."""

    name: str
    low: float
    high: float
    unit: str
    fix: str = "Give numbers in this range."

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Return the check that pydantic runs on the field."""
        return core_schema.no_info_plain_validator_function(self._checked)

    def _checked(self, value: Any) -> NDArray[np.float64]:
        if not _are_numbers(value):
            raise ValueError(range_message(self.name, value, self.low, self.high, self.unit, self.fix))
        numbers = np.array(value, dtype=float)
        if numbers.ndim > 1 or numbers.size == 0:
            message = (
                f"{self.name} has shape {numbers.shape}; expected one number or a row of numbers, "
                f"{self.low:g} to {self.high:g} {self.unit}. {self.fix}"
            )
            raise ValueError(message)
        wrong = np.flatnonzero(~((numbers >= self.low) & (numbers <= self.high)))
        if wrong.size:
            name = f"{self.name}, shot {wrong[0]}" if numbers.ndim else self.name
            number = float(numbers.flat[wrong[0]])
            raise ValueError(range_message(name, number, self.low, self.high, self.unit, self.fix))
        numbers.flags.writeable = False
        return numbers


def checked_columns(
    limits: Mapping[str, tuple[float, float, str, str]], columns: Sequence[ArrayLike]
) -> tuple[NDArray[np.float64], tuple[int, ...]]:
    """Return numbers or arrays of one shape as the columns of an array, and the shape they came in.

    Parameters
    ----------
    limits : mapping
        Low, high, unit and what to do, by name, in the order of the columns.
    columns : sequence of array_like
        One number for all, or one a row.

    Raises
    ------
    InputError
        If a value is no number or out of range, or the shapes do not fit.
    """
    try:
        arrays = np.broadcast_arrays(*(np.asarray(column, dtype=float) for column in columns))
    except (TypeError, ValueError) as error:
        shapes = ", ".join(str(np.shape(column)) for column in columns)
        message = (
            f"{', '.join(limits)} have the shapes {shapes}; expected numbers or arrays of one shape. "
            "Give one value for all, or one a ball."
        )
        raise InputError(message) from error
    for (name, (low, high, unit, fix)), values in zip(limits.items(), arrays, strict=True):
        check_range(name, values, low, high, unit, fix)
    return np.stack([array.ravel() for array in arrays], axis=1), arrays[0].shape


def check_range(name: str, values: NDArray[np.float64], low: float, high: float, unit: str, fix: str) -> None:
    """Raise on the first number that is out of range or none."""
    wrong = ~((values >= low) & (values <= high))
    if wrong.any():
        raise_input_errors({name: range_message(name, float(values[wrong][0]), low, high, unit, fix)})


def _are_numbers(value: Any) -> bool:
    """Return whether a value is a number or an array of them: no text, no yes or no, nothing ragged."""
    try:
        return np.asarray(value).dtype.kind in "iuf"
    except ValueError:
        return False


MOST_FILM_UM = 30.0
"""More than this is a unit taken wrong: a usual film is 1 to 4, the thickest laid about 10 [µm]."""

FilmRows = tuple[tuple[float, ...], ...]


@dataclasses.dataclass(frozen=True)
class FilmCheck:
    """The check of a film: every number from 0 to 30 µm, every row 39 boards."""

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Return the check that pydantic runs on the field."""
        return core_schema.no_info_plain_validator_function(_checked_film)


def film_rows(film_um: NDArray[np.float64]) -> FilmRows:
    """Return a film as the tuples that a pattern keeps, which can be compared."""
    return tuple(map(tuple, film_um.tolist()))


def _checked_film(value: Any) -> FilmRows:
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
