"""Which move brings the ball back: the moves thrown one by one, and the rules of thumb beside them."""

import dataclasses

import pytest

from coachlib.coaching.simulation.paths import line_paths
from coachlib.errors import InputError
from coachlib.study.questions.ask import make_question
from coachlib.study.questions.move_back import (
    LEAST_OFF_BOARDS,
    MOVES,
    NEAR_BOARDS,
    rule_for_ball,
    rule_move,
)
from coachlib.study.questions.question import LEVELS, Level, Question, mark
from coachlib.world.lane import POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.line import Move, after_move
from tests.study.questions.made import check_drawn

KIND = "move_back"
BY_ID = {f"{int(one.feet_boards):+d} {int(one.target_boards):+d}": one for one in MOVES}


def _off_boards(question: Question, choice: str) -> float:
    """Return how far from the pocket's middle the ball hits after a choice, thrown by itself."""
    session = question.reveal.now
    line = after_move(session.line, BY_ID[choice])
    return abs(line_paths(dataclasses.replace(session, line=line), line).arrival_board - POCKET_BOARD)


def test_every_seed_asks_something_for_both_hands() -> None:
    check_drawn(KIND, 5)


@pytest.mark.parametrize("level", LEVELS)
def test_marks_follow_what_each_move_does(level: Level) -> None:
    for seed in range(12):
        question = make_question(KIND, level, seed)
        off = {one.id: _off_boards(question, one.id) for one in question.choices}
        assert off[str(question.answer)] <= POCKET_HALF_BOARDS
        stays = abs(line_paths(question.reveal.now, question.reveal.now.line).arrival_board - POCKET_BOARD)
        assert stays >= LEAST_OFF_BOARDS
        for choice, boards in off.items():
            marked = mark(question, choice)
            if boards <= POCKET_HALF_BOARDS:
                assert marked.credit == 1.0
            elif boards > NEAR_BOARDS:
                assert marked.credit == 0.0 or "rule of thumb" in marked.why


def test_after_wear_the_rule_follows_the_high_ball_inside() -> None:
    # In print: high on target, feet inside (data/rules.toml, S1, S2, S7).
    question = make_question(KIND, change={"games": 3})
    rule = rule_move(question.scene.now, question.reveal.now, 3.0)
    assert rule is not None
    assert rule.feet_boards > 0
    assert mark(question, question.answer).credit == 1.0


@pytest.mark.parametrize(("ball", "move"), [("solid_1000", (2.0, 1.0)), ("pearl_polished", (-2.0, -1.0))])
def test_another_ball_takes_the_move_that_is_said_in_the_trade(ball: str, move: tuple[float, float]) -> None:
    # Common practice: a stronger ball 2 and 1 inside, a weaker one 2 and 1 outside (RULES section H, S49).
    question = make_question(KIND, change={"ball": ball})
    rule = rule_for_ball(question.scene.now, question.reveal.now)
    assert rule == Move(feet_boards=move[0], target_boards=move[1])
    assert mark(question, f"{move[0]:+.0f} {move[1]:+.0f}").credit == 1.0


def test_the_wrong_way_and_staying_are_not_right() -> None:
    question = make_question(KIND, change={"ball": "solid_1000"}, pattern="house_41")
    assert mark(question, "+0 +0").credit == 0.0
    assert mark(question, "-1 +0").credit == 0.0


def test_a_change_that_no_small_move_takes_back_is_refused() -> None:
    with pytest.raises(InputError, match=r"change is .*; expected one that a small move takes back"):
        make_question(KIND, change={"games": 0.1})
