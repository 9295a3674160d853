"""The answer after a ball: gates first, then moves that fit; the same shots always give the same advice."""

import dataclasses
import re

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import coachlib as cl
from coachlib.coaching.rules.rule_advice import kind_of
from coachlib.coaching.rules.rule_voice import move_problems
from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.simulation.paths import line_paths
from coachlib.views.panels.shared.form import shot_answers, shot_from

LINE = cl.Line(22, 11)
EARLY_HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")
LATE_LIGHT = cl.Shot(crossed_board=11, arrival="light", motion="late")


def played(*shots, bowler=None, **fields):
    session = cl.Session(bowler=bowler or cl.Bowler(), line=LINE, **fields)
    for shot in shots:
        session = cl.observe(session, shot)
    return session


def advise(*shots, bowler=None, **fields):
    return cl.advise(played(*shots, bowler=bowler, **fields), model_on=False)


def test_before_the_first_ball_the_line_stays_and_a_start_is_offered():
    advice = advise(pattern=cl.load_pattern("house_41"))
    assert (advice.kind, advice.move, advice.new_line) == ("stay", cl.Move(), LINE)
    assert "rule_of_31" in advice.rule.rule_ids
    assert advice.cause.verdict == "too early"


def test_until_the_model_speaks_its_fields_are_empty():
    advice = advise(EARLY_HIGH)
    assert advice.model is advice.agree is advice.cause.bowler_prob is None
    assert advice.stay_strike_prob is advice.move_strike_prob is advice.better_lanes_frac is None
    assert advice.runners_up == ()


PULLED_TO_THE_NOSE = cl.Shot(crossed_board=13.5, arrival="nose", leave=(4, 6, 7, 10))
PULLED_TOO_HIGH = cl.Shot(crossed_board=13, arrival=23.0)
GIFT = cl.Shot(crossed_board=9, arrival="pocket", leave=())
SLOW_HIGH = cl.Shot(crossed_board=11, arrival="high", speed_mph=15.5)
SLOW_NOSE = cl.Shot(crossed_board=11, arrival="nose", speed_mph=15.0)
SLID_NOSE = cl.Shot(crossed_board=11, arrival="nose", slide_board=26)
LIGHT, COLDER = cl.Shot(crossed_board=11, arrival="light"), {"place": cl.Place(has_weather_turned=True)}
USUAL = {"bowler": cl.Bowler(speed_mph=17.0, drift_boards=0.0)}


@pytest.mark.parametrize(
    ("shots", "fields", "kind", "verdict", "rule_id"),
    [
        ([EARLY_HIGH], {}, "watch", None, None),  # patience comes first
        ([EARLY_HIGH] * 2, {}, "watch", None, None),
        # coaching magazine, "Fundamentals of target line adjustments" (2017): 2-and-1 for early and high
        ([EARLY_HIGH] * 3, {}, "line", "lane", "two_and_one"),
        ([PULLED_TO_THE_NOSE], {}, "stay", "bowler", "missed_target_result_fits"),
        ([PULLED_TOO_HIGH], {}, "line", "both", "pulled_and_still_too_high"),
        ([GIFT], {}, "stay", None, "missed_outside_yet_struck"),
        # another speed or slide board is the bowler's, on the first ball
        ([SLOW_HIGH], USUAL, "stay", "bowler", "speed_off"),
        ([SLOW_NOSE], USUAL, "stay", "bowler", None),
        ([SLID_NOSE], USUAL, "stay", "bowler", None),
        ([cl.Shot(arrival="high")] * 3, {}, None, "direction known", None),
        # a colder hall is believed after two light balls
        ([LIGHT], COLDER, "watch", None, None),
        ([LIGHT] * 2, COLDER, None, None, "weather_turn"),
        ([LIGHT] * 2, {}, "watch", None, None),
        # a lone leave moves nothing by itself
        ([cl.Shot(leave=(3,))], {}, "watch", None, None),
        ([cl.Shot(leave=(6,))], {}, "watch", None, None),
        ([cl.Shot(leave=(4, 6, 7, 10))], {}, "watch", None, None),
        ([cl.Shot(leave=(6, 10))], {}, "watch", None, None),
    ],
)
def test_what_is_answered_and_whose_doing_it_was(shots, fields, kind, verdict, rule_id):
    advice = advise(*shots, **fields)
    assert kind in (None, advice.kind)
    assert verdict in (None, advice.cause.verdict)
    assert rule_id in (None, *advice.rule.rule_ids[:1])
    assert advice.move.is_stay == (advice.kind in ("stay", "watch"))


