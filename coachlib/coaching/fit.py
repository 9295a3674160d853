"""One bowler's revs and rotation and the lane's film, fitted to the balls that were seen.

The answer is a belief, not a reading: where the balls say little, it stays as wide as what was assumed, and
says so. Every combination of revs, rotation and film on a grid is weighed
(:mod:`coachlib.coaching.fit_grid`), three times: over all that was assumed, then along and across the ridge
where the answer lies.

Valid for: balls of one lane within about a game, so that one film scale stands for the oil. Assumes that the
pattern's shape, the ball and the friction law are right; what they are wrong by goes into the three numbers.
Grade: the method is derived, tested on balls of the same model only; no measured bowler was at hand.
"""

import dataclasses
import itertools
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.fit_grid import log_likelihood, thrown_balls
from coachlib.coaching.lane_history import lane_balls
from coachlib.coaching.session import Observed, Session
from coachlib.coaching.trials import ball_and_pattern
from coachlib.errors import InputError, checked_number
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.oil import OilPattern
from coachlib.world.usual import UNKNOWN_REVS_RPM, UNKNOWN_ROTATION_DEG, as_usual

Floats = NDArray[np.float64]
MOST_BALLS = 30
"""Only so many of the last balls are weighed: older ones saw another lane."""

TOLD_FRAC = 0.7
"""A number counts as told if its spread shrank below this share of what was assumed (our guess)."""

TIED_CORRELATION = 0.7
"""From here on two numbers count as tied: the balls tell their mix better than either (our guess)."""

_REACHES_SD = (2.5, 3.5, 3.0)  # of the three grids
_STEPS = [np.linspace(-1.0, 1.0, n_nodes) for n_nodes in (11, 13, 11)]  # log film, revs, rotation
_LOW, _HIGH = np.array([-1.5, 0.0, 0.0]), np.array([1.5, 700.0, 110.0])


@dataclasses.dataclass(frozen=True)
class Assumed:
    """What is believed of one bowler and lane before a ball is seen, each with its spread.

    Parameters
    ----------
    rev_rate_rpm, rev_rate_sd_rpm : float
        Usual revs, and how far off they may be. [rpm]
    axis_rotation_deg, axis_rotation_sd_deg : float
        Usual rotation, and how far off it may be. [deg]
    film_sd_frac : float
        How far the lane's film may be off its sheet, as a share of it: 0.3 is "a third more or less".
        The same share up and down counts as equally likely (a logarithm is weighed).
    """

    rev_rate_rpm: float = UNKNOWN_REVS_RPM
    rev_rate_sd_rpm: float = 80.0
    axis_rotation_deg: float = UNKNOWN_ROTATION_DEG
    axis_rotation_sd_deg: float = 15.0
    film_sd_frac: float = 0.3

    def __post_init__(self) -> None:
        """Check the numbers."""
        checked_number("rev_rate_rpm", self.rev_rate_rpm, 0, 700, "rpm")
        checked_number("rev_rate_sd_rpm", self.rev_rate_sd_rpm, 1, 300, "rpm")
        checked_number("axis_rotation_deg", self.axis_rotation_deg, 0, 110, "deg")
        checked_number("axis_rotation_sd_deg", self.axis_rotation_sd_deg, 0.5, 45, "deg")
        checked_number("film_sd_frac", self.film_sd_frac, 0.01, 0.5, "", "0.3 is a third more or less.")


COUNTED_REVS_SD_RPM, SEEN_ROTATION_SD_DEG = 25.0, 5.0
"""How far off a number is that the bowler gave, e.g. from a film taken with a telephone (our guess)."""


@dataclasses.dataclass(frozen=True)
class Estimate:
    """One fitted number.

    Parameters
    ----------
    mean, sd : float
        What is believed now, and its spread.
    assumed_mean, assumed_sd : float
        What was believed before.
    """

    mean: float
    sd: float
    assumed_mean: float
    assumed_sd: float

    @property
    def is_told(self) -> bool:
        """Whether the balls told more than was assumed."""
        return self.sd <= TOLD_FRAC * self.assumed_sd


@dataclasses.dataclass(frozen=True)
class BowlerFit:
    """What the balls tell of one bowler and lane.

    Parameters
    ----------
    rev_rate_rpm, axis_rotation_deg, film_frac : Estimate
        Revs, rotation, and film on the lane over film of the pattern's sheet.
    tied : tuple of (str, str)
        Pairs of these names that the balls cannot tell apart: more of one does what more or less of the
        other does.
    n_balls : int
        Balls that were weighed.
    """

    rev_rate_rpm: Estimate
    axis_rotation_deg: Estimate
    film_frac: Estimate
    tied: tuple[tuple[str, str], ...]
    n_balls: int

    @property
    def untold(self) -> tuple[str, ...]:
        """Names of the numbers on which the balls say little or nothing."""
        return tuple(name for name in NAMES if not getattr(self, name).is_told)

    def as_bowler(self, bowler: Bowler) -> Bowler:
        """Return the bowler with those of revs and rotation that the balls told."""
        told = [name for name in NAMES[:2] if name not in self.untold]
        return dataclasses.replace(bowler, **{name: round(getattr(self, name).mean, 1) for name in told})


NAMES = ("rev_rate_rpm", "axis_rotation_deg", "film_frac")


