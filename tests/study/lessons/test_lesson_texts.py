"""All lessons: few words, both hands, questions that can be answered."""

import re

import pytest

from coachlib.study.lessons.lesson import LESSONS, load_lesson
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import mark
from coachlib.world.bowler import load_bowler
from tests.study.lessons.shown import HANDS, questions, shown_text

MOST_WORDS = 700


@pytest.mark.parametrize("name", LESSONS)
@pytest.mark.parametrize("hand", HANDS)
def test_a_lesson_has_few_words_and_none_of_its_holes_is_left(name, hand):
    text = shown_text(name, hand)
    assert 200 < len(text.split()) <= MOST_WORDS
    assert not re.search(r"[{}]|None|\bnan\b", text)


@pytest.mark.parametrize("name", LESSONS)
def test_a_lesson_is_a_chain_of_questions_with_three_more_at_the_end(name):
    lesson = load_lesson(name)
    assert lesson.title.endswith("?")
    assert lesson.goal.startswith("After this lesson you can ")
    assert 10 <= lesson.minutes <= 15
    assert 4 <= len(lesson.steps) <= 6
    assert len(lesson.drills) == 3
    assert any(step.wrong_idea for step in lesson.steps)
    assert not any("{" in step.short for step in lesson.steps)


@pytest.mark.parametrize("name", LESSONS)
def test_both_hands_give_the_same_answers(name):
    right, left = (questions(name, hand) for hand in HANDS)
    assert [one.answer for one in right] == [one.answer for one in left]
    assert all(mark(one, one.answer).credit == 1 for one in right + left)


@pytest.mark.parametrize("name", LESSONS)
def test_the_three_at_the_end_have_numbers_of_their_own(name):
    for drill in load_lesson(name).drills:
        asked = [drill.question(seed, usual_learner()) for seed in range(8)]
        assert len({(one.prompt, one.answer) for one in asked}) > 2


@pytest.mark.parametrize("name", ["target_and_breakpoint", "miss_room", "speed", "hand"])
@pytest.mark.parametrize("bowler", ["senior_right", "low_rev_right", "two_handed_right", "junior_left"])
def test_learners_with_numbers_of_their_own_are_asked_every_question(name, bowler):
    for step in load_lesson(name).steps:
        question = step.question(load_bowler(bowler))
        assert mark(question, question.answer).credit == 1
