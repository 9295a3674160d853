"""What is published about carry, and what the table says: expected, simulated, verdict, mismatches included.

Shares are without the tuned level unless said. The error is one binomial standard error of the racks that
count at the arrival. Sources are second-hand: most rows come from articles that quote a study.
"""

import math
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.carry import leave_probs, strike_prob
from coachlib.physics.carry_build import TELEVISED_CARRY_FRAC
from coachlib.physics.carry_file import shipped_table
from coachlib.physics.carry_table import CarryTable, pocket_carry_frac, weighted_shares

SPEED_MPH, WEIGHT_LB = 17.0, 15.0
STUDY = "P. Ridenour, federation research, quoted in a bowling wiki"
COLUMN = "J. Thomas, column on six televised games"
SAYING = "glossaries and coaching pages"


class Fact(NamedTuple):
    """One published statement beside what the table says; texts for a person, and whether they agree."""

    statement: str
    expected: str
    simulated: str
    agrees: bool
    source: str


def published_facts(table: CarryTable | None = None) -> tuple[Fact, ...]:
    """Return every published fact that the table can be held against."""
    table = table or shipped_table()
    return (
        _best_zone(table),
        _televised_carry(table),
        _televised_strikes(table),
        _both_sides_lower(table),
        _straight_below_hook(table),
        _lighter_ball(table),
        *_leaves(table),
    )


def wilson_interval(n_hits: int, n_balls: int, z: float = 1.96) -> tuple[float, float]:
    """Return the 95 % interval of a share after E. B. Wilson, J. Am. Stat. Assoc. 22 (1927) 209-212."""
    share, spread = n_hits / n_balls, z * z / n_balls
    middle = (share + spread / 2.0) / (1.0 + spread)
    half = z / (1.0 + spread) * math.sqrt(share * (1.0 - share) / n_balls + spread / (4.0 * n_balls))
    return middle - half, middle + half


def counted_racks(board: float, angle_deg: float, table: CarryTable) -> float:
    """Return how many racks count at an arrival."""
    totals = table.counts.sum(axis=1, dtype=np.float64)
    return float(weighted_shares(totals, np.array([[board, angle_deg, SPEED_MPH, WEIGHT_LB]]))[0])


def scattered_strike_frac(
    angle_deg: float,
    sd_boards: float = 0.97,
    weight_lb: float = WEIGHT_LB,
    *,
    level_on: bool = False,
    table: CarryTable | None = None,
) -> float:
    """Return the strikes of a bowler who aims at 17.5 and scatters by `sd_boards` at the pins."""
    table = table or shipped_table()
    board = np.linspace(17.5 - 4 * sd_boards, 17.5 + 4 * sd_boards, 401)
    weights = np.exp(-0.5 * ((board - 17.5) / sd_boards) ** 2)
    level = table.level if level_on else 1.0
    return level * float(np.average(_strikes(table, board, angle_deg, weight_lb), weights=weights))


def _strikes(
    table: CarryTable, board: NDArray[np.float64] | float, angle_deg: float, weight_lb: float = WEIGHT_LB
) -> NDArray[np.float64]:
    return strike_prob(board, angle_deg, SPEED_MPH, weight_lb, level_on=False, table=table)


def _pct(share: float, error: float | None = None) -> str:
    return f"{100 * share:.0f} %" + (f" ± {100 * error:.0f}" if error else "")


def _share_pct(table: CarryTable, board: float, angle_deg: float, share: float) -> str:
    n_racks = max(1.0, counted_racks(board, angle_deg, table))
    return _pct(share, math.sqrt(max(share * (1.0 - share), 0.01) / n_racks))


def _best_zone(table: CarryTable) -> Fact:
    boards, angles = np.arange(15.0, 20.01, 0.25), np.arange(0.0, 8.01, 1.0)
    grid = np.array([_strikes(table, boards, angle) for angle in angles])
    # Best for a bowler, not for a machine: a zone one board wide.
    zone = np.apply_along_axis(lambda row: np.convolve(row, np.full(5, 0.2), "same"), 1, grid)
    best = np.unravel_index(int(zone.argmax()), zone.shape)
    board, angle = float(boards[best[1]]), float(angles[best[0]])
    inside = float(zone[(angles >= 4) & (angles <= 6)][:, (boards >= 17) & (boards <= 18)].max())
    return Fact(
        "highest strike share of all arrivals",
        "boards 17 to 18, 4 to 6 deg",
        f"board {board:g}, {angle:g} deg: {_pct(float(zone.max()))}; best at 4 to 6 deg {_pct(inside)}",
        17.0 <= board <= 18.0 and float(zone.max()) - inside < 0.03,
        STUDY,
    )


