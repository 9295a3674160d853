"""Layouts: geometry on the ball, and what the rules allow."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.layout import Layout, laid_out, mass_bias_in

BALL = cl.load_ball("solid_1000")
AXIS = np.array([0, 0, 1.0])


def between_deg(one, other):
    return float(np.degrees(np.arccos(np.clip(one @ other, -1, 1))))


@pytest.mark.parametrize("pin_in", [0.5, 3.375, 6.75])
def test_the_pin_is_as_far_from_the_axis_as_said(pin_in):
    # derived: distance over 27 in around; 3 3/8 in are 45 degrees, 6 3/4 in are 90
    pin = Layout(pin_to_axis_in=pin_in).pin
    assert between_deg(pin, AXIS) == pytest.approx(pin_in / 27.0 * 360.0)


@pytest.mark.parametrize(
    ("pin_in", "bias_in"), [(4.0, 2.75), (4.0, 4.5), (4.0, 6.75), (2.0, 8.75), (6.75, 0)]
)
def test_the_mass_bias_lies_as_far_from_the_axis_as_said_and_a_quarter_round_from_the_pin(pin_in, bias_in):
    layout = Layout(pin_to_axis_in=pin_in, mass_bias_to_axis_in=bias_in)
    assert between_deg(layout.pin, layout.mass_bias) == pytest.approx(90.0)
    assert between_deg(layout.mass_bias, AXIS) == pytest.approx(bias_in / 27.0 * 360.0, abs=1e-5)


@pytest.mark.parametrize("turned_deg", [10.0, 50.0, 90.0, 130.0])
def test_a_distance_from_the_axis_is_a_turn_round_the_pin(turned_deg):
    # derived: the cosine rule on the ball, with the pin a quarter round from the mass bias
    bias_in = mass_bias_in(4.0, np.radians(turned_deg))
    layout = Layout(pin_to_axis_in=4.0, mass_bias_to_axis_in=bias_in)
    pin = layout.pin
    to_axis = AXIS - pin[2] * pin
    assert between_deg(layout.mass_bias, to_axis / np.linalg.norm(to_axis)) == pytest.approx(turned_deg)
    assert np.degrees(layout.bias_turn_rad) == pytest.approx(turned_deg)


def test_a_mass_bias_that_was_not_measured_is_at_its_usual_place():
    assert Layout().bias_in == pytest.approx(4.42, abs=0.005)
    usual = Layout(mass_bias_to_axis_in=Layout().bias_in)
    assert usual.mass_bias == pytest.approx(Layout().mass_bias)


@pytest.mark.parametrize(
    ("pin_in", "bias_in", "limits"), [(4.0, 2.5, "2.75 to 10.75"), (2.0, 9.0, "4.75 to 8.75")]
)
def test_a_mass_bias_nearer_or_farther_than_the_pin_allows_is_told(pin_in, bias_in, limits):
    problem = rf"mass_bias_to_axis_in is {bias_in}; expected {limits} in\. It lies"
    with pytest.raises(cl.InputError, match=problem):
        Layout(pin_to_axis_in=pin_in, mass_bias_to_axis_in=bias_in)


def test_the_pin_on_the_axis_is_no_trouble():
    layout = Layout(pin_to_axis_in=0.0)
    assert layout.pin == pytest.approx([0, 0, 1.0])
    assert np.linalg.norm(layout.mass_bias) == pytest.approx(1.0)


def test_a_drilled_ball_takes_over_what_counts():
    ball = laid_out(BALL, Layout(pin_to_axis_in=2.5, side_oz=0.5, top_oz=2.75))
    assert (ball.pin_distance_in, ball.imbalance_oz, ball.n_holes) == (2.5, 2.75, 3.0)
    assert dataclasses.replace(ball, pin_distance_in=4.0, imbalance_oz=None, n_holes=None) == BALL


def test_balance_holes_are_banned():
    # USBC rules from 1 August 2020, quoted second-hand
    with pytest.raises(cl.InputError, match="has_balance_hole is True; expected False: since 1 August 2020"):
        Layout(has_balance_hole=True)
    with pytest.raises(cl.InputError, match="n_holes is 6"):
        Layout(n_holes=6.0)


def test_imbalance_above_three_ounces_is_told_for_all_directions_at_once():
    # USBC rules from 1 August 2018, quoted second-hand: 3 oz for balls above 10 lb
    with pytest.raises(cl.InputError) as error:
        laid_out(BALL, Layout(side_oz=3.2, finger_oz=3.0, top_oz=4.0))
    assert set(error.value.fields) == {"side_oz", "top_oz"}
    assert "side_oz is 3.2; expected 0 to 3 oz." in str(error.value)


def test_a_light_ball_has_no_such_limit():
    light = dataclasses.replace(BALL, weight_lb=10.0)
    assert laid_out(light, Layout(side_oz=4.0)).imbalance_oz == 4.0


def test_something_else_is_no_layout():
    with pytest.raises(cl.InputError, match="expected a Layout"):
        laid_out(BALL, "4 in")
