"""The ball in the hand: what can be read off it or measured, within what the rules allow."""

import dataclasses
import math
from typing import Annotated, Literal

from coachlib.errors import range_message
from coachlib.files import data_path, read_table, thing_from_row
from coachlib.validation import Letters, Limits, thing

Cover = Literal["plastic", "urethane", "pearl", "hybrid", "solid"]

_RULE = "The competition rules set this limit; "
_MEASURE = "measure again or leave it out."
HEAVY_LB = 10.0
"""Above this weight the rules limit the imbalance [lb]."""


@thing
class Ball:
    """A ball described by what can be read off it or measured.

    Parameters
    ----------
    name : str
        What it is, never a maker's name: ``hybrid_2000``.
    cover : {"plastic", "urethane", "pearl", "hybrid", "solid"}
        Kind of shell, least to most friction on oil.
    grit : float
        Grit of the last pad used on it; a higher number is smoother.
    is_polished : bool
        Whether polish was put on last.
    weight_lb : float
        At most 16 lb in competition. [lb]
    rg_in : float
        Least radius of gyration: how far out the mass lies. [in]
    differential_in, intermediate_in : float
        Largest less least radius of gyration, and largest less middle one. [in]
    pin_distance_in : float
        From the pin to the axis the bowler spins it about, along the surface. [in]
    diameter_in : float
        Of the whole ball. [in]
    roughness_um : float or None
        Measured roughness Ra of the surface; None takes what the pad usually leaves. [µm]
    hardness_shore_d, rig_friction_coef, density_g_ml, absorption_s, imbalance_oz, n_holes : float or None
        Only checked against the rules: hardness, friction on the federation's rig, densest part, time in
        which it takes up the oil sample, largest static imbalance, gripping holes.

    Notes
    -----
    Limits: USBC specifications as quoted second-hand (manual of 2012; radius of gyration from 2010,
    differential from 2005, imbalance from 2018, absorption and holes from 2020); roughness from memory. For
    the intermediate differential no maximum was found, so that only the differential bounds it.
    """

    name: Annotated[str, Letters(60)]
    cover: Cover = "hybrid"
    grit: Annotated[float, Limits(180, 6000, "grit", "Give the number printed on the last pad used.")] = (
        2000.0
    )
    is_polished: bool = False
    weight_lb: Annotated[
        float,
        Limits(6, 16, "lb", "The rules allow at most 16 lb. If this is kg, convert it with units.kg_to_lb."),
    ] = 15.0
    rg_in: Annotated[float, Limits(2.46, 2.80, "in", f"{_RULE}read the radius of gyration again.")] = 2.52
    differential_in: Annotated[
        float, Limits(0, 0.060, "in", f"{_RULE}read the differential again; it is a few hundredths.")
    ] = 0.045
    intermediate_in: Annotated[
        float, Limits(0, 0.060, "in", "It cannot exceed the differential; 0 for a symmetric core.")
    ] = 0.0
    pin_distance_in: Annotated[
        float, Limits(0, 6.75, "in", "Measure along the surface, at most a quarter round the ball.")
    ] = 3.375
    diameter_in: Annotated[
        float, Limits(8.5, 8.595, "in", f"{_RULE}26.704 to 27.002 in around; {_MEASURE}")
    ] = 8.595
    roughness_um: Annotated[float, Limits(0.02, 1.27, "um", f"{_RULE}50 microinch; {_MEASURE}")] | None = None
    hardness_shore_d: (
        Annotated[float, Limits(72, 100, "Shore D", f"{_RULE}at 68 to 78 F; {_MEASURE}")] | None
    ) = None
    rig_friction_coef: Annotated[float, Limits(0, 0.32, "", f"{_RULE}{_MEASURE}")] | None = None
    density_g_ml: Annotated[float, Limits(0.1, 3.80, "g/mL", f"{_RULE}{_MEASURE}")] | None = None
    absorption_s: Annotated[float, Limits(135, 1e6, "s", f"{_RULE}2 min 15 s; {_MEASURE}")] | None = None
    imbalance_oz: Annotated[float, Limits(0, 16, "oz", _MEASURE.capitalize())] | None = None
    n_holes: (
        Annotated[float, Limits(0, 5, "holes", f"{_RULE}all for gripping, balance holes are banned.")] | None
    ) = None

    def _problems(self) -> dict[str, str]:
        problems: dict[str, str] = {}
        if self.intermediate_in > self.differential_in:
            name, fix = "intermediate_in", "It is part of the differential."
            problems[name] = range_message(name, self.intermediate_in, 0, self.differential_in, "in", fix)
        if self.imbalance_oz is not None and self.weight_lb > HEAVY_LB and self.imbalance_oz > 3:
            fix = f"{_RULE}for balls above {HEAVY_LB:g} lb; {_MEASURE}"
            problems["imbalance_oz"] = range_message("imbalance_oz", self.imbalance_oz, 0, 3, "oz", fix)
        return problems

    @property
    def is_dull_or_strong(self) -> bool:
        """Whether it takes hold early: a solid shell, or 1500 grit and coarser without polish (our guess)."""
        return self.cover == "solid" or (
            self.grit <= 1500 and not self.is_polished and self.cover != "plastic"
        )

    @property
    def pin_angle_rad(self) -> float:
        """The pin's distance as an angle at the ball's middle; 27 in around [rad]."""
        return self.pin_distance_in * 2.0 * math.pi / 27.0

    @property
    def spin_rg_in(self) -> float:
        """Radius of gyration about the axis it spins on [in]."""
        low_in, high_in = self.rg_in, self.rg_in + self.differential_in
        return math.hypot(low_in * math.cos(self.pin_angle_rad), high_in * math.sin(self.pin_angle_rad))

    @property
    def kappa(self) -> float:
        """(Radius of gyration about the spin axis / radius) squared, a pure number."""
        return (2.0 * self.spin_rg_in / self.diameter_in) ** 2


def resurfaced(ball: Ball, grit: float, is_polished: bool = False) -> Ball:
    """Return the ball after its whole surface was sanded or polished.

    Parameters
    ----------
    ball : Ball
        Before; a roughness measured then no longer holds.
    grit : float
        Of the last pad; a higher number is smoother.
    is_polished : bool, default False
        Whether polish was put on after that.

    Raises
    ------
    InputError
        If there is no such pad.

    Notes
    -----
    Only before scoring starts, the whole ball alike, and where the local rules allow it. The pad is a poor
    witness of the surface it leaves, see :func:`coachlib.physics.friction.roughness_um`.
    """
    return dataclasses.replace(ball, grit=float(grit), is_polished=is_polished, roughness_um=None)


def ball_names() -> tuple[str, ...]:
    """Return the names of the balls that come with the library, all invented."""
    return tuple(row.cells["name"] for row in read_table(data_path("balls.csv")))


def load_ball(name: str) -> Ball:
    """Return a ball that comes with the library, one of :func:`ball_names`.

    Raises
    ------
    InputError
        Listing the names, if there is no such ball.
    DataFileError
        If the file is damaged.
    """
    return thing_from_row(Ball, data_path("balls.csv"), name)
