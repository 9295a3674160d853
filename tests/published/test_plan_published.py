"""The starting line against what the trade says. Directions and a band; none of the sayings is a measurement.

* Rule of 31: J. Slowinski's articles and a coach's page, "Exit point vs breakpoint" (opening read): the ball
  leaves the oil at board length - 31; the true breakpoint lies past it, often 1 to 2 boards farther out. It
  is a start only; house and flat patterns, few revs and odd lanes are named as exceptions there.
* Few revs straight and outside, many revs farther inside: a blog, "Playing the pattern" (opening read), and
  common practice.
"""

import pytest

import coachlib as cl
from coachlib.coaching.levers import laydown_board, line_angle_deg
from tests.planned import plan_of

FLAT_BAND_BOARDS = 4.5
"""How far from the rule the exit may be on a flat pattern: twice the 1 to 2 boards of the sources."""


@pytest.mark.parametrize(
    "bowler", ["club_right", "walker_right", "senior_right", "low_rev_right", "two_handed_right"]
)
def test_on_a_flat_pattern_the_ball_leaves_the_oil_near_the_rule_of_31(bowler):
    plan = plan_of(bowler, "flat_42")
    assert plan.session.pattern.rule_of_31_board == 11.0
    assert plan.exit_board == pytest.approx(11.0, abs=FLAT_BAND_BOARDS)


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
