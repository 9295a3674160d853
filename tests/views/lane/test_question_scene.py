"""What is drawn of a question: the counts under the lane are those that its words name."""

import re

import pytest

from coachlib.study.questions.ask import make_question
from coachlib.study.questions.question import Question
from coachlib.views.lane.question_scene import question_scene

DULL_AND_SMOOTH = [{"ball": "solid_1000"}, {"ball": "pearl_polished"}]


def _drawn_counts(question: Question) -> list[int]:
    found = re.findall(r"(\d+) of 20 strike", str(question_scene(question.reveal)["summary"]))
    return [int(one) for one in found]


@pytest.mark.parametrize("film_frac", [0.5, 1.0])
def test_the_strikes_drawn_are_those_of_the_two_balls(film_frac: float) -> None:
    options = {"balls": DULL_AND_SMOOTH, "pattern": "flat_42", "film_frac": film_frac}
    first, second = _drawn_counts(make_question("ball_for_oil", **options))
    assert f"About {first} strikes in 20 with" in make_question("ball_for_oil", **options).why
    assert f", {second} with" in make_question("ball_for_oil", **options).why
    asked = make_question("strikes_of_ball", **options)
    known, answer = _drawn_counts(asked)
    assert f"about {known} in 20" in asked.prompt
    assert answer == asked.answer


@pytest.mark.parametrize(("turned", "words"), [("late", r"about (\d+)"), ("early", r"Smoother: about (\d+)")])
def test_the_strikes_drawn_of_a_light_ball_are_those_named(turned: str, words: str) -> None:
    question = make_question("light_ball", turned=turned)
    named = re.search(words, question.why)
    assert named is not None
    assert _drawn_counts(question)[1] == int(named.group(1))


def test_without_a_count_the_twenty_are_counted_by_their_own_chances() -> None:
    question = make_question("hit_after", change={"feet": 2, "eyes": 1})
    assert question.reveal.now_strikes is None
    assert len(_drawn_counts(question)) == 2


@pytest.mark.parametrize("kind", ["line_runs_on", "rule_of_31"])
def test_a_line_whose_board_is_asked_for_shows_its_aim_alone(kind: str) -> None:
    question = make_question(kind)
    assert question_scene(question.scene)["is_asked"]
    assert not question_scene(question.reveal)["is_asked"]


def test_a_line_drawn_to_the_gutter_is_not_said_to_end_before() -> None:
    scene = question_scene(make_question("where_lines_cross", "lever", move=(2, 1)).scene)
    assert scene["played"]["end_ft"] == scene["played"]["leaves_ft"]
    assert "Drawn straight on, it leaves the lane at" in scene["note"]
