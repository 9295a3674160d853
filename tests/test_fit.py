"""The fit of one bowler, against bowlers of the model whose numbers are known.

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
from coachlib.coaching import fit, fit_grid
from coachlib.coaching.fit import Assumed, Estimate, assumed_of, fit_bowler
from coachlib.coaching.fit_words import fit_lines
from coachlib.coaching.seeing import seen_shots
from coachlib.world.oil import thinned

BALL = cl.load_ball("hybrid_2000")
CLUB = cl.load_bowler("club_right")
UNKNOWN = dataclasses.replace(CLUB, rev_rate_rpm=None, axis_rotation_deg=None)
LINES = {"house_41": cl.Line(29.0, 16.0), "flat_42": cl.Line(22.0, 12.0)}
N_TRUTHS, N_BALLS = 16, 10


def noted(true, film_frac, pattern="house_41", n_balls=N_BALLS, seed=0, knows=UNKNOWN, keep=None):
    sheet = cl.load_pattern(pattern)
    session = cl.Session(bowler=knows, line=LINES[pattern], ball=BALL, pattern=sheet)
    for shot in seen_shots(true, session.line, BALL, thinned(sheet, film_frac), n_balls, seed):
        session = cl.observe(session, shot if keep is None else only(shot, keep))
    return session


def only(shot, fields):
    return cl.Shot(**{name: getattr(shot, name) for name in fields})


def bowler(revs, rotation):
    return dataclasses.replace(CLUB, rev_rate_rpm=float(revs), axis_rotation_deg=float(rotation))


@functools.cache
def truths():
    """Return bowlers and films spread evenly over what is assumed, and the fit of ten balls of each."""
    prior = Assumed()
    even = ndtri(qmc.Sobol(3, rng=np.random.default_rng(11)).random(N_TRUTHS))
    revs = prior.rev_rate_rpm + prior.rev_rate_sd_rpm * even[:, 0]
    rotation = prior.axis_rotation_deg + prior.axis_rotation_sd_deg * even[:, 1]
    film = np.exp(prior.film_sd_frac * even[:, 2])
    cases = []
    for number, one in enumerate(zip(revs, rotation, film, strict=True)):
        session = noted(bowler(*one[:2]), one[2], seed=number)
        cases.append((one, fit_bowler(session)))
    return cases


def z_scores(name, place):
    scores = []
    for true, found in truths():
        estimate = getattr(found, name)
        if name == "film_frac":
            scores.append((np.log(estimate.mean) - np.log(true[place])) / (estimate.sd / estimate.mean))
        else:
            scores.append((estimate.mean - true[place]) / estimate.sd)
    return np.array(scores)


@pytest.mark.parametrize(("name", "place"), [("rev_rate_rpm", 0), ("axis_rotation_deg", 1), ("film_frac", 2)])
def test_stated_spreads_are_honest(name, place):
    scores = z_scores(name, place)
    assert 0.57 < np.sqrt(np.mean(scores**2)) < 1.46
    assert abs(scores).max() < 4.0


def test_ten_balls_tell_the_hand_better_than_what_was_assumed():
    errors = np.array([[found.rev_rate_rpm.mean - true[0], 300.0 - true[0]] for true, found in truths()])
    assert np.mean(errors[:, 0] ** 2) < 0.5 * np.mean(errors[:, 1] ** 2)


def test_it_recovers_a_known_bowler_within_its_own_spread():
    found = fit_bowler(noted(bowler(250.0, 35.0), 0.75))
    assert abs(found.rev_rate_rpm.mean - 250.0) < 2.0 * found.rev_rate_rpm.sd
    assert abs(found.axis_rotation_deg.mean - 35.0) < 2.0 * found.axis_rotation_deg.sd
    assert found.n_balls == N_BALLS


def test_it_says_that_film_is_not_told_and_what_stands_in_for_what():
    found = fit_bowler(noted(bowler(250.0, 35.0), 0.75))
    assert found.untold == ("film_frac",)
    assert found.tied == (("rev_rate_rpm", "axis_rotation_deg"),)
    lines = fit_lines(found)
    assert lines[0] == "Balls weighed: 10."
    assert lines[1].startswith("Revs: ")
    assert lines[3].startswith("Film: the balls cannot tell. Believed: ")
    assert lines[3].endswith("assumed before: 100 % of the sheet, give or take 30.")
    assert lines[4] == "The balls cannot tell revs from rotation: each can stand in for the other."


def test_arrivals_alone_tell_nothing_of_the_film():
    found = fit_bowler(noted(bowler(250.0, 35.0), 0.75, n_balls=3, keep=("crossed_board", "arrival")))
    assert "film_frac" in found.untold
    assert found.film_frac.sd > 0.9 * found.film_frac.assumed_sd


def test_with_a_steady_hand_and_sharp_eyes_it_finds_the_truth(monkeypatch):
    # limiting case: nothing scatters, everything is seen; then only the exact numbers fit
    for name in (
        "CROSSING_SD_BOARDS",
        "ARRIVAL_SD_BOARDS",
        "BREAKPOINT_SD_BOARDS",
        "BREAKPOINT_SD_FT",
        "SPEED_SD_MPH",
    ):
        monkeypatch.setattr(f"coachlib.coaching.seeing.{name}", 1e-6)
        if hasattr(fit_grid, name):
            monkeypatch.setattr(fit_grid, name, 0.02)
    monkeypatch.setattr(fit_grid, "SEEN_SD", np.array([0.2, 0.5, 0.5]))
    still = {
        "speed_sd_mph": 0.01,
        "rev_rate_sd_rpm": 1.0,
        "axis_rotation_sd_deg": 0.2,
        "axis_tilt_sd_deg": 0.0,
    }
    true = dataclasses.replace(bowler(250.0, 35.0), arrow_sd_boards=0.1, **still)
    knows = dataclasses.replace(true, rev_rate_rpm=None, axis_rotation_deg=None)
    session = noted(true, 0.75, n_balls=20, knows=knows)
    for line in (cl.Line(25.0, 14.0), cl.Line(33.0, 20.0)):
        session = cl.change(session, line=line)
        for shot in seen_shots(true, line, BALL, thinned(cl.load_pattern("house_41"), 0.75), 10, seed=5):
            session = cl.observe(session, shot)
    found = fit_bowler(session)
    assert found.rev_rate_rpm.mean == pytest.approx(250.0, abs=15.0)
    assert found.axis_rotation_deg.mean == pytest.approx(35.0, abs=2.5)
    assert found.film_frac.mean == pytest.approx(0.75, abs=0.08)
    assert found.untold == ()


def test_a_number_that_the_bowler_gave_is_trusted_more():
    session = noted(bowler(250.0, 35.0), 0.75)
    filmed = dataclasses.replace(session, bowler=dataclasses.replace(UNKNOWN, axis_rotation_deg=36.0))
    assert fit_bowler(filmed).rev_rate_rpm.sd < 0.8 * fit_bowler(session).rev_rate_rpm.sd
    assert assumed_of(filmed.bowler) == Assumed(axis_rotation_deg=36.0, axis_rotation_sd_deg=5.0)


def test_a_left_hander_gets_the_same_numbers():
    session = noted(bowler(250.0, 35.0), 0.75, n_balls=4)
    mirrored = dataclasses.replace(session, bowler=dataclasses.replace(UNKNOWN, hand="left"))
    assert fit_bowler(mirrored) == fit_bowler(session)


def test_spares_other_lanes_and_balls_without_an_arrival_are_left_out():
    session = noted(bowler(250.0, 35.0), 0.75, n_balls=4)
    found = fit_bowler(session)
    more = cl.observe(session, cl.Shot(arrival=12.0, is_spare=True))
    more = cl.observe(more, cl.Shot(crossed_board=14.0))
    other = cl.observe(cl.change(more, lane="2"), cl.Shot(arrival=25.0))
    assert fit_bowler(more) == found
    assert fit_bowler(cl.change(other, lane="1")) == found
    assert fit_bowler(other).n_balls == 1


def test_only_the_last_balls_are_weighed():
    session = noted(bowler(250.0, 35.0), 1.0, n_balls=fit.MOST_BALLS + 5, keep=("crossed_board", "arrival"))
    assert fit_bowler(session).n_balls == fit.MOST_BALLS


def test_a_class_counts_as_its_board():
    by_class = cl.Session(
        bowler=UNKNOWN, line=LINES["house_41"], ball=BALL, pattern=cl.load_pattern("house_41")
    )
    by_board = cl.observe(by_class, cl.Shot(arrival=18.7))
    assert fit_bowler(cl.observe(by_class, cl.Shot(arrival="high"))) == fit_bowler(by_board)


def test_a_high_ball_means_more_hand_than_a_light_one():
    empty = cl.Session(bowler=UNKNOWN, line=LINES["house_41"], ball=BALL, pattern=cl.load_pattern("house_41"))
    high, light = (fit_bowler(cl.observe(empty, cl.Shot(arrival=board))) for board in (21.0, 14.0))
    assert high.rev_rate_rpm.mean > light.rev_rate_rpm.mean
    assert high.axis_rotation_deg.mean > light.axis_rotation_deg.mean


def test_balls_of_two_kinds_are_weighed_each_with_its_own():
    true, plastic = bowler(300.0, 45.0), cl.load_ball("plastic_spare")
    shots = seen_shots(true, LINES["house_41"], plastic, cl.load_pattern("house_41"), 9, seed=2)
    session = noted(true, 1.0, n_balls=1)
    as_they_were, as_one = cl.change(session, ball=plastic), session
    for shot in shots:
        as_they_were, as_one = cl.observe(as_they_were, shot), cl.observe(as_one, shot)
    found = fit_bowler(as_they_were)
    assert found.n_balls == 10
    assert abs(found.rev_rate_rpm.mean - 300.0) < 2.0 * found.rev_rate_rpm.sd
    assert fit_bowler(as_one).rev_rate_rpm.mean < 220.0


def test_the_bowler_takes_only_what_was_told():
    told, untold = Estimate(250.04, 10.0, 300.0, 80.0), Estimate(44.0, 14.0, 45.0, 15.0)
    found = fit.BowlerFit(told, untold, Estimate(1.0, 0.3, 1.0, 0.3), (), 5)
    fitted = found.as_bowler(UNKNOWN)
    assert (fitted.rev_rate_rpm, fitted.axis_rotation_deg) == (250.0, None)


def test_without_a_ball_to_weigh_it_says_what_to_note():
    empty = cl.Session(bowler=UNKNOWN, line=LINES["house_41"], ball=BALL, pattern=cl.load_pattern("house_41"))
    with pytest.raises(
        cl.InputError, match="lane 1 has no ball with an arrival or a breakpoint; expected at least 1"
    ):
        fit_bowler(cl.observe(empty, cl.Shot(crossed_board=15.0)))
    with pytest.raises(cl.InputError, match="pattern is None"):
        fit_bowler(dataclasses.replace(empty, pattern=None))


@pytest.mark.parametrize(
    ("field", "value", "text"),
    [
        ("rev_rate_sd_rpm", 0.0, "rev_rate_sd_rpm is 0.0; expected 1 to 300 rpm"),
        ("axis_rotation_deg", 200.0, "axis_rotation_deg is 200.0; expected 0 to 110 deg"),
        ("film_sd_frac", float("nan"), "film_sd_frac is nan; expected 0.01 to 0.5"),
    ],
)
def test_what_is_assumed_is_checked(field, value, text):
    with pytest.raises(cl.InputError, match=text):
        Assumed(**{field: value})


def test_what_is_seen_is_drawn_towards_its_mean_by_the_eye_s_share():
    # derived: regression to the mean, share own² / (own² + eye²)
    value, sd = fit_grid._settled(np.array([14.0, 16.0, np.nan]), 20.0, seeing_sd=1.0, own_sd=1.0)
    assert list(value) == pytest.approx([14.5, 15.5, 15.0])
    assert list(sd) == pytest.approx([np.sqrt(0.5), np.sqrt(0.5), 1.0])
    nothing, _ = fit_grid._settled(np.array([np.nan]), 20.0, seeing_sd=1.0, own_sd=1.0)
    assert list(nothing) == [20.0]
