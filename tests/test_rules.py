"""Every rule of the rulebook: what fires it, near misses that must not, and the moves it offers."""

from typing import Any

import pytest

from coachlib.coaching.conditions import fact_names
from coachlib.coaching.facts import FACTS
from coachlib.coaching.rulebook import Fired, fired_rules, load_rulebook
from coachlib.world.line import Move
from coachlib.world.pins import pin_board
from tests.rule_cases import ALL_CASES, ARRIVALS, CARRY, CASES, GATES, LANE, MOTIONS
from tests.rule_facts import BEFORE, FAR_LIGHT, FIRST, HIGH, LIGHT, MISSED, SPARE, THRICE, WITHIN

NEAR_MISSES = [(rule_id, case.fires | change) for rule_id, case in ALL_CASES for change in case.near]
ALSO = [(rule_id, case.fires | change) for rule_id, case in ALL_CASES for change in case.also]


def fired_by_id(facts: dict[str, Any]) -> dict[str, Fired]:
    return {one.rule.id: one for one in fired_rules(load_rulebook(), facts)}


def test_every_rule_has_its_case_and_a_near_miss():
    assert set(CASES) == {rule.id for rule in load_rulebook().rules}
    assert all(case.near for _, case in ALL_CASES)


@pytest.mark.parametrize(("rule_id", "case"), ALL_CASES)
def test_a_rule_fires(rule_id, case):
    assert rule_id in fired_by_id(case.fires)


@pytest.mark.parametrize(("rule_id", "facts"), NEAR_MISSES)
def test_a_near_miss_does_not_fire_it(rule_id, facts):
    assert rule_id not in fired_by_id(facts)


@pytest.mark.parametrize(("rule_id", "facts"), ALSO)
def test_it_also_fires(rule_id, facts):
    assert rule_id in fired_by_id(facts)


@pytest.mark.parametrize("rule_id", sorted(GATES | ARRIVALS | LANE | MOTIONS | CARRY))
def test_no_first_ball_rule_fires_on_a_spare(rule_id):
    assert rule_id not in fired_by_id(CASES[rule_id].fires | SPARE)


SPARE_RULES = [rule.id for rule in load_rulebook().rules if rule.section == "I"]


@pytest.mark.parametrize("rule_id", SPARE_RULES)
def test_no_spare_rule_fires_on_a_first_ball(rule_id):
    assert rule_id not in fired_by_id(CASES[rule_id].fires | FIRST)


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
    "two_far_light": Move(-2, 0),
    "move_fell_short": Move(2, 1),
    "move_went_too_far": Move(-1, -0.5),
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
    "pin_four": Move(2, 1),
    "pin_nine": Move(-1, 0),
    "through_the_nose": Move(4, 2),
    "faster": Move(speed_mph=0.5),
    "slower": Move(speed_mph=-0.5),
    "duller": Move(surface="duller"),
    "smoother": Move(surface="smoother"),
    "stronger_ball_line": Move(2, 1),
    "weaker_ball_line": Move(-2, -1),
    "spare_3_6_9": Move(-3, 0),
    "parallel_2_2": Move(2, 2),
    "breakpoint_out": Move(0, -0.5),
    "breakpoint_in": Move(-1, 1),
    "weather_turn": Move(-1, 0),
    "four_nine": Move(2, 1),
    "crossed_3_6_10": Move(4, 2),
    "less_rotation": Move(rotation_deg=-10),
    "more_rotation": Move(rotation_deg=10),
    "spare_2_4_6": Move(0, 4),
}


@pytest.mark.parametrize(("rule_id", "move"), FIRST_MOVES.items())
def test_the_first_move_is_that_of_the_rule_of_thumb(rule_id, move):
    assert fired_by_id(CASES[rule_id].fires)[rule_id].moves[0] == move


def test_follow_the_miss_goes_out_for_a_light_ball():
    assert fired_by_id(LIGHT | THRICE)["follow_the_miss"].moves == (Move(-1, 0),)


