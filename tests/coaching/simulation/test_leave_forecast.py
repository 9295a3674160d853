"""What twenty balls are likely to leave: whole balls that add up, for either hand, nothing beyond the racks.

Limiting cases and invariants; what the chances themselves are worth is checked in
tests/physics/pins/test_carry.py and tests/published/test_carry_facts.py. Bowlers are invented.
"""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.leave_forecast import (
    N_NAMED,
    LikelyLeaves,
    deck_words,
    leaves_of,
    likely_leaves,
    whole_counts,
)
from coachlib.coaching.simulation.paths import N_BALLS, line_paths
from coachlib.physics.pins.carry import leave_probs
from coachlib.world.ball import load_ball
from coachlib.world.bowler import load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern

HOUSE, HYBRID = load_pattern("house_41"), load_ball("hybrid_2000")
SURE = Line(29.0, 16.0)


def thrown(line=SURE, ball=HYBRID):
    return line_paths(Session(load_bowler("club_right"), line, ball=ball, pattern=HOUSE), line)


def arriving(board, entry_deg=5.0, speed_mph=17.0, weight_lb=15.0):
    """Return twenty balls that arrive as asked; one value or one a ball."""
    paths = thrown()
    n_shots = paths.path.n_shots

    def column(values):
        return np.append(np.nan, np.broadcast_to(np.asarray(values, dtype=float), n_shots - 1))

    path = dataclasses.replace(
        paths.path,
        arrival_board=column(board),
        entry_deg=column(entry_deg),
        speed_at_pins_mph=column(speed_mph),
    )
    return dataclasses.replace(paths, path=path, ball_weight_lb=weight_lb)


def total(likely):
    return (
        likely.n_strikes
        + sum(n for _, n in likely.leaves)
        + likely.n_other
        + likely.n_gutter
        + likely.n_outside
        + likely.n_past
    )


def test_twenty_equal_balls_leave_what_one_ball_leaves_to_a_whole_ball():
    chances = leave_probs(17.5, 5.0, 17.0, 15.0)
    likely = likely_leaves(arriving(17.5))
    assert likely.n_strikes == pytest.approx(20 * chances.strike_prob, abs=1.0)
    for pins, n_balls in likely.leaves:
        assert n_balls == pytest.approx(20 * chances[frozenset(pins)], abs=1.0)
    assert total(likely) == likely.n_balls == N_BALLS


def test_balls_given_by_their_arrival_strike_as_often_as_the_same_balls_drawn():
    path = thrown().path
    columns = (path.arrival_board[1:], path.entry_deg[1:], path.speed_at_pins_mph[1:])
    told = leaves_of(*columns, ball_weight_lb=15.0)
    assert told.n_strikes == pytest.approx(likely_leaves(thrown()).n_strikes, abs=1)
    alike = leaves_of(np.full(20, 17.5), 5.0, 17.0).n_strikes
    assert alike == pytest.approx(likely_leaves(arriving(17.5)).n_strikes, abs=1)
    assert leaves_of(17.5, 5.0, 17.0).n_balls == 1


def test_half_in_the_pocket_and_half_elsewhere_is_the_mean_of_the_two():
    there = np.repeat([17.5, 12.5], 10)
    chances = [leave_probs(board, 5.0, 17.0, 15.0) for board in (17.5, 12.5)]
    expected = 10 * (chances[0].strike_prob + chances[1].strike_prob)
    assert likely_leaves(arriving(there)).n_strikes == pytest.approx(expected, abs=1.0)


@given(st.lists(st.floats(1.0, 39.0), min_size=20, max_size=20), st.floats(-4.0, 12.0))
def test_the_counts_always_add_up_and_few_leaves_are_named(boards, entry_deg):
    likely = likely_leaves(arriving(boards, entry_deg))
    assert total(likely) == N_BALLS
    assert len(likely.leaves) <= N_NAMED
    counts = [n for _, n in likely.leaves]
    assert counts == sorted(counts, reverse=True)
    assert all(n > 0 for n in counts)
    assert min(likely.n_strikes, likely.n_other, likely.n_gutter, likely.n_outside, likely.n_past) >= 0


def test_the_ball_that_is_thrown_is_weighed():
    assert thrown().ball_weight_lb == HYBRID.weight_lb
    assert thrown(ball=None).ball_weight_lb == 15.0
    light = dataclasses.replace(HYBRID, weight_lb=10.0)
    assert thrown(ball=light).ball_weight_lb == 10.0
    # a lighter ball is turned aside more, so a light hit strikes less: mechanics, limiting case
    heavy_strikes, light_strikes = (
        likely_leaves(arriving(17.0, weight_lb=weight)).n_strikes for weight in (15.0, 9.0)
    )
    assert light_strikes < heavy_strikes


def test_nothing_is_claimed_of_balls_outside_the_racks_thrown():
    likely = likely_leaves(arriving(np.repeat([17.5, 36.0], [15, 5])))
    assert (likely.n_past, likely.n_outside) == (5, 0)
    assert deck_words(likely, "right").endswith("5 past the head pin")
    steep = dataclasses.replace(arriving(17.5, np.repeat([5.0, 9.0], [9, 11])), n_told=5)
    assert likely_leaves(steep).n_outside > 0
    mostly = leaves_of(np.repeat([17.5, 36.0], [9, 11]), 5.0, 17.0)
    assert not mostly.is_told
    assert deck_words(mostly, "right") == "not told, 11 arrive outside the racks thrown"
    assert not leaves_of(17.5, 9.0, 17.0).is_told
    assert not leaves_of(17.5, 5.0, 17.0, ball_weight_lb=7.0).is_told


def test_balls_in_the_gutter_are_told_and_no_strike_is_spoken_of_where_nothing_arrives():
    likely = likely_leaves(arriving(np.repeat([17.5, np.nan], [12, 8])))
    assert likely.n_gutter == 8
    assert "8 in the gutter" in deck_words(likely, "right")
    assert deck_words(likely_leaves(arriving(np.nan)), "right") == "20 in the gutter"


def test_words_turn_for_a_left_hander_and_count_in_balls():
    likely = LikelyLeaves(20, 12, (((10,), 4), ((2, 4, 5, 8), 1)), 2, 1, 0)
    assert deck_words(likely, "right") == (
        "12 strikes, 4 leave the 10-pin, 1 the bucket 2-4-5-8, 2 something else, 1 in the gutter"
    )
    assert deck_words(likely, "left") == (
        "12 strikes, 4 leave the 7-pin, 1 the bucket 3-5-6-9, 2 something else, 1 in the gutter"
    )
    few = LikelyLeaves(20, 1, (((4, 7), 1),), 18, 0, 0)
    assert deck_words(few, "right") == "1 strike, 1 leaves the 4-7, 18 something else"
    none = LikelyLeaves(20, 0, (), 20, 0, 0)
    assert deck_words(none, "right") == "no strike, 20 leave something else"


def test_shares_become_whole_balls_by_the_largest_remainder():
    # limiting case worked by hand: 10.4, 5.35, 4.25 of 20 is 10, 5, 4 and one over, for .4
    assert whole_counts([0.52, 0.2675, 0.2125], 20) == [11, 5, 4]
    assert whole_counts([0.5, 0.25, 0.25], 20) == [10, 5, 5]
    assert whole_counts([1 / 3, 1 / 3, 1 / 3], 20) == [7, 7, 6]
    assert whole_counts([0.0, 1.0], 0) == [0, 0]
