"""What a look through a bag says, in sentences and as a table, and a ball-change plan in words."""

import itertools
from collections.abc import Iterable, Sequence
from typing import Any

from coachlib.coaching.equipment.bag import GAP_FT, KEEP_FRAC, SAME_BOARDS, SAME_FT, Bag, smallest_bag
from coachlib.coaching.equipment.ball_plan import PlanStep
from coachlib.coaching.wording.callouts import (
    line_text,
    lowered,
    of_twenty,
    strikes_beside_text,
    strikes_text,
)
from coachlib.coaching.wording.names import short_name
from coachlib.world.parsing import board_text


def bag_lines(bag: Bag, keep_frac: float = KEEP_FRAC) -> tuple[str, ...]:
    """Return what is the same, what is missing, how many balls are enough, and which comes out first.

    Parameters
    ----------
    bag : Bag
        From :func:`coachlib.coaching.equipment.bag.evaluate_bag`.
    keep_frac : float, default 0.95
        Share of the best chance that must be kept on each pattern.
    """
    enough = smallest_bag(bag, keep_frac)
    verb = "is" if len(enough) == 1 else "are"
    return (
        *(
            f"{one} and {other} do the same, less than {SAME_FT:g} ft and {SAME_BOARDS:g} board apart."
            for one, other in _named(bag.overlaps)
        ),
        *(
            f"Between {short_name(one)} and {short_name(other)} there is a gap of more than {GAP_FT:g} ft."
            for one, other in bag.gaps
        ),
        *(
            f"{short_name(name)} still slips at the pins somewhere, so we cannot count its strikes there."
            for name in bag.unknown
        ),
        f"{len(enough)} of your {len(bag.balls)} balls {verb} enough: "
        f"{', '.join(short_name(ball.name) for ball in enough)}. On every pattern you keep at least "
        f"{round(100 * keep_frac)} of 100 strikes of the whole bag.",
        *(
            f"First out on {short_name(pattern.name)}: {short_name(bag.first_out(number).name)}."
            for number, pattern in enumerate(bag.patterns)
        ),
    )


def bag_table(bag: Bag) -> Any:
    """Return a table of strikes out of twenty, one row a ball, one column a pattern.

    Returns
    -------
    pandas.DataFrame
        ``?`` where the ball still slips at the pins; skid and boards covered beside it.
    """
    import pandas as pd

    places = {one.ball.name: one for one in bag.places}
    names = [short_name(pattern.name) for pattern in bag.patterns]
    rows = []
    for ball, best in zip(bag.balls, bag.best, strict=True):
        place = places[ball.name]
        row = {
            "ball": short_name(ball.name),
            "skid_ft": f"{place.skid_ft:.0f}",
            "covered_boards": f"{place.covered_boards:.0f}",
        }
        counts = [of_twenty(one.strike_prob) if one.is_known else "?" for one in best]
        rows.append(row | dict(zip(names, counts, strict=True)))
    return pd.DataFrame(rows).set_index("ball")


def plan_lines(steps: Sequence[PlanStep]) -> tuple[str, ...]:
    """Return a ball-change plan: the start, every change of ball, and how it ends; lines between move on.

    Parameters
    ----------
    steps : sequence of PlanStep
        From :func:`coachlib.coaching.equipment.ball_plan.ball_plan`.
    """
    first, last = steps[0], steps[-1]
    texts = [f"Start with {short_name(first.ball.name)}: {_where(first)}."]
    for before, step in itertools.pairwise(steps):
        if step.is_change:
            old, new = short_name(before.ball.name), short_name(step.ball.name)
            change = f"After {_games(step)} change from {old} to {new}"
            chance = strikes_beside_text(step.strike_prob, step.kept_prob)
            texts.append(f"{change}: {lowered(line_text(step.line))}, about {chance}.")
    if not any(step.is_change for step in steps):
        texts.append(f"No change of ball pays within {_games(last)}. Follow with feet and eyes.")
    return (*texts, f"After {_games(last)}: {short_name(last.ball.name)}, {_where(last)}.")


def _games(step: PlanStep) -> str:
    return f"{board_text(step.games)} game{'' if step.games <= 1 else 's'}"


def _where(step: PlanStep) -> str:
    return f"{lowered(line_text(step.line))}, about {strikes_text(step.strike_prob)}"


def _named(pairs: Iterable[tuple[str, str]]) -> list[tuple[str, str]]:
    return [(short_name(one), short_name(other)) for one, other in pairs]
