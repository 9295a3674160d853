"""What fires each rule, what is a near miss, and what must fire it as well; written by hand.

The cases are read off the rules of thumb themselves (federation pages, coaching magazines and columns, named
rule by rule in ``data/rules.toml``), not off the conditions in the file.
"""

from tests import rule_cases_second as second
from tests.rule_facts import (
    ACROSS,
    BEFORE,
    FAR_LIGHT,
    FIRST,
    HIGH,
    HIGH_EARLY,
    HIGH_THRICE,
    IN_POCKET,
    LIGHT,
    LIGHT_LATE,
    MISSED,
    NOSE,
    ON_TARGET,
    POCKET,
    SPARE,
    TWICE,
    WITHIN,
    Case,
    leaves,
    motions,
)

WRONG_ARRIVALS = [
    {"arrival_class": name} for name in ("out", "far_light", "light", "high", "nose", "crossover", "past")
]

MOVED_IN = {"last_move_feet_boards": 2.0, "last_move_target_boards": 1.0}
FAR_LIGHT_TWICE = {"is_severe_light": True, "n_severe_light": 2}

GATES = {
    "strike_leave_it": Case(
        POCKET | {"is_strike": True, "motion": "even"},
        [
            {"is_strike": False},
            MISSED,
            *WRONG_ARRIVALS,
            *motions("early", "late", "skid_long", "over_hook", "roll_out"),
        ],
        [{"arrival_class": None, "side": None}, WITHIN, *motions("unknown")],
    ),
    "move_went_too_far": Case(
        LIGHT | MOVED_IN | {"n_hits_since_move": 2, "n_too_far": 2},
        [
            {"n_too_far": 1},
            {"n_too_far": 0},
            {"n_hits_since_move": 0},
            {"last_move_feet_boards": 0.0, "last_move_target_boards": 0.0},
            {"last_move_feet_boards": None, "last_move_target_boards": None},
            MISSED,
            WITHIN,
        ],
        [HIGH | {"last_move_feet_boards": -1.0, "last_move_target_boards": 0.0}, {"n_too_far": 3}],
    ),
    "move_perhaps_too_far": Case(
        LIGHT | MOVED_IN | {"n_hits_since_move": 1, "n_too_far": 1},
        [{"n_too_far": 2}, {"n_too_far": 0}, {"n_hits_since_move": 0}, ACROSS, MISSED, WITHIN],
        [FAR_LIGHT, HIGH, NOSE],
    ),
    "move_perhaps_short": Case(
        HIGH | MOVED_IN | {"n_hits_since_move": 1, "n_fell_short": 1},
        [{"n_fell_short": 0}, {"n_hits_since_move": 2}, {"n_hits_since_move": 0}, MISSED, WITHIN],
        [NOSE],
    ),
    "one_change_at_a_time": Case(
        HIGH | {"n_since_change": 1, "leave_key": "6"},
        [{"n_since_change": 2}, {"n_since_change": 99}],
        [{"n_since_change": 0}, {"is_severe": True}, NOSE | {"is_severe": True}, *leaves("4", "4 9")],
    ),
    "shots_needed": Case(
        HIGH | {"has_crossing": False, "is_on_target": None, "n_ok": 2, "shots_needed": 3},
        [{"n_ok": 3}, {"has_crossing": True}, {"is_severe": True}, FAR_LIGHT | {"is_severe_light": True}],
    ),
    "one_shot_is_no_pattern": Case(
        HIGH | {"n_ok": 1},
        [
            {"n_ok": 2},
            *leaves("4", "4 9"),
            ACROSS | {"is_severe": True, "phase": "worn"},
            LIGHT | {"is_open_split": True},
            IN_POCKET | {"is_open_split": True},
            {"is_speed_fitting": True, "abs_speed_diff_mph": 0.8},
            {"abs_slide_diff_boards": 2.5},
        ],
        [
            {"is_severe": True},
            NOSE | {"is_severe": True, "phase": "worn"},
            ACROSS | {"is_severe": True, "phase": "opening"},
            {"is_open_split": True},
            FAR_LIGHT | {"is_severe_light": True},
        ],
    ),
    "missed_target_result_fits": Case(
        HIGH | MISSED | {"miss_boards": 2.0, "is_miss_same_way_as_err": True, "lane_part_boards": 1.4},
        [
            {"lane_part_boards": 1.5},
            {"is_on_target": True, "is_missed": False},
            WITHIN,
            {"is_miss_same_way_as_err": False},
            IN_POCKET,
        ],
    ),
    "within_usual_spread": Case(
        HIGH | WITHIN | {"miss_boards": 1.5, "n_miss_same_way": 1},
        [
            {"is_within_spread": False, "is_on_target": True},
            MISSED,
            {"n_miss_same_way": 3},
            IN_POCKET,
            {"is_strike": True},
            {"n_inside_light": 2, "n_outside_high": 2},
        ],
        [
            {"n_miss_same_way": 2},
            LIGHT | WITHIN,
            NOSE | WITHIN | {"leave_key": "4 9"},
            {"n_inside_light": 2, "n_outside_high": 1},
        ],
    ),
    "missed_outside_yet_struck": Case(
        POCKET | MISSED | {"miss_boards": -1.5}, [{"miss_boards": -1.0}, {"arrival_class": "high"}]
    ),
    "missed_inside_yet_struck": Case(
        POCKET | MISSED | {"miss_boards": 1.5}, [{"miss_boards": 1.0}, {"arrival_class": "high"}]
    ),
    "missed_inside_went_light": Case(
        LIGHT | MISSED | {"miss_boards": 2.0}, [{"miss_boards": -2.0}, IN_POCKET, WITHIN], [FAR_LIGHT]
    ),
    "missed_outside_went_high": Case(
        HIGH | MISSED | {"miss_boards": -2.0, "n_outside_high": 2},
        [{"n_outside_high": 1}, {"miss_boards": 2.0}, IN_POCKET],
        [{"arrival_class": "nose"}],
    ),
    "hit_target_wrong_again": Case(HIGH_THRICE, [TWICE, IN_POCKET, MISSED], WRONG_ARRIVALS),
    "severe_once": Case(
        ON_TARGET | ACROSS | {"n_ok": 6, "n_severe_high": 1, "is_severe": True, "phase": "worn"},
        [
            NOSE,
            {"phase": "opening"},
            {"phase": "fresh"},
            {"n_since_change": 1},
            {"abs_speed_diff_mph": 0.8},
            {"abs_slide_diff_boards": 2.5},
            {"n_severe_high": 2},
            {"is_severe": False},
            {"is_beginner": True},
            FAR_LIGHT,
        ],
        [{"abs_speed_diff_mph": 0.7}],
    ),
    "pulled_and_still_too_high": Case(
        NOSE | MISSED | {"miss_boards": 1.0, "unexplained_boards": 1.5},
        [
            WITHIN,
            {"is_on_target": True, "is_missed": False},
            {"unexplained_boards": 1.0},
            {"miss_boards": 0.5},
            {"arrival_class": "high"},
            {"abs_speed_diff_mph": 2.0, "is_speed_fitting": True},
        ],
        [ACROSS, {"arrival_class": "high", "is_open_split": True}],
    ),
    "scatter_first": Case(
        HIGH | {"n_shots": 4, "miss_sd_boards": 1.6}, [{"miss_sd_boards": 1.5}, {"n_shots": 3}]
    ),
    "slide_board_off": Case(
        LIGHT | {"abs_slide_diff_boards": 2.5}, [{"abs_slide_diff_boards": 2.0}, MISSED, {"is_strike": True}]
    ),
    "speed_off": Case(
        HIGH | {"abs_speed_diff_mph": 0.8, "is_speed_fitting": True},
        [{"is_speed_fitting": False}, {"abs_speed_diff_mph": 0.7}],
    ),
}

