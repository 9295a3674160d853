"""One season with a judge at the lane, who knows the truth and holds every advice against it.

The judge never speaks to the way of playing that is judged. Beside the result of the season come the true
chance of each line as it was played, which is what the balls as thrown come to without the luck of the
release, and one row a decision: what the advice said, and what was true.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.session.session import Session
from coachlib.study.hidden_lane.practice import PracticeLane, Throw
from coachlib.study.seasons.policies import Advisor, policy
from coachlib.study.seasons.season import SeasonResult, play_session
from coachlib.world.ball import Ball
from coachlib.world.line import Line

NAN = float("nan")
N_DRAWS = 16
"""The judge changes the errors from ball to ball, never to those by which the oracle chooses."""


@dataclasses.dataclass(frozen=True)
class Judged:
    """One decision: what the advice said before a ball, and what was true; NaN where nothing was said.

    Parameters
    ----------
    ball_number : int
        The ball about to be thrown, 1 for the first after practice's last.
    kind, verdict, feet_boards, target_boards
        As the advice has them; the move to its new line. [boards]
    bowler_said_prob, release_boards, lane_boards
        Its chance that the ball before was the bowler's doing, and the truth about that ball, see
        :class:`coachlib.study.hidden_lane.practice.Throw`. [boards]
    stay_said_prob, new_said_prob, better_said_frac
        Its chances of a strike on the line played and on the new line, and the share of believed lanes on
        which the new one is better.
    stay_true_prob, new_true_prob
        The true chances under the true scatter.
    strike_prob, struck
        True chance of the ball then thrown, and whether it struck.
    """

    ball_number: int
    kind: str
    verdict: str
    feet_boards: float
    target_boards: float
    bowler_said_prob: float
    release_boards: float
    lane_boards: float
    stay_said_prob: float
    new_said_prob: float
    better_said_frac: float
    stay_true_prob: float
    new_true_prob: float
    strike_prob: float
    struck: bool


@dataclasses.dataclass(frozen=True)
class JudgedSeason:
    """A season and what only a judge can say of it.

    Parameters
    ----------
    line_strike_prob : ndarray
        True chance of a strike on the line of each scored ball, under the bowler's true scatter.
    decisions : tuple of Judged
        One a scored ball where advice was asked, else none.
    """

    result: SeasonResult
    line_strike_prob: NDArray[np.float64]
    decisions: tuple[Judged, ...]


def judged_season(
    name: str, world: PracticeLane, n_shots: int = 36, n_practice: int = 4, advisor: Advisor = advise
) -> JudgedSeason:
    """Return how a way of playing does on a hidden lane, and what was true all along.

    Parameters
    ----------
    name : str
        One of :data:`coachlib.study.seasons.policies.POLICIES`.
    n_shots, n_practice : int
        As in :func:`coachlib.study.seasons.season.play_session`.
    advisor : callable, optional
        Who is asked by the way of playing that follows the whole advice; the rulebook asks its rules alone.

    Raises
    ------
    InputError
        For an unknown name or a count out of range.
    """
    judge = _Judge(world, advisor)
    result = play_session(policy(name, world, judge.hear), judge, n_shots, n_practice)
    return JudgedSeason(result, np.array(judge.line_probs[n_practice:]), tuple(judge.judged))


class _Judge:
    """Stands between player and lane, hears each advice and keeps what was true when the ball was thrown."""

    def __init__(self, world: PracticeLane, advisor: Advisor) -> None:
        self._world, self._advisor = world, advisor
        self._heard: Advice | None = None
        self._before: Throw | None = None
        self.judged: list[Judged] = []
        self.line_probs: list[float] = []

    def hear(self, session: Session) -> Advice:
        """Ask for advice and remember it until the next ball."""
        self._heard = self._advisor(session)
        return self._heard

    def start(self) -> Session:
        """Start the lane anew."""
        return self._world.start()

    def throw(self, line: Line, ball: Ball | None = None) -> Throw:
        """Throw, with the truth about the last advice taken down first."""
        advice, self._heard = self._heard, None
        lines = [line] if advice is None else [line, advice.line, advice.new_line]
        draw = 1 + self._world.n_thrown % N_DRAWS
        true = self._world.strike_probs(lines, ball, draw=draw).tolist()
        thrown = self._world.throw(line, ball)
        self.line_probs.append(true[0])
        if advice is not None:
            self.judged.append(_judged(advice, len(self.judged) + 1, self._before, true[1:], thrown))
        self._before = thrown
        return thrown


def _judged(advice: Advice, number: int, before: Throw | None, true: list[float], thrown: Throw) -> Judged:
    stay, new = _number(advice.stay_strike_prob), _number(advice.move_strike_prob)
    is_same = advice.new_line == advice.line
    return Judged(
        ball_number=number,
        kind=advice.kind,
        verdict=advice.cause.verdict,
        feet_boards=advice.new_line.feet_board - advice.line.feet_board,
        target_boards=advice.new_line.target_board - advice.line.target_board,
        bowler_said_prob=_number(advice.cause.bowler_prob),
        release_boards=NAN if before is None else before.release_boards,
        lane_boards=NAN if before is None else before.lane_boards,
        stay_said_prob=stay,
        new_said_prob=stay if is_same else new,
        better_said_frac=_number(advice.better_lanes_frac),
        stay_true_prob=true[0],
        new_true_prob=true[1],
        strike_prob=thrown.strike_prob,
        struck=thrown.struck,
    )


def _number(value: float | None) -> float:
    return NAN if value is None else float(value)
