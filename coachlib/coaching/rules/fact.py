"""One fact of the rulebook's vocabulary: its name, what its value may be, and what it means."""

import math
from dataclasses import dataclass
from typing import Literal

from coachlib.errors import shown

FactKind = Literal["number", "flag", "choice", "text"]
FactValue = float | bool | str | None


@dataclass(frozen=True)
class Fact:
    """One thing that a condition may ask for.

    Parameters
    ----------
    name : str
        As written in a rule.
    kind : {"number", "flag", "choice", "text"}
        What its value is.
    meaning : str
        One line for the person who writes a rule.
    unit : str
        Of a number; empty for a count or a pure number.
    choices : tuple of str
        Of a choice.
    """

    name: str
    kind: FactKind
    meaning: str
    unit: str = ""
    choices: tuple[str, ...] = ()


def number(name: str, unit: str, meaning: str) -> Fact:
    """Return a number with its unit."""
    return Fact(name, "number", meaning, unit)


def count(name: str, meaning: str) -> Fact:
    """Return a number without a unit."""
    return Fact(name, "number", meaning)


def flag(name: str, meaning: str) -> Fact:
    """Return something that is true or false."""
    return Fact(name, "flag", meaning)


def choice(name: str, choices: tuple[str, ...], meaning: str) -> Fact:
    """Return one of several words."""
    return Fact(name, "choice", meaning, "", choices)


def value_problem(fact: Fact, value: object) -> str:
    """Return what is wrong with a value of a fact in three parts, or an empty text.

    Parameters
    ----------
    fact : Fact
        The fact that is to have the value.
    value : object
        Any value but None.
    """
    if fact.kind == "choice":
        is_right, allowed = value in fact.choices, "one of " + ", ".join(map(repr, fact.choices))
    elif fact.kind == "flag":
        is_right, allowed = isinstance(value, bool), "true or false"
    elif fact.kind == "text":
        is_right, allowed = isinstance(value, str), "a text"
    else:
        is_right = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
        allowed = f"a number {'of ' + fact.unit if fact.unit else ''}".rstrip()
    return "" if is_right else f"{fact.name} is {shown(value)}; expected {allowed}."
