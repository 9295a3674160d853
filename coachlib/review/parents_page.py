"""What a page for the parents holds: a ball to be proud of, what is being learned, what got better, care.

A letter about one child: no oil, no score, no other child. Everything comes from the log.
"""

import dataclasses
from collections.abc import Sequence
from datetime import datetime

from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.setting import Observed
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.review.proud_ball import ProudBall, is_over_target, miss_boards, proud_ball
from coachlib.review.work_on import WorkOn
from coachlib.study.questions.drills import Need
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.lane import ARROWS_FT
from coachlib.world.line import Line

MOST_COUNTED, FEWEST_COUNTED, CLEARLY_MORE = 30, 10, 2
"""Balls compared at most and at least, and how many more of them are called better (our guess)."""


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
    name : str
        What the child is called.
    started : datetime
        When the session was.
    hand : {"right", "left"}
        The bowling hand.
    n_balls : int
        All balls of the session.
    proud : ProudBall or None
        The ball to be proud of.
    line : Line
        The one of that ball, or the one played last.
    is_at_arrows : bool
        Whether its target lies at the arrows.
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
    told: Replay,
    earlier: Sequence[tuple[LoggedSession, Replay]],
    worth: WorkOn,
    called: str = "",
) -> ParentsPage:
    """Return what a session's page for the parents holds.

    Parameters
    ----------
    listed : LoggedSession
        The session's line in the list.
    told : Story
        The session; the bowler bears the name that is shown.
    earlier : sequence of (LoggedSession, Story)
        The child's earlier sessions, the oldest first.
    worth : WorkOn
        What the child works on.
    called : str, optional
        What the letter calls the child; by default the name that is shown.
    """
    session = told.session
    bowler, proud = session.bowler, proud_ball(session.shots)
    line = session.line if proud is None else proud.seen.line
    return ParentsPage(
        name=called or bowler.name or "Your child",
        started=listed.started,
        hand=bowler.hand,
        n_balls=len(session.shots),
        proud=proud,
        line=line,
        is_at_arrows=min(ARROWS_FT) <= line.target_ft <= max(ARROWS_FT),
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
    for listed, told in earlier:
        then = _over_target(told.session.shots)
        n = min(len(then), len(now), MOST_COUNTED)
        if n < FEWEST_COUNTED:
            continue
        n_then, n_now = sum(then[:n]), sum(now[:n])
        return Better(n, n_then, n_now, listed.started) if n_now >= n_then + CLEARLY_MORE else None
    return None


def _over_target(shots: Sequence[Observed]) -> list[bool]:
    """Return of each first ball whose crossing was noted whether it was over the target."""
    return [is_over_target(seen) for seen in shots if miss_boards(seen) is not None]
