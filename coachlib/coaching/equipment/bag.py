"""The bag: where each ball turns and how much, which balls do the same, and the fewest that are enough.

Balls are placed by two computed quantities, how far they skid and how many boards they cover, each on the
line on which this bowler starts with the first ball, mean over the patterns. What a bag is worth on a
pattern is the best strike chance of any of its balls on its own starting line. The smallest bag is found by
asking every possible bag.

Valid for and not modelled: as in :mod:`coachlib.physics.motion`; chances as in
:mod:`coachlib.coaching.simulation.line_search`.
"""

import dataclasses
import itertools
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.equipment.ball_comparison import checked_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import EQUAL_PROB, BestLine, best_line, on_starting_line
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.errors import InputError, checked_number, checked_thing, shown
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.oil import OilPattern

Progress = Callable[[int, int], None]
"""Called with what is done and how much there is."""

KEEP_FRAC = 0.95
"""Share of the best chance that a bag must keep on each pattern."""

SAME_FT, SAME_BOARDS, GAP_FT = 1.0, 1.0, 4.0
"""Two balls nearer than this in both do the same; neighbours farther apart leave a gap (our choice)."""

MOST_BALLS = 16


@dataclasses.dataclass(frozen=True)
class BallPlace:
    """Where one ball stands among the others.

    Parameters
    ----------
    ball : Ball
        Which.
    skid_ft : float
        Where its hook begins, mean over the patterns; the pins for a ball that never turns. [ft]
    covered_boards : float
        How far inside of its straight line it arrives, mean over the patterns. [boards]
    """

    ball: Ball
    skid_ft: float
    covered_boards: float


@dataclasses.dataclass(frozen=True, eq=False)
class Bag:
    """Balls of one bowler over some patterns.

    Parameters
    ----------
    bowler : Bowler
        Who throws.
    balls, patterns : tuple of Ball, tuple of OilPattern
        What was asked.
    chances_prob : ndarray, shape (n_balls, n_patterns)
        Strike chance of each ball on its starting line.
    best : tuple of tuple of BestLine
        The lines behind them.
    places : tuple of BallPlace
        Shortest skid first.
    """

    bowler: Bowler
    balls: tuple[Ball, ...]
    patterns: tuple[OilPattern, ...]
    chances_prob: NDArray[np.float64]
    best: tuple[tuple[BestLine, ...], ...]
    places: tuple[BallPlace, ...]

    @property
    def overlaps(self) -> tuple[tuple[str, str], ...]:
        """Pairs of balls that do the same: less than a foot and a board apart."""
        return tuple(
            (one.ball.name, other.ball.name)
            for one, other in itertools.combinations(self.places, 2)
            if abs(one.skid_ft - other.skid_ft) < SAME_FT
            and abs(one.covered_boards - other.covered_boards) < SAME_BOARDS
        )

    @property
    def gaps(self) -> tuple[tuple[str, str], ...]:
        """Neighbours in skid with more than four feet between them."""
        return tuple(
            (one.ball.name, other.ball.name)
            for one, other in itertools.pairwise(self.places)
            if other.skid_ft - one.skid_ft > GAP_FT
        )

    @property
    def counted_prob(self) -> NDArray[np.float64]:
        """The chances that a choice may lean on: 0 for a ball that still slips at the pins, see `unknown`."""
        known = np.array([[one.is_known for one in row] for row in self.best])
        known |= ~known.any(axis=0)  # where all slip there is nothing better to go by
        return np.where(known, self.chances_prob, 0.0)

    @property
    def unknown(self) -> tuple[str, ...]:
        """Balls that still slip at the pins on some starting line: what they carry there is not known."""
        rows = zip(self.balls, self.best, strict=True)
        return tuple(ball.name for ball, row in rows if not all(one.is_known for one in row))

    def first_out(self, pattern: int) -> Ball:
        """Return the ball to take out first on a pattern; of equals the one that stands first in the bag."""
        chances = self.counted_prob[:, pattern]
        return self.balls[int(np.argmax(chances >= chances.max() - EQUAL_PROB))]


