"""One bowler's revs and rotation and the lane's film, as the balls of one lane tell them.

The numbers are those of the belief (:mod:`coachlib.coaching.belief.replay`): the same lanes and bowlers are
weighed by the same balls, only nothing is forgotten, since a bowler does not change as a lane does. Where the
balls say little, an estimate stays as wide as what was assumed, and says so.

Valid for: balls of one lane within about a game, so that one film stands for the oil. What ball, pattern
shape and friction law are wrong by goes into the numbers. Grade: the method is derived, tested on balls of
the same model only; no measured bowler was at hand.
"""

import dataclasses
import itertools

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.particles import Particles
from coachlib.coaching.belief.replay import thrown_of, weigh_without_forgetting
from coachlib.coaching.belief.setting import belief_setting, particles_of
from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Observed, Session
from coachlib.coaching.simulation.trials import ball_and_pattern
from coachlib.errors import InputError
from coachlib.world.bowler import Bowler

Floats = NDArray[np.float64]

MOST_BALLS = 30
"""Only so many of the last balls are weighed: older ones saw another lane."""

TOLD_FRAC = 0.7
"""A number counts as told if its spread shrank below this share of what was assumed (our guess)."""

TIED_CORRELATION = 0.7
"""From here on two numbers count as tied: the balls tell their mix better than either (our guess)."""

NAMES = ("rev_rate_rpm", "axis_rotation_deg", "film_frac")


@dataclasses.dataclass(frozen=True)
class Estimate:
    """One number.

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
class BowlerEstimate:
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


def estimate_bowler(session: Session) -> BowlerEstimate:
    """Return what the balls of a session tell of revs, rotation and film.

    Parameters
    ----------
    session : Session
        Its last first balls on this oil of which arrival, breakpoint or leave was noted count. What the
        bowler stated is believed within narrow limits before, what they do not know within wide ones, see
        :class:`coachlib.coaching.belief.numbers.BeliefNumbers`.

    Raises
    ------
    InputError
        If ball or pattern are unknown, or no ball can be used.
    """
    ball_and_pattern(session)
    balls = _usable(session)
    setting = belief_setting(session.bowler, session.pattern, ball=session.ball)
    weights = weigh_without_forgetting(setting, tuple(map(thrown_of, balls)))
    particles = particles_of(setting)
    estimates = {name: _estimate(getattr(particles, name), weights) for name in NAMES}
    return BowlerEstimate(**estimates, tied=_tied(particles, weights), n_balls=len(balls))


def _estimate(values: Floats, weights: Floats) -> Estimate:
    mean = float(weights @ values)
    sd = float(np.sqrt(weights @ (values - mean) ** 2))
    return Estimate(mean, sd, float(values.mean()), float(values.std()))


def _tied(particles: Particles, weights: Floats) -> tuple[tuple[str, str], ...]:
    together = np.cov([getattr(particles, name) for name in NAMES], aweights=weights)
    spread = np.sqrt(np.diag(together))
    correlation = together / np.outer(spread, spread)
    pairs = itertools.combinations(range(len(NAMES)), 2)
    return tuple(
        (NAMES[one], NAMES[other]) for one, other in pairs if abs(correlation[one, other]) > TIED_CORRELATION
    )


def _usable(session: Session) -> list[Observed]:
    balls = [seen for seen in lane_balls(session) if seen.setting.pattern == session.pattern and _tells(seen)]
    if not balls:
        message = (
            f"lane {session.lane} has no ball with an arrival, a breakpoint or a leave; expected at least 1. "
            "Note where the ball meets the pins, where it turns, or what it leaves."
        )
        raise InputError(message, {"session": message})
    return balls[-MOST_BALLS:]


def _tells(seen: Observed) -> bool:
    shot = seen.shot
    return any(one is not None for one in (shot.arrival, shot.breakpoint_ft, shot.leave))
