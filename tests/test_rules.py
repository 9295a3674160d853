"""Every rule of the rulebook: what fires it, and a near miss that must not.

The cases are read off the rules of thumb themselves (federation pages, coaching magazines and columns, named
rule by rule in ``data/rules.toml``), not off the conditions in the file.
"""

from typing import Any

import pytest

from coachlib.coaching.conditions import fact_names
from coachlib.coaching.facts import FACTS
from coachlib.coaching.rulebook import Fired, fired_rules, load_rulebook
from coachlib.world.line import Move
from coachlib.world.pins import pin_board

Case = tuple[dict[str, Any], dict[str, Any]]

# What stands for an ordinary ball; a case adds to it. None takes a fact away: it was not seen.
ON_TARGET = {
    "task": "first",
    "has_crossing": True,
    "is_on_target": True,
    "miss_boards": 0.0,
    "is_severe": False,
}
HIGH = ON_TARGET | {"side": "high", "arrival_class": "high", "err_boards": 1.2, "abs_err_boards": 1.2}
LIGHT = ON_TARGET | {"side": "light", "arrival_class": "light", "err_boards": -1.5, "abs_err_boards": 1.5}
POCKET = ON_TARGET | {"side": "pocket", "arrival_class": "pocket", "err_boards": 0.0, "abs_err_boards": 0.0}
NOSE = ON_TARGET | {"side": "high", "arrival_class": "nose", "err_boards": 2.5, "abs_err_boards": 2.5}
MISSED = {"is_on_target": False}
THRICE = {"n_ok": 3, "n_same": 3, "motion": "even", "phase": "fresh"}
BEFORE = {"task": "first", "n_shots": 0}
FIRST = {"task": "first"}
SPARE = {"task": "spare"}

GATES: dict[str, Case] = {
    "strike_leave_it": (POCKET | {"is_strike": True, "motion": "even"}, {"motion": "early"}),
    "one_change_at_a_time": (HIGH | {"n_since_change": 1, "leave_key": "6"}, {"n_since_change": 2}),
    "shots_needed": (
        HIGH | {"has_crossing": False, "is_on_target": None, "n_ok": 2, "shots_needed": 3},
        {"n_ok": 3},
    ),
    "one_shot_is_no_pattern": (HIGH | {"n_ok": 1}, {"is_severe": True}),
    "missed_target_result_fits": (
        HIGH | MISSED | {"miss_boards": 2.0, "is_miss_same_way_as_err": True, "abs_unexplained_boards": 1.4},
        {"abs_unexplained_boards": 1.5},
    ),
    "missed_outside_yet_struck": (POCKET | MISSED | {"miss_boards": -1.5}, {"miss_boards": -1.0}),
    "missed_inside_yet_struck": (POCKET | MISSED | {"miss_boards": 1.5}, {"arrival_class": "high"}),
    "missed_inside_went_light": (LIGHT | MISSED | {"miss_boards": 1.5}, {"miss_boards": -1.5}),
    "missed_outside_went_high": (
        HIGH | MISSED | {"miss_boards": -2.0, "n_outside_high": 2},
        {"n_outside_high": 1},
    ),
    "hit_target_wrong_again": (HIGH | THRICE, {"n_same": 2}),
    "severe_once": (NOSE | {"n_ok": 1, "is_severe": True}, {"abs_speed_diff_mph": 0.8}),
    "pulled_and_still_too_high": (
        NOSE | {"miss_boards": 1.0, "unexplained_boards": 1.5},
        {"unexplained_boards": 1.0},
    ),
    "scatter_first": (HIGH | {"n_shots": 4, "miss_sd_boards": 1.6}, {"miss_sd_boards": 1.5}),
    "slide_board_off": (LIGHT | {"abs_slide_diff_boards": 2.5}, {"abs_slide_diff_boards": 2.0}),
    "speed_off": (HIGH | {"abs_speed_diff_mph": 0.8, "is_speed_fitting": True}, {"is_speed_fitting": False}),
}

