"""If it goes high, light, early or late: the lanes that show it, and the moves that are told."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.plan.plan_cases import (
    HIGH_BOARD,
    LIGHT_BOARD,
    TURN_FT,
    cases_of,
    lanes_of,
    lengthened,
)
from coachlib.coaching.simulation.line_search import EQUAL_PROB, line_chances
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.world.levers import fits_problems
from coachlib.world.line import after_move
from coachlib.world.oil import thinned
from tests.planned import CASES, plan_of


def planned(bowler="club_right", pattern="house_41"):
    return plan_of(bowler, pattern).session


def met(session, lane):
    path = simulate_lines(dataclasses.replace(session, pattern=lane))
    return float(path.arrival_board[0]), float(path.hook_ft[0])


@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_each_lane_shows_what_its_case_says(bowler, pattern):
    session = planned(bowler, pattern)
    lanes = lanes_of(session)
    arrival, turn_ft = met(session, session.pattern)
    assert {"high", "light", "early"} <= set(lanes)
    assert met(session, lanes["high"])[0] == pytest.approx(max(HIGH_BOARD, arrival + 0.7), abs=0.2)
    assert met(session, lanes["light"])[0] == pytest.approx(min(LIGHT_BOARD, arrival - 1.0), abs=0.3)
    assert met(session, lanes["early"])[1] == pytest.approx(turn_ft - TURN_FT, abs=1.0)
    assert lanes["high"].volume_ml < session.pattern.volume_ml < lanes["light"].volume_ml
    if "late" in lanes:
        assert met(session, lanes["late"])[1] > turn_ft + TURN_FT / 2


def test_longer_oil_is_as_thick_and_ends_farther():
    assert lengthened(cl.load_pattern("worn_41"), TURN_FT).length_ft == 44.0  # traces of oil up to the pins
    pattern = cl.load_pattern("flat_42")
    longer = lengthened(pattern, 3.0)
    assert longer.length_ft == pattern.length_ft + 3.0
    assert longer.volume_ml == pytest.approx(pattern.volume_ml * 45.0 / 42.0, rel=1e-9)
    assert longer.film_array_um.max() == pytest.approx(pattern.film_array_um.max(), rel=0.02)
    half = round(21.0 / pattern.step_ft), round(22.5 / longer.step_ft)
    assert longer.film_array_um[half[1]] == pytest.approx(pattern.film_array_um[half[0]], rel=0.05)


def test_oil_that_cannot_get_longer_has_no_late_case():
    session = planned("club_right", "flat_42")
    film = np.repeat(session.pattern.film_array_um[:1], round(54.0 / session.pattern.step_ft), axis=0)
    longest = cl.OilPattern.from_film(film, session.pattern.step_ft)
    assert longest.length_ft == 54.0
    assert "late" in lanes_of(session)  # where longer oil turns the ball later
    assert "late" not in lanes_of(dataclasses.replace(session, pattern=longest))


def test_a_film_near_the_thickest_there_is_gets_no_thicker_than_allowed():
    session = planned("club_right", "flat_42")
    thick = thinned(session.pattern, 25.0 / session.pattern.film_array_um.max() / 5.0)
    thick = thinned(thick, 5.0)
    assert thick.film_array_um.max() == pytest.approx(25.0)
    lanes = lanes_of(dataclasses.replace(session, pattern=thick))
    assert all(lane.film_array_um.max() <= 30.0 for lane in lanes.values())


def test_a_straight_ball_has_no_cases():
    session = planned("senior_right")
    bowler = dataclasses.replace(session.bowler, axis_rotation_deg=0.0, axis_rotation_sd_deg=0.0)
    straight = dataclasses.replace(session, bowler=bowler, line=cl.Line(14.0, 10.0))
    assert cases_of(straight, cl.load_rulebook()) == ()


@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_the_move_told_is_worth_what_is_told_and_fits(bowler, pattern):
    plan = plan_of(bowler, pattern)
    lanes = lanes_of(plan.session)
    assert len(plan.cases) >= 3
    for case in plan.cases:
        known = [(plan.line, case.stay_prob), (case.new_line, case.move_prob)]
        known += [(case.rule.new_line, case.rule_prob)] if case.rule_prob is not None else []
        lines, worths = zip(*known, strict=True)
        chances = line_chances(plan.session, lines, [lanes[case.kind]])[0]
        assert chances.tolist() == pytest.approx(worths, abs=1e-12)
        assert after_move(plan.line, case.move) == case.new_line
        assert case.move.is_stay or case.move_prob > case.stay_prob
        assert fits_problems(case.new_line, plan.session.bowler) == ()


def test_no_move_within_reach_is_worth_much_more():
    plan = plan_of("high_rev_left")
    lane = lanes_of(plan.session)["high"]
    case = plan.cases[0]
    steps = [(feet, eyes) for feet in range(-4, 9, 2) for eyes in range(-2, 6)]
    lines = [cl.Line(plan.line.feet_board + feet, plan.line.target_board + eyes) for feet, eyes in steps]
    fitting = [line for line in lines if not fits_problems(line, plan.session.bowler)]
    assert len(fitting) > 30
    chances = line_chances(plan.session, fitting, [lane])[0]
    assert case.kind == "high"
    assert case.move_prob > chances.max() - EQUAL_PROB - 0.01
    assert case.move_prob > case.stay_prob + 0.1  # here moving is worth a lot


# The trade's directions, common practice (data/rules.toml, S1, S2, S7): high goes inside, light goes outside.
@pytest.mark.parametrize(("bowler", "pattern"), CASES)
def test_high_never_sends_the_arrival_higher_and_light_never_lower(bowler, pattern):
    plan = plan_of(bowler, pattern)
    lanes = lanes_of(plan.session)
    for case in plan.cases:
        if case.kind not in ("high", "light") or case.move.is_stay:
            continue
        on_lane = dataclasses.replace(plan.session, pattern=lanes[case.kind])
        before, after = simulate_lines(on_lane, [plan.line, case.new_line]).arrival_board
        assert (after < before) if case.kind == "high" else (after > before)


def test_the_other_voice_is_the_rulebook_on_such_balls():
    plan = plan_of()
    rules = {case.kind: case.rule for case in plan.cases}
    early_board = next(case.arrival_board for case in plan.cases if case.kind == "early")
    assert rules["high"].rule.rule_ids[0] == "follow_the_miss"
    is_severe = early_board > 19.2  # the nose and beyond, data/rules.toml, four_and_two
    assert rules["early"].rule.rule_ids[0] == ("four_and_two" if is_severe else "two_and_one")
    assert rules["light"].move == cl.Move(feet_boards=-1.0)
    assert all(len(rule.session.shots) == 3 for rule in rules.values())  # the rulebook's patience


def test_a_club_s_rule_speaks_in_the_cases(tmp_path):
    club = tmp_path / "club.toml"
    club.write_text(
        '[[rules]]\nid = "follow_the_miss"\nsection = "B"\ntitle = "Ours"\nwhen = { side = "high", '
        'motion = "even", is_on_target = true, n_same = { min = 3 }, err_boards = { min = 0.5, max = 2 } }\n'
        'kind = "move"\nmoves = [{ feet_boards = 3, target_boards = 3 }]\nwhy = "We do."\nlook = "Look."\n'
        'stops = "Never."\ngrade = "common practice"\nsrc = ["S1"]\n',
        encoding="utf-8",
    )
    cases = cases_of(planned(), cl.load_rulebook(club))
    assert cases[0].kind == "high"
    assert cases[0].rule.move == cl.Move(feet_boards=3.0, target_boards=3.0)
    assert cases[0].rule_prob is not None
    assert not cases[0].is_agreed


def test_a_rule_s_move_that_was_not_thrown_has_no_worth():
    by_kind = {case.kind: case for case in plan_of("club_right", "flat_42").cases}
    assert by_kind["late"].rule.move.target_ft != 0.0
    assert by_kind["late"].rule_prob is None
    for case in by_kind.values():
        if case.rule.move == case.move:
            assert case.rule_prob == pytest.approx(case.move_prob, abs=1e-12)
