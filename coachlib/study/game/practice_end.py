"""The end of a practice game: the same balls played other ways, and where most was lost.

Every way of playing gets the same lane, and every ball the same errors by its number, whatever line it is
thrown on. Strikes are counted as kept: the chances of the balls as they left the hand, summed, so that the
luck of the pins is out of it. How many really fell is told beside it.
"""

import dataclasses
import itertools
from collections.abc import Callable, Iterator

import numpy as np

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.session import Session, change
from coachlib.study.game.practice_game import PracticeGame
from coachlib.study.seasons.judge import N_DRAWS
from coachlib.study.seasons.policies import Advisor, Oracle, policy
from coachlib.study.seasons.season import play_session
from coachlib.world.ball import Ball
from coachlib.world.line import Line

YOU = "you"
OTHERS = ("never move", "rulebook", "advice", "oracle")
"""The ways of playing that a game is compared with, see :data:`coachlib.study.seasons.policies.POLICIES`."""

LEAST_LOST_PROB = 0.05
"""A smaller loss on one ball is none: less than one ball of twenty."""

Progress = Callable[[int, int], None]


@dataclasses.dataclass(frozen=True)
class WayPlayed:
    """How one way of playing did on the balls that count.

    Parameters
    ----------
    name : str
        ``"you"`` or one of :data:`OTHERS`.
    kept, n_fell
        Expected strikes, the true chances of the balls as thrown, summed; strikes that really fell.
    n_moves : int
        How often line or ball changed.
    """

    name: str
    kept: float
    n_fell: int
    n_moves: int


@dataclasses.dataclass(frozen=True)
class Lost:
    """What one ball's line was worth beside the oracle's, on the lane as it lay then.

    Parameters
    ----------
    ball_number : int
        As in the session, practice balls counted too.
    line, better_line : Line
        The one played, and the oracle's.
    line_prob, better_prob : float
        True chances of a strike under the bowler's true scatter.
    """

    ball_number: int
    line: Line
    better_line: Line
    line_prob: float
    better_prob: float

    @property
    def lost_prob(self) -> float:
        """How much the oracle's line was better; below 0 where it was not."""
        return self.better_prob - self.line_prob


@dataclasses.dataclass(frozen=True)
class PracticeEnd:
    """How a game ended: the ways of playing, yours first, and what was lost on each ball that counts."""

    ways: tuple[WayPlayed, ...]
    lost: tuple[Lost, ...]

    @property
    def n_scored(self) -> int:
        """Balls that counted."""
        return len(self.lost)

    @property
    def worst(self) -> Lost | None:
        """The ball on which most was lost; None if no ball lost as much as one of twenty."""
        worst = max(self.lost, key=lambda one: one.lost_prob)
        return worst if worst.lost_prob >= LEAST_LOST_PROB else None


def practice_end(
    game: PracticeGame, progress: Progress | None = None, advisor: Advisor = advise
) -> PracticeEnd:
    """Return how a finished game compares with other ways of playing the same balls.

    Parameters
    ----------
    game : PracticeGame
        All of its balls thrown; it stays as it is.
    progress : callable, optional
        Told how many balls are played again, and of how many.
    advisor : callable, optional
        For who follows the whole advice: from a session to an advice.

    Raises
    ------
    InputError
        While the game has balls left.
    """
    throws = game.throws[game.n_practice :]
    balls_done, n_balls = itertools.count(1), len(OTHERS) * game.n_scored + game.n_thrown

    def tick() -> None:
        if progress is not None:
            progress(next(balls_done), n_balls)

    played = [(shot.line, shot.ball) for shot in game.session.shots[max(game.n_practice - 1, 0) :]]
    n_moves = sum(was != now for was, now in itertools.pairwise(played))
    kept = float(sum(one.strike_prob for one in throws))
    yours = WayPlayed(YOU, kept, sum(one.struck for one in throws), n_moves)
    lost = tuple(_lost(game, tick))
    return PracticeEnd((yours, *(_played(name, game, advisor, tick) for name in OTHERS)), lost)


def _played(name: str, game: PracticeGame, advisor: Advisor, tick: Callable[[], None]) -> WayPlayed:
    world = game.fresh_lane()
    way = policy(name, world, advisor)

    class Ticking:
        def next_line(self, session: Session) -> tuple[Line, Ball | None]:
            decided = way.next_line(session)
            tick()
            return decided

    result = play_session(Ticking(), world, game.n_scored, game.n_practice)
    return WayPlayed(name, float(result.strike_prob.sum()), int(np.sum(result.struck)), result.n_moves)


def _lost(game: PracticeGame, tick: Callable[[], None]) -> Iterator[Lost]:
    """Throw the game again and ask the oracle before each ball that counts."""
    world = game.fresh_lane()
    better, oracle = world.start(), Oracle(world)
    for shot in game.session.shots:
        if shot.number > game.n_practice:
            if shot.ball != better.ball:  # another ball: look at all lines again
                better, oracle = change(better, ball=shot.ball), Oracle(world)
            better = change(better, line=oracle.next_line(better)[0])
            draw = 1 + world.n_thrown % N_DRAWS  # never the errors by which the oracle chose
            probs = world.strike_probs([shot.line, better.line], better.ball, draw=draw).tolist()
            yield Lost(shot.number, shot.line, better.line, *probs)
        world.throw(shot.line, shot.ball)
        tick()
