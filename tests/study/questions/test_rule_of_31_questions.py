"""The rule of 31 beside the best simulated line."""

import pytest

from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import mark
from coachlib.study.questions.rule_of_31_questions import best_exit
from tests.study.questions.made import check_drawn


@pytest.mark.parametrize(("kind", "least"), [("rule_of_31", 5), ("past_the_rule", 3)])
def test_numbers_are_drawn_and_both_hands_are_asked_alike(kind, least):
    check_drawn(kind, least, levels=("oil",))


@pytest.mark.parametrize(("length_ft", "board"), [(36.0, 5.0), (40.0, 9.0), (43.0, 12.0)])  # published rule
def test_the_rule_is_length_less_31_and_the_simulated_board_counts_too(length_ft, board):
    question = make_question("rule_of_31", length_ft=length_ft)
    assert question.answer == board
    _, leaves = best_exit(usual_learner(), length_ft)
    marked = mark(question, round(2 * leaves) / 2)
    assert marked.credit == 1
    assert "the rule of 31" in marked.why.lower()
    assert mark(question, 25.0).credit == 0


@pytest.mark.parametrize(
    ("length_ft", "answer"), [(34.0, "inside"), (39.0, "there"), (44.0, "outside"), (46.0, "outside")]
)
def test_the_rule_is_too_steep(length_ft, answer):
    question = make_question("past_the_rule", length_ft=length_ft)
    assert question.answer == answer
    others = {"inside", "there", "outside"} - {answer}
    assert min(mark(question, one).credit for one in others) == 0


def test_a_foot_of_oil_is_worth_less_than_a_board():
    leaves = [best_exit(usual_learner(), length_ft)[1] for length_ft in (36.0, 44.0)]
    assert 0 < leaves[1] - leaves[0] < 4


def test_a_length_that_no_house_pattern_has_is_refused():
    with pytest.raises(InputError, match="length_ft is 60; expected 33 to 47 ft"):
        make_question("rule_of_31", length_ft=60.0)
