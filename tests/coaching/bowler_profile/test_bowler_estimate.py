"""What balls tell of their bowler, against bowlers of the model whose numbers are known.

Whether a stated spread is honest: over many bowlers drawn from what is assumed, the error over the stated
spread must have a root mean square near 1: with 16 of them between 0.57 and 1.46 in 99 % of cases
(chi-squared of 16 lies between 5.1 and 34.3).
"""

import dataclasses
import functools

import numpy as np
import pytest
from scipy.special import ndtri
from scipy.stats import qmc

import coachlib as cl
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.belief.parameters import DEFAULT_NUMBERS
from coachlib.coaching.bowler_profile import bowler_estimate
from coachlib.coaching.bowler_profile.bowler_estimate import (
    FEWEST_LANES,
    NAMES,
    BowlerEstimate,
    Estimate,
    estimate_bowler,
    estimate_lines,
)
from coachlib.coaching.simulation.observer import seen_shots
from coachlib.world.oil import thinned
from coachlib.world.usual import as_usual

BALL = cl.load_ball("hybrid_2000")
CLUB = cl.load_bowler("club_right")
UNKNOWN = dataclasses.replace(CLUB, rev_rate_rpm=None, axis_rotation_deg=None)
LINES = {"house_41": cl.Line(29.0, 16.0), "flat_42": cl.Line(22.0, 12.0)}
EMPTY = cl.Session(bowler=UNKNOWN, line=LINES["house_41"], ball=BALL, pattern=cl.load_pattern("house_41"))
N_TRUTHS, N_BALLS = 16, 10
FILM = Estimate(0.98, 0.21, 0.95, 0.24)


def noted(true, film_frac, pattern="house_41", n_balls=N_BALLS, seed=0, knows=UNKNOWN, keep=None):
    sheet = cl.load_pattern(pattern)
    session = cl.Session(bowler=knows, line=LINES[pattern], ball=BALL, pattern=sheet)
    for shot in seen_shots(true, session.line, BALL, thinned(sheet, film_frac), n_balls, seed):
        kept = shot if keep is None else cl.Shot(**{name: getattr(shot, name) for name in keep})
        session = cl.observe(session, kept)
    return session


def bowler(revs, rotation):
    return dataclasses.replace(CLUB, rev_rate_rpm=float(revs), axis_rotation_deg=float(rotation))


@functools.cache
def truths():
    """Return bowlers and films spread evenly over what is assumed, and what ten balls of each tell."""
    usual, numbers = as_usual(UNKNOWN, BALL), DEFAULT_NUMBERS
    even = ndtri(qmc.Sobol(3, rng=np.random.default_rng(11)).random(N_TRUTHS))
    revs = usual.rev_rate_rpm * (1.0 + numbers.unknown_revs_sd_frac * even[:, 0])
    rotation = usual.axis_rotation_deg + numbers.unknown_rotation_sd_deg * even[:, 1]
    film = np.exp(numbers.film_log_mean + numbers.film_log_sd * even[:, 2])
    cases = []
    for number, one in enumerate(zip(revs, rotation, film, strict=True)):
        session = noted(bowler(*one[:2]), one[2], seed=number)
        cases.append((one, estimate_bowler(session)))
    return cases


@pytest.mark.parametrize(("place", "name"), list(enumerate(NAMES)))
def test_stated_spreads_are_honest(place, name):
    estimates = [getattr(found, name) for _, found in truths()]
    true = np.array([one[place] for one, _ in truths()])
    mean, sd = np.array([(one.mean, one.sd) for one in estimates]).T
    is_log = name == "film_frac"
    scores = np.log(mean / true) / (sd / mean) if is_log else (mean - true) / sd
    assert 0.57 < np.sqrt(np.mean(scores**2)) < 1.46
    assert abs(scores).max() < 4.0


def test_ten_balls_tell_the_hand_better_than_what_was_assumed():
    errors = np.array([[found.rev_rate_rpm.mean - true[0], 300.0 - true[0]] for true, found in truths()])
    assert np.mean(errors[:, 0] ** 2) < 0.5 * np.mean(errors[:, 1] ** 2)


def test_it_recovers_a_known_bowler_within_its_own_spread():
    found = estimate_bowler(noted(bowler(250.0, 35.0), 0.75))
    assert abs(found.rev_rate_rpm.mean - 250.0) < 2.0 * found.rev_rate_rpm.sd
    assert abs(found.axis_rotation_deg.mean - 35.0) < 2.0 * found.axis_rotation_deg.sd
    assert found.n_balls == N_BALLS


def test_it_says_what_is_not_told_and_what_stands_in_for_what():
    found = BowlerEstimate(
        Estimate(252.0, 40.0, 300.0, 75.0), Estimate(44.0, 14.0, 45.0, 15.0), FILM, (NAMES[:2],), 10
    )
    assert [getattr(found, name).is_told for name in NAMES] == [True, False, False]
    lines = estimate_lines(found)
    assert lines[0] == "Based on 10 first balls."
    assert lines[1] == "Revs: 252 rpm, give or take 40. Assumed before: 300 rpm, give or take 75."
    assert lines[3].startswith("Film: the balls do not show it. Now ")
    assert lines[3].endswith("assumed before 95 % of the sheet, give or take 24.")
    assert lines[4] == "The balls do not show revs and rotation apart. Either explains them."


