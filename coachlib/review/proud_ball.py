"""One true ball of a session to be proud of, for the page that goes home; nothing is made up."""

import dataclasses
import itertools
from collections.abc import Sequence
from typing import Literal

from coachlib.coaching.session.arrivals import credits_line
from coachlib.coaching.session.ball_reading import ON_TARGET_BOARDS
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.callouts import count_text
from coachlib.world.pins import ALL_PINS

ProudKind = Literal["all ten", "pocket", "row", "target", "spare", "pins"]
LONG_ROW, SHORT_ROW = 4, 3
"""Balls over the target in a row that are worth telling before, and after, a single ball in the pocket."""

MANY_PINS = 7
"""A first ball that fells so many is worth telling where nothing else is."""


ON_IT_BOARDS = 0.5
"""As near as an eye can tell a board from the next: over it, not beside it."""


@dataclasses.dataclass(frozen=True)
class ProudBall:
    """A ball of the log, and what was good about it.

    Parameters
    ----------
    kind : {"all ten", "pocket", "row", "target", "spare", "pins"}
        All pins down from the pocket over the target; the pocket over the target; the last of a row over the
        target; over the target; a spare made; many pins down.
    seen : Observed
        The ball.
    n : int
        Balls in the row, or pins down.
    stood : tuple of int
        The pins before the ball, own frame.
    """

    kind: ProudKind
    seen: Observed
    n: int = 1
    stood: tuple[int, ...] = ALL_PINS


def miss_boards(seen: Observed) -> float | None:
    """Return how far from its target a first ball crossed; None where that was not noted [boards]."""
    shot = seen.shot
    return (
        None
        if shot.crossed_board is None or shot.is_spare
        else abs(shot.crossed_board - seen.line.target_board)
    )


def is_over_target(seen: Observed) -> bool:
    """Return whether a first ball is known to have crossed within a board of its target."""
    miss = miss_boards(seen)
    return miss is not None and miss <= ON_TARGET_BOARDS


def proud_ball(shots: Sequence[Observed]) -> ProudBall | None:
    """Return the ball of a session to be proud of most; None where nothing noted was good.

    In this order: a pocket ball over the target that felled all ten; four or more over the target in a row;
    the pocket over the target; three in a row; over the target; a spare; many pins. Of several, the one
    nearest to its target, then the last.
    """
    first = [seen for seen in shots if not seen.shot.is_spare]
    over = [seen for seen in first if is_over_target(seen)]
    in_pocket = [seen for seen in over if credits_line(seen) and seen.shot.arrival is not None]
    row = _longest_row(first)
    found = [
        _nearest("all ten", [seen for seen in in_pocket if seen.shot.is_strike]),
        row if row is not None and row.n >= LONG_ROW else None,
        _nearest("pocket", in_pocket),
        row if row is not None and row.n >= SHORT_ROW else None,
        _nearest("target", over),
        _spare(shots),
        _pins(first),
    ]
    return next((one for one in found if one is not None), None)


def proud_words(ball: ProudBall | None, name: str, n_balls: int) -> str:
    """Return in one sentence what was good; where no ball was noted as that, that the child played.

    Parameters
    ----------
    ball : ProudBall or None
        From :func:`proud_ball`.
    name : str
        As the child is shown.
    n_balls : int
        All balls of the session.
    """
    if ball is None:
        return f"{name} rolled {n_balls} ball{'s' * (n_balls != 1)} and stayed to the end."
    number = ball.seen.number
    if ball.kind == "row":
        count = count_text(ball.n)
        return f"{count[:1].upper()}{count[1:]} balls in a row within a board of where {name} aimed."
    if ball.kind == "spare":
        n = len(ball.stood)
        what = "the last pin was still standing" if n == 1 else f"{n} pins were still standing"
        return f"Ball {number}: {what}, and {name} knocked {'it' if n == 1 else 'them all'} down."
    if ball.kind == "pins":
        return f"Ball {number}: {'all ten' if ball.n == len(ALL_PINS) else ball.n} pins down with one ball."
    is_on_it = (miss_boards(ball.seen) or 0.0) <= ON_IT_BOARDS
    over = f"{'over' if is_on_it else 'right beside'} the board {name} chose"
    ends = {
        "all ten": f"{over}, and all ten pins down",
        "pocket": f"{over}, and into the pocket",
        "target": over,
    }
    return f"Ball {number}: {ends[ball.kind]}."


def _nearest(kind: ProudKind, balls: Sequence[Observed]) -> ProudBall | None:
    if not balls:
        return None
    return ProudBall(kind, min(reversed(balls), key=lambda seen: miss_boards(seen) or 0.0))


def _longest_row(first: Sequence[Observed]) -> ProudBall | None:
    """Return the longest row over the target, the last of several, by its ball nearest to the target."""
    longest: list[Observed] = []
    row: list[Observed] = []
    for seen in first:
        row = [*row, seen] if is_over_target(seen) else []
        longest = row if len(row) >= len(longest) else longest
    best = _nearest("row", longest)
    return None if best is None else dataclasses.replace(best, n=len(longest))


def _spare(shots: Sequence[Observed]) -> ProudBall | None:
    """Return the last spare made of the most pins."""
    made = [
        ProudBall("spare", second, stood=first.shot.leave)
        for first, second in itertools.pairwise(shots)
        if second.shot.is_spare and second.shot.leave == () and first.shot.leave and not first.shot.is_spare
    ]
    return max(reversed(made), key=lambda one: len(one.stood), default=None)


def _pins(first: Sequence[Observed]) -> ProudBall | None:
    counted = [(len(ALL_PINS) - len(seen.shot.leave), seen) for seen in first if seen.shot.leave is not None]
    n, seen = max(reversed(counted), key=lambda pair: pair[0], default=(0, None))
    return None if seen is None or n < MANY_PINS else ProudBall("pins", seen, n)
