"""What each kind of change added to strikes on hidden lanes, as shipped: feet and eyes, speed, hand, ball.

The table comes from ``python -m tests.benchmarks.changes_worth --seeds 300:330 --ship data``. Grade:
simulated, on lanes of another friction and wear than the coach's model has. Whoever changes speed or hand
there throws the change at once as steadily as the usual ball: real gains are smaller.
"""

import math
from typing import Any, NamedTuple

from coachlib.errors import checked_choice
from coachlib.files import data_path, read_notes, read_records

CHANGES_FILE = "changes_worth.csv"


class ChangeWorth(NamedTuple):
    """One kind of change, one rule of thumb, or one change by side, strikes of 100 over staying.

    `what` is ``kind`` (the change of that kind that the belief likes best, made where it promises something),
    ``rule`` (what the rule asks for, where it first fires) or ``side`` (a change made wherever the last ball
    came in high or light, whatever any rule says); the last two name the side after a colon. `n_made` of
    `n_lanes` lanes were changed on;
    `gain` is the mean over all `n_lanes`, `gain_half` half of its 95 % interval, `lost_frac` the share of
    changes that lost strikes. `most` is what one who sees the truth would have won, for a kind alone.
    """

    what: str
    name: str
    n_lanes: int
    n_made: int
    gain: float
    gain_half: float
    lost_frac: float
    most: float


def changes_worth() -> tuple[ChangeWorth, ...]:
    """Return what each kind of change and each rule of thumb added. Raises as :func:`read_records`."""
    again = "Make the file again: python -m tests.benchmarks.changes_worth --ship data."
    expected = f"the columns and numbers of the measured changes. {again}"
    return read_records(data_path(CHANGES_FILE), ChangeWorth, expected)


def changes_notes() -> dict[str, str]:
    """Return how it was measured: the command, bowlers and patterns."""
    return read_notes(data_path(CHANGES_FILE))


def changes_table(what: str = "kind") -> Any:
    """Return a pandas table of strikes of 100, a row for each change of a ``kind``, ``rule`` or ``side``."""
    import pandas as pd

    checked_choice("what", what, ("kind", "rule", "side"))
    rows = [_row(one) for one in changes_worth() if one.what == what]
    return pd.DataFrame(rows).set_index("change").dropna(axis="columns", how="all")


def _row(one: ChangeWorth) -> dict[str, str | None]:
    is_kind, n_made = one.what == "kind", one.n_made
    spread = "" if math.isnan(one.gain_half) else f" ± {one.gain_half:.1f}"  # one lane has none
    return {
        "change": one.name.replace("_", " "),
        "made_on": f"{n_made} of {one.n_lanes} lanes" if is_kind else f"{n_made} lane{'s' * (n_made != 1)}",
        "strikes_of_100_added": f"{one.gain:+.1f}{spread}",
        "lost_strikes_on": f"{round(10 * one.lost_frac)} of 10 of these" if n_made else "none",
        "by_who_sees_all": f"{one.most:+.1f}" if is_kind else None,
    }
