"""What a rule's case is, and the facts of ordinary balls from which the cases are made.

A change is laid over the facts that fire the rule; None takes a fact away: it was not seen.
"""

from dataclasses import dataclass, field
from typing import Any

Facts = dict[str, Any]


@dataclass(frozen=True)
class Case:
    """The facts that fire a rule, and changes of them that must not, or must still, fire it."""

    fires: Facts
    near: list[Facts]
    also: list[Facts] = field(default_factory=list)


FIRST: Facts = {"task": "first"}
SPARE: Facts = {"task": "spare"}
BEFORE: Facts = {"task": "first", "n_shots": 0}

# What stands for an ordinary ball over the target.
ON_TARGET: Facts = FIRST | {
    "has_crossing": True,
    "is_on_target": True,
    "is_within_spread": False,
    "is_missed": False,
    "miss_boards": 0.0,
    "is_severe": False,
    "is_severe_light": False,
}
HIGH = ON_TARGET | {"side": "high", "arrival_class": "high", "err_boards": 1.2, "abs_err_boards": 1.2}
LIGHT = ON_TARGET | {"side": "light", "arrival_class": "light", "err_boards": -1.5, "abs_err_boards": 1.5}
FAR_LIGHT = {"side": "light", "arrival_class": "far_light", "err_boards": -3.1, "abs_err_boards": 3.1}
POCKET = ON_TARGET | {"side": "pocket", "arrival_class": "pocket", "err_boards": 0.0, "abs_err_boards": 0.0}
NOSE = ON_TARGET | {"side": "high", "arrival_class": "nose", "err_boards": 2.5, "abs_err_boards": 2.5}
ACROSS = {"side": "high", "arrival_class": "crossover", "err_boards": 4.3, "abs_err_boards": 4.3}

MISSED = {"is_on_target": False, "is_within_spread": False, "is_missed": True}
WITHIN = {"is_on_target": False, "is_within_spread": True, "is_missed": False}
IN_POCKET = {"side": "pocket", "arrival_class": "pocket"}
TWICE = {"n_same": 2}
THRICE = {"n_ok": 3, "n_same": 3, "motion": "even", "phase": "fresh"}
HIGH_THRICE = HIGH | THRICE
LIGHT_LATE = LIGHT | THRICE | {"motion": "late"}
HIGH_EARLY = HIGH | THRICE | {"motion": "early"}


def motions(*names: str) -> list[Facts]:
    """Return one change for each motion."""
    return [{"motion": name} for name in names]


def leaves(*keys: str) -> list[Facts]:
    """Return one change for each leave."""
    return [{"leave_key": key} for key in keys]