ARRIVALS = {
    "zone_limit": Case(
        HIGH_THRICE | {"sum_inside_moves_boards": 8.0},
        [{"sum_inside_moves_boards": 7.0}, TWICE, {"side": "light"}, MISSED, *motions("late", "skid_long")],
        [
            {"sum_inside_moves_boards": 0.0, "is_beyond_comfort": True},
            *motions("early", "over_hook", "roll_out", "unknown"),
        ],
    ),
    "follow_the_miss": Case(
        HIGH_THRICE,
        [
            {"abs_err_boards": 2.5},
            {"abs_err_boards": 0.4},
            TWICE,
            MISSED,
            IN_POCKET,
            {"motion": "early"},
            {"motion": "early", "side": "light"},
            {"motion": "unknown", "side": "light", "phase": "worn"},
            {"motion": "late", "side": "light"},
            {"err_boards": None},
        ],
        [
            *motions("late", "over_hook", "skid_long"),
            {"motion": "early", "abs_err_boards": 0.9},
            {"motion": "unknown", "phase": "worn"},
            {"motion": "unknown", "side": "light", "phase": "fresh"},
            {"motion": "unknown", "side": "light", "phase": "blending"},
        ],
    ),
    "parallel_1_1": Case(
        HIGH_THRICE | {"err_boards": 0.8, "abs_err_boards": 0.8, "n_same_sign": 3, "is_strike": False},
        [
            {"abs_err_boards": 0.4},
            {"abs_err_boards": 1.0},
            {"n_same_sign": 2},
            {"side": "light"},
            {"is_strike": None},
            MISSED,
            {"is_strike": True},
            *motions("early", "late"),
        ],
        [IN_POCKET, *motions("unknown")],
    ),
    "two_and_one": Case(
        HIGH_EARLY,
        [TWICE, MISSED, *motions("late"), {"err_boards": 2.5}, {"err_boards": 0.8}],
        motions("even"),
    ),
    "three_and_two": Case(
        HIGH_THRICE | {"abs_breakpoint_diff_boards": 1.0},
        [{"abs_breakpoint_diff_boards": 1.5}, TWICE, MISSED, {"side": "light"}, *motions("late")],
        motions("early"),
    ),
    "four_and_two": Case(
        NOSE | {"n_same": 2, "is_severe": True},
        [{"n_same": 1}, MISSED, {"arrival_class": "high"}],
        [ACROSS],
    ),
    "big_jump": Case(
        NOSE | {"is_wide_split": True, "is_severe": True, "n_severe_high": 2},
        [MISSED, {"n_severe_high": 1}, {"is_wide_split": False}, {"side": "light"}],
    ),
    "light_move_out": Case(
        LIGHT_LATE,
        [TWICE, MISSED, {"side": "high"}, *motions("roll_out", "early")],
        [FAR_LIGHT, *motions("even", "unknown")],
    ),
    "two_far_light": Case(
        LIGHT | FAR_LIGHT | FAR_LIGHT_TWICE | {"motion": "late", "phase": "fresh"},
        [
            {"n_severe_light": 1},
            {"is_severe_light": False, "arrival_class": "light"},
            {"side": "high"},
            {"is_plastic_ball": True},
            MISSED,
            WITHIN,
        ],
        [{"arrival_class": "out"}, {"phase": "worn"}, *motions("even", "unknown", "early")],
    ),
    "move_fell_short": Case(
        HIGH | MOVED_IN | {"n_hits_since_move": 2, "n_fell_short": 2, "motion": "even"},
        [{"n_fell_short": 1}, {"n_fell_short": 0}, IN_POCKET, MISSED, WITHIN, LIGHT | {"motion": "roll_out"}],
        [{"motion": "early"}, LIGHT | {"motion": "late"}, {"n_fell_short": 3}],
    ),
    "look_farther": Case(
        FIRST | {"motion": "early", "miss_boards": 2.0, "n_miss_same_way": 2, "phase": "worn"},
        [{"phase": "fresh"}, *motions("late"), {"miss_boards": -2.0}, {"n_miss_same_way": 1}],
        [{"phase": "opening"}],
    ),
    "look_closer": Case(
        LIGHT_LATE | {"oil_length_ft": 43.0},
        [{"oil_length_ft": 40.0}, {"oil_length_ft": None}, TWICE, MISSED, {"side": "high"}, *motions("even")],
        motions("skid_long"),
    ),
    "square_to_the_line": Case(FIRST | {"move_inside_boards": 3.0}, [{"move_inside_boards": 2.0}]),
    "fits_the_lane": Case(FIRST | {"is_move_off_lane": True}, [{"is_move_off_lane": False}]),
}

