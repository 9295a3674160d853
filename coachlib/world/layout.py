"""How a ball is drilled: the pin against the bowler's axis, two angles, and what the rules allow.

Places on the ball are unit vectors from its middle, in a frame of the drilled ball: z out of the bowler's
axis point, y up the vertical line through it, x away from the grip. Own frame: for a left-hander it is
the mirror image.

References
----------
.. [1] USBC rules quoted second-hand: at most 5 holes, all for gripping, balance holes banned from 1 Aug 2020;
   static imbalance of balls above 10 lb at most 3 oz in each direction from 1 Aug 2018.
"""

import dataclasses
import math
from typing import Annotated

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_thing, raise_input_errors, range_message
from coachlib.validation import Limits, thing
from coachlib.world.ball import HEAVY_LB, Ball

BALL_AROUND_IN = 27.0
"""Way round a ball, by which distances on it become angles; 26.704 to 27.002 in are allowed [in]."""

MOST_IMBALANCE_OZ = 3.0
_Angle = Limits(0, 180, "deg", "Measure it with the protractor on the ball.")
_Weight = Annotated[float, Limits(0, 16, "oz", "Weigh the ball on a balance scale.")] | None


@thing
class Layout:
    """Where the pin and the strong spot lie against the bowler's axis.

    Parameters
    ----------
    pin_distance_in : float
        From the pin to the axis point, along the surface. [in]
    drilling_angle_deg : float
        At the pin: from the way to the axis point to the way to the strong spot. Matters for an asymmetric
        core alone. [deg]
    vertical_angle_deg : float
        At the axis point: from the vertical line up to the way to the pin, towards the grip. [deg]
    axis_over_in, axis_up_in : float
        The axis point from the middle of the grip: along the midline, then up. Personal; measure it. [in]
    n_holes : float
        All holes. Each must be used for gripping.
    has_balance_hole : bool
        Any hole that no finger goes into.
    side_oz, finger_oz, top_oz : float or None
        Static imbalance: side to side, finger to thumb, top to bottom; None where not weighed. [oz]
    """

    pin_distance_in: Annotated[
        float, Limits(0, 6.75, "in", "Measure along the surface, at most a quarter round the ball.")
    ] = 4.0
    drilling_angle_deg: Annotated[float, _Angle] = 50.0
    vertical_angle_deg: Annotated[float, _Angle] = 40.0
    axis_over_in: Annotated[
        float, Limits(0, 6.75, "in", "Measure from the middle of the grip along the midline.")
    ] = 5.0
    axis_up_in: Annotated[float, Limits(-3, 3, "in", "Up is towards the fingers.")] = 0.5
    n_holes: Annotated[
        float, Limits(0, 5, "holes", "The competition rules set this limit; all for gripping.")
    ] = 3.0
    has_balance_hole: bool = False
    side_oz: _Weight = None
    finger_oz: _Weight = None
    top_oz: _Weight = None

    def _problems(self) -> dict[str, str]:
        if not self.has_balance_hole:
            return {}
        return {
            "has_balance_hole": "has_balance_hole is True; expected False: since 1 August 2020 every hole "
            "must be used for gripping. Have a qualified shop plug it, and ask for the local rules."
        }

    @property
    def angle_sum_deg(self) -> float:
        """Both angles together, the trade's number for how soon a layout turns [deg]."""
        return self.drilling_angle_deg + self.vertical_angle_deg

    @property
    def pin(self) -> NDArray[np.float64]:
        """Where the pin is: the core's axis of least inertia."""
        away, turned = angle_rad(self.pin_distance_in), math.radians(self.vertical_angle_deg)
        return np.array(
            [-math.sin(away) * math.sin(turned), math.sin(away) * math.cos(turned), math.cos(away)]
        )

    @property
    def strong_spot(self) -> NDArray[np.float64]:
        """Where the core's axis of greatest inertia comes out, a quarter round from the pin."""
        pin, turned = self.pin, math.radians(self.drilling_angle_deg)
        to_axis = np.array([0.0, 0.0, 1.0]) - pin[2] * pin
        if np.linalg.norm(to_axis) < 1e-9:  # the pin on the axis: any way will do
            to_axis = np.array([0.0, -1.0, 0.0])
        to_axis /= np.linalg.norm(to_axis)
        return math.cos(turned) * to_axis + math.sin(turned) * np.cross(to_axis, pin)

    @property
    def grip(self) -> NDArray[np.float64]:
        """Where the middle of the grip is."""
        up, over = angle_rad(self.axis_up_in), angle_rad(self.axis_over_in)
        on_midline = np.array([0.0, -math.sin(up), math.cos(up)])
        return math.cos(over) * on_midline + math.sin(over) * np.array([-1.0, 0.0, 0.0])


def angle_rad(along_in: float) -> float:
    """Return a distance along the ball's surface as an angle at its middle [rad]."""
    return along_in * 2.0 * math.pi / BALL_AROUND_IN


def laid_out(ball: Ball, layout: Layout) -> Ball:
    """Return the ball drilled so, or raise where the rules forbid it.

    Parameters
    ----------
    ball : Ball
        Its weight decides whether the imbalance is limited.
    layout : Layout
        How it is drilled.

    Raises
    ------
    InputError
        If an imbalance is above 3 oz on a ball above 10 lb; all wrong ones are told at once.
    """
    check_allowed(ball, layout)
    known = _weighed(layout)
    return dataclasses.replace(
        ball,
        pin_distance_in=layout.pin_distance_in,
        n_holes=layout.n_holes,
        imbalance_oz=max(known.values(), default=ball.imbalance_oz),
    )


def check_allowed(ball: Ball, layout: Layout) -> None:
    """Raise where the rules forbid a layout on this ball, see :func:`laid_out`."""
    checked_thing("ball", ball, Ball)
    checked_thing("layout", layout, Layout)
    if ball.weight_lb <= HEAVY_LB:
        return
    fix = f"The competition rules set this limit for balls above {HEAVY_LB:g} lb; ask a qualified shop."
    wrong = {
        name: range_message(name, value, 0, MOST_IMBALANCE_OZ, "oz", fix)
        for name, value in _weighed(layout).items()
        if value > MOST_IMBALANCE_OZ
    }
    if wrong:
        raise_input_errors(wrong)


def _weighed(layout: Layout) -> dict[str, float]:
    sides = {name: getattr(layout, name) for name in ("side_oz", "finger_oz", "top_oz")}
    return {name: value for name, value in sides.items() if value is not None}