def test_high_and_early_three_times_on_target_is_a_two_and_one_and_a_pull_too_high_goes_inside_too():
    advice = advise(EARLY_HIGH, EARLY_HIGH, EARLY_HIGH)
    assert (advice.move, advice.new_line) == (cl.Move(2, 1), cl.Line(24, 12))
    assert advise(PULLED_TOO_HIGH).move.feet_boards > 0


@pytest.mark.parametrize("high_board", [22.0, 23.0, 25.0, 45.0])
@pytest.mark.parametrize("motion", ["early", "roll_out"])
@pytest.mark.parametrize("ball", [None, cl.load_ball("solid_1000")])
def test_a_light_ball_that_burnt_up_never_goes_outside_whatever_fits(high_board, motion, ball):
    shot = cl.Shot(crossed_board=11, arrival="light", motion=motion)
    advice = advise(*[shot] * 4, bowler=cl.Bowler(feet_high_board=high_board), ball=ball, games_on_lane=2.0)
    assert advice.move.feet_boards >= 0
    assert advice.move.surface != "duller"


def test_light_and_late_goes_out_but_light_and_burnt_does_not():
    # regional association and French coaching articles: motion decides whether light means out
    assert advise(*[LATE_LIGHT] * 3).move.feet_boards < 0
    burnt = cl.Shot(crossed_board=11, arrival="light", motion="roll_out")
    worn = advise(*[burnt] * 3, games_on_lane=2.0, ball=cl.load_ball("solid_1000"))
    assert worn.kind in ("line", "ball", "speed", "surface")
    assert worn.move.feet_boards >= 0
    assert worn.move.surface != "duller"


def test_a_move_that_does_not_fit_is_not_offered():
    stuck = cl.Bowler(feet_high_board=22.0)
    advice = advise(*[EARLY_HIGH] * 4, bowler=stuck)
    assert advice.new_line.feet_board <= 22
    assert move_problems(advice.session, cl.Move(2, 1)) == (
        "feet would be on board 24; this bowler stands on 1 to 22",
    )


def advice_shots(advice):
    return [seen.shot for seen in advice.session.shots]


@pytest.mark.parametrize("arrival", ["high", "nose", "light"])
@pytest.mark.parametrize("motion", ["early", "even", "late"])
def test_a_young_bowler_moves_little_and_shifts_the_line_less_than_a_grown_up(arrival, motion):
    for n_balls in range(1, 5):
        advice = advise(
            *[cl.Shot(crossed_board=11, arrival=arrival, motion=motion)] * n_balls,
            bowler=cl.Bowler(age_years=10.0),
        )
        assert max(abs(advice.move.feet_boards), abs(advice.move.target_boards)) <= 1.5
        small, grown = (
            cl.line_shift_boards(voice.move, at_ft=60)
            for voice in (advice.rule, advise(*advice_shots(advice), bowler=cl.Bowler()).rule)
        )
        assert abs(small) < abs(grown) or small == grown == 0
        assert small * grown >= 0
        assert "junior" in [one.rule.id for one in advice.cautions]


def test_when_nothing_of_the_rule_fits_the_reason_is_said_and_the_eyes_are_next():
    stuck = cl.Bowler(feet_low_board=22.0, feet_high_board=22.0)
    advice = advise(
        *[cl.Shot(crossed_board=11, arrival="crossover", motion="even")] * 4,
        bowler=stuck,
        scoring_started=True,
        goes_on_with_pain=True,
    )
    assert (advice.kind, advice.move) == ("line", cl.Move(0, -0.5))
    assert advice.rule.forbidden
    assert "this bowler stands on 22 to 22" in cl.say(advice).why
    assert cl.say(advice).look_for
    assert cl.say(advice).then


@pytest.mark.parametrize("motion", ["early", "even", "late", "over_hook", "roll_out", None])
@pytest.mark.parametrize("arrival", ["high", "nose"])
@pytest.mark.parametrize("walk", ["slide", "walk"])
@pytest.mark.parametrize("games", [0.0, 1.0, 2.0, 3.0])
def test_high_again_and_again_moves_inside(motion, arrival, walk, games):
    # trade's direction rule, in print: high goes inside (regional columns, coaching magazine)
    shot = cl.Shot(crossed_board=11, arrival=arrival, motion=motion)
    advice = advise(*[shot] * 4, bowler=cl.Bowler(walk=walk), games_on_lane=games)
    assert advice.kind == "line"
    assert advice.move.feet_boards > 0


