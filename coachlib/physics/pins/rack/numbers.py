"""Every number the pin simulator uses: its unit, source, how far to trust it, and the contact laws it gives.

Grades: *published* (a governing body's or a paper's figure, see the source), *derived* (follows from
published figures), *tuned* (chosen so that what comes out looks like real bowling), *our guess*.
"""

import dataclasses
import functools
from typing import Annotated, Any

import numpy as np
from numpy.typing import NDArray

from coachlib.validation import Limits, thing

_LEAST, _MOST = 0.16, 0.98
_SPEC = "USBC specification, quoted second-hand"


def _number(value: float, grade: str, source: str) -> Any:
    """Return a field that carries its grade and its source beside its value."""
    return dataclasses.field(default=value, metadata={"grade": grade, "source": source})


LengthIn = Annotated[float, Limits(0.01, 100, "in")]
Restitution = Annotated[
    float,
    Limits(_LEAST, _MOST, "", "Below 0.135 this spring and damper cannot go; 0.16 is kept as its floor."),
]
Friction = Annotated[float, Limits(0, 1, "", "Give a friction coefficient.")]
TimeMs = Annotated[float, Limits(0.05, 10, "ms")]
ContactSpread = Annotated[float, Limits(0, 1, "", "Give a standard deviation; 0 switches the scatter off.")]


@thing
class RackNumbers:
    """The numbers behind one rack of pins. Change one by :func:`dataclasses.replace`.

    Parameters
    ----------
    pin_mass_lb, pin_cg_in, pin_gyration_across_in, pin_gyration_along_in, pin_base_ring_in : float
        Mass, height of the centre of gravity above the base, radii of gyration across and along the axis,
        radius of the ring a standing pin rests on. [lb], [in]
    ball_radius_in, ball_rg_in : float
        Largest legal ball; radius of gyration. [in]
    deck_edge_in, gutter_edge_in, kickback_in, gutter_depth_in, kickback_height_in : float
        End of the deck behind the head-pin spot; half the lane's width; kickback from the centre; depth of
        the flat gutter; height of the kickback above the deck. [in]
    pin_pin_restitution, ball_pin_restitution, pin_deck_restitution : float
        Share of the closing speed kept in a hit.
    kickback_restitution, gutter_restitution, ball_lane_restitution : float
        The same against what does not move.
    pin_pin_friction, ball_pin_friction, pin_deck_friction, kickback_friction, ball_lane_friction : float
        Coulomb friction coefficients.
    hit_ms, floor_ms : float
        How long two pins, or ball and pin, stay in touch; the same against deck and walls. [ms]
    hit_grip_ms, floor_grip_ms : float
        Time in which friction stops a small slip; keeps Coulomb's jump finite. [ms]
    spot_sd_in, spot_cut_in, mass_sd_oz, mass_cut_oz, restitution_sd, friction_log_sd : float
        Scatter from rack to rack: pins off their spots an axis, pin mass, restitution (common to the
        rack), friction (factor, common to the rack). [in], [oz]
    """

    pin_mass_lb: Annotated[float, Limits(2, 5, "lb")] = _number(
        3.5, "published", "3 lb 6 oz to 3 lb 10 oz: " + _SPEC
    )
    pin_cg_in: LengthIn = _number(
        5.781, "published", "nominal 5 25/32 in; USBC research page allows 5.625-5.9375"
    )
    pin_gyration_across_in: LengthIn = _number(3.62, "derived", "the profile integrated as a uniform solid")
    pin_gyration_along_in: LengthIn = _number(1.39, "derived", "the profile integrated as a uniform solid")
    pin_base_ring_in: LengthIn = _number(1.0155, "published", "bearing ring 2.031 in across: " + _SPEC)
    ball_radius_in: LengthIn = _number(4.2975, "published", "27.002 in round: " + _SPEC)
    ball_rg_in: LengthIn = _number(2.55, "our guess", "middle of the legal 2.46-2.80 in")
    deck_edge_in: LengthIn = _number(34.1875, "published", "head-pin spot to pit: " + _SPEC)
    gutter_edge_in: LengthIn = _number(20.75, "published", "lane 41 1/2 in wide: " + _SPEC)
    kickback_in: LengthIn = _number(30.0, "published", "lane and both gutters 60 in: " + _SPEC)
    gutter_depth_in: LengthIn = _number(3.5, "our guess", "flat gutter at the deck, from memory")
    kickback_height_in: LengthIn = _number(24.0, "published", "17 to 24 in above the deck: " + _SPEC)
    pin_pin_restitution: Restitution = _number(
        0.70, "our guess", "0.65-0.75 is used in models; none published"
    )
    ball_pin_restitution: Restitution = _number(
        0.70, "our guess", "0.65-0.75 is used in models; none published"
    )
    pin_deck_restitution: Restitution = _number(0.65, "tuned", "carry, and the 4-pin before the 7-pin")
    kickback_restitution: Restitution = _number(
        0.50, "our guess", "none published; moves the strikes by several in 100, data/pins_sensitivity.csv"
    )
    gutter_restitution: Restitution = _number(0.30, "our guess", "hardly matters")
    ball_lane_restitution: Restitution = _number(0.30, "our guess", "hardly matters")
    pin_pin_friction: Friction = _number(0.12, "tuned", "carry, and 10-pins left at 17 to 18")
    ball_pin_friction: Friction = _number(
        0.25, "derived", "cover at most 0.32 on the federation's rig; dry lane 0.20"
    )
    pin_deck_friction: Friction = _number(
        0.25, "our guess", "none published; moves the strikes most of all, data/pins_sensitivity.csv"
    )
    kickback_friction: Friction = _number(
        0.25, "our guess", "none published; moves the strikes by a few in 100, data/pins_sensitivity.csv"
    )
    ball_lane_friction: Friction = _number(0.15, "our guess", "hardly matters")
    hit_ms: TimeMs = _number(1.0, "derived", "Hertz contact, 1 GPa at 7 m/s: 0.85 to 1.03 ms")
    floor_ms: TimeMs = _number(
        2.0,
        "our guess",
        "none published; 1 to 4 ms moves the strikes by 8 to -2 in 100, data/pins_sensitivity.csv",
    )
    hit_grip_ms: TimeMs = _number(0.10, "our guess", "numerical; short against hit_ms, long against the step")
    floor_grip_ms: TimeMs = _number(
        0.15, "our guess", "numerical; short against floor_ms, long against the step"
    )
    spot_sd_in: ContactSpread = _number(
        0.07, "our guess", "0 to 0.11 moves the strikes by 2 in 100 at most, data/pins_sensitivity.csv"
    )
    spot_cut_in: ContactSpread = _number(0.15, "our guess", "spots are worn holes, not targets")
    mass_sd_oz: ContactSpread = _number(1.0, "derived", "at most 4 oz between the pins of a set: " + _SPEC)
    mass_cut_oz: Annotated[float, Limits(0, 8, "oz")] = _number(2.0, "derived", "half of the allowed 4 oz")
    restitution_sd: ContactSpread = _number(0.02, "our guess", "smooths the edges, hardly moves the mean")
    friction_log_sd: ContactSpread = _number(0.10, "our guess", "smooths the edges, hardly moves the mean")