@pytest.mark.parametrize(
    ("rule_id", "move"),
    [
        ("two_and_one", Move(3, 1)),
        ("three_and_two", Move(4, 2)),
        ("pin_four", Move(3, 1)),
        ("severe_once", Move(3, 1)),
    ],
)
def test_who_walks_the_line_gets_another_move(rule_id, move):
    # RULES arithmetic: for a walker 2-and-1 is only half a board at the pins and 3-and-2 goes the wrong way.
    facts = CASES[rule_id].fires | {"walk": "walk"}
    assert fired_by_id(facts)[rule_id].moves[0] == move


def test_many_revs_move_three_when_the_strip_goes():
    facts = LANE["track_is_going"].fires | {"rev_rate_rpm": 380.0}
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


def test_the_rulebook_is_102_rules_and_the_11_of_people():
    sections = [rule.section for rule in load_rulebook().rules]
    assert (len(sections), sections.count("J")) == (113, 11)


def test_a_strike_warns_and_the_next_high_ball_moves_one_and_one():
    facts = CASES["strike_with_warning"].fires
    assert fired_by_id(facts)["strike_with_warning"].kind == "watch"
    for change in ({"is_strike": False}, {"n_same": 3}, {"n_same": 3, "is_strike": False}):
        assert fired_by_id(facts | change)["strike_with_warning"].moves == (Move(1, 1),)
    assert "strike_leave_it" not in fired_by_id(facts)


def test_eyes_go_against_the_miss_and_never_more_than_a_board():
    # Derived: the levers of RULES, 4 boards a board of eyes for a sliding bowler, 2.5 for who walks the line.
    facts = CASES["eyes_only"].fires
    assert fired_by_id(facts)["eyes_only"].moves == (Move(0, -0.5), Move(0, -1))
    light = facts | {"side": "light", "arrival_class": "light", "err_boards": -1.5}
    assert fired_by_id(light)["eyes_only"].moves == (Move(0, 0.5), Move(0, 1))
    for motion in ("early", "roll_out"):
        assert "eyes_only" not in fired_by_id(light | {"motion": motion})


def test_the_far_corner_pin_goes_by_what_was_seen():
    facts = CASES["far_seven"].fires
    assert fired_by_id(facts)["far_seven"].moves == (Move(-1, 0), Move(speed_mph=-0.5))
    assert fired_by_id(facts | {"side": "high"})["far_seven"].moves == (Move(1, 1),)
    assert fired_by_id(facts | {"motion": "unknown"})["far_seven"].kind == "watch"


@pytest.mark.parametrize(("err_boards", "sign"), [(0.4, 1), (-0.4, -1), (0.0, 1)])
def test_the_third_solid_eight_moves_half_a_board(err_boards, sign):
    facts = CASES["pin_eight"].fires | {"err_boards": err_boards}
    assert fired_by_id(facts | {"n_same_leave": 2})["pin_eight"].kind == "stay"
    assert fired_by_id(facts | {"n_same_leave": 3})["pin_eight"].moves[0] == Move(sign * 0.5, sign * 0.5)


@pytest.mark.parametrize(("key_pin", "eyes_boards"), [(2, 2), (4, 4), (7, 6), (3, -2), (6, -4), (10, -6)])
def test_two_four_six_for_who_walks_the_line(key_pin, eyes_boards):
    # Two club pages (United Kingdom): eyes 2, 4, 6 boards where the feet cannot move.
    facts = CASES["spare_2_4_6"].fires | {"key_pin": key_pin, "walk": "walk"}
    assert fired_by_id(facts)["spare_2_4_6"].moves == (Move(0, eyes_boards),)


@pytest.mark.parametrize("key_pin", [2, 4, 7, 3, 6, 10])
def test_spare_eyes_of_a_slider_reach_the_pin_by_the_lever(key_pin):
    # Derived: the straight line goes 4 boards at the pins for one board of eyes, from the pocket at 17.5.
    facts = CASES["spare_2_4_6"].fires | {"key_pin": key_pin, "walk": "slide"}
    move = fired_by_id(facts)["spare_2_4_6"].moves[0]
    assert 17.5 + 4 * move.target_boards == pytest.approx(pin_board(key_pin), abs=1.01)


