"""What goes into the march down the lane and what comes out of it, in SI, one entry a shot."""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.friction import STANDARD_GRAVITY_MPS2

Floats = NDArray[np.float64]


@dataclasses.dataclass(frozen=True)
class Ground:
    """The film as the kernel reads it.

    Parameters
    ----------
    edges_m : ndarray, shape (n_steps + 1,)
        Where steps begin and end, from the foul line. [m]
    film_um : ndarray, shape (n_steps, n_knots)
        Mean film of each step at equally spaced places across, the first at 0; linear between them, constant
        beyond. [µm]
    knot_m : float
        Distance between these places. [m]
    """

    edges_m: Floats
    film_um: Floats
    knot_m: float


@dataclasses.dataclass(frozen=True)
class Launch:
    """What leaves the hands, in SI; arrays of one length.

    Parameters
    ----------
    across_m : ndarray
        Place across the lane at the foul line. [m]
    along_mps, across_mps : ndarray
        Velocity of the centre. [m/s]
    spin_along_mps, spin_across_mps : ndarray
        Velocity at which the ball would roll with the spin it has. [m/s]
    kappa : float
        (radius of gyration / radius) squared.
    gravity_mps2 : float
        Textbooks round it. [m/s²]
    """

    across_m: Floats
    along_mps: Floats
    across_mps: Floats
    spin_along_mps: Floats
    spin_across_mps: Floats
    kappa: float
    gravity_mps2: float = STANDARD_GRAVITY_MPS2


@dataclasses.dataclass(frozen=True)
class Landed:
    """Where and how each shot reached the last edge, and its three events (NaN where they did not happen).

    Parameters
    ----------
    across_m, along_mps, across_mps, time_s : ndarray, shape (n_shots,)
        State at the last edge.
    hook_m, roll_m : ndarray
        Where the heading had turned by one degree; where the slip was used up. [m]
    turn_m, turn_across_m, turn_rad_per_m : ndarray
        Where the ball was farthest out, and how sharply its heading turned there.
    rows_m : ndarray, shape (n_rows, n_shots)
        Place across at every `row_every`-th edge; no rows if not asked for. [m]
    rows_s : ndarray, shape (n_rows, n_shots)
        Time since the foul line there. [s]
    """

    across_m: Floats
    along_mps: Floats
    across_mps: Floats
    time_s: Floats
    hook_m: Floats
    roll_m: Floats
    turn_m: Floats
    turn_across_m: Floats
    turn_rad_per_m: Floats
    rows_m: NDArray[np.float32]
    rows_s: NDArray[np.float32]
