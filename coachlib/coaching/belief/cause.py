"""Bowler or lane: whose doing the last ball was, and which observation told it.

A ball was the bowler's if their error on this ball moved it farther than the line as meant lies off the
pocket; else it was the lane's (or the line's on this lane). Every particle has its own opinion; the share of
those that blame the bowler is the probability.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.filter import Belief, predicted_at
from coachlib.coaching.belief.likelihood import Predicted, joint_likelihood
from coachlib.coaching.belief.particles import weighted_middle
from coachlib.coaching.rules.rule_advice import Verdict
from coachlib.world.lane import POCKET_BOARD

Floats = NDArray[np.float64]

SURE_PROB = 0.7
"""From so much on one of the two is named (our guess)."""

CLEAR_BOARDS = 1.0
"""Both are named where each moved the ball so far the same way [boards]."""


@dataclasses.dataclass(frozen=True)
class Blame:
    """Whose doing the last ball was.

    Parameters
    ----------
    bowler_prob : float
        How likely the bowler's error moved it farther than the line lies off.
    both_prob : float
        How likely both moved it the same way, each by a board or more.
    inside_prob : float
        How likely the ball as meant arrives inside of the pocket's middle.
    told_most : str
        The observation without which the answer would differ most, one of ``seen.FIELDS``.
    meant_board : float
        Where the ball as meant arrives, middle of the belief. [board]
    """

    bowler_prob: float
    both_prob: float
    inside_prob: float
    key_observation: str
    meant_board: float


def blame(belief: Belief) -> Blame | None:
    """Return whose doing the last ball of this lane was, or None before the first ball."""
    if not belief.balls:
        return None
    looks, odds = predicted_at(belief.setting, belief.balls)
    odd = (belief.odd,) if belief.odd else ()
    parts = _parts(looks)
    share = _shares(looks, odds, belief.before, odd)
    without = {
        name: _of_bowler(parts, _shares(looks, odds, belief.before, (*odd, name)))
        for name in odds
        if name not in odd
    }
    bowler_prob = _of_bowler(parts, share)
    return Blame(
        bowler_prob=bowler_prob,
        both_prob=_of_both(parts, share),
        inside_prob=float((share.sum(axis=(1, 2)) * (looks.meant_board > POCKET_BOARD)).sum()),
        key_observation=max(without, key=lambda name: abs(without[name] - bowler_prob), default=""),
        meant_board=weighted_middle(looks.meant_board, share.sum(axis=(1, 2))),
    )


def verdict_of_blame(of_ball: Blame) -> Verdict:
    """Return the verdict of a miss: one of the two, both, or only the direction."""
    if of_ball.both_prob >= 0.5:
        return "both"
    if of_ball.bowler_prob >= SURE_PROB:
        return "bowler"
    is_known = max(of_ball.inside_prob, 1.0 - of_ball.inside_prob) >= SURE_PROB
    if of_ball.bowler_prob <= 1.0 - SURE_PROB:
        return "lane" if is_known else "too early"
    return "direction known" if is_known else "too early"


def _parts(looks: Predicted) -> tuple[Floats, Floats]:
    """Return how far the bowler's error moved the ball, and how far the line as meant is off [boards]."""
    meant = looks.meant_board[:, None, None]
    return looks.arrival_board - meant, np.broadcast_to(meant - POCKET_BOARD, looks.arrival_board.shape)


def _shares(looks: Predicted, odds: dict[str, Floats], weights: Floats, without: tuple[str, ...]) -> Floats:
    chances = joint_likelihood(looks, odds, without) * weights[:, None, None]
    return np.asarray(chances / max(float(chances.sum()), 1e-300))


def _of_bowler(parts: tuple[Floats, Floats], share: Floats) -> float:
    by_error, by_line = parts
    return float(share[np.abs(by_error) > np.abs(by_line)].sum())


def _of_both(parts: tuple[Floats, Floats], share: Floats) -> float:
    by_error, by_line = parts
    is_same_way = (by_error * by_line > 0.0) & (np.minimum(abs(by_error), abs(by_line)) >= CLEAR_BOARDS)
    return float(share[is_same_way].sum())
