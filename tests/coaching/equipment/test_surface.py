"""Sanding and polishing: another surface on the same line, by speed, and where it pays."""

import dataclasses
import itertools

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.equipment.surface import (
    best_chances_by_film,
    by_surface,
    duller_on_lines,
    sanded_by_speed,
    surface_cautions,
)
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.physics.friction import roughness_um
from coachlib.world.ball import resurfaced

BALL = cl.load_ball("hybrid_2000")
SESSION = cl.Session(
    bowler=cl.load_bowler("club_right"), line=cl.Line(29, 16), ball=BALL, pattern=cl.load_pattern("house_41")
)
BURNT = dataclasses.replace(SESSION, bowler=cl.load_bowler("two_handed_right"))


def test_sanding_changes_the_surface_and_nothing_else():
    measured = dataclasses.replace(BALL, roughness_um=0.3, is_polished=True)
    sanded = resurfaced(measured, 1000)
    assert (sanded.grit, sanded.is_polished, sanded.roughness_um) == (1000.0, False, None)
    assert dataclasses.replace(sanded, grit=2000.0) == BALL
    with pytest.raises(cl.InputError, match="grit is 50"):
        resurfaced(BALL, 50)


def test_roughness_changes_smoothly_with_the_pad():
    grits = np.linspace(500, 4000, 71)
    rough = np.array([roughness_um(resurfaced(BALL, grit)) for grit in grits])
    assert (np.diff(rough) < 0).all()
    assert np.abs(np.diff(rough)).max() < 0.06
    assert roughness_um(resurfaced(BALL, 4000, is_polished=True)) < rough[-1]


def test_each_row_is_the_ball_thrown_with_that_surface():
    results = by_surface(SESSION, (1000.0, 3000.0))
    assert [(one.ball.grit, one.ball.is_polished) for one in results] == [
        (1000.0, False), (3000.0, False), (3000.0, True),
    ]  # fmt: skip
    path = simulate_lines(dataclasses.replace(SESSION, ball=resurfaced(BALL, 3000.0)))
    assert (results[1].skid_ft, results[1].arrival_board) == (path.hook_ft[0], path.arrival_board[0])


def test_all_that_turns_turns_before_or_past_the_oil():
    for one in by_surface(SESSION):
        launch_deg = one.entry_deg - one.early_turn_deg - one.late_turn_deg
        assert launch_deg == pytest.approx(-2.20, abs=0.03)


@pytest.mark.parametrize("pattern", ["house_41", "flat_42", "long_44"])
def test_duller_turns_earlier_and_has_less_left_past_the_oil(pattern):
    # published direction: coarser gives earlier friction and a smoother arc, polish longer and sharper (trade
    # magazine, "Surface management"); mechanics: the entry angle of a ball that rolls is the same
    results = by_surface(dataclasses.replace(SESSION, pattern=cl.load_pattern(pattern)))
    for duller, smoother in itertools.pairwise(results):
        assert duller.skid_ft < smoother.skid_ft
        assert duller.roll_ft < smoother.roll_ft
        assert duller.late_turn_deg < smoother.late_turn_deg
        assert duller.entry_deg == pytest.approx(smoother.entry_deg, abs=1e-6)


def test_the_same_sanding_by_speed_is_the_two_balls_thrown_at_that_speed():
    slow, fast = sanded_by_speed(SESSION, 2000.0, 1000.0, (15.0, 20.0))
    for one in (slow, fast):
        arrivals = [
            simulate_lines(dataclasses.replace(SESSION, ball=resurfaced(BALL, grit)), speed_mph=one.speed_mph)
            for grit in (1000.0, 2000.0)
        ]
        change = arrivals[0].arrival_board[0] - arrivals[1].arrival_board[0]
        assert one.arrival_change_boards == pytest.approx(change, abs=1e-9)
        assert one.skid_change_ft < 0
        assert one.late_turn_change_deg < 0


def test_on_no_line_does_duller_arrive_lower_but_everywhere_less_turn_is_left():
    found = duller_on_lines(SESSION)
    assert found.n_lines > 100
    assert found.n_lower == 0
    assert found.least_change_boards > 0
    assert found.late_turn_change_deg < -0.2


def test_it_counts_a_line_where_the_first_surface_arrives_lower():
    # the other way round: what is called dull is the smoother one
    found = duller_on_lines(SESSION, dull_grit=4000.0, smooth_grit=500.0)
    assert found.n_lower == found.n_lines


def test_on_burnt_film_the_dull_ball_s_best_line_is_worth_less():
    # rule of thumb: dull on dry burns up
    chances = best_chances_by_film(BURNT, (500.0, 4000.0), (1.0, 0.3), n_balls=16)
    dull, smooth = chances[500.0], chances[4000.0]
    assert smooth[1] > dull[1] + 0.1
    assert dull[0] - dull[1] > smooth[0] - smooth[1]


def test_cautions_come_before_the_pad():
    told = " ".join(surface_cautions(SESSION, "duller"))
    assert "mask and eye protection" in told
    assert "Only before the first scored ball" in told
    started = " ".join(surface_cautions(cl.change(SESSION, scoring_started=True), "smoother"))
    assert "Scoring has started: the surface may not be altered" in started
    with pytest.raises(cl.InputError, match="way is 'rough'; expected one of 'duller', 'smoother'"):
        surface_cautions(SESSION, "rough")


@pytest.mark.parametrize("scoring_started", [False, True])
def test_advice_says_surface_with_both_cautions_and_never_once_scoring_has_started(scoring_started):
    # over-hook, in high and light; with a hurting wrist the change of hand that stands before it is not asked
    session = dataclasses.replace(
        SESSION,
        bowler=cl.load_bowler("club_left"),
        games_on_lane=1.0,
        scoring_started=scoring_started,
    )
    session = dataclasses.replace(session, bowler=dataclasses.replace(session.bowler, pain="wrist"))
    session = dataclasses.replace(session, goes_on_with_pain=True)
    for arrival in ("high", "light", "high", "high"):
        session = cl.observe(session, cl.Shot(crossed_board=16, arrival=arrival, motion="over_hook"))
    advice = cl.advise(session, model_on=False)  # the simulation may find that it loses here
    cautions = " ".join(cl.say(advice, hand="left").cautions)
    assert (advice.kind == "surface") is not scoring_started
    assert advice.move.surface == ("" if scoring_started else "duller")
    assert ("mask and eye protection" in cautions) is not scoring_started
    assert ("Only before the first scored ball" in cautions) is not scoring_started
