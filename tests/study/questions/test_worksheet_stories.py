"""Stories of clinic papers: each shows what its name says, and only the generator decides which one it is.

No outside source: the stories are invented; what follows from them is checked in test_worksheet_tasks.py.
"""

import inspect

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.questions import worksheet_stories as stories
from coachlib.study.questions.worksheet_levels import LEVELS
from coachlib.world.levers import fits_problems

USED = sorted(
    {story for level in LEVELS.values() for _, told in (*level.reads, *level.moves) for story in told},
    key=lambda story: story.__name__,
)
SEEDS = range(12)


def told(story, hand="right"):
    return [story(np.random.default_rng(seed), hand) for seed in SEEDS]


def test_all_stories_are_used():
    functions = [made for _, made in inspect.getmembers(stories, inspect.isfunction)]
    made = {one for one in functions if list(inspect.signature(one).parameters) == ["draw", "hand"]}
    assert len(made) > 15
    assert made <= set(USED)


@pytest.mark.parametrize("story", USED, ids=lambda story: story.__name__)
def test_a_story_is_a_session_of_a_line_that_fits_and_some_balls(story):
    sessions = told(story)
    assert sessions == told(story)
    for session in sessions:
        assert 1 <= len(session.shots) <= 7
        assert fits_problems(session.line, session.bowler) == ()
    assert len({session.events for session in sessions}) > 4


@pytest.mark.parametrize("story", USED, ids=lambda story: story.__name__)
def test_a_left_hander_gets_the_same_story(story):
    for right, left in zip(told(story), told(story, "left"), strict=True):
        assert left.bowler.hand == "left"
        assert [seen.shot for seen in left.shots] == [seen.shot for seen in right.shots]
        assert left.line == right.line


def test_a_miss_lies_where_it_is_said_to_lie():
    session = stories.on_a_line(np.random.default_rng(1), "right")
    assert stories.ball_seen(session, "high", 2.0).crossed_board == session.line.target_board + 2.0


def test_balls_from_the_pocket_are_from_the_pocket():
    session = stories.on_a_line(np.random.default_rng(1), "right")
    balls = [ball for seed in SEEDS for ball in stories.good_balls(session, np.random.default_rng(seed), 3)]
    assert len(balls) > 5
    assert {ball.arrival for ball in balls} == {"pocket"}


def test_moves_go_to_both_sides():
    moves = {stories.move_either_way(np.random.default_rng(seed), ((2.0, 1.0),)) for seed in SEEDS}
    assert moves == {cl.Move(2.0, 1.0), cl.Move(-2.0, -1.0)}


def test_nobody_is_named():
    assert stories.clinic_bowler("left").name == ""