@pytest.mark.parametrize("motion", ["early", "roll_out"])
@pytest.mark.parametrize("games", [0.0, 1.0, 2.0, 3.0])
@pytest.mark.parametrize("ball", [None, "solid_1000", "pearl_polished"])
def test_light_and_burnt_moves_inside_and_never_duller(motion, games, ball):
    # French coaching articles and a coaching magazine: a burnt-up ball is not answered outside nor duller
    shot = cl.Shot(crossed_board=11, arrival="light", motion=motion)
    held = None if ball is None else cl.load_ball(ball)
    advice = advise(*[shot] * 4, games_on_lane=games, ball=held)
    assert advice.kind == "line"
    assert advice.move.feet_boards > 0


@pytest.mark.parametrize("leave", [(4,), (6, 7, 10)])
def test_a_leave_against_the_arrival_seen_moves_nothing_inside(leave):
    advice = advise(cl.Shot(crossed_board=11, arrival="light", leave=leave))
    assert advice.move.feet_boards <= 0


@pytest.mark.parametrize("boards", [(18.0, 18.0, 18.0), (16.9, 17.6, 18.1)])
@pytest.mark.parametrize("motion", [None, "early", "even"])
def test_pocket_hits_with_no_pin_noted_move_nothing(boards, motion):
    shots = [cl.Shot(crossed_board=11, arrival=board, motion=motion) for board in boards]
    assert advise(*shots).kind == "stay"


@pytest.mark.parametrize("wrong", ["x", None, 3, cl.Line(22, 11)])
def test_the_doors_take_their_own_things_only(wrong):
    with pytest.raises(cl.InputError, match=r"session is .*expected"):
        cl.advise(wrong)
    with pytest.raises(cl.InputError, match=r"advice is .*expected"):
        cl.say(wrong)


def test_a_rulebook_is_a_rulebook():
    with pytest.raises(cl.InputError, match="rulebook is 'club'"):
        cl.advise(played(EARLY_HIGH), "club")


def test_no_surface_once_scoring_has_started():
    shot = cl.Shot(crossed_board=11, arrival="light", motion="skid_long")
    for n_balls in range(1, 8):
        assert advise(*[shot] * n_balls, scoring_started=True).move.surface == ""


@pytest.mark.parametrize("motion", ["early", "late", "over_hook", "skid_long", "roll_out"])
@pytest.mark.parametrize("arrival", ["light", "pocket", "high", "nose"])
def test_pain_stops_every_advice_on_hand_and_speed_and_is_said(motion, arrival):
    sore = cl.Bowler(pain="thumb", feet_low_board=22.0, feet_high_board=22.5)
    for n_balls in range(1, 6):
        seen = [cl.Shot(crossed_board=11, arrival=arrival, motion=motion)] * n_balls
        assert advise(*seen, bowler=sore).is_stopped
        advice = advise(*seen, bowler=sore, goes_on_with_pain=True)
        assert advice.move.speed_mph == advice.move.rotation_deg == 0
        assert advice.move.note == ""
        assert "pain_stops" in [one.rule.id for one in advice.cautions]


STUCK = cl.Bowler(feet_low_board=22.0, feet_high_board=22.5)
FLAT_TEN = cl.Shot(crossed_board=11, arrival="pocket", motion="early", leave=(10,), hit="flat")
SNAPPY = [cl.Shot(crossed_board=11, arrival=name, motion="over_hook") for name in ("light", "high", "high")]


def test_advice_on_speed_or_hand_carries_its_caution():
    seen = [advise(FLAT_TEN, FLAT_TEN, bowler=STUCK), advise(*SNAPPY)]
    assert [advice.kind for advice in seen] == ["speed", "hand"]
    for advice in seen:
        assert "more_speed_or_hand_caution" in [one.rule.id for one in advice.cautions]


@pytest.mark.parametrize(
    ("shots", "bowler", "kind"), [([FLAT_TEN] * 2, STUCK, "speed"), (SNAPPY, cl.Bowler(), "hand")]
)
def test_speed_and_hand_are_asked_for_once_and_then_watched(shots, bowler, kind):
    session = played(*shots, bowler=bowler)
    assert cl.advise(session, model_on=False).kind == kind
    again = cl.observe(session, shots[-1])
    for _ in range(2):
        advice = cl.advise(again, model_on=False)
        assert (advice.kind, advice.move, advice.cautions) == ("watch", cl.Move(), ())
        assert "We said that already" in cl.say(advice).why
        again = cl.observe(again, shots[-1])


def test_after_a_recorded_change_speed_is_asked_for_anew():
    session = cl.observe(played(FLAT_TEN, FLAT_TEN, bowler=STUCK), FLAT_TEN)
    assert cl.advise(session, model_on=False).kind == "watch"
    faster = cl.change(session, bowler=dataclasses.replace(STUCK, speed_mph=17.5))
    assert cl.advise(cl.observe(faster, FLAT_TEN), model_on=False).kind == "speed"


