"""The words of clinic papers: left and right turned at the end, nothing lost, why and grade beside.

Checks of our own promises, no outside source; the answers themselves are checked in test_worksheet_tasks.py.
"""

import re

import pytest

import coachlib as cl
from coachlib.study.questions import worksheet_tasks as tasks
from coachlib.study.questions.worksheet_stories import clinic_bowler
from coachlib.study.questions.worksheet_tasks import MoveTask, PredictTask, ReadTask
from coachlib.views.print import worksheet_words as words
from tests.clinic_papers import NAMES, all_tasks, papers

LINE = cl.Line(22.0, 13.0)


def story(hand, *shots, walk="slide"):
    session = cl.Session(clinic_bowler(hand, walk, laydown_offset_boards=7.0), LINE)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def high(**more):
    return cl.Shot(crossed_board=13, arrival="high", **more)


def swapped(text):
    """Return a text with left and right, and the pins that are mirrored, in each other's place."""
    pairs = {"left": "right", "4-pin": "6-pin", "7-pin": "10-pin", "9-pin": "8-pin", "lone 4": "lone 6"}
    pairs |= {"The 4 alone": "The 6 alone"}
    turned = pairs | {there: here for here, there in pairs.items()}
    pattern = "|".join(sorted(map(re.escape, turned), key=len, reverse=True))
    return re.sub(rf"\b({pattern})\b", lambda found: turned[found.group()], text)


def told(paper):
    parts = [*words.help_texts(paper), *words.boxes(paper)]
    for task in paper.tasks:
        if isinstance(task, PredictTask):
            parts += [*words.predict_texts(task), words.hook_text(task), words.predict_why(task)]
            parts += [" ".join(row) for row in words.predict_rows(task)]
            continue
        parts += [words.setting_text(task.session), str(words.ball_rows(task.session))]
        answered = words.read_answer(task) if isinstance(task, ReadTask) else words.move_answer(task)
        parts += [answered.short, answered.also, answered.why, answered.source]
    return parts


@pytest.mark.parametrize("level", NAMES)
def test_a_left_handed_class_reads_the_mirrored_words(level):
    for right, left in zip(papers(level, "right", 6), papers(level, "left", 6), strict=True):
        assert [swapped(text) for text in told(right)] == told(left)
        assert told(right) != told(left)


@pytest.mark.parametrize("level", NAMES)
def test_nothing_is_left_of_frame_names_or_placeholders(level):
    for paper in papers(level):
        for text in told(paper):
            assert not re.search(r"[{}]|\binside\b|\boutside\b|None|far_light", text), text


@pytest.mark.parametrize(("hand", "pin", "side"), [("right", "10-pin", "left"), ("left", "7-pin", "right")])
def test_pins_and_moves_are_turned_for_the_hand(hand, pin, side):
    corner = cl.Shot(crossed_board=13, arrival="pocket", leave=(10,))
    assert pin in str(words.ball_rows(story(hand, corner)))
    task = tasks.move_task(story(hand, *[high(motion="early")] * 3))
    assert words.move_answer(task).short == f"2 and 1 {side}"


def test_only_what_was_noted_has_a_column():
    heads, rows = words.ball_rows(story("right", high()))
    assert heads == ("Ball", "Crossed", "At the pins")
    assert rows == [("1", "13", "high")]
    noted = story(
        "right", high(speed_mph=17.0), cl.Shot(arrival=25.0, slide_board=22.5, hit="flat", leave=())
    )
    heads, rows = words.ball_rows(noted)
    assert heads == ("Ball", "Crossed", "At the pins", "Leave", "Last pin", "Speed", "Slide foot")
    assert rows[1] == ("2", "–", "across, board 25", "strike", "flat", "–", "22½")


def test_a_change_of_line_is_told():
    session = cl.change(story("right", high()), line=cl.Line(24.0, 14.0))
    heads, rows = words.ball_rows(cl.observe(session, cl.Shot(crossed_board=14, arrival="high")))
    assert words.setting_text(session) == "Feet 22, target 13."
    assert heads[1] == "New line"
    assert [row[1] for row in rows] == ["–", "24 / 14"]


def test_the_setting_says_walk_games_and_want_of_room():
    session = cl.change(story("right", walk="walk"), games_on_lane=1.5, place=cl.Place(is_feet_stuck=True))
    assert words.setting_text(session) == (
        "Feet 22, target 13. This bowler walks toward the target. 1½ games on this lane so far. "
        "The feet cannot move here."
    )


def test_both_is_a_box_only_where_it_can_be_right():
    boxes = [words.boxes(papers(level)[0]) for level in NAMES]
    assert ["both" in known for known in boxes] == [False, False, True]
    assert all(known[-1] == "cannot tell yet" for known in boxes)


def test_a_read_answer_has_its_why_and_its_grade():
    answered = words.read_answer(tasks.read_task(story("right", *[high(motion="even")] * 3)))
    assert answered.short == "The lane"
    assert "same wrong side three times. Many coaches move after two" in answered.why
    assert answered.source == "Rule: Good ball, wrong place, again (in print)."


def test_every_answer_has_its_why_and_its_grade():
    answers = [words.read_answer(task) for task in all_tasks(ReadTask)]
    answers += [words.move_answer(task) for task in all_tasks(MoveTask)]
    assert len(answers) == 420
    assert not [one for one in answers if len(one.why) < 20 or not one.source.endswith(").")]
    assert {one.also.split(":")[0] for one in answers} == {"", "Also good"}


def test_the_boards_of_a_move_are_told_before_and_after():
    session = cl.change(story("right"), pattern=cl.load_pattern("house_41"), ball=cl.load_ball("hybrid_2000"))
    task = tasks.predict_task(session, cl.Move(2.0, 1.0), is_line_given=True)
    walked = "The slide foot ends where the feet stood. The ball is laid down 7 boards right of it."
    assert words.predict_texts(task) == (
        f"Feet 22, target 13. {walked}",
        "The straight line now: board 11 at 30 ft, board 9 at 45 ft, board 7 at 60 ft.",
        "The move: 2 and 1 left.",
    )
    assert words.predict_rows(task) == [
        ("before", "11", "9", "7"),
        ("after", "11", "8", "5"),
        ("moves by", "same", "1 right", "2 right"),
    ]
    assert words.predict_why(task).startswith(
        "The ball is laid down on 17 instead of 15 and crosses 14 at 15 ft."
    )


@pytest.mark.parametrize(
    ("hook", "text"),
    [
        (None, "would not reach the pins on both lines"),
        (-2.0, "moves about as much here"),
        (-1.0, "moves 1 right at the pins"),
        (0.0, "hardly moves at the pins"),
        (0.5, "moves ½ left at the pins"),
    ],
)
def test_what_the_hook_adds_is_said_where_it_differs(hook, text):
    task = PredictTask(story("right"), cl.Move(2.0, 1.0), True, hook)
    assert task.shifts_boards[-1] == -2.0
    assert text in words.hook_text(task)


def test_the_care_line_is_there():
    assert "foul line" in words.CAUTION
    assert "hurts, stop" in words.CAUTION
