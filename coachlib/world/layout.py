"""How a ball is drilled: pin and mass bias against the bowler's axis, in inches, and what the rules allow.

One number is entered, the distance from the pin to the axis point; that of the mass bias may stand beside it.

Places on the ball are unit vectors from its middle, in a frame of the drilled ball: z out of the bowler's
axis point, y up the vertical line through it, x away from the grip. Own frame: for a left-hander it is
the mirror image. Which way round the axis point the pin lies does not matter on the lane; it is put up and
towards the grip, as usual.

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

QUARTER_IN = BALL_AROUND_IN / 4.0
MOST_IMBALANCE_OZ = 3.0
_ALONG = "Measure along the surface, at most {} round the ball."
_Weight = Annotated[float, Limits(0, 16, "oz", "Weigh the ball on a balance scale.")] | None
_LEAN_RAD = math.radians(40.0)
_USUAL_TURN_RAD = 3.75 * 2.0 * math.pi / BALL_AROUND_IN
"""Of the mass bias round the pin, from the way to the axis point, where it was not measured (our guess)."""


@thing
class Layout:
    """Where pin and mass bias lie against the bowler's axis.

    Parameters
    ----------
    pin_to_axis_in : float
        From the pin to the bowler's axis point, along the surface. [in]
    mass_bias_to_axis_in : float or None
        From the mass bias of an asymmetric core to the axis point, along the surface; the core puts it a
        quarter round from the pin. None takes the usual place; a symmetric core has no mass bias. [in]
    n_holes : float
        All holes. Each must be used for gripping.
    has_balance_hole : bool
        Any hole that no finger goes into.
    side_oz, finger_oz, top_oz : float or None
        Static imbalance: side to side, finger to thumb, top to bottom; None where not weighed. [oz]
    """

    pin_to_axis_in: Annotated[float, Limits(0, 6.75, "in", _ALONG.format("a quarter"))] = 4.0
    mass_bias_to_axis_in: Annotated[float, Limits(0, 13.5, "in", _ALONG.format("half"))] | None = None
    n_holes: Annotated[
        float, Limits(0, 5, "holes", "The competition rules set this limit; all for gripping.")
    ] = 3.0
    has_balance_hole: bool = False
    side_oz: _Weight = None
    finger_oz: _Weight = None
    top_oz: _Weight = None

    def _problems(self) -> dict[str, str]:
        problems: dict[str, str] = {}
        low_in, high_in = QUARTER_IN - self.pin_to_axis_in, QUARTER_IN + self.pin_to_axis_in
        bias_in = self.mass_bias_to_axis_in
        if bias_in is not None and not low_in - 1e-9 <= bias_in <= high_in + 1e-9:
            fix = f"It lies {QUARTER_IN:g} in from the pin; measure both again."
            problems["mass_bias_to_axis_in"] = range_message(
                "mass_bias_to_axis_in", bias_in, low_in, high_in, "in", fix
            )
        if self.has_balance_hole:
            problems["has_balance_hole"] = (
                "has_balance_hole is True; expected False: since 1 August 2020 every hole must be used for "
                "gripping. Have a qualified shop plug it, and ask for the local rules."
            )
        return problems

    @property
    def bias_in(self) -> float:
        """From the mass bias to the axis point, as measured or at its usual place [in]."""
        given_in = self.mass_bias_to_axis_in
        return mass_bias_in(self.pin_to_axis_in, _USUAL_TURN_RAD) if given_in is None else given_in

    @property
    def bias_turn_rad(self) -> float:
        """How far the mass bias is turned round the pin, from the way to the axis point [rad]."""
        across = math.sin(angle_rad(self.pin_to_axis_in))
        if self.mass_bias_to_axis_in is None or across < 1e-9:  # the pin on the axis: any way will do
            return _USUAL_TURN_RAD
        return math.acos(min(max(math.cos(angle_rad(self.mass_bias_to_axis_in)) / across, -1.0), 1.0))

    @property
    def pin(self) -> NDArray[np.float64]:
        """Where the pin is: the core's axis of least inertia."""
        away = angle_rad(self.pin_to_axis_in)
        return np.array(
            [-math.sin(away) * math.sin(_LEAN_RAD), math.sin(away) * math.cos(_LEAN_RAD), math.cos(away)]
        )

    @property
    def mass_bias(self) -> NDArray[np.float64]:
        """Where the core's axis of greatest inertia comes out, a quarter round from the pin."""
        pin, turned = self.pin, self.bias_turn_rad
        to_axis = np.array([0.0, 0.0, 1.0]) - pin[2] * pin
        if np.linalg.norm(to_axis) < 1e-9:  # the pin on the axis: any way will do
            to_axis = np.array([0.0, -1.0, 0.0])
        to_axis /= np.linalg.norm(to_axis)
        return math.cos(turned) * to_axis + math.sin(turned) * np.cross(to_axis, pin)


def angle_rad(along_in: float) -> float:
    """Return a distance along the ball's surface as an angle at its middle [rad]."""
    return along_in * 2.0 * math.pi / BALL_AROUND_IN


def mass_bias_in(pin_to_axis_in: float, turned_rad: float) -> float:
    """Return the distance of the mass bias from the axis point, when turned so far round the pin [in]."""
    return math.acos(math.sin(angle_rad(pin_to_axis_in)) * math.cos(turned_rad)) / angle_rad(1.0)


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
        pin_distance_in=layout.pin_to_axis_in,
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