ARRIVALS: dict[str, Case] = {
    "zone_limit": (HIGH | THRICE | {"sum_inside_moves_boards": 8.0}, {"sum_inside_moves_boards": 7.0}),
    "follow_the_miss": (HIGH | THRICE, {"abs_err_boards": 2.5}),
    "parallel_1_1": (HIGH | THRICE | {"err_boards": 0.8, "abs_err_boards": 0.8}, {"abs_err_boards": 0.4}),
    "two_and_one": (HIGH | THRICE | {"motion": "early"}, {"motion": "late"}),
    "three_and_two": (
        HIGH | THRICE | {"abs_breakpoint_diff_boards": 1.0},
        {"abs_breakpoint_diff_boards": 1.5},
    ),
    "four_and_two": (NOSE | {"n_same": 2, "is_severe": True}, {"n_same": 1}),
    "big_jump": (NOSE | {"is_wide_split": True, "is_severe": True}, {"is_on_target": False}),
    "light_move_out": (LIGHT | THRICE | {"motion": "late"}, {"motion": "roll_out"}),
    "look_farther": (
        FIRST | {"motion": "early", "miss_boards": 2.0, "n_miss_same_way": 2, "phase": "worn"},
        {"phase": "fresh"},
    ),
    "look_closer": (LIGHT | THRICE | {"motion": "late", "oil_length_ft": 43.0}, {"oil_length_ft": 40.0}),
    "square_to_the_line": (FIRST | {"move_inside_boards": 3.0}, {"move_inside_boards": 2.0}),
    "fits_the_lane": (FIRST | {"is_move_off_lane": True}, {"is_move_off_lane": False}),
}

CREEPING = {"phase": "blending", "is_trend_inward": True, "is_turning_earlier": True}
BURNT = {"motion": "early", "is_dull_or_strong_ball": True, "phase": "worn"}

LANE: dict[str, Case] = {
    "track_is_going": (HIGH | CREEPING, {"phase": "fresh"}),
    "fronts_are_gone": (LIGHT | {"breakpoint_ft": 20.0}, {"breakpoint_ft": 30.0}),
    "burnt_not_oily": (LIGHT | BURNT, {"motion": "late"}),
    "tighter_down_lane": (LIGHT | THRICE | {"motion": "late", "phase": "blending"}, {"phase": "fresh"}),
    "others_on_your_line": (FIRST | {"n_strong_others": 2}, {"n_strong_others": 1}),
    "pair_is_two_lanes": (
        HIGH | {"lane_gap_boards": 1.5, "n_ok": 2, "n_ok_other_lane": 2},
        {"n_ok_other_lane": 1},
    ),
    "fresh_snap": (POCKET | {"phase": "fresh", "n_shots": 3, "motion": "over_hook"}, {"n_shots": 4}),
    "quiet_side": (FIRST | {"hand": "left"}, {"own_side_frac": 0.5}),
    "wedge_of_the_others": (
        HIGH | {"hand": "left", "motion": "early", "sum_inside_moves_boards": 2.0, "phase": "opening"},
        {"hand": "right"},
    ),
}

MOTIONS: dict[str, Case] = {
    "early_and_flat": (POCKET | {"motion": "early", "leave_key": "8 10"}, {"motion": "late"}),
    "late_and_snappy": (HIGH | {"motion": "over_hook", "n_ok_high": 1, "n_ok_light": 1}, {"n_ok_light": 0}),
    "wet_dry_edge": (FIRST | {"n_inside_light": 2, "n_outside_high": 2}, {"n_outside_high": 1}),
    "never_turns": (LIGHT | THRICE | {"motion": "skid_long"}, {"phase": "worn"}),
    "over_hook_everywhere": (
        HIGH | {"motion": "over_hook", "n_outside_high": 1, "n_inside_high": 1},
        {"n_inside_high": 0},
    ),
}

