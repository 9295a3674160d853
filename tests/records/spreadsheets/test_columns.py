"""Columns of the log as a spreadsheet: units in their names, pins as on the lane.

All invariants; no outside source.
"""

import dataclasses

import pytest

from coachlib.coaching.session.setting import Setting
from coachlib.errors import InputError
from coachlib.records.spreadsheets import columns
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line, Move
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.shot import Shot

UNITS = ("board", "boards", "ft", "in", "mph", "rpm", "deg", "lb", "um", "s", "oz", "d", "ml", "years")
PURE = {
    "games_on_lane",
    "ball_grit",
    "ball_rig_friction_coef",
    "ball_n_holes",
}
"""Numbers without a unit, or counted in what their name says."""
NO_NUMBERS = {
    *("arrival_class", "leave_pins", "motion", "hit", "is_spare", "note", "lane", "scoring_started"),
    *("advice_kind", "advice_rules", "advice_move_surface", "advice_move_ball", "advice_move_note"),
    *("bowler_name", "bowler_hand", "bowler_walk", "bowler_is_two_handed", "bowler_pain", "bowler_hook"),
    "bowler_is_usual_accuracy_entered",
    *("ball_name", "ball_cover", "ball_is_polished", "pattern_name", "pattern_kind", "pattern_film"),
    *("place_has_others_on_line", "place_is_own_side_quiet"),
    *("place_is_feet_stuck", "place_has_weather_turned"),
    *("goes_on_with_pain", "place_is_approach_bad"),
}


def test_every_number_has_its_unit_in_the_name() -> None:
    names = columns.columns()
    assert len(names) == len(set(names)) > 50
    assert PURE | NO_NUMBERS <= set(names)
    numbers = set(names) - PURE - NO_NUMBERS
    assert [name for name in numbers if name.rsplit("_", 1)[-1] not in UNITS] == []


@pytest.mark.parametrize(("hand", "pins"), [("right", "4 10"), ("left", "6 7")])
def test_pins_are_those_of_the_lane(hand: str, pins: str) -> None:
    shot = Shot(leave=(4, 10))
    cells = columns.shot_cells(shot, hand)  # type: ignore[arg-type]
    assert cells["leave_pins"] == pins
    assert columns.shot_from_cells(cells, hand) == shot  # type: ignore[arg-type]


@pytest.mark.parametrize(("leave", "cell"), [(None, ""), ((), "all down"), ((10,), "10")])
def test_strike_and_not_seen_differ(leave: tuple[int, ...] | None, cell: str) -> None:
    shot = Shot(crossed_board=11.0, leave=leave)
    assert columns.shot_cells(shot, "right")["leave_pins"] == cell
    assert columns.shot_from_cells(columns.shot_cells(shot, "right"), "right") == shot


@pytest.mark.parametrize("arrival", [None, 17.25, "nose"])
def test_arrival_as_board_or_class(arrival: float | str | None) -> None:
    shot = Shot(crossed_board=11.0, arrival=arrival)  # type: ignore[arg-type]
    cells = columns.shot_cells(shot, "right")
    assert bool(cells["arrival_board"]) == isinstance(arrival, float)
    assert columns.shot_from_cells(cells, "right") == shot


@pytest.mark.parametrize("pattern", [None, OilPattern("", 40.0), load_pattern("flat_42")])
@pytest.mark.parametrize("ball", [None, Ball(""), Ball("=x", cover="solid", roughness_um=0.5)])
def test_what_held_comes_back(ball: Ball | None, pattern: OilPattern | None) -> None:
    setting = Setting(Bowler(name="Å", speed_mph=15.0), Line(22, 11, 20.0), ball, pattern, "7 b", 1.5, True)
    assert columns.setting_from_cells(columns.setting_cells(setting)) == setting


def test_film_counts_as_lost_only_where_it_is() -> None:
    house = load_pattern("house_41")
    for film, is_lost in ((house.film_um, False), (((1.0,) * 39,), True), ((), False)):
        setting = Setting(Bowler(), Line(22, 11), pattern=dataclasses.replace(house, film_um=film))
        assert columns.has_lost_film(columns.setting_cells(setting)) == is_lost


def test_advice_comes_back_and_what_is_no_move_is_left_out() -> None:
    said = {"kind": "line", "move": dataclasses.asdict(Move(2, 1)), "rule_ids": ["A1", "C2"]}
    assert columns.advice_from_cells(columns.advice_cells(said)) == {
        "kind": "line",
        "move": Move(2, 1),
        "rule_ids": ("A1", "C2"),
    }
    assert columns.advice_cells(None) == {}
    assert columns.advice_from_cells({}) is None
    assert columns.advice_cells({"kind": "line", "move": {"feet": 2}})["advice_move_feet_boards"] == ""


def test_wrong_columns_are_named_together() -> None:
    cells = columns.shot_cells(Shot(leave=()), "right") | {"crossed_board": "x", "speed_mph": "y"}
    with pytest.raises(InputError) as raised:
        columns.shot_from_cells(cells, "right")
    assert list(raised.value.fields) == ["crossed_board", "speed_mph"]
    held = columns.setting_cells(Setting(Bowler(), Line(22, 11))) | {"feet_board": "99", "bowler_hand": "no"}
    with pytest.raises(InputError) as raised:
        columns.setting_from_cells(held)
    assert sorted(raised.value.fields) == ["bowler_hand", "feet_board"]


def test_what_was_told_of_the_place_comes_back_and_not_told_is_not_no() -> None:
    for quiet in (None, True, False):
        place = Place(has_others_on_line=True, is_own_side_quiet=quiet, is_feet_stuck=True)
        setting = Setting(Bowler(), Line(22, 11), place=place)
        assert columns.setting_from_cells(columns.setting_cells(setting)) == setting
    cells = columns.setting_cells(Setting(Bowler(), Line(22, 11)))
    without = {name: cell for name, cell in cells.items() if not name.startswith("place_")}
    assert columns.setting_from_cells(without).place == Place()  # a sheet from before there were such columns
