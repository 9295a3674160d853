"""A season: practice balls, then three games of first balls, played one way on one lane.

It is scored by the expected chance of each ball as it was thrown: the luck of the pins would need ten times
as many seasons. Two ways of playing are compared on worlds of the same seed, ball by ball.
"""

import dataclasses
import time
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.rules.rule_voice import line_after, move_problems
from coachlib.coaching.session.ball_reading import missed_boards, side_of
from coachlib.coaching.session.session import Session, change, observe
from coachlib.errors import InputError, checked_number
from coachlib.study.hidden_lane.practice import Throw
from coachlib.world.ball import Ball
from coachlib.world.line import Line, Move

PRACTICE_MOVE = Move(feet_boards=2, target_boards=1)
"""The plain correction between practice balls, inside when a ball came in high (rule of thumb)."""


class World(Protocol):
    """A lane to play on."""

    def start(self) -> Session:
        """Return a session before the first ball."""

    def throw(self, line: Line, ball: Ball | None = None) -> Throw:
        """Throw one ball."""


class Policy(Protocol):
    """A way of playing."""

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return line and ball for the next throw, from what was seen."""


@dataclasses.dataclass(frozen=True)
class SeasonResult:
    """How a season went; one entry a scored ball.

    Parameters
    ----------
    strike_prob, struck : ndarray
        True chance of a strike of each ball as thrown, and whether it did.
    lines : tuple of Line
        What was meant.
    has_moved : ndarray of bool
        Whether line or ball changed before it; the first entry is the decision after practice.
    decision_ms : ndarray
        How long the policy thought before it. [ms]
    session : Session
        All that was seen, practice included.
    """

    strike_prob: NDArray[np.float64]
    struck: NDArray[np.bool_]
    lines: tuple[Line, ...]
    has_moved: NDArray[np.bool_]
    decision_ms: NDArray[np.float64]
    session: Session

    @property
    def expected_strikes_per_100(self) -> float:
        """Expected strikes of 100 first balls."""
        return 100.0 * float(self.strike_prob.mean())

    @property
    def n_moves(self) -> int:
        """How often line or ball changed."""
        return int(self.has_moved.sum())


def play_session(policy: Policy, world: World, n_shots: int = 36, n_practice: int = 4) -> SeasonResult:
    """Return how a policy does on a world.

    Parameters
    ----------
    policy : Policy
        Anything with ``next_line(session) -> (line, ball)``; ball None keeps the one in the session.
    world : World
        Anything with ``start()`` and ``throw(line, ball=None)``; it is started anew.
    n_shots, n_practice : int
        First balls that count, and balls before; between these the same plain correction for everybody, see
        :func:`practised`.

    Raises
    ------
    InputError
        If a count is out of range, or policy or world lack their methods.
    """
    n_shots = round(checked_number("n_shots", n_shots, 1, 1000, "balls"))
    n_practice = round(checked_number("n_practice", n_practice, 0, 100, "balls"))
    _check_methods("policy", policy, ("next_line",))
    _check_methods("world", world, ("start", "throw"))
    session = change(practised(world, n_practice), scoring_started=True)
    throws, lines, moves, times_ms = [], [], [], []
    for _ in range(n_shots):
        before, start_s = session, time.perf_counter()
        line, ball = policy.next_line(session)
        times_ms.append(1000.0 * (time.perf_counter() - start_s))
        session = change(session, line=line, ball=ball or session.ball)
        moves.append((session.line, session.ball) != (before.line, before.ball))
        lines.append(session.line)
        throws.append(world.throw(session.line, session.ball))
        session = observe(session, throws[-1].shot)
    return SeasonResult(
        strike_prob=np.array([one.strike_prob for one in throws]),
        struck=np.array([one.struck for one in throws], dtype=bool),
        lines=tuple(lines),
        has_moved=np.array(moves, dtype=bool),
        decision_ms=np.array(times_ms),
        session=session,
    )


def practised(world: World, n_balls: int) -> Session:
    """Return a session after practice balls, a plain correction after each but the last.

    A ball on its target that came in high sends the next one 2-and-1 inside, one that came in light 2-and-1
    outside, as far as that fits.
    """
    session = world.start()
    for number in range(n_balls):
        session = observe(session, world.throw(session.line, session.ball).shot)
        if number < n_balls - 1:
            session = change(session, line=_corrected(session))
    return session


def _corrected(session: Session) -> Line:
    shot = session.shots[-1].shot
    way = {"high": 1.0, "light": -1.0}.get(side_of(shot) or "")
    if way is None or missed_boards(shot, session.line, session.bowler):
        return session.line
    return after_fitting(session, Move(way * PRACTICE_MOVE.feet_boards, way * PRACTICE_MOVE.target_boards))


def after_fitting(session: Session, move: Move) -> Line:
    """Return the line after a move of feet and eyes that fits; else the line being played."""
    if not move.is_feet_and_eyes or move_problems(session, move):
        return session.line
    return line_after(session, move)


def _check_methods(name: str, given: object, wanted: tuple[str, ...]) -> None:
    missing = [method for method in wanted if not callable(getattr(given, method, None))]
    if missing:
        message = (
            f"{name} is a {type(given).__name__} and has no {missing[0]}; expected an object with "
            f"{' and '.join(wanted)}. Give one of coachlib.study, or add the method."
        )
        raise InputError(message, {name: message})