# Rules that hold in two quite different cases: the second one.
SECOND = {
    "move_went_too_far": Case(
        ON_TARGET | ACROSS | {"n_hits_since_move": 1, "n_too_far": 1, "last_move_feet_boards": -1.0},
        [NOSE, {"n_too_far": 0}, {"n_hits_since_move": 0}, {"last_move_feet_boards": None}, MISSED, WITHIN],
    ),
    "four_and_two": Case(
        HIGH_THRICE | {"last_move_feet_boards": 2.0, "last_move_target_boards": 1.0},
        [
            {"last_move_feet_boards": 1.0},
            {"last_move_target_boards": 2.0},
            TWICE,
            {"arrival_class": "pocket"},
        ],
    ),
    "big_jump": Case(
        HIGH_EARLY | {"phase": "worn"}, [{"phase": "opening"}, {"side": "light"}, TWICE, *motions("even")]
    ),
    "square_to_the_line": Case(
        HIGH | MISSED | {"n_miss_same_way": 3, "miss_boards": 2.0, "sum_inside_moves_boards": 4.0},
        [{"n_miss_same_way": 2}, {"miss_boards": -2.0}, {"sum_inside_moves_boards": 2.0}],
    ),
    "fronts_are_gone": Case(
        POCKET | {"motion": "roll_out", "hit": "flat"},
        [{"hit": "unknown"}, *motions("even")],
        [{"breakpoint_ft": 18.0}],
    ),
}