def test_a_spare_ball_in_between_asks_for_nothing_new():
    once = played(FLAT_TEN, FLAT_TEN, bowler=STUCK)
    spare = cl.observe(once, cl.Shot(leave=(), is_spare=True))
    assert cl.advise(spare, model_on=False).kind == cl.advise(once, model_on=False).kind == "speed"
    assert cl.advise(cl.observe(spare, FLAT_TEN), model_on=False).kind == "watch"


def test_a_club_file_changes_the_answer(tmp_path):
    club = tmp_path / "club.toml"
    club.write_text("[settings]\npatience = 2\n", encoding="utf-8")
    session = played(EARLY_HIGH, EARLY_HIGH)
    assert cl.advise(session, model_on=False).kind == "watch"
    assert cl.advise(session, load_rulebook(club), model_on=False).move == cl.Move(2, 1)


def test_each_lane_of_the_pair_is_advised_by_its_own_balls():
    session = cl.change(played(*[EARLY_HIGH] * 3, lane="7"), lane="8")
    assert cl.advise(session, model_on=False).kind == "stay"
    assert cl.advise(cl.change(session, lane="7"), model_on=False).move == cl.Move(2, 1)


def test_feet_that_cannot_move_leave_it_to_the_eyes():
    stuck = cl.Place(is_feet_stuck=True)
    assert advise(*[EARLY_HIGH] * 3, place=stuck).move == cl.Move(0, -0.5)
    assert advise(*[LATE_LIGHT] * 3, place=stuck).move == cl.Move(0, 0.5)
    burnt = cl.Shot(crossed_board=11, arrival="light", motion="roll_out")
    # eyes are no cure for a ball that burnt up: the next lever in the order is the speed
    assert advise(*[burnt] * 3, place=stuck).move == cl.Move(speed_mph=0.5)
    assert move_problems(played(place=stuck), cl.Move(2, 1)) == ("the feet cannot move here",)
    assert move_problems(played(place=stuck), cl.Move(0, 1)) == ()


def test_others_on_the_line_are_said_beside_a_move():
    notes = advise(*[EARLY_HIGH] * 3, place=cl.Place(has_others_on_line=True)).notes
    assert "others_on_your_line" in [one.rule.id for one in notes]
    assert "others_on_your_line" not in [one.rule.id for one in advise(*[EARLY_HIGH] * 3).notes]


@pytest.mark.parametrize(
    ("hand", "is_quiet", "expected"),
    [("left", None, True), ("left", False, False), ("right", True, True), ("right", None, False)],
)
def test_a_quiet_side_is_said_as_told(hand, is_quiet, expected):
    place = cl.Place(is_own_side_quiet=is_quiet)
    advice = advise(*[EARLY_HIGH] * 3, bowler=cl.Bowler(hand=hand), place=place)
    assert ("quiet_side" in [one.rule.id for one in advice.notes]) is expected


def test_a_strike_that_warns_prepares_the_move():
    high = cl.Shot(crossed_board=11, arrival="high", leave=())
    pin = cl.Shot(crossed_board=11, arrival="high", leave=(6,))
    warned = advise(high, high)
    assert (warned.kind, warned.rule.rule_ids) == ("watch", ("strike_with_warning",))
    assert cl.say(warned).why.startswith("Two of the last three strikes")
    assert advise(high, high, pin).move == advise(high, high, high).move == cl.Move(1, 1)
    assert advise(high, high, pin, pin).move == cl.Move(1, 0)
    pocket = cl.Shot(crossed_board=11, arrival="pocket", leave=())
    assert advise(high, high, pocket).rule.rule_ids == ("strike_with_warning",)
    assert advise(high, pocket, pocket).rule.rule_ids == ("strike_leave_it",)


@pytest.mark.parametrize(
    ("leave", "ids"),
    [
        ((5,), ("straight_at_spares",)),
        ((10,), ("corner_cross_lane",)),
        ((6,), ("spare_3_6_9", "straight_at_spares")),
        ((3, 6, 10), ("spare_3_6_9", "key_pin")),
        ((2, 8), ("spare_3_6_9", "double_wood")),
        ((4, 6), ("split_sense",)),
        ((3, 10), ("split_gap",)),
        ((5, 10), ("split_across",)),
        ((1, 2, 10), ("washout",)),
        ((1, 2, 3, 4, 5, 6, 7, 8, 9, 10), ("full_rack",)),
    ],
)
def test_what_is_said_of_the_pins_just_left(leave, ids):
    advice = advise(cl.Shot(leave=leave), bowler=cl.Bowler(rev_rate_rpm=300))
    assert advice.spare is not None
    assert advice.spare.rule_ids == ids
    said = cl.say(advice).spare
    assert all(one.text.split("{")[0] in said for one in advice.spare.fired)


