"""The lesson panel without a browser: it asks, takes a bet, draws the answer over it, and goes on.

Our own promises; no outside source.
"""

import base64

import pytest

from coachlib.coaching.wording.arrival_words import half_text
from coachlib.errors import InputError
from coachlib.study.lessons.lesson import load_lesson
from coachlib.study.questions.question import NumberAsk
from coachlib.views.panels.lesson.lesson import LessonPanel, lesson_picture
from coachlib.views.panels.lesson.lesson_view import bet_text
from coachlib.views.panels.lesson.try_it import Tried, tried_view

NAME = "two_and_one"


def panel(**given):
    return LessonPanel(NAME, is_strict=True, **given)


def answer(opened, is_right=True):
    """Answer the question that stands there, the best way or another one."""
    question = opened.play.question
    if isinstance(question.ask, NumberAsk):
        ends = (question.ask.low, question.ask.high)
        bet = question.answer if is_right else max(ends, key=lambda end: abs(end - question.answer))
    else:
        wrong = [one.id for one in question.choices if one.id not in {two.answer for two in question.accepts}]
        bet = question.answer if is_right else wrong[0]
    opened.handle({"do": "bet", "answer": bet})


def test_nothing_is_explained_before_the_bet():
    opened = panel()
    question = opened.play.question
    look = opened.head.look
    assert look["prompt"] == question.prompt
    assert not {"answer", "why", "on_the_lane"} & set(look)
    assert opened.try_it.look == {}
    assert question.answer_text not in str(opened.lane.scene)
    assert opened.lane.scene["is_asked"]


def test_the_answer_stands_in_the_place_of_the_question_and_is_read_out():
    opened = panel()
    answer(opened)
    look = opened.head.look
    assert look["mark"] == "full"
    assert look["bet"].endswith(": correct")
    for text in (look["answer"], look["why"], look["on_the_lane"]):
        assert text in look["summary"]
    assert look["thread"][0] == {"mark": "full", "is_here": True}
    answered = {one["mark"] for one in opened.control.look["choices"]}
    assert answered == {"", "answer chosen"}


def test_a_whole_lesson_is_played_to_three_more_questions_and_again():
    opened = panel()
    for number in range(5):
        assert opened.head.look["place"].startswith(f"Question {number + 1} of 5 · about ")
        answer(opened, is_right=number % 2 == 0)
        opened.handle({"do": "forward"})
    recap = opened.head.look
    assert recap["title"] == "What you can say now"
    assert [one["mark"] for one in recap["bets"]] == ["full", "not", "full", "not", "full"]
    assert opened.lane.layout.display == "none"
    prompts = []
    for _ in range(2):
        opened.handle({"do": "forward"})
        for _ in range(3):
            prompts.append(opened.head.look["prompt"])
            answer(opened)
            opened.handle({"do": "forward"})
        assert opened.head.look["say"] == "3 of 3 correct."
    assert prompts[:3] != prompts[3:], "the same three with other numbers"


def test_a_bet_can_be_skipped_taken_back_and_gone_back_to():
    opened = panel()
    opened.handle({"do": "forward"})
    assert opened.play.at == 0, "no way on without a bet"
    opened.handle({"do": "skip"})
    assert opened.head.look["bet"] == "You skipped this one"
    opened.handle({"do": "again"})
    assert opened.play.bet is None
    answer(opened)
    opened.handle({"do": "forward"})
    opened.handle({"do": "back"})
    assert opened.play.at == 0
    assert opened.play.bet.credit == 1, "as it was left"


def test_a_bet_lies_on_the_lane_and_the_answer_over_it():
    opened = panel()
    for _ in range(2):
        answer(opened)
        opened.handle({"do": "forward"})
    asked = opened.lane.bet
    assert (asked["what"], asked["at_ft"], asked["is_open"], asked["answer"]) == ("board", 60.0, True, None)
    best = opened.play.question.answer
    opened.handle({"do": "bet", "answer": best + 3})
    shown = opened.lane.bet
    assert (shown["value"], shown["answer"], shown["off_text"]) == (best + 3, best, "3")
    assert opened.head.look["bet"] == f"You bet {half_text(best + 3)}: not this time, 3 boards off"
    assert len(opened.lane.scene["advised"]["path"]["balls_board"]) == 20