DRY_FRONT = LIGHT | {"breakpoint_ft": 20.0}
BURNT = {"motion": "early", "is_dull_or_strong_ball": True, "phase": "worn"}

LANE = {
    "track_is_going": Case(
        HIGH | {"phase": "blending", "is_trend_inward": True, "is_turning_earlier": True},
        [{"phase": "fresh"}, {"is_trend_inward": False}, {"is_turning_earlier": False}, {"err_boards": -1.5}],
        [{"phase": "opening"}, {"is_turning_earlier": None, "motion": "early"}],
    ),
    "fronts_are_gone": Case(
        DRY_FRONT,
        [{"breakpoint_ft": 30.0}, {"side": "pocket"}, MISSED],
        [
            {"side": "pocket", "hit": "flat"},
            {"breakpoint_ft": None, "motion": "roll_out"},
        ],
    ),
    "burnt_not_oily": Case(
        LIGHT | BURNT,
        [*motions("late"), {"is_dull_or_strong_ball": False}, {"phase": "fresh"}, MISSED, {"side": "pocket"}],
        [{"side": "pocket", "hit": "flat"}, {"phase": "opening"}, *motions("roll_out")],
    ),
    "tighter_down_lane": Case(
        LIGHT_LATE | {"phase": "blending"},
        [{"phase": "fresh"}, TWICE, MISSED, {"side": "high"}, *motions("early")],
    ),
    "others_on_your_line": Case(
        FIRST | {"has_others_on_line": True}, [{"has_others_on_line": False}, {"has_others_on_line": None}]
    ),
    "pair_is_two_lanes": Case(
        HIGH | {"lane_gap_boards": 1.5, "n_ok": 2, "n_ok_other_lane": 2},
        [{"n_ok_other_lane": 1}, {"n_ok": 1}, {"lane_gap_boards": 1.0}],
    ),
    "fresh_snap": Case(
        POCKET | {"phase": "fresh", "n_shots": 3, "motion": "over_hook"},
        [{"n_shots": 4}, {"phase": "worn"}, {"arrival_class": "high"}, *motions("even")],
    ),
    "quiet_side": Case(
        FIRST | {"hand": "left", "move_inside_boards": 2.0},
        [{"is_own_side_quiet": False}, {"hand": "right"}, {"move_inside_boards": 0.0}],
        [{"hand": "right", "is_own_side_quiet": True}],
    ),
    "wedge_of_the_others": Case(
        HIGH | {"hand": "left", "motion": "early", "sum_inside_moves_boards": 2.0, "phase": "opening"},
        [
            {"hand": "right"},
            {"is_own_side_quiet": False},
            *motions("even"),
            {"sum_inside_moves_boards": 0.0},
            {"phase": "fresh"},
        ],
        [{"phase": "worn"}, {"hand": "right", "is_own_side_quiet": True}],
    ),
}

TEN_TWICE = POCKET | {"leave_key": "10", "n_same_leave": 2, "hit": "flat"}
TEN_RINGING = {"hit": "ringing"}
OTHER_TEN = [{"n_same_leave": 1}, TEN_RINGING, *leaves("7")]

