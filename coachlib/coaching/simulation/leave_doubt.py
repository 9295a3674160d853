"""Whether the pins left go with the hit that was named, by the simulated racks.

One odd leave is luck; several on one line are a slip: the hit was read on the wrong side, or the pins were
numbered from it. Nothing is decided by this, it is only asked about.
"""

from functools import cache
from typing import NamedTuple

import numpy as np

from coachlib.coaching.session.ball_reading import SIDE_OF_CLASS, side_of
from coachlib.coaching.session.lane_history import line_balls
from coachlib.coaching.session.session import Session
from coachlib.physics.pins.carry import leave_probs
from coachlib.world.lane import MISSES_HEAD_PIN, ArrivalClass, arrival_class
from coachlib.world.shot import Shot

FEWEST_DOUBTED = 2
"""So many balls on the line have to be odd before it is asked (our guess)."""

LIKELY_PROB, ODD_SHARE = 0.05, 0.1
"""Odd is a leave that some hit gives at least so often, and the hit named so much less (our guess)."""

CORNERS = ((7,), (10,))
"""A lone corner pin is left by hits of every class, so it contradicts none [pins of the own frame]."""

_BOARDS = np.arange(13.0, 23.01, 0.25)
_ENTRIES_DEG = (3.0, 5.0)
_SPEED_MPH = 17.0  # at the pins; the leaves hang far more on where it hit


class LeaveDoubt(NamedTuple):
    """What does not go together: the class named, the pins left in the own frame, and how often so far.

    `usual` is the class that most often leaves these pins.
    """

    named: ArrivalClass
    leave: tuple[int, ...]
    usual: ArrivalClass
    n_balls: int


def leave_doubt(session: Session) -> LeaveDoubt | None:
    """Return what to ask of the last ball, where its leave contradicts the hit that was named.

    None where it does not, and where fewer than :data:`FEWEST_DOUBTED` balls of its line do in the same way.
    """
    found = [_doubt(ball.shot) for ball in line_balls(session)]
    last = found[-1] if found else None
    if last is None:
        return None
    n_alike = sum(one is not None and one.named == last.named for one in found)
    return last._replace(n_balls=n_alike) if n_alike >= FEWEST_DOUBTED else None


def _doubt(shot: Shot) -> LeaveDoubt | None:
    """Return what does not go together in one ball; None where its leave goes with the hit named."""
    named, leave = shot.arrival_class, shot.leave
    if named is None or not leave or named in MISSES_HEAD_PIN or 1 in leave or leave in CORNERS:
        return None
    if side_of(Shot(leave=leave)) == SIDE_OF_CLASS[named]:  # coaches know it as that, however rare
        return None
    chances = class_chances(leave)
    usual = max(chances, key=lambda one: chances[one])
    is_odd = chances[usual] >= LIKELY_PROB and chances.get(named, 0.0) < ODD_SHARE * chances[usual]
    return LeaveDoubt(named, leave, usual, 1) if is_odd else None


@cache
def class_chances(leave: tuple[int, ...]) -> dict[ArrivalClass, float]:
    """Return how often a hit of each class leaves these pins at its likeliest board and angle.

    Parameters
    ----------
    leave : tuple of int
        Pins left, in the own frame.
    """
    boards, entries = (grid.ravel() for grid in np.meshgrid(_BOARDS, _ENTRIES_DEG))
    chances: dict[ArrivalClass, float] = {}
    found = leave_probs(boards, entries, np.full(boards.shape, _SPEED_MPH))
    for board, probs in zip(boards.tolist(), found if isinstance(found, tuple) else (found,), strict=True):
        named = arrival_class(board)
        chances[named] = max(chances.get(named, 0.0), probs.get(frozenset(leave), 0.0))
    return chances