def test_feet_eyes_speed_and_oil_are_changed_and_the_lane_answers():
    opened = panel()
    answer(opened)
    before = opened.lane.scene
    opened.handle({"do": "change", "name": "feet", "by": 1})
    assert opened.lane.scene["advised"]["feet_board"] == before["played"]["feet_board"] + 1
    assert opened.lane.bet == {}
    assert opened.try_it.look["answer"].startswith("Your ball ")
    opened.handle({"do": "on_pattern", "pattern": "flat_42"})
    assert opened.lane.scene["oil_end_ft"] == 42
    opened.handle({"do": "as_asked"})
    assert opened.lane.scene == before
    opened.handle({"do": "change", "name": "speed", "by": -1})
    opened.handle({"do": "forward"})
    assert opened.tried is None


def test_a_change_off_the_approach_is_said_and_loses_nothing():
    opened = LessonPanel(NAME)
    answer(opened)
    opened.handle({"do": "change", "name": "feet", "by": 10})
    shown = opened.lane.scene
    opened.handle({"do": "change", "name": "feet", "by": 30})
    assert "feet" in opened.try_it.errors["form"]
    assert opened.lane.scene == shown


@pytest.mark.parametrize("bet", [99, "xyz", None])
def test_nonsense_is_said_and_loses_nothing(bet):
    opened = LessonPanel(NAME)
    answer(opened)
    opened.handle({"do": "forward"})
    opened.handle({"do": "bet", "answer": bet})
    assert "expected 0 to 60 ft" in opened.control.errors["form"]
    assert opened.play.at == 1
    assert opened.play.bet is None


def test_a_left_hander_reads_the_mirrored_lesson():
    opened = panel()
    assert "2 left" in opened.head.look["prompt"]
    opened.handle({"do": "hand", "hand": "left"})
    assert "2 right" in opened.head.look["prompt"]
    assert opened.lane.scene["hand"] == "left"
    assert opened.control.look["other_hand"] == "right"


def test_left_lies_left_of_the_number_for_either_hand():
    for hand in ("right", "left"):
        opened = panel()
        opened.handle({"do": "hand", "hand": hand})
        for _ in range(2):
            answer(opened)
            opened.handle({"do": "forward"})
        ends = opened.control.look["number"]["ends"]
        assert [end["text"] for end in ends] == ["½ left", "½ right"]
        assert ends[0]["by"] == (0.5 if hand == "right" else -0.5)
        rows = tried_view(opened.play.question.scene.now, Tried())["rows"]
        assert [end["text"] for end in rows[0]["ends"]] == ["left", "right"]


def test_the_handout_is_given_to_the_browser():
    opened = panel()
    opened.handle({"do": "handout"})
    file = opened.control.file
    assert (file["name"], file["mime"], file["number"]) == ("two_and_one.html", "text/html", 1)
    assert load_lesson(NAME).title in base64.b64decode(file["content"]).decode()


def test_an_unknown_lesson_is_said():
    with pytest.raises(InputError, match=r"lesson is 'juggling'; expected one of .*two_and_one"):
        LessonPanel("juggling")


def test_a_lesson_has_a_picture_for_who_does_not_run_it():
    chart = lesson_picture(NAME).to_dict()
    first = load_lesson(NAME).question(0)
    assert chart["title"]["text"] == first.prompt or first.prompt in str(chart["title"])


def test_a_bet_close_by_is_called_correct_without_its_distance():
    opened = panel()
    answer(opened)
    opened.handle({"do": "forward"})
    opened.handle({"do": "bet", "answer": 33.0})
    assert bet_text(opened.play.question, opened.play.bet) == "You bet 33 ft: correct"


def test_whose_numbers_are_named_walks_as_the_question_says():
    opened = panel()
    for _ in range(3):
        assert opened.head.look["own"].endswith("you slide straight")
        answer(opened)
        opened.handle({"do": "forward"})
    assert "You walk toward your target" in opened.head.look["prompt"]
    assert opened.head.look["own"].endswith("you walk toward your target")