def fit_bowler(session: Session, assumed: Assumed | None = None) -> BowlerFit:
    """Return what the balls of a session tell of revs, rotation and film.

    Parameters
    ----------
    session : Session
        Its last balls on this lane with a seen arrival or breakpoint count, spares left out; so do the
        crossings and speeds noted with them, bowler, ball and pattern.
    assumed : Assumed, optional
        What is believed before. Default: revs and rotation as the bowler gave them, give or take
        25 rpm and 5 degrees; or what is usual at their speed and age, give or take 80 rpm and 15 degrees;
        the film as on the sheet give or take a third.

    Raises
    ------
    InputError
        If ball or pattern are unknown, or no ball can be used.
    """
    ball, pattern = ball_and_pattern(session)
    balls = _usable(session)
    prior = assumed or assumed_of(session.bowler, session.ball)
    middle = np.array([0.0, prior.rev_rate_rpm, prior.axis_rotation_deg])
    spread = np.array([prior.film_sd_frac, prior.rev_rate_sd_rpm, prior.axis_rotation_sd_deg])
    belief = _Belief(session.bowler, ball, pattern, balls, middle, spread)
    return _fit(*belief.weighed(), prior, len(balls))


def assumed_of(bowler: Bowler, ball: Ball | None = None) -> Assumed:
    """Return what a bowler's own numbers say before a ball is seen; unknown ones are usual and wide."""
    usual = as_usual(bowler, ball)
    means = {"rev_rate_rpm": usual.rev_rate_rpm, "axis_rotation_deg": usual.axis_rotation_deg}
    spreads = {}
    if bowler.rev_rate_rpm is not None:
        spreads["rev_rate_sd_rpm"] = COUNTED_REVS_SD_RPM
    if bowler.axis_rotation_deg is not None:
        spreads["axis_rotation_sd_deg"] = SEEN_ROTATION_SD_DEG
    return Assumed(**means, **spreads)  # type: ignore[arg-type]


def _usable(session: Session) -> Sequence[Observed]:
    balls = [
        seen
        for seen in lane_balls(session)
        if seen.setting.pattern == session.pattern
        and (seen.shot.arrival is not None or seen.shot.breakpoint_ft is not None)
    ]
    if not balls:
        message = (
            f"lane {session.lane} has no ball with an arrival or a breakpoint; expected at least 1. "
            "Note where the ball meets the pins, and where it turns."
        )
        raise InputError(message, {"session": message})
    return balls[-MOST_BALLS:]


@dataclasses.dataclass(frozen=True)
class _Belief:
    """Everything the weighing of one combination hangs on."""

    bowler: Bowler
    ball: Ball
    pattern: OilPattern
    balls: Sequence[Observed]
    middle: Floats
    spread: Floats

    def weighed(self) -> tuple[Floats, Floats]:
        """Return combinations of log film, revs and rotation, shape (n, 3), and the weight of each."""
        about: Floats = self.middle
        axes: Floats = np.diag(self.spread)
        for reach in _REACHES_SD:
            tried = _nodes(about, reach * axes)
            weights = self._weights(tried)
            about = weights @ tried
            between = (
                reach / (len(_STEPS[0]) - 1) * axes
            )  # half a step: a ridge thinner than that is not seen
            covariance = np.cov(tried.T, aweights=weights, ddof=0) + between @ between.T
            axes = np.linalg.cholesky(np.asarray(covariance, dtype=float))
        return tried, weights

    def _weights(self, tried: Floats) -> Floats:
        fitting = [self._likelihood(part[:, 1:], part[0, 0]) for part in np.split(tried, len(_STEPS[0]))]
        log_weight = np.concatenate(fitting) - 0.5 * (((tried - self.middle) / self.spread) ** 2).sum(axis=1)
        log_weight[((tried < _LOW) | (tried > _HIGH)).any(axis=1)] = -np.inf
        weights = np.exp(log_weight - log_weight.max())
        return weights / weights.sum()

    def _likelihood(self, pairs: Floats, log_film: float) -> Floats:
        revs, rotation = np.clip(pairs, _LOW[1:], _HIGH[1:]).T
        total = np.zeros(len(pairs))
        for ball in dict.fromkeys(seen.ball or self.ball for seen in self.balls):
            thrown = thrown_balls(
                [seen for seen in self.balls if (seen.ball or self.ball) == ball], self.bowler
            )
            film_frac = float(np.exp(np.clip(log_film, _LOW[0], _HIGH[0])))
            total += log_likelihood(revs, rotation, film_frac, thrown, self.bowler, ball, self.pattern)
        return total


def _nodes(about: Floats, axes: Floats) -> Floats:
    """Return the nodes of a grid about a point; film changes along the first axis alone, so slowest."""
    cube = np.stack(np.meshgrid(*_STEPS, indexing="ij"), axis=-1).reshape(-1, len(_STEPS))
    return about + cube @ axes.T


def _fit(tried: Floats, weights: Floats, prior: Assumed, n_balls: int) -> BowlerFit:
    values = tried[:, [1, 2, 0]]
    covariance = np.cov(values.T, aweights=weights, ddof=0)
    means, sds = weights @ values, np.sqrt(np.diag(covariance))
    together = covariance / np.outer(sds, sds)
    means[2] = np.exp(means[2])  # film is weighed as its logarithm
    sds[2] *= means[2]
    assumed = (
        (prior.rev_rate_rpm, prior.rev_rate_sd_rpm),
        (prior.axis_rotation_deg, prior.axis_rotation_sd_deg),
        (1.0, prior.film_sd_frac),
    )
    estimates = [
        Estimate(float(mean), float(sd), *was) for mean, sd, was in zip(means, sds, assumed, strict=True)
    ]
    tied = tuple(
        (NAMES[one], NAMES[other])
        for one, other in itertools.combinations(range(len(NAMES)), 2)
        if abs(together[one, other]) >= TIED_CORRELATION
    )
    return BowlerFit(estimates[0], estimates[1], estimates[2], tied, n_balls)
