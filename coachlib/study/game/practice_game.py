"""A game on a hidden lane for one bowler alone: choose a line, throw one ball or ten, see, move, throw on.

The player is told what an eye behind the foul line would see, and nothing else: the truth about a ball is
kept until the last one is thrown. A thrown ball is thrown; only what was changed since can be taken back.
"""

import dataclasses

from coachlib.coaching.session.session import Session, change, observe, undo
from coachlib.coaching.session.setting import Changed
from coachlib.errors import InputError, checked_number, checked_thing
from coachlib.study.hidden_lane.practice import PracticeLane, Throw
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.levers import fits_problems
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text
from coachlib.world.shot import Shot

N_SCORED, N_PRACTICE = 36, 4
"""First balls that count, three games of twelve, and practice balls before them."""


class PracticeGame:
    """One game: practice balls, then balls that count.

    Parameters
    ----------
    pattern : OilPattern
        The sheet, which the player may look at.
    bowler, ball
        As they say they are, and the ball they begin with.
    seed : int, default 3
        The number of the lane: the same number is the same lane for everybody.
    n_scored, n_practice : int
        Balls that count, 1 to 200, and practice balls before them, 0 to 20.

    Raises
    ------
    InputError
        As :class:`coachlib.study.hidden_lane.practice.PracticeLane`, or if a count is out of range.
    """

    def __init__(
        self,
        pattern: OilPattern,
        bowler: Bowler,
        ball: Ball,
        seed: int = 3,
        n_scored: int = N_SCORED,
        n_practice: int = N_PRACTICE,
    ) -> None:
        self.n_scored = round(checked_number("n_scored", n_scored, 1, 200, "balls", "Three games are 36."))
        self.n_practice = round(checked_number("n_practice", n_practice, 0, 20, "balls", "Usual are 4."))
        self.pattern, self.bowler, self.ball, self.seed = pattern, bowler, ball, seed
        self._world = self.fresh_lane()
        self._throws: tuple[Throw, ...] = ()
        self.session: Session = dataclasses.replace(self._world.start(), lane=str(seed))
        self._count_if_practised()

    def fresh_lane(self) -> PracticeLane:
        """Return the same lane as before the first ball, for other ways of playing it."""
        return PracticeLane(self.pattern, self.bowler, self.ball, seed=self.seed)

    @property
    def n_thrown(self) -> int:
        """Balls thrown so far, practice included."""
        return len(self._throws)

    @property
    def n_left(self) -> int:
        """Balls still to throw before practice ends, or the game."""
        ends = self.n_practice if self.is_practice else self.n_practice + self.n_scored
        return ends - self.n_thrown

    @property
    def is_practice(self) -> bool:
        """Whether the next ball is a practice ball."""
        return self.n_thrown < self.n_practice

    @property
    def is_over(self) -> bool:
        """Whether all balls are thrown."""
        return self.n_thrown >= self.n_practice + self.n_scored

    @property
    def throws(self) -> tuple[Throw, ...]:
        """The truth about each ball, practice included, told when the game is over.

        Raises
        ------
        InputError
            While balls are left.
        """
        if not self.is_over:
            left = self.n_practice + self.n_scored - self.n_thrown
            message = (
                f"throws are asked for with {left} balls left; expected the end of the game. "
                "What was seen so far stands in session.shots."
            )
            raise InputError(message)
        return self._throws

    @property
    def lane_at_end(self) -> PracticeLane:
        """The lane with its oil as the last ball left it, shown when the game is over.

        Raises
        ------
        InputError
            While balls are left.
        """
        self.throws  # noqa: B018 - refuses while balls are left
        return self._world

    def move(self, line: Line | None = None, ball: Ball | None = None) -> Session:
        """Change the line, the ball in the hand, or both, before the next throw.

        Raises
        ------
        InputError
            If the game is over or the line does not fit; nothing is changed then.
        """
        self._check_not_over()
        line = self.session.line if line is None else checked_thing("line", line, Line)
        ball = self.session.ball if ball is None else checked_thing("ball", ball, Ball)
        problems = fits_problems(line, self.session.bowler, self.session.line)
        if problems and line != self.session.line:
            message = (
                f"Choose another line than feet {board_text(line.feet_board)}, target "
                f"{board_text(line.target_board)}: {', and '.join(problems)}. Nothing was thrown."
            )
            raise InputError(message, {"line": message})
        self.session = change(self.session, line=line, ball=ball)
        return self.session

    def undo(self) -> Session:
        """Take back the last change of line or ball since the last ball; a thrown ball stays thrown.

        Raises
        ------
        InputError
            If nothing was changed since the last ball.
        """
        last = self.session.events[-1] if self.session.events else None
        if not isinstance(last, Changed) or last.was.scoring_started != last.now.scoring_started:
            since = f"Since ball {self.n_thrown}" if self.n_thrown else "So far"
            message = (
                "Change feet, target or ball before the next throw instead: a thrown ball stays thrown. "
                f"{since} there was no change to take back."
            )
            raise InputError(message)
        self.session = undo(self.session)
        return self.session

    def throw(self, n_balls: int = 1) -> tuple[Shot, ...]:
        """Throw balls on the present line and return what was seen of each.

        Parameters
        ----------
        n_balls : int, default 1
            1 to 200; fewer are thrown where practice or the game ends before.

        Raises
        ------
        InputError
            If the game is over or the count is out of range; nothing is thrown then.
        """
        self._check_not_over()
        wanted = round(checked_number("n_balls", n_balls, 1, 200, "balls", "Throw 1 or 10."))
        n_now, first = min(wanted, self.n_left), self.n_thrown
        for _ in range(n_now):
            thrown = self._world.throw(self.session.line, self.session.ball)
            self._throws = (*self._throws, thrown)
            self.session = observe(self.session, thrown.shot)
        self._count_if_practised()
        return tuple(one.shot for one in self._throws[first:])

    def _count_if_practised(self) -> None:
        if self.n_thrown == self.n_practice:
            self.session = change(self.session, scoring_started=True)

    def _check_not_over(self) -> None:
        if self.is_over:
            message = (
                "Start a new game, on this lane or another. All "
                f"{self.n_thrown} balls of this one are thrown."
            )
            raise InputError(message)