def _televised_carry(table: CarryTable) -> Fact:
    low, high = wilson_interval(40, 54)
    found = pocket_carry_frac(table)
    return Fact(
        "strikes among a professional's pocket hits",
        f"{_pct(TELEVISED_CARRY_FRAC)} (40 of 54; {_pct(low)} to {_pct(high)})",
        f"{_pct(found)}; with the level {_pct(found * table.level)}, which is set to it",
        low <= found <= high,
        COLUMN,
    )


def _televised_strikes(table: CarryTable) -> Fact:
    low, high = wilson_interval(40, 66)
    found = scattered_strike_frac(5.0, table=table)
    return Fact(
        "a professional's strikes, all first balls",
        f"{_pct(40 / 66)} (40 of 66; {_pct(low)} to {_pct(high)})",
        f"{_pct(found)} for 17.5 ± 0.97 boards at 5 deg",
        low <= found <= high,
        COLUMN,
    )


def _both_sides_lower(table: CarryTable) -> Fact:
    pocket, high, nose, light = (float(_strikes(table, board, 5.0)) for board in (17.5, 19.0, 20.0, 15.0))
    return Fact(
        "through the nose and far light are clearly lower",
        "lower than the pocket",
        f"17.5 {_pct(pocket)}, 19 {_pct(high)}, 20 {_pct(nose)}, 15 {_pct(light)}",
        max(high, nose, light) < pocket - 0.2,
        SAYING,
    )


def _straight_below_hook(table: CarryTable) -> Fact:
    straight, hook = scattered_strike_frac(1.0, table=table), scattered_strike_frac(5.0, table=table)
    return Fact(
        "a straight ball carries less",
        "lower",
        f"1 deg {_pct(straight)}, 5 deg {_pct(hook)} for 17.5 ± 0.97 boards",
        straight < hook - 0.03,
        STUDY,
    )


def _lighter_ball(table: CarryTable) -> Fact:
    light, heavy = (scattered_strike_frac(5.0, weight_lb=weight, table=table) for weight in (10.0, 15.0))
    return Fact(
        "a lighter ball is turned aside more and carries less",
        "lower",
        f"10 lb {_pct(light)}, 15 lb {_pct(heavy)} for 17.5 ± 0.97 boards at 5 deg",
        light < heavy,
        "mechanics; no published share",
    )


_LEAVES = (
    ("the 10-pin, light with a good angle", (16.4, 16.8), 5.5, ((10,),), STUDY),
    ("the 4-pin, a little too high", (18.6, 19.1), 5.0, ((4,),), SAYING),
    ("the 9-pin, steep and a little high", (18.0, 18.6), 7.0, ((9,),), SAYING),
    ("the 4-9 next, higher still", (18.8, 19.4), 5.0, ((4, 9), (4, 7, 9)), SAYING),
    (
        "through the nose: 4-6-7-10 and its parts",
        (19.6, 20.4),
        5.0,
        ((4, 6, 7, 10), (6, 7, 10), (3, 6, 7, 10)),
        SAYING,
    ),
    ("the bucket, light", (14.0, 15.4), 4.0, ((2, 4, 5, 8),), SAYING),
    ("the washout, thin", (13.2, 14.4), 4.0, ((1, 2, 10), (1, 2, 4, 10)), SAYING),
    ("8-10 and 5-7, light and flat", (15.4, 16.8), 1.0, ((8, 10), (5, 7)), SAYING),
)


def _leaves(table: CarryTable) -> tuple[Fact, ...]:
    return tuple(_leave_fact(table, *row) for row in _LEAVES)


def _leave_fact(
    table: CarryTable,
    statement: str,
    zone: tuple[float, float],
    angle_deg: float,
    leaves: tuple[tuple[int, ...], ...],
    source: str,
) -> Fact:
    """Return how often some leaves are left in a zone, and whether that is more than anywhere else."""
    boards = np.arange(10.0, 24.01, 0.2)
    shares = np.array([_share_of(table, board, angle_deg, leaves) for board in boards])
    inside = (boards >= zone[0] - 1e-6) & (boards <= zone[1] + 1e-6)
    peak, best = float(shares[inside].max()), float(boards[shares.argmax()])
    at = float(boards[inside][shares[inside].argmax()])
    return Fact(
        statement,
        f"common at boards {zone[0]:g} to {zone[1]:g}, {angle_deg:g} deg",
        f"{_share_pct(table, at, angle_deg, peak)} at {at:.1f}; most anywhere at {best:.1f}, "
        f"{_pct(float(shares.max()))}",
        peak >= 0.05 and peak > 0.6 * float(shares.max()),
        source,
    )


def _share_of(
    table: CarryTable, board: float, angle_deg: float, leaves: tuple[tuple[int, ...], ...]
) -> float:
    chances = leave_probs(float(board), angle_deg, SPEED_MPH, WEIGHT_LB, level_on=False, table=table)
    return sum(chances.get(frozenset(leave), 0.0) for leave in leaves)
