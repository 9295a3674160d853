"""Fields that hold one number or an array of them, one for each shot."""

import dataclasses
from typing import Any

import numpy as np
from numpy.typing import NDArray
from pydantic_core import core_schema

from coachlib.errors import range_message

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


def _are_numbers(value: Any) -> bool:
    """Return whether a value is a number or an array of them: no text, no yes or no, nothing ragged."""
    try:
        return np.asarray(value).dtype.kind in "iuf"
    except ValueError:
        return False
