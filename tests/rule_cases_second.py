"""The second part of the cases: what fires each of these rules, near misses, and what must fire it as well.

Read off the rules of thumb themselves, as in ``tests/rule_cases.py``, not off the conditions in the file.
"""

from tests.rule_facts import (
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
    POCKET,
    SPARE,
    THRICE,
    TWICE,
    Case,
    leaves,
    motions,
)

WARNED = {"n_high_pocket_warnings": 2, "n_same": 2}
CAME_IN_LIGHT = {"side": "light", "arrival_class": "light", "err_boards": -1.5}
UNSCORED = {"scoring_started": False}

GATES = {
    "strike_with_warning": Case(
        HIGH | WARNED | {"is_strike": True},
        [
            {"n_high_pocket_warnings": 1},
            {"n_same": 4},
            MISSED,
            CAME_IN_LIGHT,
            IN_POCKET | {"is_strike": False},
            {"arrival_class": "nose", "is_strike": False},
        ],
        [IN_POCKET, {"n_same": 3}, {"is_strike": False}],
    ),
}

ARRIVALS = {
    "parallel_2_2": Case(
        HIGH_THRICE | {"phase": "worn", "abs_breakpoint_diff_boards": 0.5, "is_turning_earlier": False},
        [
            {"phase": "fresh"},
            {"abs_breakpoint_diff_boards": 2.0},
            {"is_turning_earlier": True},
            {"abs_err_boards": 2.5},
            {"abs_err_boards": 0.8},
            TWICE,
            MISSED,
            *motions("early", "late"),
        ],
        [{"phase": "opening"}],
    ),
    "eyes_only": Case(
        HIGH_THRICE | {"is_feet_stuck": True},
        [
            {"is_feet_stuck": False},
            {"is_feet_stuck": None},
            {"abs_err_boards": 4.3},
            TWICE,
            MISSED,
            IN_POCKET,
        ],
        [*motions("early", "late", "unknown"), {"abs_err_boards": 2.5}],
    ),
    "breakpoint_out": Case(
        POCKET | {"breakpoint_past_exit_boards": 2.5, "n_inside_high": 2},
        [
            {"breakpoint_past_exit_boards": 2.0},
            {"n_inside_high": 1},
            MISSED,
            {"side": "high", "arrival_class": "high"},
        ],
    ),
    "breakpoint_in": Case(
        LIGHT | FAR_LIGHT | TWICE | {"breakpoint_past_exit_boards": -3.0, "motion": "late"},
        [
            {"breakpoint_past_exit_boards": -2.0},
            {"breakpoint_past_exit_boards": None},
            {"n_same": 1},
            {"arrival_class": "light"},
            MISSED,
            *motions("early", "even", "roll_out"),
        ],
        [{"arrival_class": "out"}, *motions("skid_long")],
    ),
    "steady_walk": Case(
        HIGH | {"drift_range_boards": 2.5}, [{"drift_range_boards": 2.0}, {"is_strike": True}]
    ),
}

LANE = {
    "weather_turn": Case(
        LIGHT | TWICE | {"has_weather_turned": True, "phase": "fresh", "n_shots": 3, "motion": "late"},
        [
            {"has_weather_turned": False},
            {"phase": "worn"},
            {"n_shots": 9},
            {"err_boards": -0.9},
            {"n_same": 1},
            MISSED,
            IN_POCKET,
            *motions("early", "roll_out"),
        ],
        motions("even", "unknown"),
    ),
    "slope_suspect": Case(
        FIRST | {"is_against_lever": True, "phase": "fresh"},
        [{"is_against_lever": False}, {"is_against_lever": None}, {"phase": "worn"}],
    ),
}

MOTIONS = {
    "read_by_length_not_width": Case(
        FIRST | {"move_ball": "weaker"},
        [{"move_ball": ""}],
        [{"move_ball": "", "move_rotation_deg": 10.0}, {"move_ball": "", "move_rotation_deg": -10.0}],
    ),
}

SEVEN_TWICE = POCKET | {"leave_key": "7", "n_same_leave": 2, "motion": "late"}

CARRY = {
    "far_seven": Case(
        SEVEN_TWICE,
        [{"n_same_leave": 1}, MISSED, *leaves("10", "4 7")],
        [{"side": "high"}, *motions("unknown", "skid_long")],
    ),
    "pin_eight": Case(
        POCKET | {"leave_key": "8", "n_same_leave": 1},
        [MISSED, {"arrival_class": "light"}, {"hit": "flat"}, *leaves("9")],
        [{"n_same_leave": 3, "err_boards": 0.4}, {"n_same_leave": 3}],
    ),
    "four_nine": Case(
        NOSE | {"leave_key": "4 9", "n_severe_high": 1, "is_beginner": False},
        [MISSED, {"side": "light"}, {"is_beginner": True}, *leaves("4", "9")],
        [{"is_beginner": True, "n_severe_high": 2}],
    ),
    "crossed_3_6_10": Case(
        NOSE | {"leave_key": "3 6 10", "n_severe_high": 2},
        [MISSED, {"n_severe_high": 1}, {"side": "light"}, *leaves("10", "3 6")],
        leaves("6 10", "3 10"),
    ),
}