def restitution_of(damping_ratio: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the share of speed a spring and damper keeps that may push but not pull.

    Solution of the linear contact that ends when its force reaches zero: ``e = exp(-z a / s)`` with
    ``s = sqrt(1 - z**2)`` and ``a = pi - atan2(2 z s, 1 - 2 z**2)`` for ``z < 0.7071``.
    """
    z = np.asarray(damping_ratio, dtype=float)
    s = np.sqrt(1.0 - z**2)
    return np.exp(-z / s * (np.pi - np.arctan2(2.0 * z * s, 1.0 - 2.0 * z**2)))


@functools.cache
def _damping_grid() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    ratios = np.linspace(0.0, 0.7071, 20_001)
    return restitution_of(ratios)[::-1], ratios[::-1]


def damping_ratio(restitution: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the damping ratio that keeps this share of the closing speed."""
    kept, ratios = _damping_grid()
    return np.interp(np.clip(restitution, _LEAST, _MOST), kept, ratios)


def law_table(
    numbers: RackNumbers, restitution_shift: float = 0.0, friction_factor: float = 1.0
) -> NDArray[np.float64]:
    """Return stiffness [1/s2], damping [1/s], friction and grip time [s], one row a kind of contact.

    Both are per mass: :mod:`coachlib.physics.pins.rack.contact` multiplies by the mass that gives way.
    """
    n = numbers
    rows = (
        (n.pin_pin_restitution, n.pin_pin_friction, n.hit_ms, n.hit_grip_ms),
        (n.ball_pin_restitution, n.ball_pin_friction, n.hit_ms, n.hit_grip_ms),
        (n.pin_deck_restitution, n.pin_deck_friction, n.floor_ms, n.floor_grip_ms),
        (n.gutter_restitution, n.pin_deck_friction, n.floor_ms, n.floor_grip_ms),
        (n.kickback_restitution, n.kickback_friction, n.floor_ms, n.floor_grip_ms),
        (n.ball_lane_restitution, n.ball_lane_friction, n.floor_ms, n.floor_grip_ms),
    )
    kept, friction, touch_ms, grip_ms = np.array(rows).T
    ratio = damping_ratio(kept + restitution_shift)
    rate = np.pi / (touch_ms / 1000.0) / np.maximum(np.sqrt(1.0 - ratio**2), 0.5)
    return np.column_stack([rate**2, 2.0 * ratio * rate, friction * friction_factor, grip_ms / 1000.0])
