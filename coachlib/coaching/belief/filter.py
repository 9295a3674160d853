"""Believing: every ball of a session weighs the particles of its lane, and old balls fade.

A belief is a replay of the balls seen: the same balls always give the same belief, whoever asks and however
often. What was weighed once is kept, so that one more ball costs one ball.
"""

import collections
import dataclasses
import functools

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.likelihood import (
    Predicted,
    joint_likelihood,
    likelihoods_of,
    peaks_of,
    predicted_of,
)
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.particles import N_OF_LANE
from coachlib.coaching.belief.table_cache import BeliefSetting, ball_table, belief_setting, particles_of
from coachlib.coaching.session.lane_history import balls_by_oil, oil_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.world.ball import Ball
from coachlib.world.line import Line
from coachlib.world.shot import Shot

Floats = NDArray[np.float64]

ODD_PROB = 0.04
"""Seen so seldom with the rest, against its likeliest place, an observation does not fit (our guess)."""

MOST_MISSED_BOARDS, MOST_OFF_MPH = 5.0, 3.0
"""So far a bowler misses the target, and so far the speed is off, before the eye is doubted (our guess)."""

LEFT_OUT = 1e-3
"""This share of the weight is not asked what lines are worth: no chance differs by more than that."""

_KEPT = 256


@dataclasses.dataclass(frozen=True)
class WeighedBall:
    """One first ball as the belief sees it, without notes."""

    shot: Shot
    line: Line
    ball: Ball | None


@dataclasses.dataclass(frozen=True, eq=False)
class LaneWeights:
    """What the balls of one lane say.

    Parameters
    ----------
    log_weights : ndarray, shape (n_particles,)
        Up to a constant; the prior is all 0.
    before : ndarray, shape (n_particles,)
        The same just before the last ball, faded.
    odd : str
        What of the last ball does not fit the rest and was left out, one of ``seen.FIELDS``; empty if all
        fits.
    doubted : str
        What of the last ball did not fit, left out or not: seen once it may be a slip, seen again it counts.
    """

    log_weights: Floats
    before: Floats
    odd: str = ""
    doubted: str = ""


@dataclasses.dataclass(frozen=True, eq=False)
class Belief:
    """What we think of the present lane and the bowler.

    Parameters
    ----------
    setting : BeliefSetting
        What it rests on.
    weights : ndarray, shape (n_particles,)
        Sums to 1.
    balls : tuple of Thrown
        First balls of this lane since it was oiled, oldest first.
    before : ndarray, shape (n_particles,)
        The weights before the last ball; sums to 1.
    odd : str
        What of the last ball does not fit, see :class:`LaneWeights`.
    n_balls : int
        First balls behind the belief, those of the other lane too.
    """

    setting: BeliefSetting
    weights: Floats
    balls: tuple[WeighedBall, ...]
    before: Floats
    odd: str
    n_balls: int

    @property
    def n_effective(self) -> float:
        """How many particles still carry the belief."""
        return float(1.0 / np.sum(self.weights**2))

    @property
    def slower_mph(self) -> float:
        """What the balls so far did to this lane, told as speed: see ``BeliefNumbers.drying_mph`` [mph]."""
        return self.setting.numbers.slower_mph(len(self.balls))

    def effective_particles(self) -> tuple[NDArray[np.intp], Floats]:
        """Return the particles that carry all but :data:`LEFT_OUT` of the belief, and their weights.

        The weights sum to 1; before the first ball all carry it alike.
        """
        falling = np.argsort(-self.weights, kind="stable")
        last = falling[np.searchsorted(np.cumsum(self.weights[falling]), 1.0 - LEFT_OUT)]
        rows = np.flatnonzero(self.weights >= self.weights[last])
        return rows, self.weights[rows] / self.weights[rows].sum()


def believe(session: Session, setting: BeliefSetting | None = None) -> Belief:
    """Return what the balls of a session say about the present lane and its bowler.

    All first balls count; those of another lane, and those before fresh oil, speak of the bowler alone. The
    setting is that of the session's bowler and pattern if left out.
    """
    setting = setting or belief_setting(session.bowler, session.pattern, ball=session.ball)
    lanes = {oil: tuple(map(_weighed_ball, events)) for oil, events in balls_by_oil(session).items()}
    here = lanes.pop(oil_of(session), ())
    weighed = update_by_balls(setting, here)
    others = [update_by_balls(setting, balls) for balls in lanes.values()]
    evidence = [_bowler_evidence(setting, other.log_weights) for other in others]
    shared = sum(evidence, np.zeros(len(weighed.log_weights)))
    return Belief(
        setting=setting,
        weights=normalised(weighed.log_weights + shared),
        balls=here,
        before=normalised(weighed.before + shared),
        odd=weighed.odd,
        n_balls=len(here) + sum(map(len, lanes.values())),
    )


def _weighed_ball(event: Observed) -> WeighedBall:
    return WeighedBall(dataclasses.replace(event.shot, note=""), event.line, event.ball)


