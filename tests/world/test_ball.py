"""Balls: what the rules allow, and the inertia that follows from what can be measured."""

import dataclasses
import math

import pytest

import coachlib as cl

RULE = "The competition rules set this limit; "
# field: (allowed end, not allowed, words of the message); USBC specifications as quoted second-hand
LIMITS = {
    "weight_lb": (16.0, 17.0, "6 to 16 lb. The rules allow at most 16 lb"),
    "rg_in": (2.46, 2.45, f"2.46 to 2.8 in. {RULE}"),
    "differential_in": (0.060, 0.061, f"0 to 0.06 in. {RULE}"),
    "diameter_in": (8.595, 8.6, f"8.5 to 8.595 in. {RULE}26.704 to 27.002"),
    "roughness_um": (1.27, 1.28, f"0.02 to 1.27 um. {RULE}50 microinch"),
    "hardness_shore_d": (72.0, 71.0, f"72 to 100 Shore D. {RULE}"),
    "rig_friction_coef": (0.32, 0.33, f"0 to 0.32. {RULE}"),
    "density_g_ml": (3.80, 3.81, f"0.1 to 3.8 g/mL. {RULE}"),
    "absorption_s": (135.0, 134.0, f"135 to 1,000,000 s. {RULE}2 min 15 s"),
    "imbalance_oz": (3.0, 3.1, f"0 to 3 oz. {RULE}for balls above 10 lb"),
    "n_holes": (5.0, 6.0, f"0 to 5 holes. {RULE}all for gripping"),
}


@pytest.mark.parametrize("field", LIMITS)
def test_limit(field):
    allowed, not_allowed, words = LIMITS[field]
    cl.Ball("b", **{field: allowed})
    with pytest.raises(cl.InputError) as caught:
        cl.Ball("b", **{field: not_allowed})
    assert list(caught.value.fields) == [field]
    assert str(caught.value).startswith(f"{field} is {not_allowed:g}")
    assert f"; expected {words}" in str(caught.value)


def test_diameter_and_way_round_agree():
    # USBC: 26.704 to 27.002 in around, 8.500 to 8.595 in across
    assert 8.5 * math.pi == pytest.approx(26.704, abs=1e-3)
    assert 8.595 * math.pi == pytest.approx(27.002, abs=1e-3)


def test_imbalance_of_a_light_ball_is_not_limited():
    assert cl.Ball("b", weight_lb=9.0, imbalance_oz=5.0).imbalance_oz == 5.0


def test_intermediate_is_part_of_the_differential():
    with pytest.raises(cl.InputError, match=r"intermediate_in is 0.02; expected 0 to 0.01 in"):
        cl.Ball("b", differential_in=0.01, intermediate_in=0.02)


@pytest.mark.parametrize(("pin_in", "rg_in"), [(0.0, 2.48), (3.375, 2.5051), (6.75, 2.53)])
def test_radius_of_gyration_about_the_spin_axis(pin_in, rg_in):
    # derived: sqrt(low^2 cos^2 + high^2 sin^2), 2.48/2.53 in gives 2.5051 in with the pin at 3 3/8 in
    ball = cl.Ball("b", rg_in=2.48, differential_in=0.05, pin_distance_in=pin_in)
    assert ball.spin_rg_in == pytest.approx(rg_in, abs=5e-5)


@pytest.mark.parametrize(("rg_in", "kept"), [(2.46, 0.7532), (2.55, 0.7396), (2.80, 0.7020)])
def test_share_of_speed_kept_without_spin(rg_in, kept):
    # derived: v_f / v0 = 1 / (1 + kappa), the largest legal ball
    assert 1.0 / (1.0 + cl.Ball("b", rg_in=rg_in, differential_in=0.0).kappa) == pytest.approx(kept, abs=5e-5)


def test_shipped_balls():
    balls = [cl.load_ball(name) for name in cl.ball_names()]
    assert len(balls) >= 6
    assert [ball.name for ball in balls] == list(cl.ball_names())
    assert len({ball.cover for ball in balls}) == 5
    assert cl.load_ball("hybrid_2000") == dataclasses.replace(balls[0])


def test_unknown_ball_lists_the_known():
    expected = "expected one of 'hybrid_2000', 'solid_1000'"
    with pytest.raises(cl.InputError, match=f"name is 'no_such'; {expected}"):
        cl.load_ball("no_such")
