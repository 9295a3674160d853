"""Balls really thrown on possible lanes, each on a lane of its own, foot by foot.

The tables of :mod:`coachlib.coaching.belief.line_table` say where a ball ends; a picture needs the way there.
The release is that of the particle's bowler with the errors of the one who bowls, the film that of the
particle's lane, the friction the particle's own. What the balls before did to the lane is told as speed, as
everywhere in the belief.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.lane_films import ground_of_lanes, march_on_lanes
from coachlib.coaching.belief.particles import TABLE_TARGET_FT, Particles, laydown_boards, slope_boards
from coachlib.coaching.belief.strikes import LAYDOWN_SD_BOARDS
from coachlib.physics.motion import BOARD_M, STEP_FT, path_of
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import Release, within_limits

Floats = NDArray[np.float64]

N_ERRORS = 5
"""Aim, speed, revs, rotation, laydown: what a bowler does otherwise from ball to ball."""


@dataclasses.dataclass(frozen=True, eq=False)
class SimulatedBalls:
    """Balls on possible lanes, one column each.

    Parameters
    ----------
    path : Path
        Where they went, nothing from where a ball left the lane.
    carried_board : ndarray, shape (61, n)
        The same carried on beside the lane, so that a middle can be taken over all. [board]
    """

    path: Path
    carried_board: NDArray[np.float32]


def throw_on_lanes(
    particles: Particles,
    bowler: Bowler,
    throws: Sequence[tuple[Line, Floats]],
    ball: Ball,
    pattern: OilPattern,
    slower_mph: float = 0.0,
) -> SimulatedBalls:
    """Return where balls go, each on its own particle's lane.

    Parameters
    ----------
    particles : Particles
        One entry a ball.
    bowler : Bowler
        Hand, spreads and stance.
    throws : sequence of (Line, ndarray of shape (n_particles, 5))
        A line, and the standard errors of aim, speed, revs, rotation and laydown (all 0 is the ball as
        meant), one row a lane. The balls of the first throw come first, then those of the next.
    ball, pattern : Ball, OilPattern
        What is thrown, and the sheet with film.
    slower_mph : float
        What the balls before did to the lane, told as speed. [mph]
    """
    parts = [_fields(particles, bowler, line, errors, slower_mph) for line, errors in throws]
    fields = {name: np.concatenate([part[name] for part in parts]) for name in parts[0]}
    release = Release(**fields, axis_tilt_deg=particles.axis_tilt_deg)
    ground = ground_of_lanes(particles, slice(None), pattern, bowler.hand)
    lane = np.tile(np.arange(particles.n_particles), len(throws))
    landed = march_on_lanes(release, ball, ground, particles, lane, round(1.0 / STEP_FT))
    carried_board = landed.rows_m / np.float32(BOARD_M)
    return SimulatedBalls(path_of(release, landed), carried_board)


def _fields(
    particles: Particles, bowler: Bowler, line: Line, errors: Floats, slower_mph: float
) -> dict[str, Floats]:
    """Return the fields of a release, one entry a ball."""
    aim, speed, revs, rotation, laydown = errors.T
    meant = laydown_boards(particles, bowler, line)
    slope = (
        slope_boards(particles, meant, line) + aim * bowler.arrow_sd_boards * TABLE_TARGET_FT / line.target_ft
    )
    fields = {
        "laydown_board": meant + LAYDOWN_SD_BOARDS * laydown,
        "launch_deg": np.degrees(np.arctan(slope / ft_to_boards(TABLE_TARGET_FT))),
        "speed_mph": particles.speed_mph + bowler.speed_sd_mph * speed - slower_mph,
        "rev_rate_rpm": particles.rev_rate_rpm + bowler.rev_rate_sd_rpm * revs,
        "axis_rotation_deg": particles.axis_rotation_deg + bowler.axis_rotation_sd_deg * rotation,
    }
    return {name: within_limits(name, values) for name, values in fields.items()}
