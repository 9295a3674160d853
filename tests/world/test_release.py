"""What leaves the hand: one number or many, checked alike."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.release import release_on_line


def test_numbers_and_rows_mix():
    release = cl.Release([20, 21.5], -2, 19, np.array([300, 320]), 45, 13)
    assert release.n_shots == 2
    assert release.laydown_board.tolist() == [20.0, 21.5]
    assert cl.Release(20, -2, 19, 300, 45, 13).n_shots == 1


def test_rows_cannot_be_changed_nor_follow_the_array_given():
    boards = np.array([20.0, 21.0])
    release = cl.Release(boards, -2, 19, 300, 45, 13)
    boards[0] = 3.0
    assert release.laydown_board[0] == 20.0
    with pytest.raises(ValueError, match="read-only"):
        release.laydown_board[0] = 3.0


def test_equal_by_its_numbers():
    one, other = (cl.Release([20.0, 21.0], -2, 19, 300, 45, 13) for _ in range(2))
    assert one == other
    assert one != cl.Release([20.0, 22.0], -2, 19, 300, 45, 13)
    assert one != "a release"


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [
        ("laydown_board", 45.0, "laydown_board is 45.0; expected 1 to 39 boards. Count boards from"),
        ("speed_mph", 27.5, "27.5; expected 8 to 25 mph. If this is km/h, convert it with units.kmh_to_mph"),
        ("speed_mph", [19.0, 27.5], r"speed_mph, shot 1 is 27.5; expected 8 to 25 mph"),
        ("rev_rate_rpm", float("nan"), "rev_rate_rpm is nan; expected 0 to 700 rpm"),
        ("rev_rate_rpm", [300.0, float("nan")], "rev_rate_rpm, shot 1 is nan"),
        ("launch_deg", float("inf"), "launch_deg is inf; expected -10 to 10 deg"),
        ("axis_rotation_deg", "45", "axis_rotation_deg is '45'; expected 0 to 110 deg"),
        ("axis_rotation_deg", "much", "axis_rotation_deg is 'much'; expected 0 to 110 deg"),
        ("axis_tilt_deg", None, "axis_tilt_deg is None; expected -10 to 60 deg"),
        ("axis_tilt_deg", True, "axis_tilt_deg is True; expected -10 to 60 deg"),
        ("axis_tilt_deg", [], r"axis_tilt_deg has shape \(0,\); expected one number or a row of numbers"),
        ("axis_tilt_deg", [[1.0, 2.0]], r"axis_tilt_deg has shape \(1, 2\); expected one number or a row"),
    ],
)
def test_wrong_numbers(field, value, message):
    release = cl.Release(24.0, -2.0, 19.0, 300.0, 45.0, 13.0)
    with pytest.raises(cl.InputError, match=message) as caught:
        dataclasses.replace(release, **{field: value})
    assert list(caught.value.fields) == [field]


def test_all_wrong_fields_are_told_at_once():
    with pytest.raises(cl.InputError) as caught:
        cl.Release(45, -2, 30, 300, 45, 13)
    assert list(caught.value.fields) == ["laydown_board", "speed_mph"]


def test_rows_of_two_lengths():
    problem = "rows differ in length: laydown_board 2, speed_mph 3; expected one length"
    with pytest.raises(cl.InputError, match=problem):
        cl.Release([20, 21], -2, [18, 19, 20], 300, 45, 13)


def test_release_on_a_line():
    bowler = cl.Bowler(speed_mph=18.0, rev_rate_rpm=350, axis_rotation_deg=60, axis_tilt_deg=15)
    release = release_on_line(bowler, 20.0, 16.0)
    one_board_deg = 0.3387  # in 15 ft
    assert float(release.launch_deg) == pytest.approx(-4 * one_board_deg, abs=0.002)
    assert (release.speed_mph, release.rev_rate_rpm) == (18.0, 350.0)


def test_who_does_not_know_gets_usual_numbers():
    release = release_on_line(cl.Bowler(), 20.0, 16.0)
    assert (release.speed_mph, release.rev_rate_rpm) == (17.0, 300.0)
    assert (release.axis_rotation_deg, release.axis_tilt_deg) == (45.0, 13.0)


def test_line_off_the_lane():
    with pytest.raises(cl.InputError, match="laydown_board is 45; expected 1 to 39 boards"):
        release_on_line(cl.Bowler(), 45, 16.0)