SPLIT_WAYS = [{"split_way": "gap"}, {"split_way": "across"}, {"split_way": None}]
SPARE_STUCK = SPARE | {"key_pin": 4, "is_feet_stuck": True, "is_open_split": False, "walk": "walk"}

REST = {
    "short_oil": Case(BEFORE | {"oil_length_ft": 36.0}, [{"oil_length_ft": 37.0}, {"n_shots": 1}]),
    "medium_oil": Case(
        BEFORE | {"oil_length_ft": 39.0, "is_house_pattern": False},
        [{"oil_length_ft": 36.0}, {"oil_length_ft": 42.0}, {"is_house_pattern": True}, {"n_shots": 1}],
    ),
    "long_oil": Case(BEFORE | {"oil_length_ft": 42.0}, [{"oil_length_ft": 41.0}, {"n_shots": 1}]),
    "by_volume": Case(
        BEFORE | UNSCORED | {"oil_volume_ml": 19.0},
        [
            {"oil_volume_ml": 20.0},
            {"oil_volume_ml": None},
            {"scoring_started": True},
            {"oil_volume_ml": 26.0},
            {"is_house_pattern": True},
            {"n_shots": 1},
        ],
        [{"oil_volume_ml": 27.0}, {"is_house_pattern": False}],
    ),
    "test_balls": Case(BEFORE | UNSCORED, [{"scoring_started": True}, {"n_shots": 1}]),
    "old_wood_or_worn_surface": Case(
        LIGHT | THRICE | {"motion": "roll_out"},
        [{"phase": "worn"}, {"side": "high"}, TWICE, MISSED, *motions("late", "even")],
        motions("early"),
    ),
    "less_rotation": Case(
        HIGH | THRICE | {"motion": "over_hook"},
        [TWICE, MISSED, IN_POCKET, *motions("even", "early")],
        [CAME_IN_LIGHT, {"motion": "even", "n_same": 1, "n_inside_light": 2, "n_outside_high": 2}],
    ),
    "more_rotation": Case(
        HIGH_EARLY | {"hit": "flat"},
        [{"hit": "unknown"}, TWICE, MISSED, *motions("late")],
        [{"hit": "unknown", "phase": "worn", "sum_inside_moves_boards": 4.0}],
    ),
    "wrist_strength": Case(
        HIGH_EARLY | {"n_moves_same_side": 2},
        [{"n_moves_same_side": 1}, TWICE, MISSED, *motions("late"), IN_POCKET],
        [CAME_IN_LIGHT | {"motion": "late"}],
    ),
    "loft_a_little": Case(
        LIGHT_LATE | {"motion": "roll_out", "is_beginner": False},
        [{"is_beginner": True}, {"abs_err_boards": 3.1}, TWICE, MISSED, IN_POCKET, *motions("late", "early")],
        [{"motion": "early", "phase": "worn"}, {"motion": "unknown", "breakpoint_ft": 18.0}],
    ),
    "spare_2_4_6": Case(
        SPARE_STUCK,
        [{"is_feet_stuck": False}, {"is_open_split": True}, *({"key_pin": pin} for pin in (1, 5, 8, 9))],
        [{"key_pin": pin, "walk": walk} for pin in (2, 3, 6, 7, 10) for walk in ("walk", "slide")],
    ),
    "straight_at_spares": Case(
        SPARE | {"n_pins_left": 1, "leave_key": "5", "rev_rate_rpm": 300.0, "has_pain": False},
        [{"n_pins_left": 2}, {"rev_rate_rpm": 180.0}, {"has_pain": True}, *leaves("7", "10")],
        [{"rev_rate_rpm": None}],
    ),
    "key_pin": Case(
        SPARE | {"n_pins_left": 3, "leave_key": "3 6 10", "is_open_split": False},
        [
            {"n_pins_left": 1},
            {"n_pins_left": 10},
            {"is_open_split": True},
            {"split_way": "across"},
            *leaves("2 8", "3 9", "1 5"),
        ],
    ),
    "double_wood": Case(SPARE | {"leave_key": "2 8"}, leaves("2", "2 4"), leaves("3 9", "1 5")),
    "split_sense": Case(
        SPARE | {"split_way": "part", "n_pins_sure": 1}, SPLIT_WAYS, [{"n_pins_sure": 2}, {"n_pins_sure": 3}]
    ),
    "split_gap": Case(SPARE | {"split_way": "gap"}, [{"split_way": "part"}, {"split_way": "across"}]),
    "split_across": Case(
        SPARE | {"split_way": "across", "is_open_split": True},
        [{"is_open_split": False}, {"split_way": "gap"}, {"split_way": "part"}],
    ),
    "washout": Case(SPARE | {"split_way": "across", "key_pin": 1}, [{"key_pin": 2}, {"split_way": "gap"}]),
    "full_rack": Case(SPARE | {"n_pins_left": 10}, [{"n_pins_left": 9}]),
}
