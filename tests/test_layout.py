"""Layouts: geometry on the ball, and what the rules allow."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.layout import Layout, angle_rad, laid_out

BALL = cl.load_ball("solid_1000")


def between_deg(one, other):
    return float(np.degrees(np.arccos(np.clip(one @ other, -1, 1))))


@pytest.mark.parametrize("pin_in", [0.5, 3.375, 6.75])
def test_the_pin_is_as_far_from_the_axis_as_said(pin_in):
    # derived: distance over 27 in around; 3 3/8 in are 45 degrees, 6 3/4 in are 90
    pin = Layout(pin_distance_in=pin_in).pin
    assert between_deg(pin, np.array([0, 0, 1.0])) == pytest.approx(pin_in / 27.0 * 360.0)


@pytest.mark.parametrize("angle_deg", [10.0, 50.0, 90.0])
def test_the_strong_spot_lies_a_quarter_round_at_the_drilling_angle(angle_deg):
    layout = Layout(pin_distance_in=4.0, drilling_angle_deg=angle_deg)
    pin, spot = layout.pin, layout.strong_spot
    assert between_deg(pin, spot) == pytest.approx(90.0)
    to_axis = np.array([0, 0, 1.0]) - pin[2] * pin
    assert between_deg(spot, to_axis / np.linalg.norm(to_axis)) == pytest.approx(angle_deg)


def test_vertical_angle_turns_the_pin_towards_the_grip():
    straight_up = Layout(vertical_angle_deg=0.0).pin
    assert straight_up[0] == pytest.approx(0.0)
    assert straight_up[1] > 0
    leaning = Layout(vertical_angle_deg=40.0)
    assert leaning.pin[0] < 0
    assert leaning.grip[0] < 0
    assert leaning.angle_sum_deg == 90.0


def test_the_grip_is_over_and_down_from_the_axis_point():
    layout = Layout(axis_over_in=5.0, axis_up_in=0.0)
    assert between_deg(layout.grip, np.array([0, 0, 1.0])) == pytest.approx(np.degrees(angle_rad(5.0)))
    assert Layout(axis_up_in=0.5).grip[1] < 0


def test_the_pin_on_the_axis_is_no_trouble():
    layout = Layout(pin_distance_in=0.0)
    assert layout.pin == pytest.approx([0, 0, 1.0])
    assert np.linalg.norm(layout.strong_spot) == pytest.approx(1.0)


def test_a_drilled_ball_takes_over_what_counts():
    ball = laid_out(BALL, Layout(pin_distance_in=2.5, side_oz=0.5, top_oz=2.75))
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
        laid_out(BALL, "50 x 4 x 40")
