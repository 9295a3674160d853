"""What the lesson on missing claims, against geometry and the simulation."""

import pytest

from coachlib.study.questions.asker import starting_session, usual_learner
from coachlib.study.questions.miss_questions import most_room
from coachlib.study.questions.rule_of_31_questions import RULE_FT, best_exit
from tests.study.lessons.shown import HANDS, before_and_after, questions

pytestmark = pytest.mark.parametrize("hand", HANDS)
NAME = "miss_room"


def test_one_board_is_four_for_a_straight_ball_about_one_on_house_and_three_on_flat(hand):
    straight, house, flat = questions(NAME, hand)[:3]
    assert straight.answer == 4
    pairs = [before_and_after(one) for one in (house, flat)]
    costs = [first.arrival_board - second.arrival_board for first, second in pairs]
    assert costs[0] <= 1.25
    assert 2.5 <= costs[1] <= 3.5


def test_the_good_part_of_the_target_is_three_boards_wide_and_half_a_board_on_flat_oil(hand):
    assert 2.75 <= questions(NAME, hand)[3].answer <= 3.25
    assert 0.5 <= most_room(starting_session(usual_learner(hand), pattern="flat_42")).boards <= 0.8


def test_both_edges_of_the_good_part_hit_within_a_board(hand):
    for paths in before_and_after(questions(NAME, hand)[3]):
        assert abs(paths.arrival_board - 17.5) <= 1.05


def test_the_rule_of_31_is_near_at_40_ft_and_boards_off_on_long_and_short_oil(hand):
    lengths_ft = (34.0, 36.0, 40.0, 44.0)
    off = {one: best_exit(usual_learner(hand), one)[1] - (one - RULE_FT) for one in lengths_ft}
    assert abs(off[40.0]) <= 1.5
    assert min(off[34.0], off[36.0]) >= 2
    assert off[44.0] <= -2
    assert questions(NAME, hand)[5].answer == "outside"
