"""The facts of a session."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

import coachlib as cl
from coachlib.coaching.rules.session_facts import read_session, spare_facts
from coachlib.coaching.rules.vocabulary import FACTS, checked_facts

HIGH = cl.Shot(crossed_board=11, arrival="high")
LIGHT = cl.Shot(crossed_board=11, arrival="light")
POCKET = cl.Shot(crossed_board=11, arrival="pocket")
MISSED = cl.Shot(crossed_board=14, arrival="nose")


def thrown(*shots, **fields):
    session = cl.Session(**({"bowler": cl.Bowler(), "line": cl.Line(22, 11)} | fields))
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def facts(*shots, **fields):
    return read_session(thrown(*shots, **fields)).facts


def test_before_the_first_ball():
    reading = read_session(thrown())
    assert reading.last is None
    assert reading.facts["n_shots"] == reading.facts["n_ok"] == 0
    assert reading.facts["n_since_change"] == 99


def test_counts_of_one_side():
    seen = facts(HIGH, MISSED, HIGH, LIGHT, HIGH)
    assert seen["n_shots"] == 5
    assert seen["n_ok"] == 4
    assert seen["n_same"] == seen["n_ok_high"] == 3
    assert seen["n_ok_light"] == 1


def test_old_balls_of_one_side_are_forgotten():
    assert facts(HIGH, HIGH, POCKET, POCKET, POCKET, POCKET, HIGH)["n_same"] == 1


def test_a_change_of_line_starts_anew():
    session = cl.change(thrown(HIGH, HIGH, HIGH), line=cl.Line(24, 12))
    assert read_session(session).facts["n_since_change"] == 0
    after = read_session(cl.observe(session, cl.Shot(crossed_board=12, arrival="light"))).facts
    assert (after["n_ok"], after["n_same"], after["n_since_change"]) == (1, 1, 1)
    assert (after["last_move_feet_boards"], after["last_move_target_boards"]) == (2, 1)
    assert after["sum_inside_moves_boards"] == 2


def test_moves_that_answered_the_same_side():
    session = thrown(HIGH, HIGH)
    for feet, target in ((24, 12), (26, 13)):
        session = cl.observe(
            cl.change(session, line=cl.Line(feet, target)), cl.Shot(crossed_board=target, arrival="high")
        )
    assert read_session(session).facts["n_moves_same_side"] == 2
    light = cl.observe(session, cl.Shot(crossed_board=13, arrival="light"))
    assert read_session(light).facts["n_moves_same_side"] == 0


def test_lanes_of_the_pair_are_read_apart():
    session = cl.change(thrown(HIGH, HIGH, lane="7"), lane="8")
    session = cl.observe(cl.observe(session, POCKET), POCKET)
    seen = read_session(session).facts
    assert seen["n_ok"] == 2
    assert seen["n_ok_other_lane"] == 2
    assert seen["lane_gap_boards"] == pytest.approx(1.2)
    assert read_session(cl.change(session, lane="7")).facts["n_ok_high"] == 2


def test_spare_balls_are_not_read():
    seen = facts(HIGH, cl.Shot(crossed_board=30, leave=(), is_spare=True))
    assert (seen["n_shots"], seen["side"]) == (1, "high")


def test_trend_needs_three_balls_and_a_board():
    boards = [cl.Shot(crossed_board=11, arrival=board) for board in (17.3, 17.9, 18.6)]
    assert facts(*boards[:2]).get("is_trend_inward") is None
    assert facts(*boards)["is_trend_inward"] is True
    assert facts(*boards)["trend_boards_per_shot"] == pytest.approx(0.65)
    assert facts(*reversed(boards))["is_trend_inward"] is False


def test_speed_against_own_mean():
    slow = facts(cl.Shot(crossed_board=11, arrival="high", speed_mph=16.0), bowler=cl.Bowler(speed_mph=17.0))
    assert slow["speed_diff_mph"] == -1.0
    assert slow["is_speed_fitting"] is True
    assert "speed_diff_mph" not in facts(cl.Shot(crossed_board=11, arrival="high", speed_mph=16.0))
    # four balls make the new normal
    tired = [cl.Shot(crossed_board=11, arrival="high", speed_mph=16.0)] * 5
    assert facts(*tired)["speed_diff_mph"] == 0


def test_a_tired_bowlers_pace_becomes_the_usual_one():
    fast = [cl.Shot(crossed_board=11, arrival="pocket", speed_mph=17.0)] * 12
    tired = [cl.Shot(crossed_board=11, arrival="high", speed_mph=15.8)] * 6
    seen = facts(*fast, *tired, bowler=cl.Bowler(speed_mph=17.0))
    assert seen["abs_speed_diff_mph"] == pytest.approx(0)


def test_spare_balls_make_no_usual_speed_or_drift():
    strike = cl.Shot(crossed_board=11, arrival="high", speed_mph=17.0, slide_board=24)
    spare = cl.Shot(is_spare=True, leave=(), speed_mph=21.0, slide_board=38)
    seen = facts(strike, spare, spare, spare, spare, strike)
    assert seen["slide_diff_boards"] == 0
    assert "speed_diff_mph" not in seen


def test_slide_board_against_own_drift():
    drifting = cl.Bowler(drift_boards=2.0)
    on_own_place = cl.Shot(crossed_board=11, arrival="high", slide_board=24)
    assert facts(on_own_place, bowler=drifting)["slide_diff_boards"] == 0
    assert facts(cl.Shot(crossed_board=11, slide_board=24)).get("slide_diff_boards") is None


def test_turning_earlier_by_motion_and_by_distance():
    def turned(**seen):
        return cl.Shot(crossed_board=11, arrival="high", **seen)

    assert facts(turned(motion="even"), turned(motion="early"))["is_turning_earlier"] is True
    assert facts(turned(motion="early"), turned(motion="early"))["is_turning_earlier"] is False
    assert facts(turned(breakpoint_ft=42), turned(breakpoint_ft=39))["is_turning_earlier"] is True
    assert facts(turned(breakpoint_ft=42), turned(breakpoint_ft=41))["is_turning_earlier"] is False
    assert facts(turned(), turned())["is_turning_earlier"] is None


@pytest.mark.parametrize(("sd", "needed"), [(0.46, 1), (0.65, 2), (0.97, 3), (1.30, 5), (1.46, 6)])
def test_balls_needed_without_crossings(sd, needed):
    # one-sided 95 % of a normal spread, ceil((1.645 sd)^2): derived
    assert facts(HIGH, bowler=cl.Bowler(arrow_sd_boards=sd))["shots_needed"] == needed


def test_spare_facts_only_when_pins_were_just_left():
    assert spare_facts(thrown()) is None
    assert spare_facts(thrown(cl.Shot(leave=()))) is None
    left = spare_facts(thrown(cl.Shot(leave=(6, 10))))
    assert (left["task"], left["leave_key"], left["key_pin"]) == ("spare", "6 10", 6)
    assert spare_facts(thrown(cl.Shot(leave=(10,)), cl.Shot(is_spare=True, leave=()))) is None


SHOTS = st.builds(
    cl.Shot,
    crossed_board=st.floats(1, 39) | st.none(),
    arrival=st.sampled_from(["out", "light", "pocket", "high", "nose", "crossover"]) | st.floats(5, 35),
    leave=st.sets(st.integers(1, 10)).map(tuple) | st.none(),
    motion=st.sampled_from(["early", "even", "late", "roll_out"]) | st.none(),
    speed_mph=st.floats(10, 24) | st.none(),
    breakpoint_ft=st.floats(30, 50) | st.none(),
    slide_board=st.floats(10, 30) | st.none(),
    is_spare=st.booleans(),
)


@given(st.lists(SHOTS, max_size=8))
def test_every_fact_is_in_the_vocabulary_and_of_its_kind(shots):
    seen = facts(*shots)
    assert checked_facts(seen) == seen
    assert set(seen) <= set(FACTS)


def test_how_much_the_walk_varies():
    def walked(*drifts):
        return [cl.Shot(arrival="high", start_board=22, slide_board=22 + drift) for drift in drifts]

    assert facts(*walked(0, 3))["drift_range_boards"] is None
    assert facts(*walked(0, 3, 1))["drift_range_boards"] == 3
    assert facts(*walked(9, 0, 1, 1, 0, 1))["drift_range_boards"] == 1
    assert facts(*walked(1, 1), HIGH)["drift_range_boards"] is None


def test_the_breakpoint_against_the_end_of_the_oil():
    turned = cl.Shot(arrival="pocket", breakpoint_board=12.5)
    # rule of 31 (several coaching pages): 41 ft less 31 is board 10
    assert facts(turned, pattern=cl.load_pattern("house_41"))["breakpoint_past_exit_boards"] == 2.5
    assert "breakpoint_past_exit_boards" not in facts(turned)


def test_the_amount_of_oil_is_known_with_a_film_only():
    assert facts(HIGH, pattern=cl.load_pattern("house_41"))["oil_volume_ml"] == pytest.approx(25, abs=0.1)
    assert facts(HIGH, pattern=cl.OilPattern("unseen", 41))["oil_volume_ml"] is None
    assert facts(HIGH)["oil_volume_ml"] is None


def test_strikes_of_another_line_warn_no_more():
    high = cl.Shot(crossed_board=11, arrival="high", leave=())
    session = thrown(high, high)
    assert read_session(session).facts["n_high_pocket_warnings"] == 2
    moved = cl.observe(cl.change(session, line=cl.Line(24, 12)), cl.Shot(crossed_board=12, arrival="high"))
    assert read_session(moved).facts["n_high_pocket_warnings"] == 0


@pytest.mark.parametrize(("arrival", "expected"), [("high", True), ("light", False), ("pocket", False)])
def test_feet_are_stuck_where_no_board_is_left_to_the_side_asked_for(arrival, expected):
    bowler = cl.Bowler(feet_low_board=20.0, feet_high_board=22.5)
    assert facts(cl.Shot(arrival=arrival), bowler=bowler)["is_feet_stuck"] is expected
    assert facts(cl.Shot(arrival=arrival), place=cl.Place(is_feet_stuck=True))["is_feet_stuck"]


def test_what_was_told_of_the_lane_is_a_fact():
    told = facts(
        HIGH, place=cl.Place(has_others_on_line=True, is_own_side_quiet=True, has_weather_turned=True)
    )
    assert (told["has_others_on_line"], told["is_own_side_quiet"], told["has_weather_turned"]) == (True,) * 3
    assert facts(HIGH)["is_own_side_quiet"] is None


def test_spares_know_how_many_pins_are_left():
    assert spare_facts(thrown(cl.Shot(leave=(3, 6, 10))))["n_pins_left"] == 3
