"""What was seen of a ball in words: every field of a shot is told, with its unit.

Our own promises, no source.
"""

import dataclasses

import pytest

import coachlib as cl
from coachlib.views.panels.shared.shots import all_seen_words, stood_words, way_seen

FULL = cl.Shot(
    crossed_board=12.5,
    arrival="high",
    leave=(4, 9),
    motion="skid_long",
    speed_mph=15.24,
    breakpoint_board=8,
    breakpoint_ft=41,
    start_board=22,
    slide_board=20.5,
    hit="flat",
    note="wet <shoe>",
)
LEFT_TWO, SPARE = cl.Shot(leave=(3, 10)), cl.Shot(leave=(), is_spare=True)


def test_all_that_was_noted_is_told_with_units():
    assert all_seen_words(FULL, "right") == (
        "Crossed board 12½, came in high, pins 4 9 left, hit flat, skidded long, farthest out on board 8 at "
        "41 ft, 15.2 mph at the hand, started on board 22, slid on board 20½. Noted: wet <shoe>"
    )


@pytest.mark.parametrize("name", [one.name for one in dataclasses.fields(cl.Shot) if one.name != "is_spare"])
def test_no_field_of_a_shot_is_left_out(name):
    blank = {"note": ""}.get(name)
    without = dataclasses.replace(FULL, **{name: blank})
    assert len(all_seen_words(without, "right")) < len(all_seen_words(FULL, "right"))


@pytest.mark.parametrize(
    ("shot", "hand", "words"),
    [
        (cl.Shot(arrival=17.5, leave=()), "right", "Hit board 17½, all down."),
        (cl.Shot(arrival="out", leave=(10,)), "left", "Missed the head pin, pin 7 left."),
        (cl.Shot(arrival="far_light"), "right", "Came in very light."),
        (cl.Shot(crossed_board=9, motion="roll_out"), "right", "Crossed board 9, rolled out."),
        (cl.Shot(is_spare=True), "right", ""),
        (cl.Shot(is_spare=True, note="slow"), "right", "Noted: slow"),
    ],
)
def test_what_was_not_seen_is_not_told(shot, hand, words):
    assert all_seen_words(shot, hand) == words


def test_a_breakpoint_without_its_distance_is_told_too():
    assert way_seen(dataclasses.replace(FULL, breakpoint_ft=None))[2] == "farthest out on board 8"


def _shots(*steps, hand="right"):
    session = cl.Session(cl.Bowler(hand=hand), cl.Line(22, 12))
    for step in steps:
        session = cl.observe(session, step) if isinstance(step, cl.Shot) else cl.change(session, lane=step)
    return session.shots


@pytest.mark.parametrize(
    ("steps", "hand", "words"),
    [
        ((LEFT_TWO, SPARE), "right", "pins 3 10 stood before it"),
        ((LEFT_TWO, SPARE), "left", "pins 2 7 stood before it"),
        ((cl.Shot(leave=(10,)), SPARE), "right", "pin 10 stood before it"),
        ((SPARE,), "right", "nobody noted which pins stood before it"),
        ((cl.Shot(arrival="high"), SPARE), "right", "nobody noted which pins stood before it"),
        ((LEFT_TWO, SPARE, SPARE), "right", "nobody noted which pins stood before it"),
        ((LEFT_TWO, "2", SPARE), "right", "nobody noted which pins stood before it"),
    ],
)
def test_the_pins_before_a_spare_ball_are_those_the_ball_before_it_left(steps, hand, words):
    shots = _shots(*steps, hand=hand)
    assert stood_words(shots, len(shots)) == words
