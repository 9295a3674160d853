"""The forms of the panel: what was typed becomes shots, bowlers and lines, and back.

Typed values are invented examples. A mile is 1.609344 km by definition of the international mile, so
27.358848 km/h is 17 mph.
"""

import dataclasses
from typing import Any

import hypothesis.strategies as st
import pytest
from hypothesis import given

import coachlib as cl
from coachlib import Bowler, InputError, Line, Shot
from coachlib.coaching.session.setting import Setting
from coachlib.views.panels.lane_side.set_up_form import SetUp, blank_answers, set_up_answers, set_up_from
from coachlib.views.panels.shared.form import doubts, shot_answers, shot_from
from coachlib.views.panels.shared.typed import written_number
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from coachlib.world.hand import HANDS, Hand
from coachlib.world.lane import ARRIVAL_CLASSES
from coachlib.world.lane_conditions import Place
from coachlib.world.parsing import read_number
from coachlib.world.pins import ALL_PINS, MIRROR_PIN

SMALLEST = {"hand": "right", "feet": "22", "target": "12"}


@given(st.integers(-10, 90))
def test_half_boards_are_written_and_read_back(halves: int) -> None:
    assert read_number(written_number(halves / 2)) == halves / 2


_halves = st.integers(0, 80).map(lambda n: n / 2)
_speeds = st.integers(80, 250).map(lambda n: n / 10)


@st.composite
def _shots(make: st.DrawFn) -> Shot:
    arrival = make(st.one_of(st.sampled_from(ARRIVAL_CLASSES), _halves))
    return Shot(
        crossed_board=make(st.none() | _halves),
        arrival=arrival,
        leave=make(st.none() | st.lists(st.sampled_from(ALL_PINS), unique=True).map(tuple)),
        motion=make(st.sampled_from((None, "early", "late", "skid_long"))),
        speed_mph=make(st.none() | _speeds),
        breakpoint_board=make(st.none() | _halves),
        breakpoint_ft=make(st.none() | st.integers(10, 60).map(float)),
        start_board=make(st.none() | _halves),
        slide_board=make(st.none() | _halves),
        hit=make(st.sampled_from((None, "flat", "ringing"))),
        is_spare=make(st.booleans()),
        note=make(st.sampled_from(("", "wet approach", "<b>late</b>"))),
    )


@given(_shots(), st.sampled_from(HANDS))
def test_a_shot_put_into_the_form_is_read_back_equal(shot: Shot, hand: Hand) -> None:
    assert shot_from(shot_answers(shot, hand), hand) == shot


@given(_shots())
def test_a_speed_in_kmh_is_read_back_to_the_hundredth(shot: Shot) -> None:
    again = shot_from(shot_answers(shot, "right", "km/h"), "right")
    assert dataclasses.replace(again, speed_mph=None) == dataclasses.replace(shot, speed_mph=None)
    if shot.speed_mph is not None:
        assert again.speed_mph == pytest.approx(shot.speed_mph, abs=0.004)  # half a hundredth of a km/h


@given(st.lists(st.sampled_from(ALL_PINS), unique=True, min_size=1, max_size=9))
def test_a_left_handers_pins_are_the_mirror_of_a_right_handers(pins: list[int]) -> None:
    typed = {"leave": " ".join(map(str, pins))}
    mirrored = {"leave": " ".join(str(MIRROR_PIN[pin]) for pin in pins)}
    assert shot_from(typed, "left") == shot_from(mirrored, "right")


def test_kmh_is_turned_into_mph() -> None:
    shot = shot_from({"leave": "", "crossed": "12", "speed": "27.358848", "speed_unit": "km/h"}, "right")
    assert shot.speed_mph == pytest.approx(17.0, rel=1e-12)


def test_a_board_outranks_the_tile_and_an_empty_form_field_is_not_seen() -> None:
    shot = shot_from({"arrival": "high", "arrival_board": "17½"}, "right")
    assert shot == Shot(arrival=17.5)


