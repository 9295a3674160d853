"""The judge: takes the truth down before the ball, and changes nothing for who plays."""

import dataclasses
from types import SimpleNamespace

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.seasons.judge import judged_season
from coachlib.study.seasons.policies import policy
from coachlib.study.seasons.season import play_session
from tests.hidden_lanes import lane

NEW = cl.Line(27.0, 15.0)


def confident(session):
    """Advise a fixed line, with chances as a model would give them."""
    told = cl.advise(session, model_on=False)
    cause = dataclasses.replace(told.cause, bowler_prob=0.3)
    chances = {"stay_strike_prob": 0.25, "move_strike_prob": 0.4, "better_lanes_frac": 0.8}
    return SimpleNamespace(**vars(told) | chances | {"new_line": NEW, "cause": cause})


@pytest.mark.parametrize("name", ["never move", "rulebook", "advice", "oracle"])
def test_judged_or_not_the_season_is_the_same(name):
    judged = judged_season(name, lane(5), n_shots=6)
    world = lane(5)
    alone = play_session(policy(name, world), world, n_shots=6)
    np.testing.assert_array_equal(judged.result.strike_prob, alone.strike_prob)
    assert judged.result.lines == alone.lines
    assert len(judged.decisions) == (6 if name == "advice" else 0)


def test_the_truth_is_that_of_the_lane_before_the_ball():
    judged = judged_season("advice", lane(5), n_shots=3, n_practice=2, advisor=confident)
    world = lane(5)
    session = world.start()
    lines = [session.line, judged.result.session.shots[1].line, *judged.result.lines]
    before = None
    for number, line in enumerate(lines):
        if number >= 2:
            row = judged.decisions[number - 2]
            stay, new = world.strike_probs([lines[number - 1], NEW], draw=number + 1)
            assert (row.stay_true_prob, row.new_true_prob) == pytest.approx((stay, new))
            assert judged.line_strike_prob[number - 2] == pytest.approx(
                world.strike_probs([line], draw=number + 1)[0]
            )
            assert (row.release_boards, row.lane_boards) == (before.release_boards, before.lane_boards)
        before = world.throw(line)
        if number >= 2:
            assert row.strike_prob == before.strike_prob


def test_what_was_said_is_kept():
    first, second = judged_season("advice", lane(5), n_shots=2, n_practice=1, advisor=confident).decisions
    assert (first.stay_said_prob, first.new_said_prob, first.better_said_frac) == (0.25, 0.4, 0.8)
    assert first.bowler_said_prob == 0.3
    assert (first.feet_boards, second.feet_boards) == (NEW.feet_board - lane(5).start().line.feet_board, 0.0)
    assert second.new_said_prob == 0.25  # on the new line already: staying is what was said of it
    assert (first.ball_number, second.ball_number) == (1, 2)


def test_nothing_said_is_nan():
    def silent(session):
        return cl.advise(session, model_on=False)

    (row,) = judged_season("advice", lane(5), n_shots=1, advisor=silent).decisions
    said = (row.stay_said_prob, row.new_said_prob, row.better_said_frac, row.bowler_said_prob)
    assert np.isnan(said).all()
    assert 0.0 < row.stay_true_prob < 1.0


def test_bad_input():
    with pytest.raises(cl.InputError, match="policy is 'hope'; expected one of"):
        judged_season("hope", lane())
    with pytest.raises(cl.InputError, match="n_shots is 0; expected 1 to 1000 balls"):
        judged_season("never move", lane(), n_shots=0)
