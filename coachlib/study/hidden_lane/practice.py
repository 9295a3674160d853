"""A hidden lane to practise on: it plays like a lane, keeps its oil to itself, and wears.

What is hidden: a film that is not quite the sheet's, another friction law and another wear than the coach's
model has, a bowler who is not quite what they said, balls that go wrong, an eye that errs, and others on the
lane. All of it is drawn by the seed, and the errors of a ball by its number: the same seed is the same lane
for everybody, and two ways of playing it are compared ball by ball.

Judge and coach share the mechanics of the ball, the shape of the sheet's film and the pins: a season on
hidden lanes ranks ways of playing, it promises no strikes.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import on_starting_line
from coachlib.errors import InputError, checked_number, checked_thing
from coachlib.physics.pins.carry import sample_leaves, strike_prob_of
from coachlib.study.hidden_lane.eye import Eye, TrueBall, drawn_eye, noted
from coachlib.study.hidden_lane.hidden_bowler import (
    N_ERRORS,
    N_SURE,
    HiddenBowler,
    ball_errors,
    drawn_bowler,
    true_chances,
)
from coachlib.study.hidden_lane.hidden_law import Floats, HiddenLaw, Surface, drawn_law, hidden_surface
from coachlib.study.hidden_lane.hidden_oil import (
    HiddenWear,
    drawn_difference,
    drawn_wear,
    hidden_film_um,
    passes_over,
    worn_film_um,
)
from coachlib.study.hidden_lane.other_bowlers import Other, drawn_others, passes_of_others
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.oil_shape import with_typical_film
from coachlib.world.path import Path
from coachlib.world.pins import ALL_PINS
from coachlib.world.release import Release
from coachlib.world.shot import Shot
from coachlib.world.usual import with_hook_of

OTHERS_EVERY = 4
"""The others' balls wear the lane in lumps, after every so many of the bowler's."""

OTHERS_AIM_EVERY = 12
"""They look for a new line after so many."""


@dataclasses.dataclass(frozen=True)
class Throw:
    """One ball on a hidden lane.

    Parameters
    ----------
    shot : Shot
        What was seen; all that a way of playing may know.
    struck, strike_prob
        Whether all ten fell, and the chance of that for the ball as thrown: the truth, for scoring only.
    release_boards, lane_boards : float
        The truth about a miss, for scoring only; NaN for a ball in the gutter. How far the ball's own error
        moved it at the pins, and where the same ball without error would have come in, from the pocket.
        [boards]
    """

    shot: Shot
    struck: bool
    strike_prob: float
    release_boards: float = float("nan")
    lane_boards: float = float("nan")


@dataclasses.dataclass(frozen=True)
class Hidden:
    """All that the seed draws."""

    law: HiddenLaw
    wear: HiddenWear
    bowler: HiddenBowler
    eye: Eye
    others: tuple[Other, ...]
    fresh_film_um: Floats


class PracticeLane:
    """A hidden lane that wears.

    Parameters
    ----------
    pattern : OilPattern
        The sheet. Without film a usual one of its length and kind.
    bowler, ball
        As they say they are, and the ball they begin with.
    seed : int, default 3
        The same seed is the same lane.
    line : Line, optional
        Where to begin; by default on the starting line of a plan.
    n_others : int, default 3
        How many others play on it.
    pair : PracticeLane, optional
        The other lane of a pair: its bowler, its friction law and the eye that sees are this lane's too; oil,
        wear and others are not.

    Raises
    ------
    InputError
        If something is of the wrong kind, the seed is no whole number from 0, or no line fits the bowler.
    """

    def __init__(
        self,
        pattern: OilPattern,
        bowler: Bowler,
        ball: Ball,
        seed: int = 3,
        line: Line | None = None,
        n_others: int = 3,
        pair: "PracticeLane | None" = None,
    ) -> None:
        self._pattern = with_typical_film(checked_thing("pattern", pattern, OilPattern))
        self._bowler = checked_thing("bowler", bowler, Bowler)
        self._ball = checked_thing("ball", ball, Ball)
        self._seed = _checked_count("seed", seed, 2**31 - 1, "Give any whole number; it names the lane.")
        n_others = _checked_count("n_others", n_others, 20, "A lane sees up to about ten people.")
        line = on_starting_line(bowler, ball, self._pattern).line if line is None else line
        self._line = checked_thing("line", line, Line)
        self.hidden = self._drawn(n_others)
        if pair is not None:
            other = checked_thing("pair", pair, PracticeLane).hidden
            self.hidden = dataclasses.replace(self.hidden, bowler=other.bowler, law=other.law, eye=other.eye)
        self.start()
        meant = self.hidden.bowler.releases([self._line], np.zeros((1, N_ERRORS)))
        self._usual_hook_ft = self.surface().roll(meant, self._ball).hook_ft[0]

    def start(self) -> Session:
        """Return a session before the first ball; the lane is fresh again, and nothing was thrown."""
        self._film_um = self.hidden.fresh_film_um
        self._n_thrown = 0
        self._others_passes = passes_of_others(self.hidden.others, self._film_um, self.hidden.law)
        return Session(bowler=self._bowler, line=self._line, ball=self._ball, pattern=self._pattern)

    def throw(self, line: Line, ball: Ball | None = None) -> Throw:
        """Throw one ball.

        Parameters
        ----------
        line : Line
            What the bowler means to play.
        ball : Ball, optional
            Another ball than the one they began with.

        Raises
        ------
        InputError
            If the ball would be laid down beside the lane; nothing is thrown then.
        """
        laydown = laydown_board(checked_thing("line", line, Line), self._bowler)
        if not FIRST_BOARD <= laydown <= LAST_BOARD:
            message = (
                f"line would lay the ball down on board {laydown:g}; expected {FIRST_BOARD} to {LAST_BOARD} "
                f"boards. Stand about {self._bowler.laydown_offset_boards:g} boards inside of it."
            )
            raise InputError(message, {"line": message})
        ball = self._ball if ball is None else checked_thing("ball", ball, Ball)
        draws = np.random.default_rng((self._seed, 100, self._n_thrown))
        errors = np.vstack([ball_errors(draws), np.zeros((1, N_ERRORS))])  # as thrown, and without error
        release = self.hidden.bowler.releases([line], errors, self._n_thrown)
        path = self.surface(ball).roll(release, ball, keep_path=True)
        chance = float(strike_prob_of(path, ball.weight_lb)[0])
        leave = _leave(path, ball, float(draws.random()))
        there = self._to_see(line, release, path, leave)
        self._wear(path)
        as_thrown, as_meant = path.arrival_board.tolist()
        parts = (as_thrown - as_meant, as_meant - POCKET_BOARD)
        return Throw(noted(there, self.hidden.eye, draws), not leave, chance, *parts)

    def surface(self, ball: Ball | None = None) -> Surface:
        """Return what a ball rolls on now: the truth, for judges only."""
        ball = self._ball if ball is None else ball
        return hidden_surface(self._film_um, ball, self.hidden.law)

    def strike_probs(
        self, lines: Sequence[Line], ball: Ball | None = None, n_balls: int = N_SURE, draw: int = 0
    ) -> Floats:
        """Return the true chance of a strike on each line now, under the true scatter: for judges only.

        `n_balls` and `draw` as in :func:`coachlib.study.hidden_lane.hidden_bowler.true_chances`.
        """
        ball = self._ball if ball is None else ball
        surface = self.surface(ball)
        return true_chances(lines, self.hidden.bowler, ball, surface, n_balls, self._n_thrown, draw)

    @property
    def film_um(self) -> Floats:
        """The film that lies there now, shape (120, 39), own frame: for judges only [µm]."""
        return self._film_um.copy()

    @property
    def n_thrown(self) -> int:
        """How many balls were thrown since the start."""
        return self._n_thrown

    def _drawn(self, n_others: int) -> Hidden:
        law, oil, wear, bowler, eye, others = (np.random.default_rng((self._seed, part)) for part in range(6))
        difference = drawn_difference(oil)
        return Hidden(
            law=drawn_law(law),
            wear=drawn_wear(wear),
            bowler=drawn_bowler(with_hook_of(self._bowler, self._ball), bowler),
            eye=drawn_eye(eye),
            others=drawn_others(others, n_others),
            fresh_film_um=hidden_film_um(self._pattern, self._bowler.hand, difference),
        )

    def _to_see(self, line: Line, release: Release, path: Path, leave: tuple[int, ...]) -> TrueBall:
        slope = np.tan(np.radians(release.launch_deg[0]))  # type: ignore[index]
        return TrueBall(
            crossed_board=float(release.laydown_board[0] + slope * ft_to_boards(line.target_ft)),  # type: ignore[index]
            arrival_board=float(path.arrival_board[0]),
            breakpoint_board=float(path.breakpoint_board[0]),
            breakpoint_ft=float(path.breakpoint_ft[0]),
            later_ft=float(path.hook_ft[0] - self._usual_hook_ft),
            speed_mph=float(release.speed_mph[0]),  # type: ignore[index]
            leave=leave,
        )

    def _wear(self, path: Path) -> None:
        """Let the ball just thrown, and now and then the others' balls, wear the film."""
        passes, wear = passes_over(path.path_board[:, :1]), self.hidden.wear
        self._n_thrown += 1
        if self._n_thrown % OTHERS_EVERY == 0:
            passes = passes + OTHERS_EVERY * self._others_passes
        self._film_um = worn_film_um(self._film_um, passes, wear)
        if self._n_thrown % OTHERS_AIM_EVERY == 0:
            self._others_passes = passes_of_others(self.hidden.others, self._film_um, self.hidden.law)


def _leave(path: Path, ball: Ball, uniform: float) -> tuple[int, ...]:
    """Return the pins that the first ball of a path leaves, own frame; all ten from the gutter."""
    if path.gutter[0]:
        return ALL_PINS
    standing = sample_leaves(
        min(max(path.arrival_board[0], 0.0), 40.0),
        min(max(path.entry_deg[0], -15.0), 20.0),
        path.speed_at_pins_mph[0],
        ball.weight_lb,
        uniform,
    )
    return tuple((np.flatnonzero(standing) + 1).tolist())


def _checked_count(name: str, value: object, most: int, fix: str) -> int:
    number = checked_number(name, value, 0, most, "", fix)
    if number != int(number):
        message = f"{name} is {value}; expected a whole number from 0 to {most}. {fix}"
        raise InputError(message, {name: message})
    return int(number)
