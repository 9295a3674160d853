"""Spares made of those tried, by the kind of leave."""

import itertools
from collections.abc import Sequence
from typing import NamedTuple

from coachlib.coaching.session.setting import Observed
from coachlib.world.pins import is_split

CORNERS = ((7,), (10,))
KINDS = ("one pin", "the 7 or the 10", "two or more", "splits")


class SpareCount(NamedTuple):
    """Spares of one kind: one of :data:`KINDS`, how many were made, of how many tried."""

    kind: str
    n_made: int
    n_tried: int


def spares_tried(shots: Sequence[Observed]) -> tuple[SpareCount, ...]:
    """Return the spares made of those tried, in the order of :data:`KINDS`; kinds not tried are left out.

    Counted is a first ball with its pins left and the spare ball right after it, of which the pins left were
    noted too. A corner pin is counted as that and not as one pin, and a split as that alone.
    """
    tried: dict[str, list[bool]] = {kind: [] for kind in KINDS}
    for first, second in itertools.pairwise(shots):
        leave, left = first.shot.leave, second.shot.leave
        if first.shot.is_spare or not second.shot.is_spare or not leave or left is None:
            continue
        if first.lane == second.lane:
            tried[spare_kind(leave)].append(not left)
    return tuple(SpareCount(kind, sum(made), len(made)) for kind, made in tried.items() if made)


def spare_kind(leave: tuple[int, ...]) -> str:
    """Return the kind of a leave, one of :data:`KINDS`."""
    if is_split(leave):
        return "splits"
    if len(leave) > 1:
        return "two or more"
    return "the 7 or the 10" if leave in CORNERS else "one pin"
