"""Events as text: what is written is read back equal, and whatever else stands there is told by its field.

All invariants; no outside source.
"""

import json
from typing import Any

import numpy as np
import pytest

import coachlib.coaching.session.session as steps
from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.records.log.events import SCHEMA, event_text, read_event, stepped
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler, accuracy_of
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

START = Session(bowler=Bowler(name="Ilta", hand="left"), line=Line(22, 11))
SHOT = Shot(crossed_board=11.5, arrival="high", leave=(4, 9), note="a good one")


def test_text_carries_the_schema_number() -> None:
    assert json.loads(event_text({"shot": SHOT}))["schema"] == SCHEMA


@pytest.mark.parametrize(
    ("kind", "payload"),
    [
        ("shot", {"shot": SHOT}),
        ("shot", {"shot": Shot(arrival=17.5, leave=())}),
        ("correct", {"number": 1, "shot": SHOT}),
        ("undo", {}),
        ("change", {}),
        ("change", {"line": Line(24, 12, 20), "lane": "8", "games_on_lane": 1.5, "scoring_started": True}),
        ("change", {"ball": Ball("hybrid_2000"), "pattern": OilPattern("house_41", 41)}),
        ("change", {"place": Place(has_others_on_line=True, is_own_side_quiet=False)}),
        ("change", {"ball": None, "pattern": None, "bowler": Bowler()}),
        ("advice", {"headline": "2 left, 1 left", "n": 3, "nested": {"x": [1, None]}}),
    ],
)
def test_payload_reads_back_equal(kind: str, payload: dict[str, Any]) -> None:
    assert read_event(kind, event_text(payload)) == payload


def test_start_reads_back_with_its_events() -> None:
    session = steps.change(steps.observe(START, SHOT), line=Line(24, 12))
    session = steps.correct(session, 1, Shot(arrival=18.5))
    read = read_event("start", event_text({"session": session}))["session"]
    assert read == session
    assert [type(event) for event in read.events] == [type(event) for event in session.events]


@pytest.mark.parametrize(
    ("spread", "name"),
    [("1.46", "160"), ("1.3", "180"), ("0.65", "220"), ("0.46", "tour"), ("0.97", ""), ("0.8", "")],
)
def test_an_older_session_keeps_its_spread_and_the_usual_one_is_not_taken_for_entered(
    spread: str, name: str
) -> None:
    text = (  # as written before a log could tell an entered spread from an assumed one
        '{"schema":1,"payload":{"session":{"bowler":{"name":"Ilta","hand":"left","arrow_sd_boards":'
        + spread
        + '},"line":{"feet_board":22.0,"target_board":11.0,"target_ft":15.0},"lane":"7"}}}'
    )
    bowler = read_event("start", text)["session"].bowler
    assert bowler.arrow_sd_boards == float(spread)
    assert (accuracy_of(bowler), bowler.is_accuracy_known) == (name, spread != "0.97")


def test_numpy_numbers_are_written_as_numbers() -> None:
    assert read_event("change", event_text({"games_on_lane": np.float32(1.5)})) == {"games_on_lane": 1.5}


def test_infinite_numbers_of_an_advice_stay_readable() -> None:
    assert read_event("advice", event_text({"pivot_ft": float("inf")})) == {"pivot_ft": "Infinity"}


@pytest.mark.parametrize("payload", [{"shot": object()}, 5, None])
def test_payload_that_cannot_be_written(payload: Any) -> None:
    with pytest.raises(
        InputError, match=r"^payload is .*; expected things, numbers and texts by name .* Give what"
    ):
        event_text(payload)


@pytest.mark.parametrize(
    ("kind", "payload", "told"),
    [
        ("shot", {}, r"^shot is missing; a 'shot' event needs it\. Put it in\.$"),
        ("shot", {"shot": {"crossed_board": 99}}, r"^shot: crossed_board is 99; expected 0 to 40 boards\."),
        (
            "shot",
            {"shot": {"crossed_board": "11"}},
            r"^shot: crossed_board is '11'; expected 0 to 40 boards\.",
        ),
        ("shot", {"shot": {"note": "x"}}, r"^crossed_board, arrival and leave are all missing;"),
        ("shot", {"shot": {"arrival": "hihg"}}, r"^shot: arrival is 'hihg'; expected"),
        ("shot", {"shot": {"leave": [4, 11]}}, r"^shot: leave holds 11; expected pins 1 to 10\."),
        ("shot", {"shot": {"leav": [4]}}, r"^shot: leav is no field of Shot; expected crossed_board,"),
        ("shot", {"shot": 7}, r"^shot is 7; "),
        ("undo", {"really": True}, r"^really is no field of a 'undo' event\. Check the spelling"),
        ("change", {"lines": 3}, r"^lines is no field of a 'change' event\."),
        (
            "change",
            {"line": {"feet_board": 22}},
            r"^line: target_board is missing; Line needs a number from 1 to 39",
        ),
        (
            "change",
            {"scoring_started": "yes"},
            r"^scoring_started is 'yes'; input should be a valid boolean\.",
        ),
        (
            "correct",
            {"number": 1.5, "shot": {"crossed_board": 1}},
            r"^number is 1\.5; input should be a valid integer",
        ),
        ("start", {"session": {"line": {}}}, r"^session\.bowler is missing; a 'start' event needs it"),
        ("advice", [1], r"^payload is \[1\]; "),
        ("throw", {}, r"^kind is 'throw'; expected one of 'start', 'shot',"),
    ],
)
def test_wrong_field_is_named(kind: str, payload: Any, told: str) -> None:
    with pytest.raises(InputError, match=told):
        read_event(kind, json.dumps({"schema": SCHEMA, "payload": payload}))


@pytest.mark.parametrize("text", ["", "{", event_text({"shot": SHOT})[:-2], None, b"{}", 3, "[" * 5000])
def test_text_that_was_cut_off(text: object) -> None:
    with pytest.raises(InputError, match=r"^the event's text is .*; expected one whole JSON object"):
        read_event("shot", text)


@pytest.mark.parametrize("schema", [SCHEMA + 1, 0, None, "1", 1.5])
def test_schema_of_another_version(schema: object) -> None:
    text = json.dumps({"schema": schema, "payload": {}})
    with pytest.raises(
        InputError, match=rf"^schema is .*; expected a number from 1 to {SCHEMA}, .* newer coachlib"
    ):
        read_event("undo", text)


@pytest.mark.parametrize("text", ["[]", "null", '"x"', "{}"])
def test_text_without_schema(text: str) -> None:
    with pytest.raises(InputError, match=r"^schema is None; expected"):
        read_event("undo", text)


def test_steps_are_those_of_the_session() -> None:
    seen = steps.observe(START, SHOT)
    assert stepped(START, "shot", {"shot": SHOT}) == seen
    assert stepped(seen, "undo", {}) == START
    assert stepped(seen, "change", {"lane": "8"}) == steps.change(seen, lane="8")
    better = Shot(crossed_board=12)
    assert stepped(seen, "correct", {"number": 1, "shot": better}) == steps.correct(seen, 1, better)
    assert stepped(seen, "advice", {"headline": "Stay"}) == seen


def test_step_that_does_not_fit() -> None:
    with pytest.raises(InputError, match="nothing to undo"):
        stepped(START, "undo", {})
    with pytest.raises(InputError, match="games_on_lane is 99"):
        stepped(START, "change", {"games_on_lane": 99.0})
