"""What the lesson on a 2-and-1 claims, against geometry and the simulation, for either hand."""

import pytest

from coachlib.study.lessons.lesson import load_lesson
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.question import mark
from coachlib.world.levers import board_at, line_shift_boards, pivot_ft
from coachlib.world.line import Move
from tests.study.lessons.shown import HANDS, before_and_after, questions

LESSON = load_lesson("two_and_one")
MOVE = Move(feet_boards=2.0, target_boards=1.0)

pytestmark = pytest.mark.parametrize("hand", HANDS)


def test_who_slides_starts_as_far_over_as_the_feet_moved(hand):
    first = questions("two_and_one", hand)[0]
    assert first.answer == "+2.00"
    assert line_shift_boards(MOVE, 0.0, "slide") == 2


def test_the_lines_cross_at_30_ft_with_more_oil_before_it(hand):
    crossing = questions("two_and_one", hand)[1]
    assert crossing.answer == pivot_ft(MOVE) == 30
    now, after = crossing.scene.now, crossing.scene.next
    film = now.pattern.own_film_um(hand)
    for at_ft in (10, 20):
        old, new = (round(board_at(one.line, one.bowler, at_ft)) for one in (now, after))
        assert new > old
        row = film[round(at_ft / now.pattern.step_ft)]
        assert row[new - 1] >= row[old - 1]
    assert board_at(after.line, after.bowler, 45.0) < board_at(now.line, now.bowler, 45.0)


def test_a_ball_through_the_nose_comes_back_to_the_pocket_and_strikes_more(hand):
    now, after = before_and_after(questions("two_and_one", hand)[2])
    assert after.arrival_board == pytest.approx(17.5, abs=0.25)
    assert after.arrival_board - now.arrival_board == pytest.approx(-2, abs=0.5)
    assert after.n_strikes > now.n_strikes


def test_a_bet_the_wrong_way_is_not_half_correct(hand):
    question = questions("two_and_one", hand)[2]
    assert mark(question, 17.5).credit == 1
    assert mark(question, 16.0).credit == 0.5
    assert mark(question, 19.5).credit == 0  # it stays where it was
    assert mark(question, 21.0).credit == 0


def test_who_walks_gets_half_a_board_on_paper_and_3_and_1_for_2_and_1(hand):
    assert questions("two_and_one", hand)[3].answer == "-0.50"
    three_and_one = Move(feet_boards=3.0, target_boards=1.0)
    assert line_shift_boards(three_and_one, 60.0, "walk") == line_shift_boards(MOVE, 60.0, "slide") == -2


def test_in_the_pocket_the_move_costs_strikes(hand):
    question = questions("two_and_one", hand)[4]
    now, after = before_and_after(question)
    assert round(2 * now.arrival_board) / 2 == 17.5  # the prompt says so
    assert after.arrival_board < 16.8
    assert after.n_strikes <= now.n_strikes - 3


def test_the_three_at_the_end_have_numbers_of_their_own(hand):
    for drill in LESSON.drills:
        asked = [drill.question(seed, usual_learner(hand)) for seed in range(12)]
        assert len({(one.prompt, str(one.answer)) for one in asked}) > 3
