"""What twenty balls of a line leave on the simulated rack, counted and told.

The balls of a picture are counted as they are drawn (:mod:`coachlib.coaching.simulation.outcomes`): the
leaves told under the deck are theirs. For an arrival alone (:func:`leaves_of`) the chances of every leave
(:mod:`coachlib.physics.pins.carry`) are averaged and made whole balls by the largest remainder. Either way
the counts add up. Grade: simulated; the level of carry is tuned to a televised one. Nothing is claimed of
balls that arrive outside the racks thrown, and nothing at all where most do.
"""

import collections
import dataclasses
import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike

from coachlib.coaching.simulation.paths import LinePaths
from coachlib.physics.pins.carry import STRIKE, mean_leave_probs
from coachlib.world.hand import Hand, own_pins
from coachlib.world.pins import leave_name

N_NAMED = 3
"""How many leaves are told one by one; the others are told together."""


@dataclasses.dataclass(frozen=True)
class LikelyLeaves:
    """What the balls of one line are likely to leave, in whole balls: the other counts add up to `n_balls`.

    Parameters
    ----------
    n_balls, n_strikes : int
        How many balls these are, and how many strike.
    leaves : tuple of (tuple of int, int)
        The commonest leaves, own frame, and how many balls leave them; at most :data:`N_NAMED`.
    n_other : int
        Balls that leave something else.
    n_gutter : int
        Balls in the gutter.
    n_outside : int
        Balls that arrive outside the racks thrown: what they leave is not known.
    n_past : int
        Balls that pass the head pin, beyond the boards on which racks were thrown.
    """

    n_balls: int
    n_strikes: int
    leaves: tuple[tuple[tuple[int, ...], int], ...]
    n_other: int
    n_gutter: int
    n_outside: int
    n_past: int = 0

    @property
    def is_told(self) -> bool:
        """Whether enough of the balls arrive where racks were thrown."""
        return 2 * self.n_outside <= self.n_balls


def likely_leaves(paths: LinePaths) -> LikelyLeaves:
    """Return what the twenty balls of a line leave: those that are drawn, counted. Grade: simulated."""
    kinds = collections.Counter(outcome.kind for outcome in paths.outcomes)
    left = collections.Counter(outcome.leave for outcome in paths.outcomes if outcome.kind == "leave")
    commonest = sorted(left.items(), key=lambda one: (-one[1], len(one[0]), one[0]))
    named = tuple((pins, n) for pins, n in commonest[:N_NAMED] if n > 1 or len(commonest) <= N_NAMED)
    return LikelyLeaves(
        n_balls=len(paths.outcomes),
        n_strikes=kinds["strike"],
        leaves=named,
        n_other=kinds["leave"] - sum(n for _, n in named),
        n_gutter=kinds["gutter"],
        n_outside=kinds["not told"],
        n_past=kinds["past"],
    )


def leaves_of(
    arrival_board: ArrayLike, entry_deg: ArrayLike, speed_mph: ArrayLike, *, ball_weight_lb: float = 15.0
) -> LikelyLeaves:
    """Return what some balls are likely to leave, each given by its arrival. Grade: simulated.

    Parameters
    ----------
    arrival_board, entry_deg, speed_mph : array_like
        On the head-pin plane, one entry a ball or one for all; NaN for a ball in the gutter. [board], [deg],
        [mph]
    ball_weight_lb : float
        Of all of them. [lb]
    """
    board = np.broadcast_arrays(np.atleast_1d(arrival_board), entry_deg, speed_mph)[0]
    chances, is_inside = mean_leave_probs(board, entry_deg, speed_mph, ball_weight_lb)
    n_balls, n_inside = len(is_inside), int(is_inside.sum())
    n_gutter = int(np.isnan(board).sum())
    named = sorted((leave for leave in chances if leave), key=lambda leave: -chances[leave])[:N_NAMED]
    shares = [chances.get(STRIKE, 0.0), *(chances[leave] for leave in named)]
    n_strikes, *n_left, n_other = whole_counts([*shares, max(0.0, 1.0 - sum(shares))], n_inside)
    counted = zip((tuple(sorted(leave)) for leave in named), n_left, strict=True)
    leaves = tuple(sorted(((pins, n) for pins, n in counted if n), key=lambda one: -one[1]))
    return LikelyLeaves(n_balls, n_strikes, leaves, n_other, n_gutter, n_balls - n_gutter - n_inside)


def whole_counts(shares: Sequence[float], n_balls: int) -> list[int]:
    """Return shares of some balls as whole balls that add up: rounded down, the rest by largest remainder.

    Of equal remainders the earlier share gets the ball.
    """
    wanted = [n_balls * share for share in shares]
    counts = [math.floor(number + 1e-9) for number in wanted]
    by_remainder = sorted(range(len(wanted)), key=lambda i: (round(counts[i] - wanted[i], 9), i))
    for i in by_remainder[: n_balls - sum(counts)]:
        counts[i] += 1
    return counts


def deck_words(likely: LikelyLeaves, hand: Hand) -> str:
    """Return what is likely to stay, in words: ``12 strikes, 4 leave the 10-pin, 4 something else``.

    For the hand ``"left"`` the pins are told as they are numbered on the lane.
    """
    n = likely.n_strikes
    strikes = {0: "no strike", 1: "1 strike"}.get(n, f"{n} strikes")
    is_any_known = likely.n_balls > likely.n_gutter + likely.n_outside + likely.n_past
    return _told(likely, [strikes] * is_any_known + _left(likely, hand))


def standing_text(likely: LikelyLeaves, hand: Hand) -> str:
    """Return the same as :func:`deck_words` of the balls that do not strike; their count stands elsewhere."""
    return _told(likely, _left(likely, hand) or ["nothing"])


def _told(likely: LikelyLeaves, parts: list[str]) -> str:
    untold = f"not told, {likely.n_outside} arrive outside the racks thrown"
    return ", ".join(parts) if likely.is_told else untold


def _left(likely: LikelyLeaves, hand: Hand) -> list[str]:
    left = [(n, f"the {leave_name(own_pins(pins, hand))}") for pins, n in likely.leaves]
    left += [(likely.n_other, "something else")]
    parts = [f"{n} {what}" for n, what in left if n]
    if parts:  # The verb is said once: "4 leave the 10-pin, 2 the 7-pin".
        first, what = parts[0].split(" ", 1)
        parts[0] = f"{first} {'leaves' if first == '1' else 'leave'} {what}"
    rest = {
        "past the head pin": likely.n_past,
        "in the gutter": likely.n_gutter,
        "not told, outside the racks thrown": likely.n_outside,
    }
    return parts + [f"{n} {where}" for where, n in rest.items() if n]
