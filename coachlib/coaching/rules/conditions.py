"""Conditions as data: what a rule's ``when`` may say, and whether it holds.

A condition is a table. All its entries must hold::

    motion = "early"                          the fact has this value
    leave_key = ["2 8", "2 10"]               the fact has one of these values
    n_same = { min = "patience" }             a number: min, max (ends included), above, below (ends not);
                                              a limit is a number, or names a setting or another fact
    any = [ { … }, { … } ]                    at least one of these tables holds
    none = [ { … }, { … } ]                   none of these tables is known to hold

A fact that is not known fulfils no condition. So ``is_on_target = true`` needs a crossing that was seen,
while ``none = [{ is_on_target = false }]`` only wants no miss to be known.
"""

import math
import operator
from collections.abc import Callable, Collection, Iterator, Mapping
from typing import Any

from coachlib.coaching.rules.vocabulary import FACTS, Fact, FactValue, value_problem
from coachlib.errors import choice_message, shown

Condition = Mapping[str, Any]
Facts = Mapping[str, FactValue]
Settings = Mapping[str, float]

RANGE: dict[str, Callable[[Any, Any], bool]] = {
    "min": operator.ge,
    "max": operator.le,
    "above": operator.gt,
    "below": operator.lt,
}
"""The words for limits of a number."""


def n_held(when: Condition, facts: Facts, settings: Settings) -> int:
    """Return how many entries of a condition hold, or 0 if one of them does not.

    The more, the more special the case; ``any`` counts as its best table, ``none`` as one.

    Parameters
    ----------
    when : mapping
        The condition, checked by :func:`condition_problems`, with at least one entry.
    facts : mapping
        What is known, see :mod:`coachlib.coaching.rules.vocabulary`.
    settings : mapping of str to float
        The numbers a limit may name.
    """
    n_all = 0
    for name, wanted in when.items():
        n_one = _n_entry(name, wanted, facts, settings)
        if not n_one:
            return 0
        n_all += n_one
    return n_all


def _n_entry(name: str, wanted: Any, facts: Facts, settings: Settings) -> int:
    if name == "any":
        return max(n_held(part, facts, settings) for part in wanted)
    if name == "none":
        return int(not any(n_held(part, facts, settings) for part in wanted))
    value = facts.get(name)
    return 0 if value is None else int(_fits(value, wanted, facts, settings))


def _fits(value: FactValue, wanted: Any, facts: Facts, settings: Settings) -> bool:
    if not isinstance(wanted, Mapping):
        return value in wanted if isinstance(wanted, list | tuple) else value == wanted
    for word, limit in wanted.items():
        # A name stands for a setting or a fact; no setting is named like a fact.
        number = settings.get(limit, facts.get(limit)) if isinstance(limit, str) else limit
        if number is None or not RANGE[word](value, number):
            return False
    return True


def fact_names(when: Condition) -> Iterator[str]:
    """Yield every fact that a condition asks for, those in ``any`` and ``none`` too."""
    for name, wanted in when.items():
        if name in ("any", "none"):
            for part in wanted:
                yield from fact_names(part)
        else:
            yield name


def condition_problems(when: object, setting_names: Collection[str]) -> list[str]:
    """Return what is wrong with a condition in a file, a message with all four parts each; empty if sound."""
    if not isinstance(when, Mapping) or not when:
        return [f"condition is {shown(when)}; expected a table with at least one fact. Write e.g. n_ok = 1."]
    return [text for name, wanted in when.items() for text in _entry_problems(name, wanted, setting_names)]


def _entry_problems(name: str, wanted: Any, setting_names: Collection[str]) -> list[str]:
    if name in ("any", "none"):
        if not isinstance(wanted, list | tuple) or not wanted:
            return [
                f"{name} is {shown(wanted)}; expected a list of tables. Write {name} = [{{ … }}, {{ … }}]."
            ]
        return [text for part in wanted for text in condition_problems(part, setting_names)]
    if name not in FACTS:
        return [choice_message("fact", name, (*FACTS, "any", "none"), "Check the spelling.")]
    if isinstance(wanted, Mapping):
        return _range_problems(FACTS[name], wanted, setting_names)
    values = wanted if isinstance(wanted, list | tuple) else [wanted]
    problems = [value_problem(FACTS[name], value) for value in values] or [f"{name} is []; expected values."]
    return [f"{problem} Change the value." for problem in problems if problem]


def _range_problems(fact: Fact, wanted: Mapping[str, Any], setting_names: Collection[str]) -> list[str]:
    if fact.kind != "number" or not wanted:
        allowed = f"a number or limits ({', '.join(RANGE)})" if fact.kind == "number" else fact.allowed
        return [f"{fact.name} is {shown(wanted)}; expected {allowed}. Change the value."]
    fix = "Check the spelling."
    problems = [
        choice_message(f"{fact.name}: limit", word, RANGE, fix) for word in wanted if word not in RANGE
    ]
    problems += [
        f"{fact.name}: {word} is {shown(limit)}; expected a number, one of the settings "
        f"{', '.join(sorted(setting_names)) or '(none)'}, or a fact that is a number. Change the limit."
        for word, limit in wanted.items()
        if word in RANGE and not _is_limit(limit, setting_names)
    ]
    numbers = {word: limit for word, limit in wanted.items() if isinstance(limit, int | float)}
    low = max((numbers[word] for word in ("min", "above") if word in numbers), default=-math.inf)
    if low > min((numbers[word] for word in ("max", "below") if word in numbers), default=math.inf):
        limits = "expected the lower limit below the upper one. Swap the two."
        problems.append(f"{fact.name} is {shown(dict(wanted))}; {limits}")
    return problems


def _is_limit(limit: object, setting_names: Collection[str]) -> bool:
    if isinstance(limit, str):
        return limit in setting_names or (limit in FACTS and FACTS[limit].kind == "number")
    return isinstance(limit, int | float) and not isinstance(limit, bool) and math.isfinite(limit)