@pytest.mark.parametrize(
    ("volume_ml", "word"), [(19.0, "smoother"), (18.0, "smoother"), (27.0, "duller"), (28.0, "duller")]
)
def test_the_amount_of_oil_speaks_of_the_surface_and_carries_its_cautions(volume_ml, word):
    # Up to 19 mL smoother: federation magazine, Apr 2011, p. 16, which has 23 for duller. 27 mL on 42 ft is
    # the example of a later trade article; the house patterns of this library have 21 to 25.
    oil = BEFORE | {"oil_volume_ml": volume_ml, "is_house_pattern": False}
    fired = fired_by_id(oil | {"scoring_started": False})
    assert word in fired["by_volume"].text
    assert {"dust_and_rules", "surface_lawful"} <= set(fired)
    for other in ({"scoring_started": True}, {"scoring_started": False, "is_house_pattern": True}):
        silent = fired_by_id(oil | other)
        assert not {"by_volume", "dust_and_rules", "surface_lawful"} & set(silent)


def test_long_oil_names_no_other_pace_where_something_hurts():
    facts = CASES["long_oil"].fires
    assert "pace" in fired_by_id(facts)["long_oil"].text
    assert "pace" not in fired_by_id(facts | {"has_pain": True})["long_oil"].text


def test_the_wrist_is_softer_for_high_and_firmer_for_light():
    facts = CASES["wrist_strength"].fires
    assert "softer" in fired_by_id(facts)["wrist_strength"].moves[0].note
    light = facts | {"side": "light", "arrival_class": "light", "err_boards": -1.5, "motion": "late"}
    assert "firmer" in fired_by_id(light)["wrist_strength"].moves[0].note


@pytest.mark.parametrize("rule_id", ["less_rotation", "more_rotation", "wrist_strength", "loft_a_little"])
def test_every_move_of_the_hand_is_cautioned_and_stopped_by_pain(rule_id):
    for move in fired_by_id(CASES[rule_id].fires)[rule_id].moves:
        asked = FIRST | {"move_rotation_deg": move.rotation_deg, "has_move_note": bool(move.note)}
        assert fired_by_id(asked)["more_speed_or_hand_caution"].kind == "caution"
        assert fired_by_id(asked | {"has_pain": True})["pain_stops"].kind == "reject"


def test_the_sure_pin_is_for_pins_that_cannot_be_made_together():
    facts = CASES["split_sense"].fires
    assert "sure pin" in fired_by_id(facts)["split_sense"].text
    assert "Take two" in fired_by_id(facts | {"n_pins_sure": 2})["split_sense"].text
    assert "stand together" in fired_by_id(facts | {"n_pins_sure": 3})["split_sense"].text


def test_nothing_in_the_rules_depends_on_the_hand_but_three():
    asking = {
        rule.id
        for rule in load_rulebook().rules
        for when in (rule.when, *(case.when for case in rule.cases))
        if "hand" in fact_names(when)
    }
    assert asking == {"left_hander", "quiet_side", "wedge_of_the_others"}


def test_the_cases_know_only_facts_of_the_vocabulary():
    names = {
        name for _, case in ALL_CASES for facts in (case.fires, *case.near, *case.also) for name in facts
    }
    assert names <= set(FACTS)


def test_far_too_light_moves_two():
    assert fired_by_id(LIGHT | THRICE | FAR_LIGHT)["light_move_out"].moves[0] == Move(-2, 0)


@pytest.mark.parametrize("rule_id", ["pin_five_or_bucket", "thin_wash"])
def test_a_burnt_light_hit_goes_in_and_an_unseen_one_is_watched(rule_id):
    facts = CASES[rule_id].fires
    assert fired_by_id(facts | {"motion": "early"})[rule_id].moves[0] == Move(3, 2)
    assert fired_by_id(facts | {"motion": "unknown"})[rule_id].kind == "watch"