def test_spares_are_made_with_the_eyes_where_the_feet_cannot_move():
    four = cl.Shot(leave=(4,))
    assert advise(four).spare.move == cl.Move(-4.5, 0)
    assert advise(four, place=cl.Place(is_feet_stuck=True)).spare.move == cl.Move(0, 3.5)
    near_the_edge = cl.Bowler(feet_low_board=18.0)
    assert advise(four, bowler=near_the_edge).spare.move == cl.Move(0, 3.5)


@pytest.mark.parametrize(
    ("move", "kind"),
    [
        (cl.Move(), "stay"),
        (cl.Move(2, 1, speed_mph=0.5), "line"),
        (cl.Move(target_ft=10), "line"),
        (cl.Move(speed_mph=0.5), "speed"),
        (cl.Move(rotation_deg=-15), "hand"),
        (cl.Move(note="loft it a little"), "hand"),
        (cl.Move(surface="duller"), "surface"),
        (cl.Move(ball="weaker"), "ball"),
    ],
)
def test_kind_of_a_move(move, kind):
    assert kind_of(move) == kind


SHOTS = st.builds(
    cl.Shot,
    crossed_board=st.sampled_from([8, 10, 11, 11.5, 12, 14]) | st.none(),
    arrival=st.sampled_from(["out", "far_light", "light", "pocket", "high", "nose", "crossover"]),
    leave=st.sampled_from([(), (4,), (10,), (5,), (2, 8), (4, 6, 7, 10), (8, 10), (7,)]) | st.none(),
    motion=st.sampled_from(["early", "even", "late", "skid_long", "over_hook", "roll_out"]) | st.none(),
    hit=st.sampled_from(["flat", "ringing"]) | st.none(),
)


@settings(max_examples=60, deadline=None)
@given(st.lists(SHOTS, min_size=1, max_size=6), st.sampled_from(["slide", "walk"]), st.floats(0, 3))
def test_whatever_was_seen_there_is_an_answer_that_fits_and_is_always_the_same(shots, walk, games):
    session = played(
        *shots, bowler=cl.Bowler(walk=walk), games_on_lane=games, ball=cl.load_ball("hybrid_2000")
    )
    advice = cl.advise(session, model_on=False)
    assert advice == cl.advise(session, model_on=False)
    assert advice.move.is_stay == (advice.kind in ("stay", "watch"))
    assert not move_problems(session, advice.move)
    said = cl.say(advice)
    assert said.headline
    assert said.summary


SWAPPED = {"left": "right", "right": "left"}


def seen_from_behind(text):
    """Return a sentence without the pins it names, which a mirror renumbers."""
    return re.sub(r"the [\d-]+ left says? that ", "", text)


def sides_swapped(text):
    return re.sub(r"\b(left|right)\b", lambda side: SWAPPED[side[0]], text)


@settings(max_examples=60, deadline=None)
@given(st.lists(SHOTS, min_size=1, max_size=6))
def test_a_left_hander_on_the_mirrored_lane_gets_the_mirrored_answer_to_the_last_digit(shots):
    # the same evening seen in a mirror: pins as the left-hander sees them, the oil turned about the centre
    mirrored = [shot_from(shot_answers(shot, "left", "mph"), "left") for shot in shots]
    film_um = np.array(cl.load_pattern("house_41").film_um)
    film_um[:, :12] *= 0.8  # else the oil would be its own mirror image
    oil, turned = (
        dataclasses.replace(cl.load_pattern("house_41"), film_um=tuple(map(tuple, rows.tolist())))
        for rows in (film_um, film_um[:, ::-1])
    )
    right = advise(*shots, bowler=cl.Bowler(hand="right"), pattern=oil)
    left = advise(*mirrored, bowler=cl.Bowler(hand="left"), pattern=turned)
    assert (left.kind, left.move, left.new_line) == (right.kind, right.move, right.new_line)
    assert left.rule.rule_ids == right.rule.rule_ids
    said_right, said_left = cl.say(right), cl.say(left)
    assert said_left.headline == sides_swapped(said_right.headline)
    assert seen_from_behind(said_left.sentence) == sides_swapped(seen_from_behind(said_right.sentence))
    thrown = [line_paths(one.session, one.new_line).path.path_board for one in (right, left)]
    np.testing.assert_array_equal(thrown[0], thrown[1])
