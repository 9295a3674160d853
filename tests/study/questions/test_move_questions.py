"""Naming the move: every choice thrown, the rulebook's own answer right too.

Source
------
A coaching magazine, "Fundamentals of target line adjustments" (20 Mar 2017): 2-and-1 for a high ball, a
parallel move where the line has worn and the angle is liked.
"""

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.move_questions import rule_move
from coachlib.study.questions.question import LEVELS, mark
from coachlib.world.line import Move, after_move
from tests.study.questions.made import check_drawn

WORN = {"came_in": "worn", "games": 3, "pattern": "house_41"}


def hits(question):
    """Return where each choice hits, thrown here once more."""
    now = question.scene.now
    moves = {one.id: Move(*map(float, one.id.split())) for one in question.choices}
    return {name: line_paths(now, after_move(now.line, move)).arrival_board for name, move in moves.items()}


def test_numbers_are_drawn_and_both_hands_are_asked_alike():
    check_drawn("name_the_move", 5)


@pytest.mark.parametrize("level", LEVELS)
def test_what_is_right_finds_the_pocket_or_is_the_rules_own(level):
    for seed in range(8):
        question = make_question("name_the_move", level, seed)
        boards, ruled = hits(question), rule_move(question.scene.now)
        for name, board in boards.items():
            credit = mark(question, name).credit
            is_rule = ruled is not None and Move(*map(float, name.split())) == ruled
            if name == question.answer:
                assert abs(board - 17.5) <= 0.7
            elif not is_rule and question.answer != "+0 +0":
                assert (credit == 1) == (abs(board - 17.5) <= 0.7)
            elif question.answer == "+0 +0":
                assert credit <= 0.5
        assert any(mark(question, name).credit == 0 for name in boards)


def test_in_the_pocket_you_stay():
    for seed in range(10):
        question = make_question("name_the_move", "oil", seed, came_in="pocket")
        assert question.answer == "+0 +0"
        assert rule_move(question.scene.now) == Move()


def test_the_rule_is_right_where_the_simulation_names_another():
    question = make_question("name_the_move", "wear", 1, came_in="worn", games=2, pattern="house_41")
    ruled = rule_move(question.scene.now)
    name = f"{ruled.feet_boards:+g} {ruled.target_boards:+g}"
    assert name != question.answer
    assert mark(question, name).credit == 1
    assert mark(question, name).why.startswith("The rule of thumb. On this oil it hits at")


def test_a_worn_house_line_moves_over_and_a_high_ball_on_flat_oil_turns():
    worn = make_question("name_the_move", "wear", 1, moves=[(2, 2), (2, 1), (-1, -1)], **WORN)
    assert worn.answer == "+2 +2"
    assert "Four bowlers like you have thrown 3 games on your line." in worn.prompt
    flat = make_question(
        "name_the_move", "thin", 1, came_in="high", moves=[(2, 2), (2, 1)], pattern="flat_42"
    )
    assert flat.answer == "+2 +1"
    assert mark(flat, "+2 +2").credit == 0


def test_moves_of_which_none_helps_are_refused():
    with pytest.raises(InputError, match="came_in is 'high'; expected balls that one of the moves answers"):
        make_question("name_the_move", came_in="high", moves=[(-1, -1), (-2, -1)], pattern="house_41")
    with pytest.raises(InputError, match="came_in is 'nose'; expected one of 'high', 'pocket'"):
        make_question("name_the_move", came_in="nose")