TEN_TWICE = POCKET | {"leave_key": "10", "n_same_leave": 2, "hit": "flat"}

CARRY: dict[str, Case] = {
    "single_tap": (POCKET | {"is_single_tap": True, "n_same_leave": 1}, {"n_same_leave": 2}),
    "ten_flat_early": (TEN_TWICE | {"motion": "early"}, {"n_same_leave": 1}),
    "ten_flat_late": (TEN_TWICE | {"motion": "late"}, {"motion": "early"}),
    "ten_flat_unknown": (TEN_TWICE | {"motion": "unknown"}, {"motion": "late"}),
    "ten_ringing": (TEN_TWICE | {"hit": "ringing"}, {"hit": "flat"}),
    "pin_four": (HIGH | {"leave_key": "4"}, {"is_on_target": False}),
    "pin_nine": (POCKET | {"leave_key": "9", "n_same_leave": 2}, {"n_same_leave": 1}),
    "pin_five_or_bucket": (
        LIGHT | {"leave_key": "2 4 5 8", "n_same_leave": 2, "motion": "late"},
        {"leave_key": "2 4 5 7"},
    ),
    "thin_wash": (LIGHT | {"leave_key": "1 2 10", "n_same_leave": 2, "motion": "late"}, {"n_same_leave": 1}),
    "weak_split_8_10_or_5_7": (LIGHT | {"leave_key": "5 7", "motion": "late"}, {"leave_key": "5 10"}),
    "through_the_nose": (NOSE | {"leave_key": "4 6 7 10"}, {"is_on_target": False}),
}

REPEATED_EARLY = HIGH | THRICE | {"motion": "early"}
REPEATED_LATE = LIGHT | THRICE | {"motion": "late"}

REST: dict[str, Case] = {
    "house_pattern": (BEFORE | {"is_house_pattern": True}, {"n_shots": 1}),
    "rule_of_31": (BEFORE | {"oil_length_ft": 40.0}, {"oil_length_ft": None}),
    "faster": (REPEATED_EARLY, {"side": "light"}),
    "slower": (REPEATED_LATE, {"n_same": 2}),
    "duller": (REPEATED_LATE | {"scoring_started": False}, {"scoring_started": True}),
    "smoother": (REPEATED_EARLY | {"scoring_started": False}, {"scoring_started": True}),
    "surface_lawful": (FIRST | {"move_surface": "duller"}, {"move_surface": ""}),
    "order_of_change": (HIGH | {"n_moves_same_side": 2, "n_same": 3}, {"n_moves_same_side": 1}),
    "stronger_ball_line": (
        FIRST | {"move_ball": "stronger", "move_feet_boards": 0.0, "move_target_boards": 0.0},
        {"move_ball": "weaker"},
    ),
    "weaker_ball_line": (
        FIRST | {"move_ball": "weaker", "move_feet_boards": 0.0, "move_target_boards": 0.0},
        {"move_feet_boards": -4.0},
    ),
    "corner_cross_lane": (SPARE | {"leave_key": "7"}, {"leave_key": "4 7"}),
    "spare_3_6_9": (
        SPARE | {"key_pin": 2, "leave_key": "2", "is_open_split": False, "walk": "walk"},
        {"is_open_split": True},
    ),
    "pain_stops": (FIRST | {"has_pain": True}, {"has_pain": False}),
    "more_speed_or_hand_caution": (FIRST | {"move_speed_mph": 0.5}, {"move_speed_mph": -0.5}),
    "dust_and_rules": (FIRST | {"move_surface": "smoother"}, {"move_surface": ""}),
    "leave_the_lane_alone": (BEFORE, {"n_shots": 1}),
    "junior": (FIRST | {"age_years": 13.0}, {"age_years": 14.0}),
    "left_hander": (FIRST | {"hand": "left"}, {"hand": "right"}),
    "two_hander_high_rev": (FIRST | {"rev_rate_rpm": 420.0}, {"rev_rate_rpm": 400.0}),
    "low_rev_or_senior": (FIRST | {"bowler_speed_mph": 14.0}, {"bowler_speed_mph": 15.0}),
}