def test_three_arrivals_tell_nothing_of_the_film():
    found = estimate_bowler(noted(bowler(250.0, 35.0), 0.75, n_balls=3, keep=("crossed_board", "arrival")))
    assert not found.film_frac.is_told
    assert found.film_frac.sd > 0.75 * found.film_frac.assumed_sd


def test_more_balls_tell_more():
    few, many = (estimate_bowler(noted(bowler(250.0, 35.0), 0.9, n_balls=n)) for n in (2, 20))
    assert many.rev_rate_rpm.sd < 0.9 * few.rev_rate_rpm.sd
    assert few.rev_rate_rpm.assumed_sd == many.rev_rate_rpm.assumed_sd


def test_a_number_that_the_bowler_gave_is_trusted_more():
    session = noted(bowler(250.0, 35.0), 0.75)
    filmed = dataclasses.replace(session, bowler=dataclasses.replace(UNKNOWN, axis_rotation_deg=36.0))
    told = estimate_bowler(filmed)
    assert told.rev_rate_rpm.sd < estimate_bowler(session).rev_rate_rpm.sd
    assert 5.0 < told.axis_rotation_deg.assumed_sd < 6.0  # 5 as numbers say, its tails drawn out
    assert abs(told.axis_rotation_deg.mean - 36.0) < 5.0


def test_a_left_hander_gets_the_same_numbers():
    session = noted(bowler(250.0, 35.0), 0.75, n_balls=4)
    mirrored = dataclasses.replace(session, bowler=dataclasses.replace(UNKNOWN, hand="left"))
    assert estimate_bowler(mirrored) == estimate_bowler(session)


def test_spares_are_left_out_and_other_lanes_tell_of_the_bowler_alone():
    session = noted(bowler(250.0, 35.0), 0.75, n_balls=4)
    found = estimate_bowler(session)
    assert estimate_bowler(cl.observe(session, cl.Shot(arrival=12.0, is_spare=True))) == found
    elsewhere = cl.observe(cl.change(session, lane="2"), cl.Shot(arrival=17.0))
    both = estimate_bowler(elsewhere)
    assert both.n_balls == 5
    assert both.rev_rate_rpm.sd < both.rev_rate_rpm.assumed_sd


def after_one(arrival):
    return estimate_bowler(cl.observe(EMPTY, cl.Shot(arrival=arrival)))


def test_a_class_tells_less_than_a_board():
    by_class, by_board = after_one("high").rev_rate_rpm, after_one(18.7).rev_rate_rpm
    assert by_class.sd > by_board.sd
    assert by_class.mean == pytest.approx(by_board.mean, abs=10.0)


def test_a_high_ball_means_more_hand_than_a_light_one():
    high, light = after_one(21.0), after_one(14.0)
    assert high.rev_rate_rpm.mean > light.rev_rate_rpm.mean
    assert high.axis_rotation_deg.mean > light.axis_rotation_deg.mean


def test_balls_of_two_kinds_are_weighed_each_with_its_own():
    true, plastic = bowler(300.0, 45.0), cl.load_ball("plastic_spare")
    line, sheet = LINES["house_41"], cl.load_pattern("house_41")
    as_one = as_they_were = noted(true, 1.0, n_balls=1)
    as_they_were = cl.change(as_they_were, ball=plastic)
    for shot in seen_shots(true, line, plastic, sheet, 9, seed=2):
        as_they_were, as_one = cl.observe(as_they_were, shot), cl.observe(as_one, shot)
    found = estimate_bowler(cl.change(as_they_were, ball=BALL))
    assert found.n_balls == 10
    assert abs(found.rev_rate_rpm.mean - 300.0) < 2.0 * found.rev_rate_rpm.sd
    assert estimate_bowler(as_one).rev_rate_rpm.mean < found.rev_rate_rpm.mean - 40.0


def test_without_a_ball_to_weigh_it_says_what_to_note():
    with pytest.raises(cl.InputError, match="of at least 1 ball: lane 1 has none of these so far"):
        estimate_bowler(cl.observe(EMPTY, cl.Shot(crossed_board=15.0)))
    with pytest.raises(cl.InputError, match="pattern is None"):
        estimate_bowler(dataclasses.replace(EMPTY, pattern=None))


def test_where_hardly_a_lane_fits_no_more_is_claimed_than_was_assumed(monkeypatch):
    session = noted(bowler(250.0, 35.0), 0.75)
    assert estimate_bowler(session).rev_rate_rpm.is_told
    assert believe(session).n_effective > FEWEST_LANES
    monkeypatch.setattr(bowler_estimate, "FEWEST_LANES", believe(session).n_effective + 1.0)
    assert not any(getattr(estimate_bowler(session), name).is_told for name in NAMES)
