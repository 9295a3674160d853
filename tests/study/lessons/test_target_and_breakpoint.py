"""What the lesson on the breakpoint claims, against the simulation."""

import pytest

from tests.study.lessons.shown import HANDS, before_and_after, questions

pytestmark = pytest.mark.parametrize("hand", HANDS)
NAME = "target_and_breakpoint"


def _film_um(session, at_ft, board, hand):
    return float(session.pattern.own_film_um(hand)[int(2 * at_ft), round(board) - 1])


def test_the_ball_turns_before_the_oil_ends_where_it_is_thin(hand):
    turn = questions(NAME, hand)[1]
    now = turn.reveal.now
    assert float(turn.answer) <= now.pattern.length_ft - 3
    at_target = _film_um(now, 15, now.line.target_board, hand)
    assert _film_um(now, float(turn.answer), 5, hand) < at_target / 5


def test_a_foot_more_of_other_oil_moves_the_turn_by_far_more(hand):
    flat = questions(NAME, hand)[2]
    first, second = before_and_after(flat)
    assert flat.answer == "later"
    assert second.pattern.length_ft - first.pattern.length_ft == 1
    assert second.breakpoint_ft - first.breakpoint_ft > 5


def test_the_flat_pattern_has_more_oil_outside_where_the_ball_turned(hand):
    now, after = (getattr(questions(NAME, hand)[2].reveal, one) for one in ("now", "next"))
    assert _film_um(after, 36, 6, hand) > 2 * _film_um(now, 36, 6, hand)


def test_a_sooner_turn_hits_higher_and_a_later_one_lighter(hand):
    sooner, later = questions(NAME, hand)[3:]
    first, second = before_and_after(sooner)
    assert sooner.answer == "high"
    assert 1.5 <= first.breakpoint_ft - second.breakpoint_ft < 2.5
    first, second = before_and_after(later)
    assert later.answer == "low"
    assert 0.75 <= second.breakpoint_ft - first.breakpoint_ft < 1.5