def test_a_weak_split_goes_by_the_motion():
    facts = CASES["weak_split_8_10_or_5_7"].fires
    by_motion = [
        fired_by_id(facts | {"motion": name})["weak_split_8_10_or_5_7"] for name in ("early", "late", "even")
    ]
    assert [one.moves[:1] for one in by_motion] == [(Move(2, 1),), (Move(speed_mph=-0.5),), ()]


def test_misses_inside_after_moves_inside_stop_the_feet():
    # German textbook, p. 40, and a coach's tip: then no more feet, but the body to the line.
    growing = FIRST | {"n_miss_same_way": 3, "miss_boards": 2.0, "sum_inside_moves_boards": 4.0}
    assert fired_by_id(growing)["square_to_the_line"].kind == "stay"
    assert fired_by_id(FIRST | {"move_inside_boards": 3.0})["square_to_the_line"].kind == "note"


ONE_BALL_RULES = [(rule_id, case) for rule_id, case in ALL_CASES if MISSED in case.near]


@pytest.mark.parametrize(("rule_id", "case"), ONE_BALL_RULES)
def test_a_ball_within_the_usual_spread_is_no_ball_on_target(rule_id, case):
    # What a known miss silences, a ball off the mark silences too: weak evidence moves nothing. Only a strike
    # is left alone all the same, and a small miss is no reason to warn.
    fired = fired_by_id(case.fires | WITHIN)
    assert (rule_id in fired) is (rule_id in ("strike_leave_it", "within_usual_spread"))


def test_there_are_many_rules_that_a_known_miss_silences():
    assert len(ONE_BALL_RULES) > 40


@pytest.mark.parametrize(
    ("motion", "phase", "kind", "first"),
    [
        ("late", "fresh", "move", Move(-2, 0)),
        ("even", "worn", "move", Move(-2, 0)),
        ("unknown", "blending", "move", Move(-2, 0)),
        ("unknown", "opening", "watch", None),
        ("unknown", "worn", "watch", None),
        ("early", "fresh", "move", Move(3, 2)),
        ("roll_out", "worn", "move", Move(3, 2)),
    ],
)
def test_far_light_twice_goes_by_the_motion(motion, phase, kind, first):
    # Common practice: what never came back goes out, what burnt up goes in; unseen on a played lane, look.
    fired = fired_by_id(CASES["two_far_light"].fires | {"motion": motion, "phase": phase})["two_far_light"]
    assert (fired.kind, next(iter(fired.moves), None)) == (kind, first)


def test_a_move_that_fell_short_is_followed_by_a_small_step_the_same_way():
    high = CASES["move_fell_short"].fires
    light = high | LIGHT | {"last_move_feet_boards": -2.0, "last_move_target_boards": 0.0}
    assert fired_by_id(high)["move_fell_short"].moves == (Move(2, 1), Move(1, 0))
    assert fired_by_id(light)["move_fell_short"].moves == (Move(-1, 0), Move(-2, -1))


@pytest.mark.parametrize(
    ("feet", "eyes", "back"),
    [
        (2, 1, Move(-1, -0.5)),
        (4, 2, Move(-2, -1)),
        (1, 0, Move(-1, 0)),
        (-2, -1, Move(1, 0.5)),
        (0, -1, Move(0, 1)),
    ],
)
@pytest.mark.parametrize("walk", ["slide", "walk"])
def test_half_back_is_half_of_the_last_move_for_whoever_throws(feet, eyes, back, walk):
    # The size is that of the move made, so a walker's size is not changed a second time.
    last = {"last_move_feet_boards": float(feet), "last_move_target_boards": float(eyes), "walk": walk}
    for side in (HIGH, LIGHT):
        fired = fired_by_id(CASES["move_went_too_far"].fires | side | last)
        assert fired["move_went_too_far"].moves == (back,)
