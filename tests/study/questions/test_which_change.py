"""Which change does most: the ranking against the simulated hits."""

import pytest

from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.changes import Change
from coachlib.study.questions.question import mark
from coachlib.study.questions.which_change import GOALS, short_change
from tests.study.questions.made import both_hands, check_drawn

HAND = ({"rotation_deg": 10}, {"tilt_deg": 10}, {"speed_mph": -0.5})
PLACE = {"came_in": "pocket", "pattern": "house_41"}


@pytest.mark.parametrize("goal", GOALS)
def test_numbers_are_drawn_and_both_hands_are_asked_alike(goal):
    check_drawn("which_change", 2, goal=goal)


def test_the_order_of_the_answers_tells_nothing():
    first = {
        make_question("which_change", seed=seed, goal="most", changes=HAND, **PLACE).choices[0].id
        for seed in range(20)
    }
    assert len(first) == 3


def test_the_best_one_moves_the_hit_most():
    question = make_question("which_change", seed=1, goal="most", changes=HAND, **PLACE)
    now = question.scene.now
    by_rotation, as_it_is = (
        simulate_lines(now, axis_rotation_deg=45.0 + more).arrival_board[0] for more in (10.0, 0.0)
    )
    by_tilt = simulate_lines(now, axis_tilt_deg=23.0).arrival_board[0]
    assert abs(by_rotation - as_it_is) > abs(by_tilt - as_it_is) + 0.5
    assert question.answer == "rotation_deg=10"
    assert mark(question, "tilt_deg=10").credit == 0


def test_two_that_do_as_much_are_both_correct():
    pair = ({"rotation_deg": 10}, {"revs_rpm": 50}, {"tilt_deg": 5})
    question = make_question("which_change", seed=1, goal="most", changes=pair, **PLACE)
    assert mark(question, "rotation_deg=10").credit == mark(question, "revs_rpm=50").credit == 1
    assert mark(question, "tilt_deg=5").credit == 0


def test_the_pocket_is_found_by_feet_and_not_by_a_strong_hand():
    fixes = ({"feet": 2, "eyes": 1}, {"rotation_deg": -15})
    right, left = both_hands("which_change", "oil", 1, goal="pocket", changes=fixes, came_in="high")
    assert right.answer == left.answer == "feet=2 eyes=1"
    assert {one.text for one in left.choices} >= {"feet 2 right, eyes 1 right"}


def test_changes_that_all_do_the_same_are_refused():
    with pytest.raises(InputError, match="expected some that differ by half a board"):
        make_question("which_change", seed=1, changes=({"tilt_deg": 1}, {"tilt_deg": 2}), **PLACE)


def test_a_change_without_words_is_refused():
    with pytest.raises(InputError, match="expected one of feet, eyes, speed"):
        short_change(Change(), "right")


def test_an_unknown_goal_lists_the_known_ones():
    with pytest.raises(InputError, match="most"):
        make_question("which_change", goal="hope")