def evaluate_bag(
    bowler: Bowler,
    balls: Sequence[Ball],
    patterns: Sequence[OilPattern],
    seed: int = 0,
    progress: Progress | None = None,
) -> Bag:
    """Return what each ball of a bag does and is worth on each pattern.

    Parameters
    ----------
    bowler : Bowler
        Who throws.
    balls : sequence of Ball
        Two to sixteen, of different names.
    patterns : sequence of OilPattern
        At least one, with film.
    seed : int
        For the release errors.
    progress : callable, optional
        Told after each ball on each pattern.

    Raises
    ------
    InputError
        For too few or too many balls, two of one name, or no pattern.
    """
    checked_thing("bowler", bowler, Bowler)
    balls, patterns = _checked_bag(balls), _checked_patterns(patterns)
    played = [on_starting_line(bowler, balls[0], one, seed) for one in patterns]
    best: list[tuple[BestLine, ...]] = []
    for number, ball in enumerate(balls):
        row = []
        for count, session in enumerate(played, start=1):
            row.append(best_line(dataclasses.replace(session, ball=ball)))
            if progress is not None:
                progress(number * len(patterns) + count, len(balls) * len(patterns))
        best.append(tuple(row))
    places = tuple(sorted((_place(ball, played) for ball in balls), key=lambda one: one.skid_ft))
    chances = np.array([[one.strike_prob for one in row] for row in best])
    return Bag(bowler, balls, patterns, chances, tuple(best), places)


def smallest_bag(bag: Bag, keep_frac: float = KEEP_FRAC) -> tuple[Ball, ...]:
    """Return the fewest balls that keep the given share of the best chance on every pattern.

    Every possible bag is asked, the smallest first; among equally small ones the best on average is taken.

    Parameters
    ----------
    bag : Bag
        From :func:`evaluate_bag`.
    keep_frac : float, default 0.95
        Share to keep, on the worst pattern too.
    """
    keep_frac = checked_number("keep_frac", keep_frac, 0.01, 1, "", "Give a share such as 0.95.")
    chances = bag.counted_prob
    needed = keep_frac * chances.max(axis=0) - 1e-12
    for size in range(1, len(bag.balls) + 1):
        picks = [list(pick) for pick in itertools.combinations(range(len(bag.balls)), size)]
        worth = [chances[pick].max(axis=0) for pick in picks]
        enough = [number for number, one in enumerate(worth) if (one >= needed).all()]
        if enough:
            winner = max(enough, key=lambda number: float(worth[number].mean()))
            return tuple(bag.balls[number] for number in picks[winner])
    return bag.balls


def _place(ball: Ball, played: Sequence[Session]) -> BallPlace:
    skid_ft, covered = [], []
    for session in played:
        path = simulate_lines(dataclasses.replace(session, ball=ball), keep_path=True)
        start = path.path_board[0, 0]
        target = session.line.target_board
        straight = start + (target - start) * ft_to_boards(HEAD_PIN_FT) / ft_to_boards(session.line.target_ft)
        skid_ft.append(float(np.nan_to_num(path.hook_ft[0], nan=HEAD_PIN_FT)))
        covered.append(float(path.arrival_board[0] - straight))
    reached = [boards for boards in covered if np.isfinite(boards)]
    return BallPlace(ball, float(np.mean(skid_ft)), float(np.mean(reached)) if reached else 0.0)


def _checked_bag(balls: Sequence[Ball]) -> tuple[Ball, ...]:
    bag = checked_balls(balls)
    names = [ball.name for ball in bag]
    twice = sorted({name for name in names if names.count(name) > 1})
    if twice or len(bag) > MOST_BALLS:
        what = f"{twice[0]!r} twice" if twice else f"{len(bag)} balls"
        message = f"balls has {what}; expected 2 to {MOST_BALLS} balls of different names. "
        raise InputError(message + "Rename one or leave some out.")
    return bag


def _checked_patterns(patterns: object) -> tuple[OilPattern, ...]:
    if not isinstance(patterns, list | tuple) or not patterns:
        message = f"patterns is {shown(patterns)}; expected a list of at least one pattern with film. "
        raise InputError(message + "Give e.g. [load_pattern('house_41')].")
    found = tuple(checked_thing("patterns", one, OilPattern) for one in patterns)
    for one in found:
        _ = one.film_array_um  # says what is missing
    return found