CASES: dict[str, Case] = GATES | ARRIVALS | LANE | MOTIONS | CARRY | REST

# Several conditions of one rule: more that must fire it, and more that must not.
ALSO_FIRES: list[tuple[str, dict[str, Any]]] = [
    ("strike_leave_it", ON_TARGET | {"is_strike": True, "motion": "unknown"}),
    (
        "pulled_and_still_too_high",
        HIGH | {"miss_boards": 2.0, "unexplained_boards": 2.0, "is_open_split": True},
    ),
    ("follow_the_miss", LIGHT | THRICE | {"motion": "unknown", "phase": "blending"}),
    ("four_and_two", HIGH | THRICE | {"last_move_feet_boards": 2.0, "last_move_target_boards": 1.0}),
    ("big_jump", HIGH | THRICE | {"motion": "early", "phase": "worn"}),
    ("zone_limit", HIGH | THRICE | {"is_beyond_comfort": True}),
    (
        "square_to_the_line",
        HIGH | MISSED | {"n_miss_same_way": 3, "miss_boards": 2.0, "sum_inside_moves_boards": 4.0},
    ),
    ("track_is_going", HIGH | CREEPING | {"is_turning_earlier": None, "motion": "early"}),
    ("fronts_are_gone", POCKET | {"motion": "roll_out", "hit": "flat"}),
    ("quiet_side", FIRST | {"hand": "right", "own_side_frac": 0.2}),
    ("early_and_flat", TEN_TWICE | {"motion": "early"}),
    ("thin_wash", LIGHT | {"leave_key": "2 10", "n_same_leave": 1, "motion": "even"}),
    ("two_hander_high_rev", FIRST | {"is_two_handed": True, "rev_rate_rpm": None}),
    ("low_rev_or_senior", FIRST | {"rev_rate_rpm": 200.0}),
    ("corner_cross_lane", SPARE | {"leave_key": "10"}),
    ("leave_the_lane_alone", BEFORE | {"task": "spare"}),
]

MUST_NOT: list[tuple[str, dict[str, Any]]] = [
    ("strike_leave_it", HIGH | {"is_strike": True, "motion": "even"}),
    ("one_shot_is_no_pattern", HIGH | {"n_ok": 1, "leave_key": "4"}),
    (
        "missed_target_result_fits",
        POCKET | MISSED | {"is_miss_same_way_as_err": True, "abs_unexplained_boards": 0.2},
    ),
    ("severe_once", NOSE | {"n_ok": 1, "is_severe": True, "is_beginner": True}),
    ("severe_once", LIGHT | {"n_ok": 1, "is_severe": True}),
    ("follow_the_miss", LIGHT | THRICE | {"motion": "unknown", "phase": "worn"}),
    ("follow_the_miss", LIGHT | THRICE | {"motion": "early"}),
    ("light_move_out", LIGHT | THRICE | {"motion": "early"}),
    ("track_is_going", LIGHT | CREEPING),
    ("early_and_flat", TEN_TWICE | {"motion": "early", "n_same_leave": 1}),
    ("quiet_side", FIRST | {"hand": "right"}),
    (
        "weaker_ball_line",
        FIRST | {"move_ball": "stronger", "move_feet_boards": 0.0, "move_target_boards": 0.0},
    ),
]


def fired_by_id(facts: dict[str, Any]) -> dict[str, Fired]:
    return {one.rule.id: one for one in fired_rules(load_rulebook(), facts)}


def test_every_rule_has_its_case():
    assert set(CASES) == {rule.id for rule in load_rulebook().rules}


@pytest.mark.parametrize("rule_id", CASES)
def test_a_rule_fires(rule_id):
    assert rule_id in fired_by_id(CASES[rule_id][0])


