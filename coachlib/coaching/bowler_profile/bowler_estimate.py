"""One bowler's revs and rotation and the lane's film, as the balls of a session tell them, and in words.

The numbers are those of the belief behind the advice (:mod:`coachlib.coaching.belief.filter`): mean and
spread over its lanes and bowlers. Where the balls say little, an estimate stays as wide as what was assumed,
and says so; where hardly any lane of the belief fits what was seen, it claims no more than was assumed.

Valid for: balls of about a game. Grade: derived, tested on balls of the same model only; no measured bowler
was at hand. On 24 hidden lanes with another friction law, twenty balls each, errors were as large as claimed
(1.0 spreads for revs, .5 for rotation, root mean square) where at least five lanes of the belief were left.
"""

import dataclasses
import itertools

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.filter import believe
from coachlib.coaching.belief.particles import Particles
from coachlib.coaching.belief.table_cache import particles_of
from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.what_if import ball_and_pattern
from coachlib.errors import InputError

Floats = NDArray[np.float64]

TOLD_FRAC = 0.7
"""A number counts as told if its spread shrank below this share of what was assumed (our guess)."""

FEWEST_LANES = 5.0
"""Where fewer lanes carry the belief (effective number) nothing is told: errors were 4 to 5 spreads there."""

TIED_CORRELATION = 0.7
"""From here on two numbers count as tied: the balls tell their mix better than either (our guess)."""

_WORDS = {"rev_rate_rpm": "revs", "axis_rotation_deg": "rotation", "film_frac": "film"}
NAMES = tuple(_WORDS)


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


def estimate_bowler(session: Session) -> BowlerEstimate:
    """Return what the balls of a session tell of revs, rotation and film.

    Parameters
    ----------
    session : Session
        Its first balls count, those of other lanes for the bowler alone. What the bowler stated is believed
        within narrow limits before, what they do not know within wide ones, see
        :class:`coachlib.coaching.belief.parameters.BeliefNumbers`.

    Raises
    ------
    InputError
        If ball or pattern are unknown, or no ball on this lane tells anything.
    """
    ball_and_pattern(session)
    shots = [ball.shot for ball in lane_balls(session)]
    if not any(one.arrival is not None or one.breakpoint_ft or one.leave is not None for one in shots):
        message = (
            "Note where the ball hits the pins, where it turns, or what it leaves, of at least 1 ball: lane "
            f"{session.lane} has none of these so far."
        )
        raise InputError(message, {"session": message})
    belief = believe(session)
    particles = particles_of(belief.setting)
    is_thin = belief.n_effective < FEWEST_LANES
    estimates = {name: _estimate(getattr(particles, name), belief.weights, is_thin) for name in NAMES}
    return BowlerEstimate(**estimates, tied=_tied(particles, belief.weights), n_balls=belief.n_balls)


def _estimate(values: Floats, weights: Floats, is_thin: bool) -> Estimate:
    mean, assumed_sd = float(weights @ values), float(values.std())
    sd = float(np.sqrt(weights @ (values - mean) ** 2))
    return Estimate(mean, max(sd, assumed_sd) if is_thin else sd, float(values.mean()), assumed_sd)


def _tied(particles: Particles, weights: Floats) -> tuple[tuple[str, str], ...]:
    """Return the pairs of names whose numbers go together, on the lanes as weighed."""
    together = np.cov([getattr(particles, name) for name in NAMES], aweights=weights)
    spread = np.sqrt(np.diag(together))
    is_tied = np.abs(together / np.outer(spread, spread)) > TIED_CORRELATION
    pairs = itertools.combinations(enumerate(NAMES), 2)
    return tuple((one, other) for (row, one), (column, other) in pairs if is_tied[row, column])


def estimate_lines(estimate: BowlerEstimate) -> tuple[str, ...]:
    """Return what the balls tell, one sentence a number, then what stands in for what."""
    tied = [
        f"The balls do not show {_WORDS[one]} and {_WORDS[other]} apart. Either explains them."
        for one, other in estimate.tied
    ]
    lines = [_line(name, getattr(estimate, name)) for name in NAMES]
    return (f"Based on {estimate.n_balls} first balls.", *lines, *tied)


def _line(name: str, estimate: Estimate) -> str:
    now = _amount(name, estimate.mean, estimate.sd)
    before = _amount(name, estimate.assumed_mean, estimate.assumed_sd)
    if estimate.is_told:
        return f"{_WORDS[name].capitalize()}: {now}. Assumed before: {before}."
    return f"{_WORDS[name].capitalize()}: the balls do not show it. Now {now}, assumed before {before}."


def _amount(name: str, mean: float, sd: float) -> str:
    if name == "film_frac":
        return f"{100 * mean:.0f} % of the sheet, give or take {100 * sd:.0f}"
    unit = " rpm" if name == "rev_rate_rpm" else "°"
    return f"{mean:.0f}{unit}, give or take {sd:.0f}"
