"""What was changed on a lane, and how its other lines answered."""

import pytest

import coachlib as cl
from coachlib.coaching.rules.change_facts import (
    is_against_lever,
    mean_known,
    move_history,
    n_moves_same_side,
    was_changed,
)


def answer(session):
    return is_against_lever(session.shots, session)


def two_lines(first, second, n_each=2):
    session = cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11))
    for _ in range(n_each):
        session = cl.observe(session, cl.Shot(crossed_board=11, arrival=first))
    session = cl.change(session, line=cl.Line(24, 12))
    for _ in range(n_each):
        session = cl.observe(session, cl.Shot(crossed_board=12, arrival=second))
    return session


@pytest.mark.parametrize(
    ("first", "second", "expected"),
    [(17.5, 15.5, False), (17.5, 17.2, False), (17.5, 18.2, False), (17.5, 18.5, True), (17.5, 20.0, True)],
)
def test_two_lines_against_the_lever(first, second, expected):
    # on paper two-and-one inside goes two boards lower at the pins (slide model, RULES arithmetic)
    assert answer(two_lines(first, second)) is expected


def test_one_ball_a_line_or_one_line_tells_nothing_of_the_lever():
    assert answer(two_lines(17.5, 20.0, n_each=1)) is None
    assert answer(cl.undo(cl.undo(cl.undo(two_lines(17.5, 20.0))))) is None


def test_another_target_distance_or_ball_is_not_compared():
    session = two_lines(17.5, 20.0)
    assert answer(session)
    other_ball = cl.change(session, ball=cl.load_ball("hybrid_2000"))
    assert answer(other_ball) is None
    farther = cl.change(session, line=cl.Line(24, 12, 20))
    for _ in range(2):
        farther = cl.observe(farther, cl.Shot(crossed_board=12, arrival=22.0))
    assert answer(farther) is None


def test_changes_of_line_are_remembered_lane_by_lane():
    session = two_lines(17.5, 18.5)
    assert was_changed(session)
    assert move_history(session)["sum_inside_moves_boards"] == 2
    assert n_moves_same_side(session, "high") == 1
    assert n_moves_same_side(session, "light") == n_moves_same_side(session, "pocket") == 0
    other = cl.change(session, lane="2")
    assert not was_changed(other)
    assert move_history(other)["sum_inside_moves_boards"] == 0


def test_a_mean_of_nothing_known_is_unknown():
    assert mean_known([None, 2.0, 4.0]) == 3.0
    assert mean_known([None, None]) is mean_known([]) is None