@pytest.mark.parametrize("rule_id", CASES)
def test_a_near_miss_does_not_fire_it(rule_id):
    facts, change = CASES[rule_id]
    assert rule_id not in fired_by_id(facts | change)


@pytest.mark.parametrize(("rule_id", "facts"), ALSO_FIRES)
def test_it_also_fires(rule_id, facts):
    assert rule_id in fired_by_id(facts)


@pytest.mark.parametrize(("rule_id", "facts"), MUST_NOT)
def test_it_must_not_fire(rule_id, facts):
    assert rule_id not in fired_by_id(facts)


@pytest.mark.parametrize("rule_id", sorted(GATES | ARRIVALS | LANE | MOTIONS | CARRY))
def test_no_first_ball_rule_fires_on_a_spare(rule_id):
    assert rule_id not in fired_by_id(CASES[rule_id][0] | {"task": "spare"})


@pytest.mark.parametrize("rule_id", ["spare_3_6_9", "corner_cross_lane"])
def test_no_spare_rule_fires_on_a_first_ball(rule_id):
    assert rule_id not in fired_by_id(CASES[rule_id][0] | {"task": "first"})


# The moves as the rules of thumb state them: feet, eyes; then the rest. Coaching magazine (2017), regional
# coach's column (2005), general how-to site and others, see the rule's sources.
FIRST_MOVES = {
    "missed_outside_went_high": Move(2, 1),
    "severe_once": Move(2, 1),
    "pulled_and_still_too_high": Move(2, 1),
    "follow_the_miss": Move(1, 0),
    "parallel_1_1": Move(1, 1),
    "two_and_one": Move(2, 1),
    "three_and_two": Move(3, 2),
    "four_and_two": Move(4, 2),
    "big_jump": Move(5, 2),
    "light_move_out": Move(-1, 0),
    "track_is_going": Move(2, 1),
    "fronts_are_gone": Move(3, 2, speed_mph=0.5),
    "burnt_not_oily": Move(3, 2),
    "tighter_down_lane": Move(-1, 0),
    "early_and_flat": Move(2, 1),
    "late_and_snappy": Move(-2, -1),
    "over_hook_everywhere": Move(4, 2),
    "ten_flat_early": Move(1, 0),
    "ten_flat_late": Move(-1, -1),
    "ten_ringing": Move(0.5, 0.5),
    "pin_four": Move(1, 1),
    "pin_nine": Move(-1, 0),
    "through_the_nose": Move(4, 2),
    "faster": Move(speed_mph=0.5),
    "slower": Move(speed_mph=-0.5),
    "duller": Move(surface="duller"),
    "smoother": Move(surface="smoother"),
    "stronger_ball_line": Move(2, 1),
    "weaker_ball_line": Move(-2, -1),
    "spare_3_6_9": Move(-3, 0),
}


@pytest.mark.parametrize(("rule_id", "move"), FIRST_MOVES.items())
def test_the_first_move_is_that_of_the_rule_of_thumb(rule_id, move):
    assert fired_by_id(CASES[rule_id][0])[rule_id].moves[0] == move


def test_follow_the_miss_goes_out_for_a_light_ball():
    assert fired_by_id(LIGHT | THRICE)["follow_the_miss"].moves == (Move(-1, 0),)


@pytest.mark.parametrize(("rule_id", "move"), [("two_and_one", Move(3, 1)), ("three_and_two", Move(3, 1))])
def test_who_walks_the_line_gets_another_move(rule_id, move):
    # RULES arithmetic: for a walker 2-and-1 is only half a board at the pins and 3-and-2 goes the wrong way.
    facts = CASES[rule_id][0] | {"walk": "walk"}
    assert fired_by_id(facts)[rule_id].moves[0] == move


