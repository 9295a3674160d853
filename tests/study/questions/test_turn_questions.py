"""Where the ball turns: geometry by hand, breakpoints against the path itself."""

import numpy as np
import pytest

from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import mark
from coachlib.world.bowler import load_bowler
from tests.study.questions.made import check_drawn

HOUSE = {"came_in": "pocket", "pattern": "house_41"}


@pytest.mark.parametrize(("kind", "least"), [("line_runs_on", 6), ("where_it_turns", 6), ("turn_after", 3)])
def test_numbers_are_drawn_and_both_hands_are_asked_alike(kind, least):
    check_drawn(kind, least)


def test_a_ball_without_hook_goes_on_at_the_same_rate():  # limiting case: similar triangles
    question = make_question("line_runs_on", "lever", 1, at_ft=30.0)
    line = question.scene.now.line
    laid = line.feet_board - question.scene.now.bowler.laydown_offset_boards
    assert question.answer == laid + 2 * (line.target_board - laid)
    assert "twice as far" in question.why


def test_the_breakpoint_is_where_the_path_is_furthest_out():
    question = make_question("where_it_turns", seed=1, **HOUSE)
    path = simulate_lines(question.scene.now, keep_path=True).path_board[:, 0]
    assert abs(float(question.answer) - int(np.argmin(path))) <= 1
    assert mark(question, question.answer + 2).credit == 1
    assert mark(question, question.answer + 4).credit == 0.5
    assert mark(question, 60.0).credit == 0


def test_on_a_house_pattern_the_end_of_the_oil_is_no_answer():
    question = make_question("where_it_turns", seed=1, **HOUSE)
    assert mark(question, 41.0).credit == 0
    assert "before the oil ends" in question.why


def test_a_ball_that_turns_past_the_oil_is_told_so():
    question = make_question("where_it_turns", "thin", 1, came_in="light", pattern="flat_42")
    assert float(question.answer) > 42
    assert "past the end of the oil" in question.why


def test_a_ball_that_does_not_turn_has_no_breakpoint():
    straight = usual_learner()
    with pytest.raises(InputError, match="expected a ball that goes out and turns"):
        make_question(
            "where_it_turns", "thin", 1, straight, came_in="start", ball="plastic_spare", pattern="long_44"
        )


@pytest.mark.parametrize(
    ("change", "answer"),
    [({"speed_mph": 1.5}, "later"), ({"speed_mph": -1.5}, "sooner"), ({"rotation_deg": 10}, "same")],
)
def test_speed_moves_the_turn_and_rotation_does_not(change, answer):
    question = make_question("turn_after", seed=1, change=change, **HOUSE)
    assert question.answer == answer
    assert mark(question, {"later": "sooner", "sooner": "later", "same": "sooner"}[answer]).credit == 0


def test_later_by_more_rotation_is_a_rule_of_thumb_and_counts():
    question = make_question("turn_after", seed=1, change={"rotation_deg": 15}, **HOUSE)
    assert question.answer == "same"
    marked = mark(question, "later")
    assert marked.credit == 1
    assert "rule of thumb" in marked.why
    assert "end of the hook" in marked.why


def test_a_difference_that_is_hard_to_see_counts_by_half():
    question = make_question("turn_after", seed=1, change={"speed_mph": 0.5}, **HOUSE)
    credits = {one.id: mark(question, one.id).credit for one in question.choices}
    assert sorted(credits.values()) == [0, 0.5, 1]


def test_a_change_after_which_nothing_turns_is_refused():
    with pytest.raises(InputError, match="expected one after which the ball still turns"):
        make_question("turn_after", seed=1, change={"ball": "plastic_spare", "pattern": "long_44"}, **HOUSE)


def test_a_distance_at_which_the_line_is_off_the_lane_is_refused():
    with pytest.raises(InputError, match=r"at_ft is 60; expected .* Take 30"):
        make_question("line_runs_on", seed=1, at_ft=60.0, pattern="house_41")


@pytest.mark.parametrize("kind", ["where_it_turns", "turn_after"])
def test_who_throws_too_straight_is_asked_with_a_club_bowlers_numbers(kind):
    options = HOUSE | ({"change": {"rotation_deg": 15}} if kind == "turn_after" else {})
    asked = make_question(kind, seed=1, bowler=load_bowler("senior_right"), **options)
    usual = make_question(kind, seed=1, **options)
    assert asked.prompt == f"This one is asked with a club bowler’s numbers. {usual.prompt}"
    assert asked.answer == usual.answer
