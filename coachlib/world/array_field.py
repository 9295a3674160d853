"""Fields that hold one number or an array of them, one for each shot."""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np
from numpy.typing import ArrayLike, NDArray
from pydantic_core import core_schema

from coachlib.errors import InputError, range_message

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
            raise ValueError(self._shape_message(numbers))
        wrong = ~((numbers >= self.low) & (numbers <= self.high))
        if wrong.any():
            raise ValueError(self._number_message(numbers, wrong))
        numbers.flags.writeable = False
        return numbers

    def _shape_message(self, numbers: NDArray[np.float64]) -> str:
        return (
            f"{self.name} has shape {numbers.shape}; expected one number or a row of numbers, "
            f"{self.low:g} to {self.high:g} {self.unit}. {self.fix}"
        )

    def _number_message(self, numbers: NDArray[np.float64], wrong: NDArray[np.bool_]) -> str:
        if numbers.ndim == 0:
            return range_message(self.name, float(numbers), self.low, self.high, self.unit, self.fix)
        first = int(np.flatnonzero(wrong)[0])
        return range_message(
            f"{self.name}, shot {first}", float(numbers[first]), self.low, self.high, self.unit, self.fix
        )


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
        message = range_message(name, float(values[wrong][0]), low, high, unit, fix)
        raise InputError(message, {name: message})


def _are_numbers(value: Any) -> bool:
    """Return whether a value is a number or an array of them: no text, no yes or no, nothing ragged."""
    try:
        return np.asarray(value).dtype.kind in "iuf"
    except ValueError:
        return False
