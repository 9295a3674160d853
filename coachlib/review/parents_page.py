"""What a page for the parents holds: a ball to be proud of, what is being learned, what got better, care.

A letter about one child: no oil, no score, no other child. Everything comes from the log; nothing is made up.
"""

import dataclasses
from collections.abc import Sequence
from datetime import datetime
from typing import Literal

from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.arrivals import credits_line
from coachlib.coaching.session.ball_reading import ON_TARGET_BOARDS
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.callouts import count_text
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.review.trends import is_at_arrows, miss_boards, spares_after
from coachlib.review.work_on import WorkOn
from coachlib.study.questions.drills import Need
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.line import Line
from coachlib.world.pins import ALL_PINS

MOST_COUNTED, FEWEST_COUNTED, CLEARLY_MORE = 30, 10, 2
"""Balls compared at most and at least, and how many more of them are called better (our guess)."""

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


@dataclasses.dataclass(frozen=True)
class Better:
    """A count that got better: so many of `n` balls over the target, then and now."""

    n: int
    n_then: int
    n_now: int
    then: datetime


@dataclasses.dataclass(frozen=True)
class ParentsPage:
    """What stands on the page.

    Parameters
    ----------
    name, started, hand, n_balls
        What the child is called; when the session was, with which hand, all balls of it.
    proud : ProudBall or None
        The ball to be proud of.
    line, is_at_arrows
        The line of that ball, or the one played last, and whether its target lies at the arrows.
    need : str
        What is being learned, see :data:`coachlib.study.questions.drills.NEEDS`.
    better : Better or None
        What got better; None where nothing did, or too little was noted.
    pain : str
        Where it hurts, as it was noted; empty where nothing was.
    """

    name: str
    started: datetime
    hand: Hand
    n_balls: int
    proud: ProudBall | None
    line: Line
    is_at_arrows: bool
    need: Need
    better: Better | None
    pain: str


def parents_page(
    listed: LoggedSession,
    replay: Replay,
    earlier: Sequence[tuple[LoggedSession, Replay]],
    worth: WorkOn,
    called: str = "",
) -> ParentsPage:
    """Return what a session's page for the parents holds.

    Parameters
    ----------
    listed, replay
        The session's line in the list, and the session; the bowler bears the name that is shown.
    earlier : sequence of (LoggedSession, Replay)
        The child's earlier sessions, the oldest first.
    worth : WorkOn
        What the child works on.
    called : str, optional
        What the letter calls the child; by default the name that is shown.
    """
    session = replay.session
    bowler, proud = session.bowler, proud_ball(session.shots)
    line = session.line if proud is None else proud.seen.line
    return ParentsPage(
        name=called or bowler.name or "Your child",
        started=listed.started,
        hand=bowler.hand,
        n_balls=len(session.shots),
        proud=proud,
        line=line,
        is_at_arrows=is_at_arrows(line),
        need=worth.need,
        better=_better(session.shots, earlier),
        pain=bowler.pain if bowler.has_pain else "",
    )


def is_junior(bowler: Bowler) -> bool:
    """Return whether a bowler is known to be younger than the rulebook's limit for juniors."""
    return bowler.age_years is not None and bowler.age_years < load_rulebook().settings["junior_years"]


def _better(shots: Sequence[Observed], earlier: Sequence[tuple[LoggedSession, Replay]]) -> Better | None:
    """Return today beside the first session with enough balls noted, if clearly more were over the target."""
    now = _over_target(shots)
    for listed, replay in earlier:
        then = _over_target(replay.session.shots)
        n = min(len(then), len(now), MOST_COUNTED)
        if n >= FEWEST_COUNTED:
            n_then, n_now = sum(then[:n]), sum(now[:n])
            return Better(n, n_then, n_now, listed.started) if n_now >= n_then + CLEARLY_MORE else None
    return None


def _over_target(shots: Sequence[Observed]) -> list[bool]:
    """Return of each first ball whose crossing was noted whether it was over the target."""
    return [
        _is_over(ball) for ball in shots if not ball.shot.is_spare and ball.shot.crossed_board is not None
    ]


def _is_over(ball: Observed) -> bool:
    """Return whether a ball is known to have crossed within a board of its target."""
    miss = miss_boards(ball)
    return miss is not None and abs(miss) <= ON_TARGET_BOARDS


def proud_ball(shots: Sequence[Observed]) -> ProudBall | None:
    """Return the ball of a session to be proud of most; None where nothing noted was good.

    In this order: a pocket ball over the target that felled all ten; four or more over the target in a row;
    the pocket over the target; three in a row; over the target; a spare; many pins. Of several, the one
    nearest to its target, then the last.
    """
    first = [ball for ball in shots if not ball.shot.is_spare]
    over = [ball for ball in first if _is_over(ball)]
    in_pocket = [ball for ball in over if credits_line(ball) and ball.shot.arrival is not None]
    row = _longest_row(first)
    found = [
        _nearest("all ten", [ball for ball in in_pocket if ball.shot.is_strike]),
        row if row is not None and row.n >= LONG_ROW else None,
        _nearest("pocket", in_pocket),
        row if row is not None and row.n >= SHORT_ROW else None,
        _nearest("target", over),
        _spare(shots),
        _pins(first),
    ]
    return next((one for one in found if one is not None), None)


def proud_words(ball: ProudBall | None, name: str, n_balls: int) -> str:
    """Return in one sentence what was good; where no ball was noted as that, that the child played."""
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
    over = f"{'over' if _off_boards(ball.seen) <= ON_IT_BOARDS else 'right beside'} the board {name} chose"
    ends = {"all ten": ", and all ten pins down", "pocket": ", and into the pocket"}
    return f"Ball {number}: {over}{ends.get(ball.kind, '')}."


def _off_boards(ball: Observed) -> float:
    """Return how far from its target a ball crossed; 0 where that was not noted."""
    return abs(miss_boards(ball) or 0.0)


def _nearest(kind: ProudKind, balls: Sequence[Observed]) -> ProudBall | None:
    return None if not balls else ProudBall(kind, min(reversed(balls), key=_off_boards))


def _longest_row(first: Sequence[Observed]) -> ProudBall | None:
    """Return the longest row over the target, the last of several, by its ball nearest to the target."""
    longest: list[Observed] = []
    row: list[Observed] = []
    for ball in first:
        row = [*row, ball] if _is_over(ball) else []
        longest = row if len(row) >= len(longest) else longest
    best = _nearest("row", longest)
    return None if best is None else dataclasses.replace(best, n=len(longest))


def _spare(shots: Sequence[Observed]) -> ProudBall | None:
    """Return the last spare made of the most pins."""
    made = [
        ProudBall("spare", spare, stood=first.shot.leave or ())
        for first, spare in spares_after(shots)
        if not spare.shot.leave
    ]
    return max(reversed(made), key=lambda one: len(one.stood), default=None)


def _pins(first: Sequence[Observed]) -> ProudBall | None:
    counted = [(len(ALL_PINS) - len(ball.shot.leave), ball) for ball in first if ball.shot.leave is not None]
    n, ball = max(reversed(counted), key=lambda pair: pair[0], default=(0, None))
    return None if ball is None or n < MANY_PINS else ProudBall("pins", ball, n)
