"""Seasons: paired, mirrored to the last digit, the same practice for all, and no policy sees the truth."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.session.setting import Observed
from coachlib.study.hidden_lane.practice import Throw
from coachlib.study.seasons.policies import FollowTheMiss, NeverMove, policy
from coachlib.study.seasons.season import play_session, practised
from tests.hidden_lanes import BALL, CLUB, FLAT, HOUSE, lane, mirrored, uneven

LINE = cl.Line(28.0, 16.0)


class Scripted:
    """A world that shows a given row of shots, over and over."""

    def __init__(self, *shots):
        self.shots, self.lines = shots, []

    def start(self):
        self.lines = []
        return cl.Session(bowler=CLUB, line=LINE, ball=BALL, pattern=HOUSE)

    def throw(self, line, ball=None):
        self.lines.append(line)
        return Throw(self.shots[(len(self.lines) - 1) % len(self.shots)], False, 0.25)


class Witness:
    """A policy that keeps what it was shown."""

    def __init__(self):
        self.sessions = []

    def next_line(self, session):
        self.sessions.append(session)
        return session.line, None


def test_practice_corrects_on_target_misses_by_two_and_one():
    high, light = cl.Shot(crossed_board=16, arrival="high"), cl.Shot(crossed_board=16, arrival="light")
    missed = cl.Shot(crossed_board=19, arrival="nose")
    pocket = cl.Shot(crossed_board=16, arrival="pocket")
    world = Scripted(high, pocket, missed, light)
    session = practised(world, 4)
    assert world.lines == [LINE, *[cl.Line(30.0, 17.0)] * 3]  # none after the last ball
    assert session.line == cl.Line(30.0, 17.0)
    assert practised(Scripted(light), 2).line == cl.Line(26.0, 15.0)


def test_practice_is_the_same_for_all_policies():
    sessions = [play_session(one, lane(2), n_shots=1).session for one in (NeverMove(), FollowTheMiss())]
    assert sessions[0].events[:5] == sessions[1].events[:5]


def test_what_is_counted():
    world = Scripted(cl.Shot(crossed_board=16, arrival="high"))
    result = play_session(FollowTheMiss(), world, n_shots=3, n_practice=1)
    assert result.expected_strikes_per_100 == pytest.approx(25.0)
    assert [line.feet_board for line in result.lines] == [30.0, 32.0, 34.0]
    assert result.n_moves == 3
    assert result.has_moved.all()
    assert result.decision_ms.shape == result.strike_prob.shape == (3,)
    assert (result.decision_ms >= 0.0).all()
    assert len(result.session.shots) == 4
    assert result.session.scoring_started


def test_worlds_are_started_anew():
    world = lane(2)
    one, two = (play_session(NeverMove(), world, n_shots=4) for _ in range(2))
    np.testing.assert_array_equal(one.strike_prob, two.strike_prob)


@pytest.mark.parametrize("name", ["follow the miss", "rulebook", "oracle"])
def test_mirrored_bowler_gives_the_mirrored_season_to_the_last_digit(name):
    pattern, left = uneven(FLAT), dataclasses.replace(CLUB, hand="left")
    worlds = lane(6, pattern), lane(6, mirrored(pattern), left)
    right_way, left_way = (play_session(policy(name, world), world, n_shots=8) for world in worlds)
    np.testing.assert_array_equal(right_way.strike_prob, left_way.strike_prob)
    assert right_way.lines == left_way.lines
    assert [seen.shot for seen in right_way.session.shots] == [seen.shot for seen in left_way.session.shots]
    np.testing.assert_array_equal(worlds[0].film_um, worlds[1].film_um)
    wrong_way = lane(6, pattern, left)
    assert play_session(policy(name, wrong_way), wrong_way, n_shots=8).strike_prob.tolist() != (
        right_way.strike_prob.tolist()
    )


def test_no_policy_sees_the_truth():
    witness = Witness()
    play_session(witness, lane(7), n_shots=6)
    assert len(witness.sessions) == 6
    for session in witness.sessions:
        assert session.seed == 0
        assert (session.bowler, session.ball, session.pattern) == (CLUB, BALL, HOUSE)
        for event in session.events:
            if isinstance(event, Observed):
                assert set(dataclasses.asdict(event.shot)) == {
                    one.name for one in dataclasses.fields(cl.Shot)
                }
                assert event.shot.note == ""


def test_bad_input():
    with pytest.raises(cl.InputError, match="n_shots is 0; expected 1 to 1000 balls"):
        play_session(NeverMove(), lane(), n_shots=0)
    with pytest.raises(cl.InputError, match="n_practice is -1; expected 0 to 100 balls"):
        play_session(NeverMove(), lane(), n_practice=-1)
    with pytest.raises(cl.InputError, match="policy is a str and has no next_line"):
        play_session("stay", lane())
    with pytest.raises(cl.InputError, match="world is a NeverMove and has no start"):
        play_session(NeverMove(), NeverMove())
