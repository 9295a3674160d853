"""The model's voice: what staying and the best move are worth on the likely lanes, and whether to move.

A move is made when it gains more than a margin and beats staying on enough of the believed lanes. That lanes
wear one way is in the belief itself, so that a move to the outside needs no more evidence than one
inward. All chances shown are scaled once: raw ones are too rosy.
"""

import dataclasses
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.advice.line_values import LineValues
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.world.levers import outward, way_of
from coachlib.world.line import Move

Decision = Literal["stay", "watch", "line"]
ForbiddenWay = Literal["", "inward", "outward", "all"]

MARGIN_PROB = 0.02
"""Strike chance that a move must add to be made: *tuned* on lanes of seeds 0 to 15."""

DISPLAY_FACTOR = 0.93
"""Chances shown over chances believed: *tuned* on the seasons of seeds 0 to 5; `make bench-season` prints
what came of each chance on others."""

LANES_BEND = 0.32
"""How sure all believed lanes together can make a move, see :func:`shown_lanes_frac`: *tuned*."""

ALIKE_PROB = 0.006
"""Of the trade's moves that are equal the smallest is made where they differ by less than this.

Two standard deviations of the difference of two good moves with the believed lanes drawn anew, mean of eight
cases (``python -m tests.benchmarks.equal_moves``): the smallest of all that are merely equal would cost.
"""

N_LANES_SHOWN = 10
"""Likely lanes are told as a count of so many."""

TRADE_SIZES: frozenset[tuple[float, float]] = frozenset(
    {(1, 0), (1, 1), (2, 1), (2, 2), (3, 1), (3, 2), (4, 2), (5, 2), (5, 3), (7, 3), (0, 1)}
)
"""Feet and eyes of the moves that coaches call by name (the rulebook's; common practice)."""


@dataclasses.dataclass(frozen=True)
class Candidate:
    """A move and what it is worth.

    Parameters
    ----------
    move : Move
        From the present line.
    strike_prob : float
        As shown.
    gain_prob : float
        What it adds to staying, as shown.
    better_lanes_frac : float
        On which share of the likely lanes it beats staying, as shown.
    """

    move: Move
    strike_prob: float
    gain_prob: float
    better_lanes_frac: float


def decide(
    values: LineValues, forbidden: ForbiddenWay = "", rule_move: Move | None = None
) -> tuple[Decision, int]:
    """Return the answer, and the number of the move that it makes or that comes nearest to being made.

    A move must gain the margin, and so much that it shows in counts of twenty and of ten lanes (a move that
    is said to be better on five of ten is none). Of moves that are equal the one a coach would name is made,
    see :func:`preferred`. `forbidden` is the way that the last ball speaks against; no move is made that way,
    nor the feet moved so.
    """
    net = values.net
    gains = (net > MARGIN_PROB) & (_shown_gains(values) >= 1)
    gains[0] = False
    is_sure = np.array([shows_most(shown_lanes_frac(float(frac))) for frac in values.better_frac])
    passes = gains & is_sure & ~_are_forbidden(values, forbidden)
    if passes.any():
        return "line", preferred(values, passes, rule_move)
    return ("watch" if gains.any() else "stay"), int(np.argmax(net))


def preferred(values: LineValues, among: NDArray[np.bool_], rule_move: Move | None = None) -> int:
    """Return the number of the move to make of those that are worth about the same as the best.

    First the rule's own, also where no count of twenty tells it from the best; then the trade's other moves
    of feet and eyes; of those that are alike one that changes the angle before a parallel one, then the
    smallest.
    """
    net = np.where(among, values.net, -np.inf)
    best, shown = int(np.argmax(net)), _shown_gains(values)
    equal = np.flatnonzero(net >= net.max() - EQUAL_PROB)
    own = None if rule_move is None else values.index(rule_move)
    if own is not None and among[own] and (own in equal or shown[own] >= max(shown[best], 1)):
        return own
    of_trade = [number for number in equal if _is_of_trade(values.moves[number])]
    known = np.array(of_trade or equal)
    alike = known[net[known] >= net[known].max() - ALIKE_PROB]

    def rank(number: int) -> tuple[bool, float, float]:
        move = values.moves[number]
        return move.feet_boards == move.target_boards, move.size_boards, -float(net[number])

    return int(min(alike.tolist(), key=rank))


def best_allowed(values: LineValues, forbidden: ForbiddenWay, rule_move: Move | None = None) -> int | None:
    """Return the number of the best move that no ball speaks against; None where each loses or is barred."""
    free = ~_are_forbidden(values, forbidden)
    free[0] = False
    free &= values.gain >= -EQUAL_PROB
    return preferred(values, free, rule_move) if free.any() else None


def that_way(values: LineValues, rule_move: Move) -> int | None:
    """Return the number of the best move that goes the way of the rule's move; None where none fits.

    The feet tell the way, and the eyes do not undo it: inward the angle is kept or opened, outward it is kept
    or closed. Where the feet are stuck, the eyes tell the way.
    """
    way = np.sign(rule_move.feet_boards)
    feet = [
        np.sign(move.feet_boards) == way != 0 and way * (move.feet_boards - move.target_boards) >= 0.0
        for move in values.moves
    ]
    eyes = [not move.is_stay and outward(move) == outward(rule_move) for move in values.moves]
    fits = np.array(feet if any(feet) else eyes)
    return preferred(values, fits, rule_move) if fits.any() else None


def _shown_gains(values: LineValues) -> NDArray[np.int_]:
    """Return by how many strikes of twenty each move is shown to be better than to stay."""
    shown = np.round(N_TWENTY * DISPLAY_FACTOR * values.strike_prob).astype(np.int_)
    return np.asarray(shown - shown[0], dtype=np.int_)


def shows_most(frac: float) -> bool:
    """Return whether a share of likely lanes, as shown, is told as more than five of ten."""
    return round(N_LANES_SHOWN * frac) > N_LANES_SHOWN / 2


def _is_of_trade(move: Move) -> bool:
    """Return whether coaches have a name for a move: one of the rulebook's sizes, to either side."""
    size = (abs(move.feet_boards), abs(move.target_boards))
    return size in TRADE_SIZES and move.feet_boards * move.target_boards >= 0.0


def _are_forbidden(values: LineValues, forbidden: ForbiddenWay) -> NDArray[np.bool_]:
    """Return which moves go a forbidden way; the feet tell it too, whatever the eyes do."""
    is_inward = forbidden == "inward"
    ways = [
        forbidden in ("all", way_of(move)) or (is_inward and move.feet_boards > 0) for move in values.moves
    ]
    return np.array(ways)


def shown_lanes_frac(believed_frac: float) -> float:
    """Return on which share of hidden lanes a move was truly better, by the share of believed ones.

    Believed lanes are more alike than real ones. *Tuned* on the seasons of seeds 0 to 5; `make bench-season`
    prints what came of each count on others.
    """
    surer = max(believed_frac - 0.5, 0.0) / 0.5
    return 0.5 + LANES_BEND * surer**2
