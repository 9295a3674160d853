"""Sentences: left and right as the bowler sees them, numbers as they are called out."""

import re

import pytest

import coachlib as cl
from coachlib.coaching.words import boards_text, line_text, move_text

HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")


def said(*shots, hand="right", to="bowler", **fields):
    session = cl.Session(bowler=cl.Bowler(hand=hand, **fields), line=cl.Line(22, 11))
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.say(cl.advise(session), to=to)


@pytest.mark.parametrize(
    ("boards", "text"),
    [(2, "2"), (0.5, "½"), (-1.5, "1½"), (0, "0"), (10, "10"), (12.25, "12¼"), (12.3, "12.3")],
)
def test_boards(boards, text):
    assert boards_text(boards) == text


@pytest.mark.parametrize(
    ("move", "right", "left"),
    [
        (cl.Move(2, 1), "2 and 1 left", "2 and 1 right"),
        (cl.Move(-1, -1), "1 and 1 right", "1 and 1 left"),
        (cl.Move(1, 0), "Feet 1 left, eyes stay", "Feet 1 right, eyes stay"),
        (cl.Move(0, -0.5), "Feet stay, eyes ½ right", "Feet stay, eyes ½ left"),
        (cl.Move(1, -1), "Feet 1 left, eyes 1 right", "Feet 1 right, eyes 1 left"),
        (cl.Move(speed_mph=-0.5), "Half a mph slower", "Half a mph slower"),
        (cl.Move(target_ft=10), "Look 10 ft farther", "Look 10 ft farther"),
        (cl.Move(ball="weaker"), "Weaker ball", "Weaker ball"),
        (cl.Move(), "Stay", "Stay"),
    ],
)
def test_moves(move, right, left):
    assert move_text(move, "right") == right
    assert move_text(move, "left") == left


def test_lines():
    assert line_text(cl.Line(24, 12.5)) == "Feet 24, target 12½"
    assert line_text(cl.Line(24, 9, 30)) == "Feet 24, target 9 at 30 ft"


def test_a_move_is_told_whole():
    told = said(HIGH, HIGH, HIGH)
    assert told.headline == "2 and 1 left"
    assert told.sentence == "Feet 24, target 12: it turns early and comes in high, three times on target."
    assert "2 boards right at the pins, pivot at 30 ft" in told.rule
    assert told.source.startswith("two_and_one, in print")
    assert told.look_for
    assert told.then
    assert told.chances == ""


def test_a_walker_is_told_the_walkers_lever():
    told = said(HIGH, HIGH, HIGH, walk="walk")
    move = cl.advise(_session_of(walk="walk")).move
    shift = cl.line_shift_boards(move, 60, "walk")
    assert f"{boards_text(shift)} board" in told.rule


def _session_of(**fields):
    session = cl.Session(bowler=cl.Bowler(**fields), line=cl.Line(22, 11))
    for _ in range(3):
        session = cl.observe(session, HIGH)
    return session


def test_spoken_to_the_bowler_or_to_the_coach():
    missed = cl.Shot(crossed_board=12.5, arrival="nose")
    assert said(missed).headline == "That was you, not the lane"
    assert said(missed, to="coach").headline == "That was the bowler, not the lane"


def test_a_left_hander_hears_own_sides_and_pins():
    told = said(HIGH, HIGH, HIGH, hand="left")
    assert told.headline == "2 and 1 right"
    six = said(cl.Shot(crossed_board=11, arrival="high", leave=cl.own_pins((6,), "left")), hand="left")
    four = said(cl.Shot(crossed_board=11, arrival="high", leave=(4,)))
    assert four.headline.replace("left", "right") == six.headline
    assert re.search(r"\b6\b", six.why)
    assert re.search(r"\b4\b", four.why)


def test_before_the_first_ball_the_line_stands_in_large_type():
    assert said().headline == "Feet 22, target 11"


def test_waiting_says_how_long():
    told = said(*[cl.Shot(crossed_board=11, arrival="high")] * 2)
    assert told.headline == "One more, same line"
    assert "twice" in told.why
    assert "three" in told.why


def test_spare_line_for_pins_just_left():
    told = said(cl.Shot(crossed_board=11, arrival="pocket", leave=(10,)))
    assert told.spare.startswith("From the far side")
    assert f"For this spare: {told.spare}" in told.summary
    assert said(cl.Shot(crossed_board=11, arrival="pocket", leave=())).spare == ""


def test_no_placeholder_is_left_over():
    for motion in ("early", "even", "late", "skid_long", "over_hook", "roll_out", None):
        for arrival in ("out", "light", "pocket", "high", "nose", "crossover"):
            for leave in ((), (10,), (4,), (2, 8), (4, 6, 7, 10)):
                shot = cl.Shot(crossed_board=11, arrival=arrival, leave=leave, motion=motion)
                told = said(shot, shot, shot, shot)
                assert "{" not in " ".join([told.summary, told.rule, told.why, told.stops, told.spare])


@pytest.mark.parametrize(
    ("arguments", "text"), [({"hand": "both"}, "hand is 'both'"), ({"to": "parent"}, "to is 'parent'")]
)
def test_nonsense(arguments, text):
    advice = cl.advise(cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11)))
    with pytest.raises(cl.InputError, match=text):
        cl.say(advice, **arguments)
