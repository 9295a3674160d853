"""Marking an answer: every answer that can be defended counts, and nonsense is said clearly.

Our own promises; no outside source.
"""

import dataclasses
import re

import pytest

from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, mark


def a_number():
    question = make_question("where_lines_cross", "lever", 1, move=(2, 1))
    accepts = (Accepted(30.0, 1.0, within=4.0), Accepted(30.0, 0.5, "Near.", within=10.0))
    return dataclasses.replace(question, accepts=accepts)


@pytest.mark.parametrize(
    ("bet", "credit", "off"), [(30, 1, 0), (34, 1, 4), (25, 0.5, -5), (40, 0.5, 10), (45, 0, 15)]
)
def test_a_number_counts_by_how_far_off_it_is(bet, credit, off):
    marked = mark(a_number(), bet)
    assert (marked.credit, marked.off) == (credit, off)


def test_a_choice_counts_by_the_answers_that_are_accepted():
    choices = (Choice("a", "one"), Choice("b", "two"), Choice("c", "three"))
    accepts = (Accepted("a"), Accepted("b", 0.5, "Too small to see."))
    question = dataclasses.replace(a_number(), ask=choices, accepts=accepts, why="Because.")
    assert [mark(question, one.id).credit for one in choices] == [1, 0.5, 0]
    assert [mark(question, one.id).why for one in choices] == ["Because.", "Too small to see.", "Because."]
    assert mark(question, "a").off is None


def test_the_best_of_two_credits_counts():
    question = dataclasses.replace(a_number(), accepts=(Accepted(30.0, 0.5, within=9), Accepted(33.0, 1.0)))
    assert mark(question, 33).credit == 1


@pytest.mark.parametrize("bet", [-1, 61, float("nan"), "far", None, True])
def test_what_is_no_number_of_the_range_is_said(bet):
    with pytest.raises(InputError, match=r"answer is .*; expected 0 to 60 ft\. Choose a number"):
        mark(a_number(), bet)


def test_what_is_none_of_the_choices_is_said():
    question = dataclasses.replace(a_number(), ask=(Choice("a", "one"), Choice("b", "two")))
    with pytest.raises(InputError, match=r"answer is 'c'; expected one of: one, two\. Choose one of these"):
        mark(question, "c")


def test_a_left_hander_is_asked_the_mirrored_question():
    right, left = (
        make_question("hit_after", "oil", 3, usual_learner(hand), change={"feet": 2, "eyes": 1})
        for hand in ("right", "left")
    )
    sides = {"left": "right", "right": "left"}
    mirrored = re.sub("left|right", lambda side: sides[side.group()], right.prompt)
    assert left.prompt == mirrored
    assert left.answer == right.answer
    assert isinstance(left.ask, NumberAsk)
