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

from coachlib.coaching.rules.fact import Fact, FactValue, value_problem
from coachlib.coaching.rules.vocabulary import FACTS
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

    Parameters
    ----------
    when : mapping
        The condition, checked by :func:`condition_problems`, with at least one entry.
    facts : mapping
        What is known, see :mod:`coachlib.coaching.rules.vocabulary`.
    settings : mapping of str to float
        The numbers a limit may name.

    Returns
    -------
    int
        The more, the more special the case. ``any`` counts as its best table, ``none`` as one.
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
    if isinstance(wanted, Mapping):
        limits = ((RANGE[word], _limit(limit, facts, settings)) for word, limit in wanted.items())
        return all(limit is not None and is_within(value, limit) for is_within, limit in limits)
    return value in wanted if isinstance(wanted, list | tuple) else value == wanted


def _limit(limit: float | str, facts: Facts, settings: Settings) -> FactValue:
    """Return a limit's number; a name stands for a setting or a fact, and no setting is named like a fact."""
    return settings.get(limit, facts.get(limit)) if isinstance(limit, str) else limit


def fact_names(when: Condition) -> Iterator[str]:
    """Yield every fact that a condition asks for, those in ``any`` and ``none`` too."""
    for name, wanted in when.items():
        if name in ("any", "none"):
            for part in wanted:
                yield from fact_names(part)
        else:
            yield name


def condition_problems(when: object, setting_names: Collection[str]) -> list[str]:
    """Return what is wrong with a condition, one message with all four parts each; empty if it is sound.

    Parameters
    ----------
    when : object
        What stands in the file.
    setting_names : collection of str
        The settings that a limit may name.
    """
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
        return [f"{fact.name} is {shown(wanted)}; expected {_expected(fact)}. Change the value."]
    problems = [
        choice_message(f"{fact.name}: limit", word, RANGE, "Check the spelling.")
        for word in wanted
        if word not in RANGE
    ]
    problems += [
        f"{fact.name}: {word} is {shown(limit)}; expected a number, one of the settings "
        f"{', '.join(sorted(setting_names)) or '(none)'}, or a fact that is a number. Change the limit."
        for word, limit in wanted.items()
        if word in RANGE and not _is_limit(limit, setting_names)
    ]
    return problems + _empty_range_problems(fact, wanted)


def _empty_range_problems(fact: Fact, wanted: Mapping[str, Any]) -> list[str]:
    """Return what is wrong where a lower limit lies above an upper one; names are not compared."""
    numbers = {word: limit for word, limit in wanted.items() if isinstance(limit, int | float)}
    lows = [numbers[word] for word in ("min", "above") if word in numbers]
    highs = [numbers[word] for word in ("max", "below") if word in numbers]
    if not lows or not highs or max(lows) <= min(highs):
        return []
    return [
        f"{fact.name} is {shown(dict(wanted))}; expected the lower limit below the upper one. Swap the two."
    ]


def _expected(fact: Fact) -> str:
    if fact.kind == "number":
        return f"a number or limits ({', '.join(RANGE)})"
    return {"flag": "true or false", "text": "a text"}.get(
        fact.kind, "one of " + ", ".join(map(repr, fact.choices))
    )


def _is_limit(limit: object, setting_names: Collection[str]) -> bool:
    if isinstance(limit, str):
        return limit in setting_names or (limit in FACTS and FACTS[limit].kind == "number")
    return isinstance(limit, int | float) and not isinstance(limit, bool) and math.isfinite(limit)
