"""What is believed of bowlers unlike the usual one: two hands, power, few revs, nothing known."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.particles import draw_particles, far_tailed, release_spread
from coachlib.coaching.belief.table_cache import belief_setting
from tests.benchmarks.kinds import KINDS, silent_on_pocket_hits

NUMBERS = BeliefNumbers()


@pytest.mark.parametrize("pattern", ["house_41", "short_36"])
def test_pocket_strikes_of_a_two_hander_on_30_over_18_are_believed(pattern: str) -> None:
    assert not any(silent_on_pocket_hits(KINDS["two_handed"], pattern, (30, 18)))


def test_tails_reach_far_and_the_middle_stays() -> None:
    normal = np.array([-3.0, -1.0, 0.0, 0.5, 1.0, 3.0])
    drawn = far_tailed(normal, NUMBERS)
    assert np.all(np.diff(drawn) > 0)
    assert drawn[1:5] == pytest.approx(normal[1:5], abs=0.05)
    assert drawn[-1] == pytest.approx(-drawn[0]) == pytest.approx(5.13)  # 0.9 * 3 * (1 + 0.1 * 9)


def test_strong_bowlers_may_differ_more_from_what_they_say() -> None:
    club, power, two_handed = (
        release_spread(cl.load_bowler(name), NUMBERS)
        for name in ("club_right", "high_rev_left", "two_handed_right")
    )
    for name in ("rev_rate_rpm", "axis_rotation_deg"):
        shares = [spread[name][1] / spread[name][0] for spread in (club, power, two_handed)]
        assert shares[0] < min(shares[1:])


@pytest.mark.parametrize("revs_rpm", [0.0, 650.0, 700.0])
def test_revs_at_the_ends_leave_room_for_the_slopes(revs_rpm: float) -> None:
    bowler = cl.Bowler(rev_rate_rpm=revs_rpm, speed_mph=25.0, axis_rotation_deg=110.0)
    drawn = draw_particles(bowler, cl.load_pattern("house_41"), False, NUMBERS)
    assert 0.0 <= drawn.rev_rate_rpm.min() <= drawn.rev_rate_rpm.max() <= 680.0
    assert drawn.speed_mph.max() + 0.7 <= 25.0
    assert drawn.axis_rotation_deg.max() + 6.0 <= 110.0


def test_the_ball_in_the_hand_says_who_throws_straight_until_it_is_known() -> None:
    plastic, hybrid = cl.load_ball("plastic_spare"), cl.load_ball("hybrid_2000")
    setting = belief_setting(cl.Bowler(), None, ball=plastic)
    assert setting.bowler.hook == "straight"
    assert release_spread(setting.bowler, NUMBERS)["axis_rotation_deg"][0] == 0.0
    assert belief_setting(cl.Bowler(), None, ball=hybrid) == belief_setting(cl.Bowler(), None)
    known = cl.Bowler(rev_rate_rpm=300.0)
    assert belief_setting(known, None, ball=plastic) == belief_setting(known, None)