@pytest.mark.parametrize(
    ("typed", "match"),
    [
        ({"speed": "27.5"}, r"Speed: type 8 to 25 mph, not 27\.5\. If this is km/h, choose km/h\."),
        (
            {"speed": "12", "speed_unit": "km/h"},
            r"Speed: type 12\.87 to 40\.23 km/h, not 12\. If this is mph, choose mph\.",
        ),
        ({"speed": "300"}, r"Speed: type 8 to 25 mph, not 300\. Type the speed at the hand\."),
        (
            {"crossed": "abc"},
            r"crossed: type a number such as 12 or 12½, 0 to 40 boards, not “abc”\.",
        ),
        (
            {"crossed": "nan"},
            r"crossed: type a number such as 12 or 12½, 0 to 40 boards, not “nan”\.",
        ),
        ({"crossed": "41"}, r"Where it crossed: type 0 to 40 boards, not 41\. 0 and 40 are the gutters"),
        ({"arrival_board": "90"}, r"The board it hit: type 0 to 40 boards, not 90\. Count at the head pin"),
        ({"arrival": "brilliant"}, r"How it hit: choose one of out, far_light, light"),
        ({"leave": "4 12"}, r"12 is no pin from 1 to 10"),
        ({"motion": "sideways"}, r"How it turned: choose one of early, even, late"),
        ({"breakpoint_ft": "70"}, r"Distance where it turned: type 10 to 60 ft, not 70\."),
        ({"start_board": "50"}, r"Start board: type -5 to 45 boards, not 50\."),
        ({"note": "n" * 2001}, r"Note: use fewer letters, it has 2001, at most 200 fit"),
        ({}, r"Tap at least one of the three: where it crossed, how it hit, or the pins left\. All"),
    ],
)
def test_a_wrong_field_of_a_shot_is_told_in_four_parts(typed: dict[str, Any], match: str) -> None:
    with pytest.raises(InputError, match=match) as error:
        shot_from({"crossed": "12"} | typed if typed else {}, "right")
    assert list(error.value.fields) == [next(iter(typed), "form")]


@pytest.mark.parametrize(
    ("shot", "fields"),
    [
        (Shot(arrival="pocket", leave=ALL_PINS), ["leave"]),
        (Shot(arrival=17.5, leave=(1, 2)), ["leave"]),
        (Shot(arrival="out", leave=()), ["leave"]),
        (Shot(crossed_board=0, arrival="pocket"), ["crossed"]),
        (Shot(crossed_board=40, leave=(7,)), ["crossed"]),
        (Shot(crossed_board=0, arrival="pocket", leave=ALL_PINS), ["leave", "crossed"]),
        (Shot(arrival="pocket", leave=()), []),
        (Shot(arrival="far_light", leave=(2, 4, 5, 8)), []),
        (Shot(arrival="out", leave=(1, 2, 3, 5, 6, 9, 10)), []),
        (Shot(arrival="past", leave=(1, 2, 3, 4, 5, 6)), []),
        (Shot(arrival="past", leave=(7,)), ["leave"]),
        (Shot(crossed_board=40, arrival="past", leave=ALL_PINS), []),
        (Shot(crossed_board=0, leave=ALL_PINS), []),
        (Shot(crossed_board=0, arrival="out"), []),
        (Shot(crossed_board=1, arrival="pocket"), []),
        (Shot(arrival="pocket", leave=(1, 2), is_spare=True), []),
    ],
)
def test_what_does_not_go_together_is_asked_about(shot: Shot, fields: list[str]) -> None:
    assert list(doubts(shot)) == fields
    assert all(
        told.startswith("Check both.") and "press the button again" in told for told in doubts(shot).values()
    )


ALL_TEN = "1 2 3 4 5 6 7 8 9 10"


@pytest.mark.parametrize("hand", HANDS)
def test_a_full_rack_without_an_arrival_is_asked_gutter_or_missed(hand: Hand) -> None:
    for typed in ({"leave": ALL_TEN}, {"leave": ALL_TEN, "crossed": "12"}):
        with pytest.raises(
            InputError, match=r"Tap “gutter”, “missed” or “past”: all ten pins stand"
        ) as error:
            shot_from(typed, hand)
        assert list(error.value.fields) == ["arrival"]
    for arrival, kept in (("gutter", "out"), ("out", "out"), ("past", "past")):
        assert shot_from({"leave": ALL_TEN, "arrival": arrival}, hand) == Shot(arrival=kept, leave=ALL_PINS)
    assert shot_from({"leave": ALL_TEN, "crossed": "0"}, hand).leave == ALL_PINS
    assert shot_from({"leave": ALL_TEN, "is_spare": True}, hand).leave == ALL_PINS


@pytest.mark.parametrize("hand", HANDS)
def test_a_gutter_ball_is_one_tap_and_stands_in_the_form_again(hand: Hand) -> None:
    shot = shot_from({"arrival": "gutter"}, hand)
    assert shot == Shot(arrival="out", leave=ALL_PINS)
    assert shot_answers(shot, hand)["arrival"] == "gutter"
    assert doubts(shot) == {}
    assert list(doubts(shot_from({"arrival": "gutter", "leave": "7"}, hand))) == ["leave"]


