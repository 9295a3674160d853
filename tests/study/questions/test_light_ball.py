"""A light ball on the target: the rules in print, the strikes thrown, and both hands."""

import math

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.light_ball import TURNED, light_on_little_oil
from coachlib.study.questions.question import mark
from coachlib.world.bowler import Bowler
from coachlib.world.lane import arrival_class
from tests.study.questions.made import check_drawn

KIND = "light_ball"


def test_every_seed_asks_something_for_both_hands() -> None:
    check_drawn(KIND, 3)


@pytest.mark.parametrize(("turned", "answer"), [("late", "out"), ("early", "smoother"), ("unseen", "watch")])
def test_the_turn_decides_as_in_print(turned: str, answer: str) -> None:
    # In print: light and late, nearer to the friction (S2, S16); light and early, it burnt up, not outside
    # (S25, S26); not seen on a played lane, watch one more.
    for seed in range(8):
        question = make_question(KIND, seed=seed, turned=turned)
        assert mark(question, answer).credit == 1.0
        assert question.answer == answer


@pytest.mark.parametrize("turned", ["late", "early"])
def test_the_ball_turns_as_is_said_of_it(turned: str) -> None:
    for seed in range(8):
        now = make_question(KIND, seed=seed, turned=turned).scene.now
        paths = line_paths(now, now.line)
        assert now.pattern is not None
        assert (paths.breakpoint_ft > now.pattern.length_ft - 1) == (turned == "late")
        assert (paths.path.roll_ft[0] > 50) == (turned == "late")


def test_the_smoother_ball_strikes_more_on_little_oil_than_the_move_outside() -> None:
    question = make_question(KIND, turned="early", ball="solid_1000", pattern="house_41")
    reveal = question.reveal.next
    assert reveal is not None
    out = mark(question, "out")
    assert out.credit == 0.5
    assert "Half correct" in out.why
    assert line_paths(reveal, reveal.line).path.entry_deg[0] > 2.5
    assert arrival_class(line_paths(reveal, reveal.line).arrival_board) in ("pocket", "high")


def test_what_nobody_saw_is_not_drawn() -> None:
    question = make_question(KIND, turned="unseen")
    assert question.scene.now_drawn == "nothing"
    assert "did not see" in question.prompt
    assert mark(question, "out").credit == mark(question, "smoother").credit == 0.0


def test_wrong_options_are_named() -> None:
    with pytest.raises(InputError, match="turned is 'sideways'"):
        make_question(KIND, turned="sideways")
    with pytest.raises(InputError, match="expected a way in which such a ball comes in light"):
        make_question(KIND, turned="early", ball="plastic_spare")


@pytest.mark.parametrize(
    "bowler",
    [
        Bowler(hand="left"),
        Bowler(hand="right", rev_rate_rpm=150, speed_mph=14.0),
        Bowler(hand="right", rev_rate_rpm=500),
    ],
    ids=["unknown numbers", "few revs", "many revs"],
)
def test_other_learners_are_asked_too(bowler: Bowler) -> None:
    for seed in range(4):
        question = make_question(KIND, seed=seed, bowler=bowler)
        assert question.answer in ("out", "smoother", "watch")
        assert mark(question, question.answer).credit == 1.0


def test_a_line_is_found_only_where_the_ball_rolls_early_and_comes_in_light() -> None:
    found = light_on_little_oil(usual_learner(), "solid_1000", "house_41", 0.5)
    assert found is not None
    path = line_paths(found, found.line)
    assert math.isfinite(path.path.roll_ft[0])
    assert light_on_little_oil(usual_learner(), "plastic_spare", "house_41", 0.5) is None
    assert len(TURNED) == 3
