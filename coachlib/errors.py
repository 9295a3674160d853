"""Exceptions and checks: every message says what, the value, what is allowed, and what to do."""

import math
from collections.abc import Collection, Mapping
from typing import NoReturn, TypeVar

import numpy as np

_Kind = TypeVar("_Kind")


class InputError(ValueError):
    """Raised when a person or a caller gives a value that cannot be used.

    Parameters
    ----------
    message : str
        All four parts, one line a field.
    fields : mapping of str to str, optional
        The message of each wrong field, so that a form can show it under that field.
    """

    def __init__(self, message: str, fields: Mapping[str, str] | None = None) -> None:
        super().__init__(message)
        self.fields: dict[str, str] = dict(fields or {})


class DataFileError(ValueError):
    """Raised when a data file is missing, damaged, of a newer version, or holds a wrong entry."""


class ModelError(RuntimeError):
    """Raised when a computation could not be carried to its end."""


def raise_input_errors(fields: Mapping[str, str]) -> NoReturn:
    """Raise one :class:`InputError` that tells all wrong fields at once."""
    raise InputError("\n".join(fields.values()), fields)


def shown(value: object) -> str:
    """Return a value as it stands in a message, cut where it is long."""
    try:
        written = repr(value)
    except ValueError:  # Python writes no whole number of more than 4300 digits
        return "a number too long to show"
    return written if len(written) <= 40 else written[:36] + " …" + written[-1]


def number_text(number: float) -> str:
    """Return a number as people write it, never with an exponent: ``27.5``, ``1,000,000``."""
    if not math.isfinite(number):
        return str(number)
    if abs(number) >= _MOST_WRITTEN:
        return f"a number with {len(str(int(abs(number))))} digits"
    plain = f"{number:g}"
    if "e" in plain or abs(number) >= _LEAST_WITH_COMMAS:
        plain = f"{number:,.10f}".rstrip("0").rstrip(".")
    return plain


_MOST_WRITTEN, _LEAST_WITH_COMMAS = 1e15, 1e4


def range_message(name: str, value: object, low: float, high: float, unit: str, fix: str = "") -> str:
    """Return the four-part message for a number outside its range."""
    allowed = f"{number_text(low)} to {number_text(high)} {unit}"
    numbers = " ".join(f"{name} is {shown(value)}; expected {allowed}".split())
    return f"{numbers}. {fix}".rstrip()


def choice_message(name: str, value: object, choices: Collection[str], fix: str = "") -> str:
    """Return the four-part message for a name that is not among the valid ones."""
    listed = ", ".join(map(repr, choices))
    return f"{name} is {shown(value)}; expected one of {listed}. {fix or 'Choose one of these.'}"


def checked_number(name: str, value: object, low: float, high: float, unit: str, fix: str = "") -> float:
    """Return `value` as a float, or raise if it is no finite number from `low` to `high`.

    Parameters
    ----------
    name : str
        The argument's name, first word of the message.
    value : object
        What was given; numpy scalars count as numbers, booleans and texts do not.
    low, high : float
        The allowed range, ends included.
    unit : str
        The unit of the range, or an empty text for a pure number.
    fix : str, optional
        What to do, as a sentence.

    Raises
    ------
    InputError
        If `value` is not a finite number in the range.
    """
    fix = fix or "Give one number in this range."
    is_number = isinstance(value, int | float | np.integer | np.floating) and not isinstance(value, bool)
    # Compared before it is made a float: a whole number can be too large for one.
    if not is_number or not low <= value <= high or not math.isfinite(value):  # type: ignore[operator,arg-type]
        raise_input_errors({name: range_message(name, value, low, high, unit, fix)})
    return float(value)  # type: ignore[arg-type]


def checked_choice(name: str, value: object, choices: Collection[str], fix: str = "") -> str:
    """Return `value` if it is one of `choices`, or raise an error that lists them."""
    if not isinstance(value, str) or value not in choices:
        raise_input_errors({name: choice_message(name, value, choices, fix)})
    return value


def checked_thing(name: str, value: object, kind: type[_Kind], fix: str = "") -> _Kind:
    """Return `value` if it is a `kind`, or raise :class:`InputError`; `fix` is by default how to make one."""
    if not isinstance(value, kind):
        fix = fix or f"Make one with {kind.__name__}(…)."
        raise_input_errors({name: f"{name} is {shown(value)}; expected {article(kind.__name__)}. {fix}"})
    return value


def article(noun: str) -> str:
    """Return a noun with its article: ``a Line``, ``an Advice``."""
    return f"{'an' if noun[0] in 'AEIOaeio' else 'a'} {noun}"