MOTIONS = {
    "early_and_flat": Case(
        TEN_TWICE | {"motion": "early"},
        [*motions("late"), *OTHER_TEN, {"arrival_class": "light"}, MISSED],
        [{"leave_key": "8 10", "n_same_leave": 1}],
    ),
    "late_and_snappy": Case(
        LIGHT | {"motion": "over_hook", "n_ok": 3, "n_ok_high": 1, "n_ok_light": 1},
        [{"n_ok": 2}, {"n_ok_light": 0}, {"n_ok_high": 0}, *motions("early"), MISSED],
    ),
    "wet_dry_edge": Case(
        FIRST | {"n_inside_light": 2, "n_outside_high": 2}, [{"n_outside_high": 1}, {"n_inside_light": 1}]
    ),
    "never_turns": Case(
        LIGHT_LATE | {"motion": "skid_long"},
        [{"phase": "worn"}, TWICE, MISSED, {"side": "high"}, *motions("late")],
    ),
    "over_hook_everywhere": Case(
        HIGH | {"motion": "over_hook", "n_outside_high": 1, "n_inside_high": 1},
        [{"n_inside_high": 0}, {"n_outside_high": 0}, {"side": "pocket"}, MISSED, *motions("even")],
        [ACROSS, *motions("early")],
    ),
}

BUCKET = LIGHT | {"leave_key": "2 4 5 8", "n_same_leave": 2, "motion": "late"}
WASH = LIGHT | {"leave_key": "1 2 10", "n_same_leave": 2, "motion": "late"}

CARRY = {
    "single_tap": Case(
        POCKET | {"is_single_tap": True, "n_same_leave": 1}, [{"n_same_leave": 2}, {"is_single_tap": False}]
    ),
    "ten_flat_early": Case(TEN_TWICE | {"motion": "early"}, [*motions("late"), *OTHER_TEN]),
    "ten_flat_late": Case(TEN_TWICE | {"motion": "late"}, [*motions("early"), *OTHER_TEN]),
    "ten_flat_unknown": Case(TEN_TWICE | {"motion": "unknown"}, [*motions("late"), *OTHER_TEN]),
    "ten_ringing": Case(
        TEN_TWICE | TEN_RINGING,
        [{"hit": "flat"}, {"n_same_leave": 1}, {"arrival_class": "light"}, *leaves("7")],
        [{"arrival_class": "high"}],
    ),
    "pin_four": Case(HIGH | {"leave_key": "4"}, [MISSED, {"side": "light"}, *leaves("6", "4 9")]),
    "pin_nine": Case(
        POCKET | {"leave_key": "9", "n_same_leave": 2},
        [{"n_same_leave": 1}, *leaves("8"), {"side": "high", "arrival_class": "high"}, {"side": "light"}],
    ),
    "pin_five_or_bucket": Case(BUCKET, [{"n_same_leave": 1}, *leaves("2 4 5 7")], leaves("5", "2 4 5")),
    "thin_wash": Case(
        WASH,
        [{"n_same_leave": 1}, MISSED, *leaves("1 2 4")],
        [*leaves("2 8"), {"leave_key": "2 10", "n_same_leave": 1}],
    ),
    "weak_split_8_10_or_5_7": Case(
        LIGHT | {"leave_key": "5 7", "motion": "late"}, [MISSED, *leaves("5 10")], leaves("8 10")
    ),
    "through_the_nose": Case(
        NOSE | {"leave_key": "4 6 7 10", "n_severe_high": 2},
        [MISSED, {"n_severe_high": 1}, {"side": "light"}, *leaves("4 7 10")],
        leaves("3 6 7 10", "6 7 10", "4 6 7 9 10"),
    ),
}

FOR_STRONGER = FIRST | {"move_ball": "stronger", "move_feet_boards": 0.0, "move_target_boards": 0.0}
FOR_WEAKER = FOR_STRONGER | {"move_ball": "weaker"}
HAS_OWN_LINE = [{"move_feet_boards": -4.0}, {"move_target_boards": -4.0}]
UNSCORED = {"scoring_started": False}
SCORING = [{"scoring_started": True}, {"scoring_started": None}]

