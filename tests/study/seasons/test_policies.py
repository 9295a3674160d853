"""Ways of playing: each does what its name says; the oracle knows the truth and looks only now and then."""

import dataclasses
import types

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.seasons.policies import (
    LOOKS_EVERY,
    POLICIES,
    FollowTheAdvice,
    FollowTheMiss,
    NeverMove,
    Oracle,
    RulebookPolicy,
    policy,
)
from coachlib.study.seasons.season import play_session
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


def test_the_oracles_line_is_truly_better_than_staying():
    gains = []
    for seed in range(6):
        world = lane(seed)
        session = world.start()
        line, ball = Oracle(world).next_line(session)
        stay, best = world.strike_probs([session.line, line], ball, n_balls=1024)
        gains.append(best - stay)
    assert min(gains) > -0.01
    assert np.mean(gains) > 0.03


def test_the_oracle_beats_never_moving_on_a_few_lanes():
    gains = []
    for seed in range(10):
        results = []
        for make in (Oracle, lambda world: NeverMove()):
            world = lane(seed, HOUSE, cl.load_bowler("high_rev_left"))
            results.append(play_session(make(world), world, n_shots=24).expected_strikes_per_100)
        gains.append(results[0] - results[1])
    assert np.mean(gains) > 4.0


def test_the_oracle_looks_again_every_few_balls_only():
    world = lane(3)
    session, oracle = world.start(), Oracle(world)
    line, _ = oracle.next_line(session)
    session = cl.change(session, line=cl.Line(20.0, 12.0))
    for _ in range(LOOKS_EVERY - 1):
        world.throw(line)
        assert oracle.next_line(session)[0] == session.line
    world.throw(line)
    assert oracle.next_line(session)[0] != session.line


def test_the_oracle_never_throws():
    world = lane(3)
    before = world.film_um
    Oracle(world).next_line(world.start())
    assert world.n_thrown == 0
    np.testing.assert_array_equal(world.film_um, before)


def test_the_oracle_needs_a_lane_it_can_read():
    with pytest.raises(cl.InputError, match="world is 3; expected a PracticeLane"):
        Oracle(3)
