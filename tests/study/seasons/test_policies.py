"""Ways of playing: each does what its name says."""

import dataclasses
import types

import pytest

import coachlib as cl
from coachlib.study.seasons.policies import (
    POLICIES,
    FollowTheAdvice,
    FollowTheMiss,
    NeverMove,
    RulebookPolicy,
    policy,
)
from tests.hidden_lanes import BALL, CLUB, HOUSE, lane

LINE = cl.Line(28.0, 16.0)
START = cl.Session(bowler=CLUB, line=LINE, ball=BALL, pattern=HOUSE)


def seen(*arrivals, crossed=16.0):
    session = START
    for arrival in arrivals:
        session = cl.observe(session, cl.Shot(crossed_board=crossed, arrival=arrival))
    return session


def test_never_move_stays():
    assert NeverMove().next_line(seen("nose", "nose", "nose")) == (LINE, BALL)


@pytest.mark.parametrize(("arrival", "feet"), [("nose", 30.0), ("light", 26.0), ("pocket", 28.0)])
def test_follow_the_miss_moves_the_feet_two_boards(arrival, feet):
    assert FollowTheMiss().next_line(seen(arrival)) == (cl.Line(feet, 16.0), BALL)


def test_follow_the_miss_stays_where_a_move_does_not_fit():
    narrow = dataclasses.replace(START, bowler=dataclasses.replace(CLUB, feet_high_board=29.0))
    assert FollowTheMiss().next_line(cl.observe(narrow, cl.Shot(arrival="high")))[0] == LINE


def test_before_a_ball_nobody_moves():
    for way in (NeverMove(), FollowTheMiss(), RulebookPolicy(), FollowTheAdvice()):
        assert way.next_line(START) == (LINE, BALL)


def test_the_rulebook_does_the_rules_move():
    session = seen("high", "high", "high", "high")
    move = cl.advise(session).rule.move
    assert move.feet_boards > 0
    line, _ = RulebookPolicy().next_line(session)
    assert (line.feet_board, line.target_board) == (28.0 + move.feet_boards, 16.0 + move.target_boards)


def test_the_rulebook_leaves_other_changes_alone():
    faster = types.SimpleNamespace(rule=types.SimpleNamespace(move=cl.Move(speed_mph=1.0)))
    assert RulebookPolicy(lambda session: faster).next_line(START) == (LINE, BALL)


def test_the_advice_goes_to_its_new_line():
    told = types.SimpleNamespace(new_line=cl.Line(31.0, 18.0))
    assert FollowTheAdvice(lambda session: told).next_line(START) == (cl.Line(31.0, 18.0), BALL)


def test_every_policy_has_a_name_and_unknown_names_are_listed():
    world = lane()
    assert list(POLICIES) == ["never move", "follow the miss", "rulebook", "advice", "oracle"]
    assert isinstance(policy("rulebook", world), RulebookPolicy)
    with pytest.raises(cl.InputError, match=r"policy is 'guess'; expected one of 'never move'.*'oracle'"):
        policy("guess", world)
