"""You or the lane, and how far good balls stray, against the rulebook and the balls that are drawn.

Source
------
A regional coach's column, "Is it you or the lane?" (May 2004): a missed target explains the result; hit the
target and see the same wrong place again, and the line no longer fits.
"""

import dataclasses
from collections import Counter

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import LEVELS, mark
from coachlib.study.questions.shot_questions import STORIES, _clear_story
from tests.study.questions.made import check_drawn

SEEDS = range(12)


def asked(story, seed=1, hand="right", **options):
    return make_question("you_or_the_lane", "wear", seed, usual_learner(hand), story=story, **options)


@pytest.mark.parametrize(
    ("story", "answer"),
    [
        ("missed", "bowler"),
        ("other_pace", "bowler"),
        ("once", "cannot tell"),
        ("not_noted", "cannot tell"),
        ("again", "lane"),
        ("again_around_a_miss", "lane"),
    ],
)
def test_published_answers(story, answer):
    questions = [asked(story, seed) for seed in SEEDS]
    assert {one.answer for one in questions} == {answer}
    assert all(sum(mark(one, choice.id).credit for choice in one.choices) == 1 for one in questions)


def test_after_two_balls_both_answers_are_right():
    question = asked("twice")
    assert len(question.scene.rows) == 2
    assert [mark(question, one.id).credit for one in question.choices] == [0, 1, 1]
    assert "after two" in mark(question, "lane").why


def test_the_answer_is_the_rulebooks_own(monkeypatch):
    from coachlib.study.questions import shot_questions

    stories = []

    def kept(case, name, pattern):
        found = _clear_story(case, name, pattern)
        stories.append(found[0])
        return found

    monkeypatch.setattr(shot_questions, "_clear_story", kept)
    verdicts = {"bowler": "bowler", "lane": "lane", "cannot tell": "too early"}
    for story in ("missed", "again", "once"):
        question = asked(story, 3)
        assert cl.advise(stories[-1].session, model_on=False).cause.verdict == verdicts[question.answer]


def test_a_miss_is_thrown_by_the_simulation():
    question = asked("missed", 2, pattern="house_41")
    now, seen = question.scene.now, question.scene.seen
    miss = seen.crossed_board - now.line.target_board
    assert abs(miss) >= 2.5
    after = changed(now, Change(miss=miss))
    assert seen.arrival == pytest.approx(line_paths(after, after.line).arrival_board, abs=0.25)


def test_a_lane_that_changed_sends_good_balls_to_one_side():
    for seed in SEEDS:
        question = asked("again", seed)
        now = question.scene.now
        meant = line_paths(now, now.line).arrival_board
        assert not 16.8 <= meant <= 18.2
        assert (question.scene.seen.arrival_board > 17.5) == (meant > 17.5)


@pytest.mark.parametrize("kind", ["you_or_the_lane", "hits_of_twenty"])
def test_numbers_are_drawn_and_both_hands_are_asked_alike(kind):
    check_drawn(kind, 3)


@pytest.mark.parametrize("level", LEVELS)
def test_answers_come_in_mixed_proportions(level):
    questions = [make_question("you_or_the_lane", level, seed) for seed in range(30)]
    answers = Counter(one.answer for one in questions)
    assert set(answers) == {"bowler", "lane", "cannot tell"}
    assert max(answers.values()) <= 18
    assert len({one.scene.rows for one in questions}) > 12


def test_both_hands_see_the_same_balls():
    for seed in SEEDS:
        right, left = (asked("missed", seed, hand) for hand in ("right", "left"))
        assert left.scene.seen == right.scene.seen
        assert left.scene.rows != right.scene.rows
        assert [row.replace("left", "right") for row in left.scene.rows] == [
            row.replace("left", "right") for row in right.scene.rows
        ]


def test_harder_levels_bring_other_stories():
    rows = {
        level: " ".join(
            row for seed in range(15) for row in make_question("you_or_the_lane", level, seed).scene.rows
        )
        for level in LEVELS
    }
    assert "mph" not in rows["lever"] + rows["oil"]
    assert "mph" in rows["wear"]
    assert "Nobody saw" in rows["thin"]


def test_the_twenty_are_those_that_are_drawn():
    counts = []
    for side in ("pocket", "high", "light"):
        question = make_question("hits_of_twenty", seed=4, side=side, pattern="house_40")
        assert question.reveal.now_drawn == "balls"
        counts.append(question.answer)
    now = question.reveal.now
    boards = line_paths(now, now.line).arrivals_board
    assert counts[0] == np.sum((boards >= 16.8) & (boards <= 18.2))
    assert counts[1] == np.sum(boards > 18.2)
    assert sum(counts) == 20


def test_a_count_near_by_is_half_correct():
    question = make_question("hits_of_twenty", seed=4, side="pocket", pattern="house_40")
    credits = [mark(question, min(20.0, question.answer + off)).credit for off in (0, 2, 3, 4, 5)]
    assert credits == [1, 1, 0.5, 0.5, 0]


def test_a_steadier_bowler_hits_more_of_twenty():
    bowler = usual_learner()
    steady = dataclasses.replace(
        bowler, arrow_sd_boards=0.3, speed_sd_mph=0.1, rev_rate_sd_rpm=3, axis_rotation_sd_deg=1
    )
    hits = [
        make_question("hits_of_twenty", seed=0, bowler=one, side="pocket", pattern="house_41").answer
        for one in (bowler, steady)
    ]
    assert hits[1] >= hits[0] + 4


def test_an_unknown_story_or_side_is_refused():
    assert len(STORIES) == 7
    with pytest.raises(InputError, match="story is 'luck'; expected one of 'missed', 'other_pace'"):
        asked("luck")
    with pytest.raises(InputError, match="side is 'left'; expected one of '', 'high', 'pocket', 'light'"):
        make_question("hits_of_twenty", side="left")
