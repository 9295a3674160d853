"""How many of a bowler's balls strike on a line: their scatter thrown at it, and the pins asked.

All lines are thrown with the same errors, so that two of them differ by the line alone. It is what a judge
may know: on the sheet it ranks lines to begin with, on a hidden film it is the truth.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.friction import Grip
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground
from coachlib.physics.motion import launch_of, path_of
from coachlib.physics.pins.carry import strike_prob_of
from coachlib.study.hidden_lane.hidden_bowler import HiddenBowler, even_errors
from coachlib.world.ball import Ball
from coachlib.world.line import Line
from coachlib.world.path import Path
from coachlib.world.release import Release

Floats = NDArray[np.float64]

N_LOOK, N_SURE, N_KEPT = 32, 256, 16
"""Balls at every line, balls at the best of them, and how many of them."""


@dataclasses.dataclass(frozen=True)
class Surface:
    """What a ball rolls on: the film as the march reads it, and the friction law that goes with it."""

    ground: Ground
    grip: Grip

    def roll(self, release: Release, ball: Ball, keep_path: bool = False) -> Path:
        """Return where balls go."""
        return path_of(release, march(launch_of(release, ball), self.ground, self.grip, 2 * keep_path))


def true_chances(
    lines: Sequence[Line],
    bowler: HiddenBowler,
    ball: Ball,
    surface: Surface,
    n_balls: int = N_SURE,
    ball_number: int = 0,
    draw: int = 0,
) -> Floats:
    """Return the chance of a strike on each line under the bowler's scatter, shape (n_lines,).

    Parameters
    ----------
    lines : sequence of Line
        What is meant.
    bowler, ball, surface
        Who throws what on what.
    n_balls : int
        Balls a line.
    ball_number : int
        How many balls were thrown before: the bowler tires.
    draw : int
        Another number throws other errors. Who judges a line takes another one than who chose it: the best of
        many is too good on the errors that it was chosen by.
    """
    release = bowler.releases(lines, even_errors(n_balls, draw), ball_number)
    struck = strike_prob_of(surface.roll(release, ball), ball.weight_lb)
    return struck.reshape(len(lines), n_balls).mean(axis=1)
