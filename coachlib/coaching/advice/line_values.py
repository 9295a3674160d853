"""What every line within reach is worth on every lane that fits, read off the belief's tables."""

import dataclasses
import functools
import itertools
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.filter import Belief
from coachlib.coaching.belief.line_table import LAYDOWN_BOARDS, SLOPE_BOARDS, cells_at, laydowns_around
from coachlib.coaching.belief.particles import laydown_boards, slope_boards
from coachlib.coaching.belief.table_cache import (
    BeliefSetting,
    particles_of,
    strikes_of,
    strikes_shifted_for_wear,
)
from coachlib.coaching.rules.other_moves import HALF_BOARDS, is_small
from coachlib.coaching.simulation import candidate_lines
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line, Move, after_move

Floats = NDArray[np.float64]

REACH_FEET_BOARDS = 10
REACH_TARGET_BOARDS = 7
"""Lines this far from the present one are weighed [boards]."""

Reach = Literal["usual", "one board", "eyes only"]

COST_PER_BOARD = 0.0002
"""What a board of feet or eyes costs in strike chance: of two lines alike the nearer one is taken.
*Tuned* on lanes of seeds 0 to 15."""


@dataclasses.dataclass(frozen=True, eq=False)
class LineValues:
    """Strike chances of the lines within reach, level on, not yet scaled for showing.

    Parameters
    ----------
    moves : tuple of Move
        From the present line; the first is to stay.
    strike_prob : ndarray, shape (n_moves,)
        Mean over the likely lanes.
    better_frac : ndarray, shape (n_moves,)
        On which share of these lanes the move beats staying.
    """

    moves: tuple[Move, ...]
    strike_prob: Floats
    better_frac: Floats

    @property
    def gain(self) -> Floats:
        """What each move adds to staying."""
        return self.strike_prob - self.strike_prob[0]

    @property
    def net(self) -> Floats:
        """The same less what the move costs."""
        size = np.array([move.size_boards for move in self.moves])
        return self.gain - COST_PER_BOARD * size

    def index(self, move: Move) -> int | None:
        """Return where a move of feet and eyes stands, or None if it is not among them."""
        return self.moves.index(move) if move in self.moves else None


def values_within_reach(belief: Belief, line: Line, ball: Ball | None, reach: Reach = "usual") -> LineValues:
    """Return what every line within reach is worth.

    A young bowler moves by one board at most, and little at the pins; where the feet are stuck, the eyes move
    alone.
    """
    return values_of(belief, line, ball, moves_to_weigh(line, belief.setting.bowler, reach))


def values_of(belief: Belief, line: Line, ball: Ball | None, moves: tuple[Move, ...]) -> LineValues:
    """Return what some moves of feet and eyes are worth; the first must be to stay."""
    rows, weights = belief.effective_particles()
    lines = tuple(after_move(line, move) for move in moves)
    on_lanes = strike_on_lanes(belief.setting, ball, lines, rows, belief.slower_mph)
    mean = weights @ on_lanes
    better = weights @ (on_lanes > on_lanes[:, :1])
    return LineValues(moves, mean, better)


def strike_on_lanes(
    setting: BeliefSetting,
    ball: Ball | None,
    lines: tuple[Line, ...],
    rows: NDArray[np.intp] | None = None,
    slower_mph: float = 0.0,
) -> Floats:
    """Return the strike chance of lines of one target distance on every lane, (n_particles, n_lines).

    With `rows`, on those of the particles alone; `slower_mph` as in
    :attr:`coachlib.coaching.belief.filter.Belief.slower_mph`.
    """
    particles = particles_of(setting) if rows is None else particles_of(setting).some(rows)
    laydown = np.stack([laydown_boards(particles, setting.bowler, line) for line in lines], axis=1)
    slope = np.stack(
        [slope_boards(particles, laydown[:, number], line) for number, line in enumerate(lines)], axis=1
    )
    if not slower_mph:
        return cells_at(particles.row, laydown, slope).read(strikes_of(setting, ball, lines[0].target_ft))
    laydowns = laydowns_around(laydown)
    strikes = strikes_shifted_for_wear(setting, ball, lines[0].target_ft, particles.row, slower_mph, laydowns)
    axes = (LAYDOWN_BOARDS[laydowns], SLOPE_BOARDS)
    return cells_at(np.arange(len(strikes)), laydown, slope, axes).read(strikes)


@functools.lru_cache(maxsize=64)
def moves_to_weigh(line: Line, bowler: Bowler, reach: Reach = "usual") -> tuple[Move, ...]:
    """Return the moves of whole boards that fit lane, approach and bowler, to stay first.

    A young bowler's are of half boards too, so that some of them are small, see
    :mod:`coachlib.coaching.rules.other_moves`.
    """
    if reach != "one board":
        feet_boards = 0 if reach == "eyes only" else REACH_FEET_BOARDS
        found = candidate_lines.moves_within_reach(line, bowler, feet_boards, REACH_TARGET_BOARDS)
        return tuple(move for move, _ in found)
    pairs = itertools.product(HALF_BOARDS, HALF_BOARDS)
    moves = (Move(feet_boards=feet, target_boards=eyes) for feet, eyes in pairs)
    small = (move for move in moves if is_small(move, line, bowler) and not move.is_stay)
    return (Move(), *(move for move in small if candidate_lines.line_if_it_fits(line, move, bowler)))
