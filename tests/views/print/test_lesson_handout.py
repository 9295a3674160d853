"""A lesson on paper: it stands alone, is black on white, and shows no answer on the side of the questions.

Our own promises; no outside source. That it is two pages is checked in the browser.
"""

import html

import pytest

from coachlib.errors import InputError
from coachlib.study.lessons.lesson import LESSONS, load_lesson
from coachlib.views.print.lesson_handout import lesson_handout
from tests.printed_pages import assert_black_on_white, assert_stands_alone


@pytest.mark.parametrize("name", LESSONS)
@pytest.mark.parametrize("hand", ["right", "left"])
def test_questions_on_one_side_answers_on_the_other(name, hand):
    lesson = load_lesson(name)
    page = lesson_handout(lesson, hand)
    assert_stands_alone(page)
    assert_black_on_white(page)
    first, second = (" ".join(html.unescape(side).split()) for side in page.split('<div class="sheet">')[1:])
    assert lesson.title in first
    for step in lesson.steps:
        means = lesson.words(step.on_the_lane, hand)
        assert means not in first
        assert means in second
    assert lesson.words(lesson.recap, hand) in second


def test_an_unknown_hand_is_said():
    with pytest.raises(InputError, match="hand is 'both'"):
        lesson_handout(load_lesson("two_and_one"), "both")
