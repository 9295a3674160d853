"""What each of some drawn balls does to the pins: exactly so many strike, each other leaves its own pins.

Nothing is drawn at random. Every ball has its own strike chance and its own chances of every leave at its own
arrival (:mod:`coachlib.physics.pins.carry`). The chances are scaled until they sum to the number of strikes
that is told, and the strikes are then set by systematic sampling: walking from the ball that arrives farthest
out to the one farthest in, a strike falls where the running sum of chances passes a half, one and a half, and
so on. So a ball strikes as often as its chance says, a ball that cannot strike never does, and the number is
exact. The pins that the others leave are read off their own chances at places spread evenly from 0 to 1.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.carry_file import shipped_table
from coachlib.physics.pins.carry_table import BOARDS, are_inside, weighted_shares

Floats = NDArray[np.float64]
PinsLeft = tuple[int, ...]

GOLDEN_FRAC = 0.6180339887498949
"""Multiples of it, less their whole part, give an order in which neighbours lie far apart."""


N_TWENTY = 20
"""Chances are told as counts of so many balls, everywhere."""


def n_of_twenty(prob: float) -> int:
    """Return how many of twenty balls a chance stands for."""
    return round(N_TWENTY * prob)


@dataclasses.dataclass(frozen=True)
class PinOutcome:
    """What one ball does to the pins.

    Parameters
    ----------
    kind : str
        ``strike``, ``leave``, ``past`` (past the head pin, beyond the racks thrown), ``gutter``, or
        ``not told`` (its angle, speed or weight lies beyond the racks thrown).
    leave : tuple of int
        The pins it leaves, own frame; empty unless the kind is ``leave``.
    """

    kind: str
    leave: PinsLeft = ()


@dataclasses.dataclass(frozen=True, eq=False)
class Arrivals:
    """Some balls at the head-pin plane, one entry each; NaN for a ball in the gutter.

    Parameters
    ----------
    board, entry_deg, speed_mph : ndarray
        [board], [deg], [mph]
    ball_weight_lb : float
        Of all of them. [lb]
    """

    board: Floats
    entry_deg: Floats
    speed_mph: Floats
    ball_weight_lb: float

    @property
    def points(self) -> Floats:
        """As the carry table reads them, shape (n, 4); a ball in the gutter far outside."""
        columns = np.broadcast_arrays(self.board, self.entry_deg, self.speed_mph, self.ball_weight_lb)
        return np.nan_to_num(np.stack(columns, axis=1), nan=-1000.0)

    @property
    def is_told(self) -> NDArray[np.bool_]:
        """Whether a ball arrives where racks were thrown."""
        return are_inside(self.points)

    @property
    def strike_prob(self) -> Floats:
        """Each ball's own strike chance, level on; the table's edge beyond it, 0 past the head pin."""
        table = shipped_table()
        chances = table.level * weighted_shares(table.strike_shares, self.points)
        return np.where(self.is_at_racks, chances, 0.0)

    @property
    def is_at_racks(self) -> NDArray[np.bool_]:
        """Whether a ball arrives on one of the boards on which racks were thrown."""
        with np.errstate(invalid="ignore"):
            return np.asarray((self.board >= BOARDS[0]) & (self.board <= BOARDS[-1]))


def outcomes_of(arrivals: Arrivals, n_strikes: int | None = None) -> tuple[PinOutcome, ...]:
    """Return what each ball does to the pins.

    `n_strikes` is how many strike, never more than can; without it the balls' own chances summed up and
    rounded.
    """
    chances = arrivals.strike_prob
    n_strikes = round(float(chances.sum())) if n_strikes is None else n_strikes
    strikes = _strikes_among(chances, n_strikes, arrivals.board)
    is_told = arrivals.is_told
    leaves = iter(_leaves(arrivals.points[is_told & ~strikes]))
    columns = (strikes, np.isnan(arrivals.board), arrivals.is_at_racks, is_told)
    return tuple(
        PinOutcome("strike")
        if is_strike
        else PinOutcome("gutter")
        if is_lost
        else PinOutcome("past")
        if not at_racks
        else PinOutcome("leave", next(leaves))
        if is_inside
        else PinOutcome("not told")
        for is_strike, is_lost, at_racks, is_inside in zip(*columns, strict=True)
    )


def _strikes_among(chances: Floats, n_strikes: int, board: Floats) -> NDArray[np.bool_]:
    """Return which balls strike, set in the order of their boards: exactly so many, or all that can."""
    n_strikes = min(n_strikes, int((chances > 0.0).sum()))
    by_board = np.argsort(np.nan_to_num(board, nan=-1000.0), kind="stable")
    running = np.cumsum(scaled_to(chances, n_strikes)[by_board])
    passed = np.floor(running + 0.5 + 1e-9).astype(int)
    is_strike = np.zeros(len(chances), dtype=bool)
    is_strike[by_board] = np.diff(passed, prepend=0) > 0
    return is_strike


def scaled_to(chances: Floats, total: int) -> Floats:
    """Return chances scaled by one factor until they sum to a number, none of them above 1."""
    scaled = np.zeros_like(chances)
    is_sure = np.zeros(len(chances), dtype=bool)
    for _ in chances:
        free = ~is_sure
        wanted = total - int(is_sure.sum())
        if wanted <= 0 or chances[free].sum() <= 0.0:
            break
        scaled = np.where(free, chances * (wanted / chances[free].sum()), 1.0)
        over = free & (scaled > 1.0)
        if not over.any():
            break
        is_sure |= over
    return scaled


def _leaves(points: Floats) -> list[PinsLeft]:
    """Return the pins that balls leave which do not strike, one entry each."""
    if not len(points):
        return []
    table = shipped_table()
    shares = weighted_shares(table.shares, points)[:, 1:]
    spread = np.argsort(np.argsort(GOLDEN_FRAC * np.arange(len(points)) % 1.0))
    places = (spread + 0.5) / len(points) * shares.sum(axis=1)
    which = (np.cumsum(shares, axis=1)[:, :-1] <= places[:, None]).sum(axis=1)
    return [tuple(sorted(table.leave_sets[1 + int(one)])) for one in which]
