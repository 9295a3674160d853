"""Twenty balls of the same bowler: release errors spread evenly over what the bowler does.

A Sobol sequence fills the five errors (aim at the target, speed, rotation, revs, tilt) more evenly than
random numbers, so that fewer balls tell a chance as well. Moves that are compared are thrown with the same
seed: then they share their errors ball by ball.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_number, raise_input_errors
from coachlib.units import ft_to_boards
from coachlib.world.array_field import Many
from coachlib.world.bowler import Bowler
from coachlib.world.lane import TARGET_FT
from coachlib.world.release import Release, within_limits

MOST_SD = 3.5
"""No ball is farther off than this many spreads: people who lose it altogether are another story."""


def scattered(
    release: Release, bowler: Bowler, n_shots: int, seed: int = 0, target_ft: float = TARGET_FT
) -> Release:
    """Return a release thrown many times with the bowler's own spreads.

    Parameters
    ----------
    release : Release
        One shot, as meant.
    bowler : Bowler
        Spreads of aim, speed, rotation, revs and tilt.
    n_shots : int
        How many; powers of 2 are filled most evenly.
    seed : int
        The same seed gives the same errors, whatever is thrown.
    target_ft : float, default 15
        Where the aim's spread is counted. [ft]

    Raises
    ------
    InputError
        If `release` is more than one shot or `n_shots` is not 1 to 1,000,000.
    """
    if release.n_shots != 1:
        problem = "expected 1, the one that is meant. Scatter one by one."
        raise_input_errors({"release": f"release has {release.n_shots} shots; {problem}"})
    target_ft = checked_number("target_ft", target_ft, 5, 45, "ft", "The arrows are at about 15 ft.")
    errors = standard_errors(n_shots, seed)
    values = {field.name: getattr(release, field.name) for field in dataclasses.fields(Release)}
    return Release(**_with_errors(values, bowler, errors, target_ft))


def scattered_each(
    release: Release, bowler: Bowler, n_balls: int, seed: int = 0, target_ft: float = TARGET_FT
) -> Release:
    """Return many releases, each thrown `n_balls` times with the same errors of the bowler.

    Parameters
    ----------
    release : Release
        The shots as meant, one for each line that is compared.
    bowler, n_balls, seed, target_ft
        As for :func:`scattered`.

    Returns
    -------
    Release
        The balls of the first shot, then those of the second, and so on.
    """
    errors = standard_errors(n_balls, seed)
    each: dict[str, Many] = {
        field.name: np.repeat(np.broadcast_to(getattr(release, field.name), release.n_shots), n_balls)
        for field in dataclasses.fields(Release)
    }
    return Release(**_with_errors(each, bowler, np.tile(errors, (release.n_shots, 1)), target_ft))


def standard_errors(n_shots: int, seed: int = 0, n_errors: int = 5) -> NDArray[np.float64]:
    """Return normal errors of spread 1, shape (n_shots, n_errors), the same for the same seed.

    Errors of one ball must come from one call: two sequences of different seeds can be correlated.
    """
    from scipy.special import ndtr, ndtri
    from scipy.stats import qmc

    n_shots = round(checked_number("n_shots", n_shots, 1, 1_000_000, "shots"))
    fill = qmc.Sobol(n_errors, scramble=True, rng=np.random.default_rng(seed))
    even = fill.random_base2(max(0, (n_shots - 1).bit_length()))[:n_shots]
    edge = float(ndtr(-MOST_SD))
    return np.asarray(ndtri(edge + (1.0 - 2.0 * edge) * even), dtype=float)


def _with_errors(
    meant: dict[str, Many], bowler: Bowler, errors: NDArray[np.float64], target_ft: float
) -> dict[str, Many]:
    """Return the fields of a release with a bowler's errors, one row of `errors` a ball."""
    slope = np.tan(np.radians(meant["launch_deg"])) * ft_to_boards(target_ft)
    aimed = slope + bowler.arrow_sd_boards * errors[:, 0]
    values = {
        "launch_deg": np.degrees(np.arctan(aimed / ft_to_boards(target_ft))),
        "speed_mph": meant["speed_mph"] + bowler.speed_sd_mph * errors[:, 1],
        "axis_rotation_deg": meant["axis_rotation_deg"] + bowler.axis_rotation_sd_deg * errors[:, 2],
        "rev_rate_rpm": meant["rev_rate_rpm"] + bowler.rev_rate_sd_rpm * errors[:, 3],
        "axis_tilt_deg": meant["axis_tilt_deg"] + bowler.axis_tilt_sd_deg * errors[:, 4],
    }
    return meant | {name: within_limits(name, value) for name, value in values.items()}
