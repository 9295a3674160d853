"""The decorator behind every noun of the library: frozen, strict, and clear about what is wrong.

A *thing* is a frozen pydantic dataclass. It is validated at construction and changed by
:func:`dataclasses.replace`, which validates again. The validation library's own error is turned into our
four-part message here, around construction, and all wrong fields are told at once.
"""

import dataclasses
import functools
import types
from collections.abc import Iterator
from typing import Any, Literal, TypeVar, dataclass_transform, get_args, get_origin, get_type_hints

import numpy as np
import pydantic
import pydantic.dataclasses
from pydantic_core import core_schema

from coachlib.errors import article, choice_message, raise_input_errors, range_message, shown

_CONFIG = pydantic.ConfigDict(strict=True, extra="forbid")
_Thing = TypeVar("_Thing")
_PLAIN = {
    bool: ("True or False", "Give one of the two, without quotes."),
    int: ("a whole number", "Give it without quotes or decimals."),
    float: ("a number", "Give it without quotes."),
    str: ("a text", "Put it in quotes."),
    tuple: ("a list", "Put the values in parentheses, with commas."),
}
"""How a plain type is called in a message, and what to do."""


@dataclasses.dataclass(frozen=True)
class Limits:
    """What a number field may hold, kept beside its type so that the message can say it.

    Parameters
    ----------
    low, high : float
        The allowed range, ends included, in `unit`.
    unit : str
        Printed after the range.
    fix : str
        What to do, as a sentence.
    """

    low: float
    high: float
    unit: str
    fix: str = "Give one number in this range."

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Return the check that pydantic runs on the field."""
        return core_schema.float_schema(ge=self.low, le=self.high, allow_inf_nan=False, strict=True)


@dataclasses.dataclass(frozen=True)
class Letters:
    """How long a text field may be; with a least length, spaces around it are taken away first."""

    most: int
    least: int = 0

    def __get_pydantic_core_schema__(self, source: Any, handler: Any) -> core_schema.CoreSchema:
        """Return the check that pydantic runs on the field."""
        return core_schema.str_schema(
            min_length=self.least, max_length=self.most, strip_whitespace=self.least > 0, strict=True
        )


@dataclass_transform(frozen_default=True, field_specifiers=(dataclasses.field,))
def thing(cls: type[_Thing]) -> type[_Thing]:
    """Make `cls` a frozen, strictly validated dataclass with messages a person can use.

    A class may add ``_problems()``: the messages, by field, of what only several fields together can show.

    Raises
    ------
    InputError
        At construction, naming every wrong field: what, the value, what is allowed, what to do.
    """
    made: Any = pydantic.dataclasses.dataclass(frozen=True, config=_CONFIG)(cls)
    plain_init = made.__init__

    @functools.wraps(plain_init)
    def __init__(self: Any, *args: Any, **kwargs: Any) -> None:
        try:
            plain_init(self, *map(_plain, args), **{name: _plain(value) for name, value in kwargs.items()})
        except pydantic.ValidationError as error:
            raise_input_errors(_field_messages(made, error))
        problems: dict[str, str] = self._problems() if hasattr(self, "_problems") else {}
        if problems:
            raise_input_errors(problems)

    made.__init__ = __init__
    return made


def _plain(value: Any) -> Any:
    """Return a numpy scalar as the Python number it stands for and a list or set as a tuple."""
    if isinstance(value, np.generic):
        return value.item()
    return tuple(value) if isinstance(value, list | set | frozenset) else value


def _field_messages(made: Any, error: pydantic.ValidationError) -> dict[str, str]:
    hints = get_type_hints(made, include_extras=True)
    positions = [field.name for field in dataclasses.fields(made)]
    messages: dict[str, str] = {}
    for problem in error.errors():
        place = problem["loc"][0] if problem["loc"] else made.__name__
        name = positions[place] if isinstance(place, int) and place < len(positions) else str(place)
        messages.setdefault(name, _message(made, name, hints.get(name), problem))
    return messages


def _message(made: Any, name: str, hint: Any, problem: Any) -> str:
    if problem["type"] in ("unexpected_keyword_argument", "unexpected_positional_argument"):
        known = ", ".join(field.name for field in dataclasses.fields(made))
        return f"{name} is no field of {made.__name__}; expected {known}. Check the spelling."
    if problem["type"].startswith("missing"):
        return f"{name} is missing; {made.__name__} needs {_expected(hint)}. Add {name}=…"
    if problem["type"] == "value_error":
        return str(problem["ctx"]["error"])
    given = problem["input"]
    limits, choices = _first_of(Limits, hint), _choices(hint)
    if limits is not None and choices:
        return f"{name} is {shown(given)}; expected {_expected(hint)}. {limits.fix}"
    if limits is not None:
        return range_message(name, given, limits.low, limits.high, limits.unit, limits.fix)
    if choices:
        return choice_message(name, given, choices)
    if _plain_type(hint) is tuple and problem["type"] != "tuple_type":
        return f"{name} holds {shown(given)}; expected only {_inner(hint)}. Take it out."
    return f"{name} is {shown(given)}; expected {_expected(hint)}. {_fix(hint)}"


def _expected(hint: Any) -> str:
    limits, letters = _first_of(Limits, hint), _first_of(Letters, hint)
    choices = "one of " + ", ".join(map(repr, _choices(hint)))
    if limits is not None:
        number = f"a number from {limits.low:g} to {limits.high:g} {limits.unit}".rstrip()
        return f"{number}, or {choices}" if _choices(hint) else number
    if letters is not None:
        return f"a text of {letters.least or 'at most'}{' to' * bool(letters.least)} {letters.most} letters"
    if _choices(hint):
        return choices
    kind = _plain_type(hint)
    return _PLAIN[kind][0] if kind in _PLAIN else article(kind.__name__)


def _fix(hint: Any) -> str:
    if _first_of(Letters, hint) is not None:
        return "Type a text of that length."
    kind = _plain_type(hint)
    return _PLAIN[kind][1] if kind in _PLAIN else f"Make one with {kind.__name__}(…)."


def _inner(hint: Any) -> str:
    """Return what a tuple of any length may hold, in words."""
    inner = get_args(hint)[0]
    return " and ".join(kind.__name__ for kind in get_args(inner) or (inner,))


def _plain_type(hint: Any) -> Any:
    """Return the first class in a type: ``bool``, ``tuple``, a thing."""
    kinds = (get_origin(part) or part for part in types_in(hint))
    outer = (type(None), types.UnionType)
    return next((kind for kind in kinds if isinstance(kind, type) and kind not in outer), None)


def types_in(hint: Any) -> Iterator[Any]:
    """Yield a type, then all types and limits inside it, the outer ones first."""
    yield hint
    for part in (*get_args(hint), *getattr(hint, "__metadata__", ())):
        yield from types_in(part)


def _first_of(kind: type[_Thing], hint: Any) -> _Thing | None:
    return next((part for part in types_in(hint) if isinstance(part, kind)), None)


def _choices(hint: Any) -> tuple[str, ...]:
    return next((get_args(part) for part in types_in(hint) if get_origin(part) is Literal), ())
