"""What a ball has turned and lost when its slip is used up: mechanics alone, whatever the lane did to it.

While a ball slides, friction only trades spin for speed along one fixed direction. When it rolls, its
velocity is therefore the same mixture of the two, on oil or on dry boards, early or late::

    v_roll = (v + kappa * s) / (1 + kappa)     v velocity at the hand, s velocity at which the spin would roll

Valid for: a ball that has stopped slipping before the pins. Assumes: Coulomb friction, the same inertia about
every axis. Not modelled: rolling resistance after that (0.1 mph).

References
----------
.. [1] The identity for a ball without spin, 5/7 of the speed for a solid one, stands in every textbook of
   mechanics. Checked in tests/published/test_full_roll.py.
"""

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.motion import launch_of
from coachlib.units import mps_to_mph
from coachlib.world.ball import Ball
from coachlib.world.release import Release


def turn_when_rolled_deg(release: Release, ball: Ball) -> NDArray[np.float64]:
    """Return how far the heading has turned from the launch when the ball rolls, + inside [deg].

    The entry angle of a ball that rolls before the pins is this and the launch together.
    """
    along, across = _rolled_mps(release, ball)
    return np.asarray(np.degrees(np.arctan2(across, along)) - release.launch_deg)


def loss_when_rolled_mph(release: Release, ball: Ball) -> NDArray[np.float64]:
    """Return how much slower than at the hand the ball is when it rolls [mph]."""
    return np.asarray(release.speed_mph - np.hypot(*_rolled_mps(release, ball)) * mps_to_mph(1.0))


def _rolled_mps(release: Release, ball: Ball) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    launch = launch_of(release, ball)
    share = launch.kappa / (1.0 + launch.kappa)
    along = (1.0 - share) * launch.along_mps + share * launch.spin_along_mps
    across = (1.0 - share) * launch.across_mps + share * launch.spin_across_mps
    return along, across
