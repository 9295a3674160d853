"""The starting line against what the trade says. Directions and a band; none of the sayings is a measurement.

* Rule of 31: J. Slowinski's articles and a coach's page, "Exit point vs breakpoint" (opening read): the ball
  leaves the oil at board length - 31; the true breakpoint lies past it, often 1 to 2 boards farther out. It
  is a start only; house and flat patterns, few revs and odd lanes are named as exceptions there.
* Few revs straight and outside, many revs farther inside: a blog, "Playing the pattern" (opening read), and
  common practice.
"""

import functools

import pytest

import coachlib as cl
from coachlib.coaching.levers import laydown_board, line_angle_deg
from coachlib.coaching.plan import starting_line
from tests.planned import plan_of, session_of

BANDS_BOARDS = {"house_41": 2.5, "flat_42": 4.5}
"""How far outside of the rule the oil may be left: the sources' 1 to 2 boards, and twice that where they
themselves call the rule unsure."""

BOWLERS = [name for name in cl.bowler_names() if name != "club_left"]  # club_right with the other hand


@functools.cache
def off_the_rule_boards(bowler, pattern):
    start = starting_line(session_of(bowler, pattern))
    return start.exit_board - start.session.pattern.rule_of_31_board


@pytest.mark.parametrize("pattern", BANDS_BOARDS)
@pytest.mark.parametrize("bowler", BOWLERS)
def test_the_ball_leaves_the_oil_near_the_rule_of_31_and_rather_outside_of_it(bowler, pattern):
    assert -BANDS_BOARDS[pattern] < off_the_rule_boards(bowler, pattern) < 0.5


def test_on_long_oil_rule_and_model_part():
    # a mismatch, kept in sight: the sources give no reason, DEVELOPERS.md says how far
    off = [off_the_rule_boards(bowler, "long_44") for bowler in BOWLERS]
    assert -7.0 < min(off) < -BANDS_BOARDS["flat_42"]
    assert max(off) < 0.5


@pytest.mark.parametrize("bowler", ["club_right", "two_handed_right"])
def test_longer_oil_is_left_farther_inside(bowler):
    exits = [plan_of(bowler, name).exit_board for name in ("short_36", "flat_42")]
    assert exits[1] > exits[0] + 0.9  # the rule says 5 and 11


def test_a_straight_player_stays_outside_and_plays_straighter():
    plans = [plan_of(name).line for name in ("senior_right", "club_right", "two_handed_right")]
    laydowns = [
        laydown_board(line, cl.load_bowler(name))
        for line, name in zip(plans, ("senior_right", "club_right", "two_handed_right"), strict=True)
    ]
    angles = [
        line_angle_deg(line, cl.load_bowler(name))
        for line, name in zip(plans, ("senior_right", "club_right", "two_handed_right"), strict=True)
    ]
    assert laydowns[0] + 5.0 < laydowns[1] < laydowns[2] - 5.0
    assert angles[0] > angles[1] > angles[2]  # more to the outside the more it hooks


def test_on_a_house_pattern_few_revs_start_near_board_8_and_many_over_the_third_arrow():
    # data/rules.toml, house_pattern: "near board 8 straight"; "third arrow out to 8-9"
    assert plan_of("low_rev_right").line.target_board == pytest.approx(8.0, abs=1.5)
    assert plan_of("high_rev_left").exit_board == pytest.approx(8.5, abs=1.0)
