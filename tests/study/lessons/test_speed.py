"""What the lesson on speed claims, against the simulation and the coach's rule of two boards a mile."""

import pytest

from tests.study.lessons.shown import HANDS, before_and_after, questions

pytestmark = pytest.mark.parametrize("hand", HANDS)
NAME = "speed"


def test_half_a_mile_an_hour_is_about_a_board_and_faster_is_lighter(hand):  # published: two boards a mile
    half, whole = questions(NAME, hand)[:2]
    first, second = before_and_after(half)
    assert 0.75 <= first.arrival_board - second.arrival_board <= 1.5
    first, second = before_and_after(whole)
    assert 1 <= second.arrival_board - first.arrival_board <= 3


def test_slow_and_high_is_the_speed_alone(hand):
    assert questions(NAME, hand)[2].answer == "all"


def test_more_speed_on_the_same_line_goes_light_and_costs_strikes(hand):
    same = questions(NAME, hand)[3]
    first, second = before_and_after(same)
    assert second.arrival_board < 16.8
    assert second.n_strikes <= first.n_strikes - 3


def test_in_the_pocket_again_more_speed_buys_next_to_nothing(hand):
    again = questions(NAME, hand)[4]
    first, second = before_and_after(again)
    assert abs(second.arrival_board - 17.5) <= 0.5
    assert abs(second.n_strikes - first.n_strikes) <= 1
