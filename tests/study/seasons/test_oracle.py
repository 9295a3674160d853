"""The oracle: it knows the truth, so it wins, and looks only now and then."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.seasons.policies import LOOKS_EVERY, NeverMove, Oracle
from coachlib.study.seasons.season import play_session
from tests.hidden_lanes import HOUSE, lane

HIGH_REV = cl.load_bowler("high_rev_left")


def test_its_line_is_truly_better_than_staying():
    gains = []
    for seed in range(6):
        world = lane(seed)
        session = world.start()
        line, ball = Oracle(world).next_line(session)
        stay, best = world.strike_probs([session.line, line], ball, n_balls=1024)
        gains.append(best - stay)
    assert min(gains) > -0.01
    assert np.mean(gains) > 0.03


def test_it_beats_never_moving_on_a_few_lanes():
    gains = []
    for seed in range(10):
        results = []
        for make in (Oracle, lambda world: NeverMove()):
            world = lane(seed, HOUSE, HIGH_REV)
            results.append(play_session(make(world), world, n_shots=24).expected_strikes_per_100)
        gains.append(results[0] - results[1])
    assert np.mean(gains) > 4.0


def test_it_looks_again_every_few_balls_only():
    world = lane(3)
    session, oracle = world.start(), Oracle(world)
    line, _ = oracle.next_line(session)
    session = cl.change(session, line=cl.Line(20.0, 12.0))
    for _ in range(LOOKS_EVERY - 1):
        world.throw(line)
        assert oracle.next_line(session)[0] == session.line
    world.throw(line)
    assert oracle.next_line(session)[0] != session.line


def test_it_never_throws():
    world = lane(3)
    before = world.film_um
    Oracle(world).next_line(world.start())
    assert world.n_thrown == 0
    np.testing.assert_array_equal(world.film_um, before)


def test_it_needs_a_lane_it_can_read():
    with pytest.raises(cl.InputError, match="world is 3; expected a PracticeLane"):
        Oracle(3)
