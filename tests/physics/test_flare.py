"""The wandering axis: Euler's equations against their closed solution, and what they keep."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.flare import POINTS_A_TURN, axis_path, core_moments, flare
from coachlib.world.layout import Layout, angle_rad

SYMMETRIC = cl.load_ball("hybrid_2000")
UNEVEN = cl.load_ball("solid_1000")
LAYOUT = Layout(pin_to_axis_in=4.0)


@pytest.mark.parametrize("pin_in", [1.0, 3.375, 5.0])
def test_a_symmetric_core_turns_its_axis_round_the_pin(pin_in):
    # limiting case, every textbook of mechanics: a free symmetric body's axis goes round the figure's axis by
    # (1 - I_low / I_high) cos(theta) of a turn each turn, its distance kept
    layout = Layout(pin_to_axis_in=pin_in)
    axis, pin = axis_path(SYMMETRIC, layout, 10.0), layout.pin
    assert axis @ pin == pytest.approx(np.full(81, np.cos(angle_rad(pin_in))), abs=1e-7)
    low, _, high = core_moments(SYMMETRIC)
    aside = axis - np.outer(axis @ pin, pin)
    aside /= np.linalg.norm(aside, axis=1, keepdims=True)
    turned_deg = np.degrees(np.arccos(np.clip(aside[POINTS_A_TURN] @ aside[0], -1, 1)))
    assert turned_deg == pytest.approx(360.0 * (1.0 - low / high) * np.cos(angle_rad(pin_in)), abs=1e-4)


def test_energy_and_momentum_of_an_uneven_core_are_kept():
    # every torque-free body; the path has unit length, so compare up to one common factor
    axis, moments = axis_path(UNEVEN, LAYOUT, 20.0), core_moments(UNEVEN)
    pin, strong = LAYOUT.pin, LAYOUT.mass_bias
    spin = axis @ np.stack([pin, np.cross(strong, pin), strong], axis=1)
    energy, momentum = (moments * spin**2).sum(axis=1), ((moments * spin) ** 2).sum(axis=1)
    ratio = momentum / energy
    assert ratio == pytest.approx(np.full(len(axis), ratio[0]), rel=1e-7)
    assert np.ptp(axis @ pin) > 0.01  # it does move


def test_rings_are_widest_apart_with_the_pin_at_45_degrees():
    # derived: sin(2 theta), 1.000 at 3 3/8 in, 0.802 at 2 in, 0.727 at 5 in
    steps = {}
    for pin_in in (2.0, 3.375, 5.0):
        axis = axis_path(SYMMETRIC, Layout(pin_to_axis_in=pin_in), 0.1)
        steps[pin_in] = np.linalg.norm(axis[-1] - axis[0])
    assert steps[2.0] / steps[3.375] == pytest.approx(0.802, abs=0.002)
    assert steps[5.0] / steps[3.375] == pytest.approx(0.727, abs=0.002)


@pytest.mark.parametrize("pin_in", [0.0, 6.75])
def test_on_the_axis_or_across_it_nothing_flares(pin_in):
    assert flare(SYMMETRIC, Layout(pin_to_axis_in=pin_in)).flare_in == pytest.approx(0.0, abs=1e-6)


def test_more_differential_more_flare():
    # published direction (trade magazine, quoted second-hand): higher differential with more flare
    widths = [
        flare(dataclasses.replace(SYMMETRIC, differential_in=inches), LAYOUT).flare_in
        for inches in (0.010, 0.030, 0.050)
    ]
    assert widths == sorted(widths)
    assert widths[0] < 2.0 < 4.0 < widths[2]


def test_an_uneven_core_is_told_with_a_wide_band_and_a_symmetric_one_with_a_narrow_one():
    uneven, even = flare(UNEVEN, Layout(mass_bias_to_axis_in=3.1)), flare(SYMMETRIC, Layout())
    assert uneven.low_in <= uneven.flare_in <= uneven.high_in
    assert uneven.high_in - uneven.low_in > 2 * (even.high_in - even.low_in)
    assert 0 < uneven.ring_gap_in < 1


def test_a_layout_against_the_rules_is_told_before_anything_is_computed():
    # USBC rule quoted second-hand: at most 3 oz above 10 lb
    with pytest.raises(cl.InputError, match=r"side_oz is 3\.5; expected 0 to 3 oz"):
        flare(UNEVEN, Layout(pin_to_axis_in=4.0, side_oz=3.5))
