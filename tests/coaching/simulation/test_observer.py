"""Balls of the model as a coach would note them."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.simulation import observer as seeing
from coachlib.coaching.simulation.observer import seen_shots

CLUB, BALL, HOUSE = cl.load_bowler("club_right"), cl.load_ball("hybrid_2000"), cl.load_pattern("house_41")
LINE = cl.Line(29.0, 16.0)


def test_the_same_seed_sees_the_same_and_another_seed_does_not():
    assert seen_shots(CLUB, LINE, BALL, HOUSE, 5, seed=3) == seen_shots(CLUB, LINE, BALL, HOUSE, 5, seed=3)
    assert seen_shots(CLUB, LINE, BALL, HOUSE, 5, seed=3) != seen_shots(CLUB, LINE, BALL, HOUSE, 5, seed=4)


def test_spreads_are_the_bowler_s_and_the_eye_s_together():
    # derived: variances add; 400 balls give a spread to 4 %
    shots = seen_shots(CLUB, LINE, BALL, HOUSE, 400, seed=1)
    crossed = np.array([shot.crossed_board for shot in shots])
    speeds = np.array([shot.speed_mph for shot in shots])
    assert crossed.mean() == pytest.approx(16.0, abs=0.2)
    assert crossed.std() == pytest.approx(np.hypot(CLUB.arrow_sd_boards, seeing.CROSSING_SD_BOARDS), rel=0.12)
    assert speeds.mean() == pytest.approx(17.0, abs=0.1)
    assert speeds.std() == pytest.approx(np.hypot(CLUB.speed_sd_mph, seeing.SPEED_SD_MPH), rel=0.12)


def test_a_steady_bowler_leaves_only_the_eye():
    steady = dataclasses.replace(
        CLUB,
        arrow_sd_boards=0.1,
        speed_sd_mph=0.0,
        rev_rate_sd_rpm=0.0,
        axis_rotation_sd_deg=0.0,
        axis_tilt_sd_deg=0.0,
    )
    shots = seen_shots(steady, LINE, BALL, HOUSE, 400, seed=1)
    arrival = np.array([shot.arrival for shot in shots])
    turned_ft = np.array([shot.breakpoint_ft for shot in shots])
    assert arrival.std() == pytest.approx(seeing.ARRIVAL_SD_BOARDS, rel=0.12)
    assert turned_ft.std() == pytest.approx(seeing.BREAKPOINT_SD_FT, rel=0.12)
    assert arrival.mean() == pytest.approx(17.5, abs=0.2)


def test_they_are_noted_as_coarsely_as_a_coach_does():
    for shot in seen_shots(CLUB, LINE, BALL, HOUSE, 20):
        assert shot.crossed_board * 2 % 1 == 0
        assert shot.arrival * 2 % 1 == 0
        assert shot.breakpoint_board % 1 == 0
        assert shot.breakpoint_ft % 1 == 0


def test_a_ball_launched_straight_has_no_breakpoint_to_see():
    (shot,) = seen_shots(dataclasses.replace(CLUB, arrow_sd_boards=0.1), cl.Line(22.0, 15.0), BALL, HOUSE, 1)
    assert (shot.breakpoint_ft, shot.breakpoint_board) == (None, None)
    assert shot.arrival is not None


def test_a_ball_in_the_gutter_leaves_ten_pins_and_has_no_arrival():
    shots = seen_shots(CLUB, cl.Line(29.0, 6.0), BALL, HOUSE, 4)
    assert [(shot.arrival, shot.leave) for shot in shots] == [(None, tuple(range(1, 11)))] * 4


def test_a_left_hander_is_seen_alike_in_the_own_frame():
    left = dataclasses.replace(CLUB, hand="left")
    assert seen_shots(left, LINE, BALL, HOUSE, 5) == seen_shots(CLUB, LINE, BALL, HOUSE, 5)


@pytest.mark.parametrize("n_balls", [0, 1001, float("nan")])
def test_how_many_is_checked(n_balls):
    with pytest.raises(cl.InputError, match=r"n_balls is .*; expected 1 to 1000 balls"):
        seen_shots(CLUB, LINE, BALL, HOUSE, n_balls)
