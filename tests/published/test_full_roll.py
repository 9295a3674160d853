"""The velocity of a ball that has stopped slipping, against the textbook and against the march.

A solid ball (kappa 2/5) thrown without spin rolls at 5/7 of its speed: D. Halliday, R. Resnick, J. Walker,
Fundamentals of Physics, chapter "Rolling, Torque, and Angular Momentum", bowling-ball problem (from memory;
the factor is in every textbook of mechanics). Tolerance 1e-9: it is exact. The general identity
v = (v0 + kappa s0) / (1 + kappa) is conservation of angular momentum about the contact line (derived).
"""

import dataclasses

import numpy as np
import pytest

from coachlib.physics.motion import loss_when_rolled_mph, simulate, turn_when_rolled_deg
from coachlib.world.ball import Ball, load_ball
from coachlib.world.oil import load_pattern
from coachlib.world.release import Release

BALL = load_ball("hybrid_2000")


def release(**changes):
    usual = {"laydown_board": 22.5, "launch_deg": -1.5, "speed_mph": 17.0, "rev_rate_rpm": 300.0}
    return Release(**(usual | {"axis_rotation_deg": 45.0, "axis_tilt_deg": 13.0} | changes))


def ball_of_kappa(kappa):
    rg_in = 0.5 * 8.595 * np.sqrt(kappa)
    return Ball("textbook", rg_in=rg_in, differential_in=0.0)


def test_a_solid_ball_without_spin_rolls_at_five_sevenths():
    # a solid ball's radius of gyration, 2.72 in, lies within the rules' limits
    lost = loss_when_rolled_mph(release(rev_rate_rpm=0.0), ball_of_kappa(0.4))
    assert lost[0] == pytest.approx(17.0 * 2.0 / 7.0, abs=1e-9)


def test_spin_straight_ahead_at_the_ball_s_own_speed_changes_nothing():
    # limiting case: it rolls from the start; revs for 17 mph at 8.595 in: v / (pi d)
    rpm = 17.0 * 1609.344 / 60.0 / (np.pi * 8.595 * 0.0254)
    rolling = release(rev_rate_rpm=rpm, axis_rotation_deg=0.0, axis_tilt_deg=0.0)
    assert loss_when_rolled_mph(rolling, BALL)[0] == pytest.approx(0.0, abs=1e-9)
    assert turn_when_rolled_deg(rolling, BALL)[0] == pytest.approx(0.0, abs=1e-9)


def test_side_spin_turns_by_kappa_times_its_share():
    # derived: spin at a right angle, tan(turn) = kappa s / v
    side = release(axis_rotation_deg=90.0, axis_tilt_deg=0.0)
    spin_mph = 300.0 * 60.0 * np.pi * 8.595 * 0.0254 / 1609.344
    wanted = np.degrees(np.arctan(BALL.kappa * spin_mph / 17.0))
    assert turn_when_rolled_deg(side, BALL)[0] == pytest.approx(wanted, abs=1e-9)


@pytest.mark.parametrize("name", ["house_41", "flat_42", "worn_41"])
def test_the_march_ends_there_on_every_pattern_and_surface(name):
    # two methods: step by step over the oil, and one formula
    revs = np.array([150.0, 300.0, 450.0])
    thrown = release(rev_rate_rpm=revs)
    for grit in (500.0, 4000.0):
        ball = dataclasses.replace(BALL, grit=grit)
        path = simulate(thrown, ball, load_pattern(name), keep_path=False)
        assert np.isfinite(path.roll_ft).all()
        assert path.entry_deg == pytest.approx(-1.5 + turn_when_rolled_deg(thrown, ball), abs=0.01)
        lost = 17.0 - path.speed_at_pins_mph
        assert lost == pytest.approx(
            loss_when_rolled_mph(thrown, ball), abs=0.15
        )  # rolling resistance after it


def test_a_ball_that_still_slips_has_turned_less():
    fast = release(speed_mph=21.0, axis_rotation_deg=80.0, rev_rate_rpm=436.0)
    path = simulate(fast, BALL, load_pattern("long_44"), keep_path=False)
    assert np.isnan(path.roll_ft[0])
    assert path.entry_deg[0] < -1.5 + turn_when_rolled_deg(fast, BALL)[0] - 0.5
