"""How far the ball turns in all: the simulation against the closed form of a ball that rolls."""

import dataclasses

import pytest

from coachlib.coaching.simulation.what_if import ball_and_pattern, meant_release
from coachlib.physics.motion import turn_when_rolled_deg
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.asker import starting_session, usual_learner
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import mark
from coachlib.study.questions.total_turn import SAME_DEG, total_turn_deg
from tests.study.questions.made import check_drawn

KIND = "total_turn_after"


@pytest.mark.parametrize("grit", [500.0, 4000.0])
def test_turn_is_that_of_the_closed_form_for_a_ball_that_rolls(grit: float) -> None:
    # Derived: a sliding ball's last velocity is (v + kappa s) / (1 + kappa), see physics.motion.
    session = changed(starting_session(usual_learner()), Change(grit=grit))
    ball, _ = ball_and_pattern(session)
    release = meant_release(session)
    expected = turn_when_rolled_deg(release, ball)
    assert total_turn_deg(session) == pytest.approx(float(expected[0]), abs=0.02)


def test_surface_and_wear_leave_the_turn_and_revs_and_speed_do_not() -> None:
    now = starting_session(usual_learner())
    before = total_turn_deg(now)
    for change in (Change(grit=500.0), Change(is_polished=True), Change(games=3.0)):
        assert total_turn_deg(changed(now, change)) == pytest.approx(before, abs=0.01)
    assert total_turn_deg(changed(now, Change(revs_rpm=60.0))) > before + SAME_DEG
    assert total_turn_deg(changed(now, Change(speed_mph=2.0))) < before - SAME_DEG


@pytest.mark.parametrize(
    ("change", "answer"),
    [({"grit": 500}, "same"), ({"games": 3}, "same"), ({"revs_rpm": 60}, "more"), ({"speed_mph": 2}, "less")],
)
def test_answers_are_marked(change: dict[str, float], answer: str) -> None:
    question = make_question(KIND, change=change)
    credits = {one.id: mark(question, one.id).credit for one in question.choices}
    assert credits == {one: float(one == answer) for one in ("more", "same", "less")}


def test_a_difference_near_the_limit_leaves_half_for_the_neighbour() -> None:
    question = make_question(KIND, change={"speed_mph": 1})
    assert 0 < mark(question, "same").credit <= 1
    assert 0 < mark(question, "less").credit <= 1
    assert mark(question, "more").credit == 0


def test_every_seed_asks_something_for_both_hands() -> None:
    check_drawn(KIND, 3)


def test_a_straighter_ball_that_slips_at_the_pins_is_said_to() -> None:
    question = make_question(KIND, change={"ball": "plastic_spare"}, pattern="long_44")
    assert "slips at the pins" in question.why


def test_nothing_but_the_change_differs_between_the_two_balls() -> None:
    question = make_question(KIND, change={"grit": 500})
    now, after = question.reveal.now, question.reveal.next
    assert question.scene.next_drawn == "nothing"
    assert now.ball is not None
    assert after == dataclasses.replace(now, ball=dataclasses.replace(now.ball, grit=500.0))