def test_many_revs_move_three_when_the_strip_goes():
    facts = HIGH | CREEPING | {"rev_rate_rpm": 380.0}
    assert fired_by_id(facts)["track_is_going"].moves == (Move(3, 1), Move(3, 2))


@pytest.mark.parametrize(("key_pin", "feet_boards"), [(2, -3), (4, -6), (7, -9), (3, 3), (6, 6), (10, 9)])
def test_three_six_nine_for_who_walks_the_line(key_pin, feet_boards):
    # Two club pages (United Kingdom): feet 3, 6, 9 boards for the pins of one side; the same outward.
    facts = SPARE | {"key_pin": key_pin, "is_open_split": False, "walk": "walk"}
    assert fired_by_id(facts)["spare_3_6_9"].moves == (Move(feet_boards, 0),)


@pytest.mark.parametrize("key_pin", [2, 4, 7, 3, 6, 10])
def test_spare_feet_of_a_slider_reach_the_pin_by_the_lever(key_pin):
    # Derived: the straight line goes 3 boards at the pins for one board of feet, from the pocket at 17.5.
    facts = SPARE | {"key_pin": key_pin, "is_open_split": False, "walk": "slide"}
    move = fired_by_id(facts)["spare_3_6_9"].moves[0]
    assert 17.5 - 3 * move.feet_boards == pytest.approx(pin_board(key_pin), abs=0.76)


@pytest.mark.parametrize("key_pin", [1, 5, 8, 9])
def test_pins_behind_the_strike_line_have_no_three_six_nine(key_pin):
    facts = SPARE | {"key_pin": key_pin, "is_open_split": False, "walk": "walk"}
    assert "spare_3_6_9" not in fired_by_id(facts)


def test_a_light_ball_of_unseen_motion_on_a_worn_lane_is_watched():
    fired = fired_by_id(LIGHT | THRICE | {"motion": "unknown", "phase": "worn"})["light_move_out"]
    assert (fired.kind, fired.moves) == ("watch", ())
    assert "watch where it turns" in fired.text


def test_pain_rejects_a_move_of_the_hand_and_allows_the_feet():
    pain = FIRST | {"has_pain": True, "move_feet_boards": 2.0, "move_speed_mph": 0.0, "has_move_note": False}
    assert fired_by_id(pain)["pain_stops"].kind == "caution"
    for change in ({"move_speed_mph": -0.5}, {"move_rotation_deg": 10.0}, {"has_move_note": True}):
        assert fired_by_id(pain | change)["pain_stops"].kind == "reject"


def test_surface_is_forbidden_once_scoring_started():
    # Federation playing rule 18.
    asked = FIRST | {"move_surface": "duller"}
    assert fired_by_id(asked | {"scoring_started": True})["surface_lawful"].kind == "reject"
    assert fired_by_id(asked | {"scoring_started": False})["surface_lawful"].kind == "caution"


@pytest.mark.parametrize(
    ("rev_rate_rpm", "expected"),
    [(200.0, "board 8, and straight"), (300.0, "second"), (420.0, "third"), (None, "second")],
)
def test_house_pattern_starts_by_revs(rev_rate_rpm, expected):
    facts = BEFORE | {"is_house_pattern": True, "rev_rate_rpm": rev_rate_rpm}
    assert expected in fired_by_id(facts)["house_pattern"].text


def test_the_first_build_is_64_rules_and_the_8_of_people():
    sections = [rule.section for rule in load_rulebook().rules]
    assert (len(sections), sections.count("J")) == (72, 8)


def test_nothing_in_the_rules_depends_on_the_hand_but_three():
    asking = {
        rule.id
        for rule in load_rulebook().rules
        for when in (rule.when, *(case.when for case in rule.cases))
        if "hand" in fact_names(when)
    }
    assert asking == {"left_hander", "quiet_side", "wedge_of_the_others"}


def test_a_near_miss_changes_only_known_facts():
    names = {name for facts, change in CASES.values() for name in facts | change}
    assert names <= set(FACTS)
