"""How the axis wanders over a drilled ball: Euler's equations of the turning core, and the track they leave.

A ball whose core is no sphere does not keep its axis where the bowler put it: the axis circles about the
pin, a little each turn, and the track of oil moves with it. For a symmetric core that is exact: each turn
the axis goes round the pin by ``360 deg (1 - I_low / I_high) cos(theta)``, which is largest, seen on the
surface, with the pin halfway between on and across the axis (3 3/8 in). *Derived*.

Assumes: a free body. Friction speeds the spin up and turns it in space, but hardly moves the axis in the
ball: against Euler's equations with the lane's friction the track's width differs by 0.2 in at most
(tests/published/test_flare_on_lane.py). Not modelled: holes, oil on the way.

What flare is worth on the lane is another matter. By mechanics alone a core moves the ball by at most
0.15 board (tests/published/test_full_tensor.py). Everything else comes through fresh cover, and that
number is *our guess* (:func:`coachlib.physics.friction.fresh_frac`).
"""

import dataclasses
import itertools
import math

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_number
from coachlib.world.ball import Ball
from coachlib.world.layout import QUARTER_IN, Layout, angle_rad, check_allowed, mass_bias_in

POINTS_A_TURN = 8
USUAL_TURNS = 14.0
"""Turns of a usual ball on its way to the pins (14 to 16 for many revs, quoted second-hand)."""

PIN_OFF_IN, MASS_BIAS_OFF_IN, INTERMEDIATE_OFF_IN = 0.125, 0.75, 0.003
"""How well a layout is known (our guess): the drill moves weight, and the mass bias is marked by hand."""


@dataclasses.dataclass(frozen=True, eq=False)
class Flare:
    """Where the axis goes and how far the track spreads.

    Parameters
    ----------
    axis : ndarray, shape (n_points, 3)
        The axis on the ball, 8 points a turn, in the frame of :mod:`coachlib.world.layout`.
    flare_in : float
        Width of the track where it is widest: first ring to the farthest. [in]
    ring_gap_in : float
        Mean distance between the rings of two turns, there. [in]
    low_in, high_in : float
        Least and most width when pin, mass bias and intermediate differential are off by what is usual. [in]
    """

    axis: NDArray[np.float64]
    flare_in: float
    ring_gap_in: float
    low_in: float
    high_in: float


def flare(ball: Ball, layout: Layout, n_turns: float = USUAL_TURNS) -> Flare:
    """Return how the axis wanders on a drilled ball.

    Parameters
    ----------
    ball : Ball
        Radius of gyration and differentials count.
    layout : Layout
        Distances of pin and mass bias from the axis count.
    n_turns : float
        Turns on the way to the pins: a usual ball's 14, 16 with many revs.

    Returns
    -------
    Flare
        With its uncertainty, which for an asymmetric core is wide.

    Raises
    ------
    InputError
        If the rules forbid the layout on this ball.
    """
    check_allowed(ball, layout)
    n_turns = checked_number("n_turns", n_turns, 1, 40, "turns", "A usual ball turns about 14 times.")
    axis = axis_path(ball, layout, n_turns)
    widths = [_width_in(axis_path(*variant, n_turns), ball) for variant in _variants(ball, layout)]
    steps = np.linalg.norm(np.diff(axis[::POINTS_A_TURN], axis=0), axis=1)
    return Flare(
        axis=axis,
        flare_in=_width_in(axis, ball),
        ring_gap_in=float(steps.mean()) * ball.diameter_in / 2.0,
        low_in=min(widths),
        high_in=max(widths),
    )


def axis_path(ball: Ball, layout: Layout, n_turns: float) -> NDArray[np.float64]:
    """Return the axis on the ball, shape (8 points a turn and the first, 3), in the layout's frame."""
    from scipy.integrate import solve_ivp

    pin, strong = layout.pin, layout.mass_bias
    frame = np.stack([pin, np.cross(strong, pin), strong], axis=1)  # pin, middle axis, mass bias as columns
    moments = core_moments(ball)
    start = frame.T @ np.array([0.0, 0.0, 1.0])
    at_turn = np.linspace(0.0, n_turns, round(n_turns * POINTS_A_TURN) + 1)

    def rates(_turn: float, spin: NDArray[np.float64]) -> NDArray[np.float64]:
        return np.cross(moments * spin, spin) / moments * 2.0 * math.pi  # time counted in turns

    solved = solve_ivp(rates, (0.0, n_turns), start, t_eval=at_turn, rtol=1e-9, atol=1e-11)
    axis = (frame @ solved.y).T
    return axis / np.linalg.norm(axis, axis=1, keepdims=True)


def core_moments(ball: Ball) -> NDArray[np.float64]:
    """Return the moments of inertia for a mass of 1 about pin, middle axis and mass bias [in²]."""
    high_in = ball.rg_in + ball.differential_in
    return np.array([ball.rg_in, high_in - ball.intermediate_in, high_in]) ** 2


def _width_in(axis: NDArray[np.float64], ball: Ball) -> float:
    apart = np.arccos(np.clip(axis @ axis[0], -1.0, 1.0)).max()
    return float(apart) * ball.diameter_in / 2.0


def _variants(ball: Ball, layout: Layout) -> list[tuple[Ball, Layout]]:
    """Return the layout and its neighbours, each number off by what is usual."""
    off = np.array([-1.0, 0.0, 1.0])
    off_uneven = off if ball.intermediate_in > 0.0 else np.zeros(1)
    pins_in = np.clip(layout.pin_to_axis_in + off * PIN_OFF_IN, 0.0, QUARTER_IN)
    turns_rad = np.clip(layout.bias_turn_rad + off_uneven * angle_rad(MASS_BIAS_OFF_IN), 0.0, math.pi)
    middles_in = np.clip(ball.intermediate_in + off_uneven * INTERMEDIATE_OFF_IN, 0.0, ball.differential_in)
    return [
        (
            dataclasses.replace(ball, intermediate_in=middle_in),
            dataclasses.replace(
                layout, pin_to_axis_in=pin_in, mass_bias_to_axis_in=mass_bias_in(pin_in, turn_rad)
            ),
        )
        for pin_in, turn_rad, middle_in in itertools.product(pins_in, turns_rad, middles_in)
    ]
