"""What speed, hand, surface and another ball are worth on the lanes that fit."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.advice.change_values import resurfaced_one_step, struck_on_lanes, worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.advice.line_values import strike_on_lanes
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.table_cache import belief_setting
from coachlib.coaching.simulation.outcomes import n_of_twenty

BOWLER = cl.Bowler(speed_mph=17.0, rev_rate_rpm=300.0, axis_rotation_deg=45.0, axis_tilt_deg=13.0)
HOUSE = cl.load_pattern("house_41")
BALL = cl.load_ball("hybrid_2000")
LINE = cl.Line(26, 13)
FEW = BeliefNumbers(n_particles=64)


def played(bowler=BOWLER, arrival="high"):
    session = cl.Session(bowler=bowler, line=LINE, ball=BALL, pattern=HOUSE)
    for crossed in (13.0, 13.0, 13.5):
        session = cl.observe(session, cl.Shot(crossed_board=crossed, arrival=arrival))
    return session


def test_no_change_is_what_the_table_says():
    setting = belief_setting(BOWLER, HOUSE, FEW)
    here = struck_on_lanes(setting, BALL, LINE)
    table = strike_on_lanes(setting, BALL, (LINE,))[:, 0]
    assert np.abs(here - table).max() < 0.03
    assert abs(here.mean() - table.mean()) < 0.01


def test_a_dried_lane_plays_as_if_thrown_slower():
    setting, rows = belief_setting(BOWLER, HOUSE, FEW), np.arange(0, 64, 3)
    by_line = struck_on_lanes(setting, BALL, LINE, -0.6, rows)
    table = strike_on_lanes(setting, BALL, (LINE,), rows, 0.6)[:, 0]
    fresh = strike_on_lanes(setting, BALL, (LINE,), rows)[:, 0]
    stay = struck_on_lanes(setting, BALL, LINE, rows=rows)
    assert abs(by_line.mean() - table.mean()) < 0.01
    assert np.corrcoef(by_line - stay, table - fresh)[0, 1] > 0.95


@pytest.mark.parametrize("more_mph", [-1.0, -0.5, 0.5, 1.0])
def test_slopes_agree_with_a_bowler_who_throws_so(more_mph):
    # The same lanes, marched anew with the other speed.
    setting = belief_setting(BOWLER, HOUSE, FEW)
    faster = dataclasses.replace(BOWLER, speed_mph=BOWLER.speed_mph + more_mph)
    marched = struck_on_lanes(belief_setting(faster, HOUSE, FEW), BALL, LINE)
    by_slope = struck_on_lanes(setting, BALL, LINE, more_mph)
    stay = struck_on_lanes(setting, BALL, LINE)
    assert abs(by_slope.mean() - marched.mean()) < 0.01
    assert np.corrcoef(by_slope - stay, marched - stay)[0, 1] > 0.98


def test_another_rotation_is_that_of_a_bowler_who_throws_so():
    other = dataclasses.replace(BOWLER, axis_rotation_deg=35.0)
    turned = dataclasses.replace(belief_setting(BOWLER, HOUSE, FEW), more_rotation_deg=-10.0)
    marched = struck_on_lanes(belief_setting(other, HOUSE, FEW), BALL, LINE)
    assert np.allclose(struck_on_lanes(turned, BALL, LINE), marched)


def test_a_high_ball_wants_more_speed_and_a_light_one_less():
    # common practice, no source
    faster, slower = cl.Move(speed_mph=0.5), cl.Move(speed_mph=-0.5)
    high, light = played(), played(arrival="light")
    assert worth(high, faster).gain_prob > worth(high, slower).gain_prob
    assert worth(light, slower).gain_prob > worth(light, faster).gain_prob


def test_surface_is_another_ball_of_one_step():
    session = played()
    duller = worth(session, cl.Move(surface="duller"))
    told = worth(session, cl.Move(ball="stronger"), resurfaced_one_step(BALL, "duller"))
    assert duller.strike_prob == told.strike_prob != duller.stay_strike_prob
    assert resurfaced_one_step(BALL, "duller").grit == 1000
    assert resurfaced_one_step(BALL, "smoother").grit == 4000


def test_left_is_right():
    left, right = played(dataclasses.replace(BOWLER, hand="left")), played()
    for move in (cl.Move(speed_mph=0.5), cl.Move(feet_boards=2, target_boards=1, rotation_deg=-10)):
        assert worth(left, move).gain_prob == worth(right, move).gain_prob


@pytest.mark.parametrize(
    ("move", "message"),
    [
        (cl.Move(ball="stronger"), "ball is missing for a change to a stronger ball"),
        (cl.Move(feet_boards=18), "does not fit"),
        (cl.Move(target_ft=5), "another target distance is not simulated"),
        ("faster", "move"),
    ],
)
def test_bad_input_is_told(move, message):
    with pytest.raises(cl.InputError, match=message):
        worth(played(), move)


def test_advice_weighs_a_little_speed_and_says_it_with_care():
    session = played(arrival="nose")
    advice = cl.advise(session)
    (faster,) = advice.model.changes
    told = worth(session, cl.Move(speed_mph=0.5))
    assert faster.move == told.move
    assert faster.gain_prob == pytest.approx(DISPLAY_FACTOR * told.gain_prob)
    # told only beside counts, and only where its own count is another
    best_prob = advice.move_strike_prob
    is_told = best_prob is not None and n_of_twenty(faster.strike_prob) != n_of_twenty(best_prob)
    assert ("Half a mph faster" in " ".join(cl.say(advice).runners_up)) == is_told
    young = cl.advise(played(dataclasses.replace(BOWLER, age_years=10.0), "nose"))
    assert young.model.changes == ()
