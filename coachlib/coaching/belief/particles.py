"""Possible pairs of lane and bowler, spread evenly over what both may be.

A particle is one lane *and* one bowler: how the film differs from the sheet, how the surface holds, and the
bowler's true means, which nobody states to the last half board. Learning the bowler is worth as much as
learning the lane, and the balls speak of both at once.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.usual import UNKNOWN_TILT_DEG, as_usual, throws_straight

Floats = NDArray[np.float64]
SEED = 20
TABLE_TARGET_FT = 15.0
"""Lines are tabulated by where they are laid down and how far they run across until here [ft]."""

_MOST_SD = 3.0


@dataclasses.dataclass(frozen=True, eq=False)
class Particles:
    """Many lanes and bowlers, one entry each.

    Parameters
    ----------
    film_frac : ndarray
        Film on the lane over film of the sheet.
    length_ft : ndarray
        How much longer than on the sheet the oil is. [ft]
    ramp_boards : ndarray
        How far the oil's shape lies farther in. [boards]
    wet_frac, dry_frac : ndarray
        Friction in the oil and past it over that of the law.
    speed_mph, rev_rate_rpm, axis_rotation_deg : ndarray
        True means of the release. [mph], [rpm], [deg]
    laydown_offset_boards : ndarray
        How far outside the slide foot the ball really is. [boards]
    aim_boards : ndarray
        How far inside of the target the ball crosses on average. [boards]
    walk_frac : ndarray
        0 slides as the stance moves, 1 walks the target line.
    normal : ndarray, shape (n, 11)
        The same as standard normal numbers, lane first: 5 of the lane, 6 of the bowler.
    axis_tilt_deg : float
        Of all. [deg]
    row : ndarray of int
        Which row of the tables is theirs.
    """

    film_frac: Floats
    length_ft: Floats
    ramp_boards: Floats
    wet_frac: Floats
    dry_frac: Floats
    speed_mph: Floats
    rev_rate_rpm: Floats
    axis_rotation_deg: Floats
    laydown_offset_boards: Floats
    aim_boards: Floats
    walk_frac: Floats
    normal: Floats
    axis_tilt_deg: float
    row: NDArray[np.intp]

    @property
    def n_particles(self) -> int:
        """How many there are."""
        return self.film_frac.size

    def some(self, rows: NDArray[np.intp]) -> "Particles":
        """Return only these of them."""
        fields = {field.name: getattr(self, field.name) for field in dataclasses.fields(self)}
        return Particles(**{name: one if np.ndim(one) == 0 else one[rows] for name, one in fields.items()})


N_COLUMNS, N_OF_LANE = 11, 5
"""Columns of :attr:`Particles.normal`, and how many of them speak of the lane; the others of the bowler."""


def draw_particles(
    bowler: Bowler, pattern: OilPattern, is_guessed: bool, numbers: BeliefNumbers
) -> Particles:
    """Return lanes and bowlers around what was said; what is unknown is spread wide around what is usual.

    `is_guessed` says that the pattern or its film is only a usual one; of the sheet its length matters here.
    """
    normal = _normal(numbers.n_particles)
    film, length, ramp, wet, dry, speed, revs, rotation, offset, aim, walk = normal.T
    film_sd = numbers.unknown_film_log_sd if is_guessed else numbers.film_log_sd
    length_sd_ft = numbers.unknown_length_sd_ft if is_guessed else numbers.length_sd_ft
    aside = numbers.walk_sd_frac * np.abs(walk)
    return Particles(
        film_frac=np.exp(numbers.film_log_mean + film_sd * film),
        length_ft=length_sd_ft * length,
        ramp_boards=numbers.ramp_sd_boards * ramp,
        wet_frac=np.exp(numbers.wet_log_sd * far_tailed(wet, numbers)),
        dry_frac=np.exp(numbers.dry_log_sd * far_tailed(dry, numbers)),
        **_released(
            bowler, numbers, {"speed_mph": speed, "rev_rate_rpm": revs, "axis_rotation_deg": rotation}
        ),
        laydown_offset_boards=bowler.laydown_offset_boards + numbers.offset_sd_boards * offset,
        aim_boards=numbers.aim_sd_boards * aim,
        walk_frac=aside if bowler.walk == "slide" else 1.0 - aside,
        normal=normal,
        axis_tilt_deg=UNKNOWN_TILT_DEG if bowler.axis_tilt_deg is None else bowler.axis_tilt_deg,
        row=np.arange(numbers.n_particles),
    )


def laydown_boards(particles: Particles, bowler: Bowler, line: Line) -> Floats:
    """Return where each bowler lays the ball down on a line, shape (n,) [board]."""
    beside_stance = line.feet_board - particles.laydown_offset_boards
    walked = line.target_ft / (line.target_ft + bowler.stance_ft)
    share = 1.0 - particles.walk_frac * (1.0 - walked)
    return line.target_board + (beside_stance - line.target_board) * share


def slope_boards(particles: Particles, laydown_board: Floats, line: Line) -> Floats:
    """Return how far across each ball means to run until :data:`TABLE_TARGET_FT`, shape (n,) [boards]."""
    across = line.target_board + particles.aim_boards - laydown_board
    return across * (TABLE_TARGET_FT / line.target_ft)


def far_tailed(normal: Floats, numbers: BeliefNumbers) -> Floats:
    """Return standard normal numbers with their tails drawn out; one spread stays about one spread.

    Most bowlers and lanes are near what was said, a few are not at all: the same particles reach both.
    """
    return (1.0 - numbers.tail_frac) * normal * (1.0 + numbers.tail_frac * normal**2)


def _normal(n_particles: int) -> Floats:
    from scipy.special import ndtri
    from scipy.stats import qmc

    fill = qmc.Sobol(N_COLUMNS, scramble=True, rng=np.random.default_rng(SEED))
    even = fill.random(n_particles)
    return np.clip(np.asarray(ndtri(even), dtype=float), -_MOST_SD, _MOST_SD)


def release_spread(bowler: Bowler, numbers: BeliefNumbers) -> dict[str, tuple[float, float]]:
    """Return mean and spread of the bowler's true speed, revs and rotation, by field.

    Who says nothing, or only how much the ball hooks, is spread wide around what is usual at their speed and
    age; a straight ball is spread from no rotation upward.
    """
    usual = as_usual(bowler)
    is_strong = bowler.is_two_handed or (bowler.rev_rate_rpm or 0.0) > numbers.strong_revs_rpm
    rotation_sd_deg = numbers.strong_rotation_sd_deg if is_strong else numbers.rotation_sd_deg
    if bowler.axis_rotation_deg is None and not throws_straight(bowler):
        rotation_sd_deg = numbers.unknown_rotation_sd_deg
    revs_rpm = usual.rev_rate_rpm or 0.0
    is_known = bowler.rev_rate_rpm is not None
    known_sd_frac = numbers.strong_revs_sd_frac if is_strong else numbers.revs_sd_frac
    revs_sd_frac = known_sd_frac if is_known else numbers.unknown_revs_sd_frac
    speed_sd_mph = numbers.unknown_speed_sd_mph if bowler.speed_mph is None else numbers.speed_sd_mph
    return {
        "speed_mph": (usual.speed_mph or 0.0, speed_sd_mph),
        "rev_rate_rpm": (revs_rpm, revs_sd_frac * revs_rpm),
        "axis_rotation_deg": (usual.axis_rotation_deg or 0.0, rotation_sd_deg),
    }


_LIMITS = {"speed_mph": (8.0, 24.0), "rev_rate_rpm": (0.0, 680.0), "axis_rotation_deg": (0.0, 104.0)}
"""Within what a release may be, the steps of :data:`coachlib.coaching.belief.line_table.STEPS` left free."""


def _released(bowler: Bowler, numbers: BeliefNumbers, normal: dict[str, Floats]) -> dict[str, Floats]:
    spread = release_spread(bowler, numbers)
    far = {name: far_tailed(values, numbers) for name, values in normal.items()}
    return {name: np.clip(mean + sd * far[name], *_LIMITS[name]) for name, (mean, sd) in spread.items()}


def weighted_middle(values: Floats, weights: Floats) -> float:
    """Return the value below which half of the weight lies; outliers beside the lane do not move it."""
    order = np.argsort(values, kind="stable")
    running = np.cumsum(weights[order])
    return float(values[order[min(int(np.searchsorted(running, 0.5 * running[-1])), len(values) - 1)]])
