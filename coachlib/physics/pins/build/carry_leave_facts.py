"""What is published about leaves and their causes, and where the carry table has them.

Shares are without the tuned level; errors are one standard error of counting racks.
"""

from collections.abc import Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.build.carry_errors import share_error
from coachlib.physics.pins.build.carry_verdict import SAYING, STUDY, CheckedFact, pct
from coachlib.physics.pins.carry import leave_probs
from coachlib.physics.pins.carry_table import CarryTable

SPEED_MPH, WEIGHT_LB = 17.0, 15.0
BOARDS = np.arange(10.0, 24.01, 0.2)
COMMON_FRAC, NEAR_PEAK_FRAC = 0.05, 0.6


class _Saying(NamedTuple):
    statement: str
    zone_boards: tuple[float, float]
    entry_deg: float
    leaves: tuple[tuple[int, ...], ...]
    source: str


_SAYINGS = (
    _Saying("the 10-pin, light with a good angle", (16.4, 16.8), 5.5, ((10,),), STUDY),
    _Saying("the 4-pin, a little too high", (18.6, 19.1), 5.0, ((4,),), SAYING),
    _Saying("the 9-pin, steep and a little high", (18.0, 18.6), 7.0, ((9,),), SAYING),
    _Saying("the 4-9 next, higher still", (18.8, 19.4), 5.0, ((4, 9), (4, 7, 9)), SAYING),
    _Saying(
        "through the nose: 4-6-7-10 and its parts",
        (19.6, 20.4),
        5.0,
        ((4, 6, 7, 10), (6, 7, 10), (3, 6, 7, 10)),
        SAYING,
    ),
    _Saying("the 5-pin, light, the ball turned aside", (15.0, 16.8), 2.0, ((5,),), SAYING),
    _Saying("the bucket, light", (14.0, 15.4), 4.0, ((2, 4, 5, 8),), SAYING),
    _Saying("the 2-8 and the 2-10, thin", (13.2, 15.0), 4.0, ((2, 8), (2, 10)), SAYING),
    _Saying("the washout, thin", (13.2, 14.4), 4.0, ((1, 2, 10), (1, 2, 4, 10)), SAYING),
    _Saying("8-10 and 5-7, light and flat", (15.4, 16.8), 1.0, ((8, 10), (5, 7)), SAYING),
)


def leave_facts(table: CarryTable) -> tuple[CheckedFact, ...]:
    """Return how often some leaves are left where they are said to be, and whether that is their place."""
    return tuple(_fact(table, saying) for saying in _SAYINGS)


def _fact(table: CarryTable, saying: _Saying) -> CheckedFact:
    shares = _shares(table, saying.entry_deg, saying.leaves)
    low, high = saying.zone_boards
    inside = (low - 1e-6 <= BOARDS) & (high + 1e-6 >= BOARDS)
    at, peak = float(BOARDS[inside][shares[inside].argmax()]), float(shares[inside].max())
    best, most = float(BOARDS[shares.argmax()]), float(shares.max())
    here = pct(peak, share_error(at, saying.entry_deg, SPEED_MPH, WEIGHT_LB, peak))
    return CheckedFact(
        saying.statement,
        f"common at boards {low:g} to {high:g}, {saying.entry_deg:g} deg",
        f"{here} at {at:.1f}; most anywhere at {best:.1f}, {pct(most)}",
        peak >= COMMON_FRAC and peak > NEAR_PEAK_FRAC * most,
        saying.source,
    )


def _shares(table: CarryTable, entry_deg: float, leaves: Sequence[tuple[int, ...]]) -> NDArray[np.float64]:
    """Return how often any of some leaves is left, board by board."""
    each = (
        leave_probs(board, entry_deg, SPEED_MPH, WEIGHT_LB, level_on=False, table=table) for board in BOARDS
    )
    return np.array([sum(chances.get(frozenset(leave), 0.0) for leave in leaves) for chances in each])