REST = {
    "house_pattern": Case(BEFORE | {"is_house_pattern": True}, [{"n_shots": 1}, {"is_house_pattern": False}]),
    "rule_of_31": Case(
        BEFORE | {"oil_length_ft": 40.0}, [{"oil_length_ft": None}, {"oil_length_ft": 31.0}, {"n_shots": 1}]
    ),
    "faster": Case(HIGH_EARLY, [{"side": "light"}, TWICE, MISSED, *motions("even")]),
    "slower": Case(LIGHT_LATE, [{"side": "high"}, TWICE, MISSED, *motions("even")]),
    "duller": Case(
        LIGHT_LATE | UNSCORED,
        [*SCORING, TWICE, MISSED, {"side": "high"}, *motions("even")],
        motions("skid_long"),
    ),
    "smoother": Case(
        HIGH_EARLY | UNSCORED,
        [*SCORING, TWICE, MISSED, {"side": "pocket"}, *motions("even")],
        motions("roll_out"),
    ),
    "surface_lawful": Case(
        FIRST | {"move_surface": "duller"}, [{"move_surface": ""}], [{"move_surface": "smoother"}]
    ),
    "order_of_change": Case(
        HIGH | {"n_moves_same_side": 2, "n_same": 3, "has_pain": False},
        [{"n_moves_same_side": 1}, TWICE, {"has_pain": True}],
    ),
    "stronger_ball_line": Case(FOR_STRONGER, [{"move_ball": "weaker"}, {"move_ball": ""}, *HAS_OWN_LINE]),
    "weaker_ball_line": Case(
        FOR_WEAKER, [{"move_ball": "stronger"}, {"move_ball": ""}, {"side": "light"}, *HAS_OWN_LINE]
    ),
    "corner_cross_lane": Case(SPARE | {"leave_key": "7"}, leaves("4 7", "4"), leaves("10")),
    "spare_3_6_9": Case(
        SPARE | {"key_pin": 2, "is_open_split": False, "walk": "walk"},
        [{"is_open_split": True}, *({"key_pin": pin} for pin in (1, 5, 8, 9))],
        [{"key_pin": pin} for pin in (3, 4, 6, 7, 10)],
    ),
    "pain_stops": Case(FIRST | {"has_pain": True}, [{"has_pain": False}], [SPARE]),
    "more_speed_or_hand_caution": Case(
        FIRST | {"move_speed_mph": 0.5, "move_rotation_deg": 0.0, "has_move_note": False},
        [{"move_speed_mph": -0.5}, {"move_speed_mph": 0.0}],
        [
            {"move_speed_mph": 0.0, "move_rotation_deg": 10.0},
            {"move_speed_mph": 0.0, "move_rotation_deg": -10.0},
            {"move_speed_mph": 0.0, "has_move_note": True},
        ],
    ),
    "dust_and_rules": Case(
        FIRST | {"move_surface": "smoother"}, [{"move_surface": ""}], [{"move_surface": "duller"}]
    ),
    "leave_the_lane_alone": Case(BEFORE, [{"n_shots": 1}], [SPARE]),
    "junior": Case(
        FIRST | {"age_years": 17.0}, [{"age_years": 18.0}, {"age_years": None}], [SPARE, {"age_years": 13.0}]
    ),
    "speed_is_down": Case(
        FIRST | {"speed_down_mph": 1.5}, [{"speed_down_mph": 0.9}, {"speed_down_mph": None}], [HIGH]
    ),
    "many_balls": Case(
        FIRST | {"n_balls_thrown": 60},
        [{"n_balls_thrown": 61}, {"n_balls_thrown": 40}, {"n_balls_thrown": 40, "age_years": 18.0}],
        [{"n_balls_thrown": 80}, {"n_balls_thrown": 40, "age_years": 12.0}],
    ),
    "bad_approach": Case(
        FIRST | {"is_approach_bad": True}, [{"is_approach_bad": False}], [SPARE, BEFORE, HIGH]
    ),
    "left_hander": Case(FIRST | {"hand": "left"}, [{"hand": "right"}]),
    "two_hander_high_rev": Case(
        FIRST | {"rev_rate_rpm": 420.0},
        [{"rev_rate_rpm": 400.0}],
        [{"rev_rate_rpm": None, "is_two_handed": True}],
    ),
    "low_rev_or_senior": Case(
        FIRST | {"bowler_speed_mph": 14.0},
        [{"bowler_speed_mph": 15.0}],
        [{"bowler_speed_mph": 17.0, "rev_rate_rpm": 200.0}],
    ),
}

GATES |= second.GATES
ARRIVALS |= second.ARRIVALS
LANE |= second.LANE
MOTIONS |= second.MOTIONS
CARRY |= second.CARRY
REST |= second.REST

CASES: dict[str, Case] = GATES | ARRIVALS | LANE | MOTIONS | CARRY | REST
"""One case a rule."""

ALL_CASES = [*CASES.items(), *SECOND.items()]