def test_all_wrong_fields_are_told_at_once() -> None:
    with pytest.raises(InputError) as error:
        shot_from({"crossed": "x", "leave": "11", "speed": "99", "slide_board": "-30"}, "left")
    assert set(error.value.fields) == {"crossed", "leave", "speed", "slide_board"}


def test_hand_feet_and_target_are_enough() -> None:
    set_up = set_up_from(blank_answers() | SMALLEST | {"hand": "left"})
    assert (set_up.setting.bowler, set_up.setting.line) == (Bowler(hand="left"), Line(22, 12))
    assert (set_up.lanes, set_up.to, set_up.speed_unit) == (("1",), "bowler", "mph")


def test_the_hand_is_asked_for_and_never_guessed() -> None:
    with pytest.raises(InputError, match=r"Choose right- or left-handed\."):
        set_up_from(blank_answers() | SMALLEST | {"hand": ""})
    assert set_up_from(SMALLEST | {"hand": ""}, Bowler(hand="left")).setting.bowler.hand == "left"


def test_the_who_and_line_form_is_read_back_equal() -> None:
    bowler = Bowler(
        name="Maija",
        hand="left",
        speed_mph=16.3,
        rev_rate_rpm=280,
        axis_rotation_deg=40,
        arrow_sd_boards=1.1,
        walk="walk",
        stance_ft=12.5,
        is_two_handed=True,
        age_years=13,
        pain="thumb",
    )
    line, place = Line(24, 13.5, 20), Place(True, False, True, True)
    ball, pattern = cl.load_ball("hybrid_2000"), cl.load_pattern("house_41")
    set_up = SetUp(Setting(bowler, line, ball, pattern, "7", 1.5, True, place), ("7", "8"), "coach", "mph")
    assert set_up_from(set_up_answers(set_up)) == set_up
    in_kmh = dataclasses.replace(set_up, speed_unit="km/h")
    assert set_up_from(set_up_answers(in_kmh), bowler) == in_kmh


@pytest.mark.parametrize(("typed", "is_quiet"), [("", None), ("quiet", True), ("busy", False)])
def test_how_busy_the_own_side_is_may_stay_untold(typed: str, is_quiet: bool | None) -> None:
    place = set_up_from(blank_answers() | SMALLEST | {"hand": "left", "own_side": typed}).setting.place
    assert place == Place(is_own_side_quiet=is_quiet)


@pytest.mark.parametrize(
    ("typed", "hook", "revs_rpm"),
    [
        ({"hook": "straight"}, "straight", None),
        ({"hook": "big", "revs": "280"}, "big", None),
        ({"hook": "known", "revs": "280"}, None, 280.0),
        ({"hook": "", "revs": "280"}, None, 280.0),
        ({}, None, None),
    ],
)
def test_one_tile_asks_how_much_it_hooks(
    typed: dict[str, str], hook: str | None, revs_rpm: float | None
) -> None:
    bowler = set_up_from(blank_answers() | SMALLEST | {"hand": "left"} | typed).setting.bowler
    assert (bowler.hook, bowler.rev_rate_rpm) == (hook, revs_rpm)
    again = set_up_from(set_up_answers(SetUp(Setting(bowler, Line(22, 12)))), bowler).setting.bowler
    assert (again.hook, again.rev_rate_rpm) == (hook, revs_rpm)


def test_what_the_form_does_not_ask_is_kept() -> None:
    known = Bowler(comfort_board=30, feet_high_board=36, axis_tilt_deg=12)
    again = set_up_from(set_up_answers(SetUp(Setting(known, Line(22, 12)))), known)
    assert again.setting.bowler == known


@pytest.mark.parametrize(
    ("slides", "walk"),
    [(("14", "19", "24"), "slide"), (("16", "18½", "21"), "walk"), (("15", "19", "22"), "walk")],
)
def test_the_walk_test_decides_how_they_walk(slides: tuple[str, ...], walk: str) -> None:
    names = [f"{board}_{n}" for board in ("stance", "slide") for n in (1, 2, 3)]
    test = dict(zip(names, ("20", "25", "30", *slides), strict=True))
    assert set_up_from(SMALLEST | {"walk": "test"} | test).setting.bowler.walk == walk


