"""When to change the ball as the lane wears: a plan over some games.

On fresh oil each ball of the bag starts on its starting line; every half game it is asked for its best line
near the last one on the lane as it then is. Feet and eyes follow for nothing; the ball is changed only where
another one is worth clearly more, because a new ball is a risk. The lane wears under this bowler's own
balls and under whoever else plays. Wear is our guess in size (:mod:`coachlib.physics.wear`): read the order
of balls off a plan rather than the game of a change.
"""

import dataclasses
from collections.abc import Sequence

from coachlib.coaching.equipment.bag import Progress
from coachlib.coaching.equipment.ball_comparison import checked_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import lines_nearby
from coachlib.coaching.simulation.line_search import EQUAL_PROB, BestLine, best_line
from coachlib.errors import checked_number, checked_thing
from coachlib.physics.wear import Thrower, wear_after_games
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import CENTRE_BOARD
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern

CHANGE_PROB = 0.03
"""Another ball must be worth so much more before it is taken (our choice: above the noise of a chance)."""

STEP_GAMES = 0.5
REACH_BOARDS = (5, 4)
"""In half a game a line is moved by at most so many boards of feet and eyes (our choice)."""


@dataclasses.dataclass(frozen=True)
class PlanStep:
    """What to throw from some moment on.

    Parameters
    ----------
    games : float
        Games on the lane. [games]
    ball : Ball
        To throw from here on.
    line : Line
        Its best line now.
    strike_prob : float
        Its chance of a strike there.
    kept_prob : float
        The chance with the ball thrown so far on its own best line now; the same where the ball stays.
    is_change : bool
        Whether the ball changes here.
    """

    games: float
    ball: Ball
    line: Line
    strike_prob: float
    kept_prob: float
    is_change: bool


def ball_plan(
    bowler: Bowler,
    balls: Sequence[Ball],
    pattern: OilPattern,
    n_games: float = 3.0,
    others: Sequence[Thrower] = (),
    seed: int = 0,
    progress: Progress | None = None,
) -> tuple[PlanStep, ...]:
    """Return which ball to throw when, every half game.

    Parameters
    ----------
    bowler : Bowler
        Who throws.
    balls : sequence of Ball
        The bag, in order of liking.
    pattern : OilPattern
        The fresh lane, with film.
    n_games : float, default 3
        How long. [games]
    others : sequence of Thrower
        Who else wears the lane.
    seed : int
        For the release errors.
    progress : callable, optional
        Told after each half game.

    Raises
    ------
    InputError
        If a ball, the bowler or the pattern is something else, or there is no ball.
    """
    checked_thing("bowler", bowler, Bowler)
    checked_thing("pattern", pattern, OilPattern)
    balls = checked_balls(balls, least=1)
    n_games = checked_number("n_games", n_games, STEP_GAMES, 12, "games")
    session = Session(bowler=bowler, line=Line(CENTRE_BOARD, CENTRE_BOARD), seed=seed)
    steps: list[PlanStep] = []
    n_steps = round(n_games / STEP_GAMES) + 1
    found: dict[Ball, BestLine] = {}
    for number in range(n_steps):
        session = dataclasses.replace(session, pattern=pattern)
        found = {ball: _found(session, ball, found.get(ball)) for ball in balls}
        known = {ball: one for ball, one in found.items() if one.is_known} or found  # those that roll, if any
        steps.append(_step(number * STEP_GAMES, known, steps[-1].ball if steps else None))
        if number + 1 < n_steps:
            ball, line = steps[-1].ball, steps[-1].line
            thrower = Thrower(bowler, ball, laydown_board(line, bowler), line.target_board, line.target_ft)
            pattern = wear_after_games(pattern, [thrower, *others], STEP_GAMES, seed)
        if progress is not None:
            progress(number + 1, n_steps)
    return tuple(steps)


def _found(session: Session, ball: Ball, last: BestLine | None) -> BestLine:
    """Return a ball's best line now: the one to start on, later one near the last one."""
    session = dataclasses.replace(session, ball=ball)
    if last is None:
        return best_line(session)
    return best_line(session, lines_nearby(last.line, session.bowler, *REACH_BOARDS))


def _step(games: float, worth: dict[Ball, BestLine], held: Ball | None) -> PlanStep:
    """Return the ball to throw: the one held, unless another one is worth clearly more."""
    most = max(one.strike_prob for one in worth.values())
    kept = held
    if kept is None or kept not in worth:
        kept = next(ball for ball, one in worth.items() if one.strike_prob >= most - EQUAL_PROB)
    kept_prob = worth[kept].strike_prob
    ball = max(worth, key=lambda one: worth[one].strike_prob) if most - kept_prob > CHANGE_PROB else kept
    best = worth[ball]
    return PlanStep(games, ball, best.line, best.strike_prob, kept_prob, held is not None and ball != held)
