"""What the lesson on the hand claims, against the simulation."""

import math

import pytest

from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.study.lessons.lesson import load_lesson
from tests.study.lessons.shown import HANDS, before_and_after, questions

pytestmark = pytest.mark.parametrize("hand", HANDS)
NAME = "hand"


def _hit(session, **changes):
    return float(simulate_lines(session, **changes).arrival_board[0])


def test_ten_degrees_of_rotation_are_several_boards(hand):
    for at in (0, 2):
        first, second = before_and_after(questions(NAME, hand)[at])
        assert abs(second.arrival_board - first.arrival_board) >= 3


def test_a_light_ball_is_thrown_past_the_pocket(hand):
    first, second = before_and_after(questions(NAME, hand)[0])
    assert first.arrival_board < 16.8
    assert second.arrival_board > 18.2


def test_ten_degrees_less_are_too_much_for_a_high_ball(hand):
    high, low = before_and_after(questions(NAME, hand)[2])
    assert high.arrival_board - low.arrival_board > 3
    assert low.arrival_board < 16.8, "past the pocket, to the light side"


def test_the_hook_begins_where_it_did_and_ends_later(hand):
    first, second = before_and_after(questions(NAME, hand)[1])
    assert abs(second.breakpoint_ft - first.breakpoint_ft) < 0.75
    assert second.path.roll_ft[0] - first.path.roll_ft[0] > 1


def test_tilt_gives_no_length_and_takes_a_share_of_the_revs(hand):
    now = questions(NAME, hand)[3].reveal.now
    tilted, plain = (simulate_lines(now, axis_tilt_deg=tilt) for tilt in (23.0, 13.0))
    assert abs(tilted.breakpoint_ft[0] - plain.breakpoint_ft[0]) < 0.75
    shares = [math.cos(math.radians(tilt)) for tilt in (23.0, 13.0)]  # limiting case: revs alone
    fewer_rpm = 300.0 * shares[0] / shares[1]
    assert tilted.arrival_board[0] == pytest.approx(_hit(now, rev_rate_rpm=fewer_rpm), abs=0.25)


def test_rotation_does_more_than_twice_as_much_as_tilt(hand):
    now = questions(NAME, hand)[3].reveal.now
    by_rotation = abs(_hit(now, axis_rotation_deg=55.0) - _hit(now))
    assert by_rotation > 2 * abs(_hit(now, axis_tilt_deg=23.0) - _hit(now))


def test_a_board_high_is_work_for_the_feet(hand):
    assert questions(NAME, hand)[4].answer == "feet=2 eyes=1"


def test_the_usual_caution_stands_before_the_first_question(hand):
    caution = load_lesson(NAME).caution
    assert "coach" in caution
    assert "Stop if it hurts" in caution
