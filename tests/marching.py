"""What tests of the march share: launches by hand, lanes of one friction, zones, a smooth lane."""

import math

import numpy as np

from coachlib.physics.friction import DEFAULT_LAW, STANDARD_GRAVITY_MPS2, Grip, grip_of
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground, Launch
from coachlib.units import BOARD_IN, FT_M, IN_M

BOARD_M = BOARD_IN * IN_M
RADIUS_M = 4.2975 * IN_M  # the largest legal ball, as in the tables
LANE_M = 60.0 * FT_M
UNIFORM_KAPPA = 0.4


def launched(v0, spin_mps=0.0, rotation_deg=0.0, kappa=UNIFORM_KAPPA, launch_deg=0.0, y_m=0.0, gravity=None):
    """Return a launch of one shot or many; the spin is given as the speed at which it would roll."""
    v0, spin, rotation, launch, y = np.broadcast_arrays(
        *(np.atleast_1d(np.asarray(value, float)) for value in (v0, spin_mps, rotation_deg, launch_deg, y_m))
    )
    heading = np.radians(launch)
    turned = heading + np.radians(rotation)
    return Launch(
        across_m=y.copy(),
        along_mps=v0 * np.cos(heading),
        across_mps=v0 * np.sin(heading),
        spin_along_mps=spin * np.cos(turned),
        spin_across_mps=spin * np.sin(turned),
        kappa=kappa,
        gravity_mps2=STANDARD_GRAVITY_MPS2 if gravity is None else gravity,
    )


def spin_mps(revs_rpm, tilt_deg=0.0):
    """Return the speed at which a ball of the largest size would roll with its spin."""
    return revs_rpm * 2.0 * math.pi / 60.0 * RADIUS_M * np.cos(np.radians(tilt_deg))


def slippery(coef, rolling=0.0):
    """Return the grip of a lane that is the same everywhere."""
    return Grip(dry_coef=coef, wet_coef=coef, rolling_coef=rolling, half_film_um=1.0)


def friction_coef(film_um, ball, law=DEFAULT_LAW):
    """Return the friction coefficient of a ball over a film, track oil aside, as the law's formula says."""
    grip = grip_of(ball, law)
    return grip.wet_coef + (grip.dry_coef - grip.wet_coef) / (1.0 + (film_um / grip.half_film_um) ** 2)


def bare(edges_m):
    """Return a ground without film."""
    return Ground(np.asarray(edges_m, float), np.zeros((len(edges_m) - 1, 2)), 1.0)


def to_rolling(launch, coef):
    """Return where each shot rolls, and the state at the place where the first of them does."""
    far = 3.0 * float(np.max(launch.along_mps)) ** 2 / (coef * launch.gravity_mps2)
    roll = march(launch, bare(np.linspace(0.0, far, 400)), slippery(coef)).roll_m
    return roll, march(launch, bare(np.linspace(0.0, float(roll[0]), 300)), slippery(coef))


def smooth_film_um(x_m, y_m):
    """Return an invented film without a kink: much in the middle and in front, ending softly at 40 ft."""
    along = (1.8 - 0.06 * x_m) / (1.0 + np.exp((x_m - 12.2) / 0.6))
    across = 0.15 + 0.85 / (1.0 + np.exp(-(y_m / BOARD_M - 10.0) / 1.5))
    return 2.2 * along * across


def smooth_ground(step_ft):
    """Return that film as the kernel reads it: cell means, 16 knots a board."""
    edges_m = np.linspace(0.0, LANE_M, round(60.0 / step_ft) + 1)
    nodes, weights = np.polynomial.legendre.leggauss(8)
    middle, half = 0.5 * (edges_m[1:] + edges_m[:-1]), 0.5 * np.diff(edges_m)
    knots_m = np.arange(40 * 16 + 1) * BOARD_M / 16
    film = sum(
        0.5 * weight * smooth_film_um((middle + node * half)[:, None], knots_m[None, :])
        for node, weight in zip(nodes, weights, strict=True)
    )
    return Ground(edges_m, film, BOARD_M / 16)