def update_by_balls(setting: BeliefSetting, balls: tuple[WeighedBall, ...]) -> LaneWeights:
    """Return what balls of one lane say, oldest first; kept by prefix."""
    n_known = next((n for n in range(len(balls), 0, -1) if (setting, balls[:n]) in _KNOWN), 0)
    nothing = np.zeros(setting.numbers.n_particles)
    weighed = _KNOWN[setting, balls[:n_known]] if n_known else LaneWeights(nothing, nothing)
    for n_balls in range(n_known + 1, len(balls) + 1):
        weighed = _one_more(setting, balls[:n_balls], weighed)
        _KNOWN[setting, balls[:n_balls]] = weighed
        while len(_KNOWN) > _KEPT:
            _KNOWN.popitem(last=False)
    return weighed


@functools.lru_cache(maxsize=2)
def predicted_at(
    setting: BeliefSetting, balls: tuple[WeighedBall, ...]
) -> tuple[Predicted, dict[str, Floats]]:
    """Return what every particle sees of the last of some balls, and how likely each thing seen is."""
    last, first = balls[-1], balls[0]
    looks = predicted_of(setting, last.ball, last.line, len(balls) - 1)
    usual = looks if last == first else predicted_of(setting, last.ball, first.line)
    odds = likelihoods_of(looks, last.shot, setting, ball_table(setting, last.ball), usual.usual_turn_ft)
    return looks, odds


def normalised(log_weights: Floats) -> Floats:
    """Return weights that sum to 1."""
    weights = np.exp(log_weights - log_weights.max())
    return np.asarray(weights / weights.sum())


_KNOWN: "collections.OrderedDict[tuple[BeliefSetting, tuple[WeighedBall, ...]], LaneWeights]" = (
    collections.OrderedDict()
)


def _one_more(setting: BeliefSetting, balls: tuple[WeighedBall, ...], weighed: LaneWeights) -> LaneWeights:
    numbers = setting.numbers
    before = numbers.discount * weighed.log_weights
    looks, odds = predicted_at(setting, balls)
    doubted = find_outlier(looks, odds, normalised(before), doubtful_peaks(looks, odds, balls[-1], numbers))
    odd = "" if doubted == weighed.doubted else doubted
    chances = joint_likelihood(looks, odds, (odd,) if odd else ()).sum(axis=(1, 2))
    after = before + numbers.evidence_weight * np.log(np.maximum(chances, 1e-300))
    return LaneWeights(after, before, odd, doubted)


def doubtful_peaks(
    looks: Predicted, odds: dict[str, Floats], ball: WeighedBall, numbers: BeliefNumbers
) -> dict[str, float]:
    """Return how likely each thing seen would be at its likeliest place, of what can be a slip of the eye.

    A miss of the target and another speed are the bowler's own, not the eye's, unless they are beyond all
    that a bowler does.
    """
    peaks = peaks_of(odds, looks, ball.shot, numbers)
    crossed, speed_mph = ball.shot.crossed_board, ball.shot.speed_mph
    if crossed is not None and abs(crossed - ball.line.target_board) <= MOST_MISSED_BOARDS:
        peaks.pop("crossing", None)
    if speed_mph is not None and np.abs(looks.speed_mph - speed_mph).min() <= MOST_OFF_MPH:
        peaks.pop("speed", None)
    return peaks


def find_outlier(looks: Predicted, odds: dict[str, Floats], weights: Floats, peaks: dict[str, float]) -> str:
    """Return which observation does not fit the others, or an empty text.

    An observation is odd if, given all others, it was expected less than :data:`ODD_PROB` of what its
    likeliest place would be; of several the least expected one is told. Only those with a peak are asked.
    """
    if len(odds) < 2 or not peaks:
        return ""
    everything = _evidence(looks, odds, weights)
    expected = {
        name: everything / max(_evidence(looks, odds, weights, (name,)) * peaks[name], 1e-300)
        for name in peaks
    }
    least = min(expected, key=lambda name: expected[name])
    return least if expected[least] < ODD_PROB else ""


def _evidence(
    looks: Predicted, odds: dict[str, Floats], weights: Floats, without: tuple[str, ...] = ()
) -> float:
    return float(weights @ joint_likelihood(looks, odds, without).sum(axis=(1, 2))) + 1e-300


def _bowler_evidence(setting: BeliefSetting, log_weights: Floats) -> Floats:
    """Return what another lane's balls say about the bowler alone, as log weights.

    The bowler's part of the particles is summed up as a normal distribution and laid over the prior, which
    is a standard normal one.
    """
    bowler = particles_of(setting).normal[:, N_OF_LANE:]
    weights = normalised(log_weights)
    mean = weights @ bowler
    spread = (bowler - mean).T @ ((bowler - mean) * weights[:, None]) + 0.05 * np.eye(len(mean))
    sizes, axes = np.linalg.eigh(spread)
    sizes = np.minimum(sizes, 1.0)
    off = (bowler - mean) @ axes
    word = -0.5 * (off**2 / sizes).sum(axis=1) + 0.5 * (bowler**2).sum(axis=1)
    return np.asarray(word)