def test_an_accuracy_class_stands_for_its_spread_and_a_number_outranks_it() -> None:
    assert set_up_from(SMALLEST | {"accuracy": "160"}).setting.bowler.arrow_sd_boards == 1.46
    assert set_up_from(SMALLEST | {"accuracy": "160", "spread": "0.7"}).setting.bowler.arrow_sd_boards == 0.7


@pytest.mark.parametrize(
    ("older", "name"), [("elite", "tour"), ("220+", "220"), ("200+", "200"), ("180+", "180"), ("160+", "160")]
)
def test_a_form_with_the_older_name_of_an_accuracy_is_read(older: str, name: str) -> None:
    bowler = set_up_from(SMALLEST | {"accuracy": older}).setting.bowler
    assert bowler.arrow_sd_boards == ACCURACY_SD_BOARDS[name]
    assert set_up_answers(SetUp(Setting(bowler, Line(22, 12))))["accuracy"] == name


def test_an_accuracy_nobody_entered_is_not_shown_as_entered() -> None:
    setting = set_up_from(blank_answers() | SMALLEST | {"hand": "left"}).setting
    assert setting.bowler.arrow_sd_boards == ACCURACY_SD_BOARDS["200"]
    again = set_up_answers(SetUp(setting))
    assert (again["accuracy"], again["spread"]) == ("", "")
    entered = set_up_from(again | {"accuracy": "200"}, setting.bowler)
    assert set_up_answers(entered)["accuracy"] == "200"
    assert set_up_from(set_up_answers(entered), entered.setting.bowler) == entered


def test_a_wrong_accuracy_is_told_with_those_there_are() -> None:
    with pytest.raises(InputError, match=r"Accuracy: choose one of 160, 180, 200, 220, tour, not “190”\."):
        set_up_from(SMALLEST | {"accuracy": "190"})


@pytest.mark.parametrize(
    ("typed", "match"),
    [
        ({"feet": ""}, r"Feet: type a number, -5 to 45 boards\. The field is empty\."),
        ({"feet": "60"}, r"Feet: type -5 to 45 boards, not 60\. Count boards from the bowler's own side"),
        ({"target": "45"}, r"Target: type 1 to 39 boards, not 45\."),
        ({"target_ft": "60"}, r"Target distance: type 5 to 45 ft, not 60\."),
        ({"hand": "both"}, r"Hand: choose one of right, left, not “both”\."),
        ({"revs": "fast"}, r"Revs: type a number such as 12 or 12½, 0 to 700 rpm, not “fast”\."),
        ({"rotation": "200"}, r"Axis rotation: type 0 to 110 deg, not 200\."),
        ({"speed": "27"}, r"Usual speed: type 8 to 25 mph, not 27\. If this is km/h, choose km/h\."),
        ({"age": "-3"}, r"Age: type 4 to 110 years, not -3\."),
        ({"games": "x"}, r"Games on this lane: type a number such as 12 or 12½, 0 to 60 games, not “x”\."),
        ({"lanes": "7 8 9"}, r"Type one lane, or the two of a pair, such as 7 8, not “7 8 9”\."),
        ({"walk": "hop"}, r"Walk: choose one of slide, walk, test, not “hop”\."),
        ({"to": "everybody"}, r"Who we speak to: choose one of bowler, coach, not “everybody”\."),
        ({"own_side": "full"}, "Balls from this side: choose one of quiet, busy, not “full”"),
        ({"hook": "known"}, r"Revs: type a number, 0 to 700 rpm\. The field is empty\."),
        ({"hook": "a lot"}, "Hook: choose one of straight, some, big, known, not “a lot”"),
        ({"name": "n" * 81}, r"name is .*; expected a text of at most 80 letters"),
    ],
)
def test_a_wrong_field_of_the_set_up_is_told_in_four_parts(typed: dict[str, Any], match: str) -> None:
    with pytest.raises(InputError, match=match) as error:
        set_up_from(SMALLEST | typed)
    assert list(error.value.fields) == ["revs" if typed.get("hook") == "known" else next(iter(typed))]


def test_an_unfinished_walk_test_is_told_field_by_field() -> None:
    typed = SMALLEST | {"walk": "test", "stance_1": "20", "slide_1": "14", "stance_2": "20", "slide_2": "14"}
    with pytest.raises(InputError) as error:
        set_up_from(typed)
    assert set(error.value.fields) == {"stance_3", "slide_3"}
    with pytest.raises(InputError, match="stand on at least two different boards"):
        set_up_from(typed | {"stance_3": "20", "slide_3": "14"})
