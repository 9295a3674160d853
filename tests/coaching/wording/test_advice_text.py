"""Sentences: left and right as the bowler sees them, numbers as they are called out."""

import re

import pytest

import coachlib as cl
from coachlib.world.parsing import boards_text

HIGH = cl.Shot(crossed_board=11, arrival="high", motion="early")


def said(*shots, hand="right", to="bowler", **fields):
    session = cl.Session(bowler=cl.Bowler(hand=hand, **fields), line=cl.Line(22, 11))
    for shot in shots:
        session = cl.observe(session, shot)
    return cl.say(cl.advise(session, model_on=False), to=to)


def test_a_move_is_told_whole():
    told = said(HIGH, HIGH, HIGH)
    assert told.headline == "2 and 1 left"
    assert told.sentence == (
        "Feet 24, target 12. You hit your target three times and it came in high each time. "
        "The last one turned early."
    )
    assert "2 boards right at the pins, pivot at 30 ft" in told.rule
    assert told.source.startswith("High: two and one left (in print")
    assert told.look_for
    assert told.then
    assert told.chances == ""


def test_a_walker_is_told_the_walkers_lever():
    told = said(HIGH, HIGH, HIGH, walk="walk")
    move = cl.advise(_session_of(walk="walk"), model_on=False).move
    shift = cl.line_shift_boards(move, 60, "walk")
    assert f"{boards_text(shift)} board" in told.rule


def _session_of(**fields):
    session = cl.Session(bowler=cl.Bowler(**fields), line=cl.Line(22, 11))
    for _ in range(3):
        session = cl.observe(session, HIGH)
    return session


def test_spoken_to_the_bowler_or_to_the_coach():
    missed = cl.Shot(crossed_board=14, arrival="nose")
    assert said(missed).headline == "That was you, not the lane"
    assert said(missed, to="coach").headline == "That was the bowler, not the lane"


@pytest.mark.parametrize("crossed", [10, 11, 12, 12.5, 9.5, None])
@pytest.mark.parametrize("arrival", ["high", "nose", "light", "pocket"])
@pytest.mark.parametrize("to", ["bowler", "coach"])
def test_a_ball_that_did_not_miss_is_never_the_bowlers_doing(crossed, arrival, to):
    shot = cl.Shot(crossed_board=crossed, arrival=arrival)
    for n_balls in (1, 2):
        told = said(*[shot] * n_balls, to=to)
        assert "not the lane" not in told.summary
        assert "missed target" not in told.summary


@pytest.mark.parametrize(
    ("seen", "who", "headline"),
    [
        ({"speed_mph": 15.5}, {"speed_mph": 17.0}, "Same line, at your usual speed"),
        ({"slide_board": 26}, {"drift_boards": 0.0}, "Same line, same slide board"),
    ],
)
def test_a_ball_on_target_that_was_thrown_otherwise_is_told_what_to_do_again(seen, who, headline):
    told = said(cl.Shot(crossed_board=11, arrival="high", **seen), **who)
    assert told.headline == headline
    assert "not the lane" not in told.summary


def test_a_left_hander_hears_own_sides_and_pins():
    told = said(HIGH, HIGH, HIGH, hand="left")
    assert told.headline == "2 and 1 right"
    six = said(cl.Shot(crossed_board=11, arrival="high", leave=cl.own_pins((6,), "left")), hand="left")
    four = said(cl.Shot(crossed_board=11, arrival="high", leave=(4,)))
    assert four.headline.replace("left", "right") == six.headline
    assert re.search(r"\b6\b", six.why)
    assert re.search(r"\b4\b", four.why)


@pytest.mark.parametrize(
    ("crossed", "hand", "said_side"),
    [(14, "right", "left"), (8, "right", "right"), (14, "left", "right"), (8, "left", "left")],
)
def test_the_side_of_a_miss_is_the_one_the_bowler_sees(crossed, hand, said_side):
    told = said(cl.Shot(crossed_board=crossed, arrival="pocket"), hand=hand)
    assert told.sentence == f"Feet 22, target 11. It crossed 3 {said_side} of the target and hit the pocket."


def test_a_move_too_far_shows_on_the_other_side():
    high = said(*[cl.Shot(crossed_board=11, arrival="high")] * 3)
    light = said(*[cl.Shot(crossed_board=11, arrival="light", motion="late")] * 3)
    assert high.then == "Judge it after two balls on target. If they come in light, go back half."
    assert light.then == "Judge it after two balls on target. If they come in high, go back half."


def test_the_nose_is_counted_by_its_side_and_not_as_the_nose():
    highs = [cl.Shot(crossed_board=11, arrival="high")] * 2
    told = said(*highs, cl.Shot(crossed_board=11, arrival="nose"))
    assert told.sentence.endswith("came in high each time. The last one went through the nose.")


def test_an_arrival_taken_from_the_pins_is_said_to_be_so():
    told = said(cl.Shot(leave=(4, 9)))
    assert told.sentence == (
        "Feet 22, target 11. It came in high, by the 4-9 left. Where it crossed was not noted."
    )
    assert "these pins do not tell" in said(*[cl.Shot(crossed_board=11, leave=(1, 3, 7))] * 2).why


CURES = [
    (
        dict(crossed_board=11, arrival="high", slide_board=26),
        dict(drift_boards=0.0),
        "bring the slide foot back",
    ),
    (dict(crossed_board=11, arrival="high", speed_mph=15.5), dict(speed_mph=17.0), "at the usual pace"),
    (dict(crossed_board=14, arrival="nose"), {}, "hit the target"),
    (dict(arrival="high"), {}, "note where the ball crosses"),
]


@pytest.mark.parametrize(("seen", "who", "cure"), CURES)
def test_who_stays_is_told_what_to_do(seen, who, cure):
    assert cure in said(cl.Shot(**seen), **who).then


def test_watching_gives_its_own_reason_and_not_that_of_the_move():
    session = cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11), games_on_lane=2.0)
    for _ in range(3):
        session = cl.observe(session, cl.Shot(crossed_board=11, arrival="light"))
    told = cl.say(cl.advise(session, model_on=False))
    assert told.headline == "One more, same line"
    assert "watch where it turns" in told.why
    assert "friction" not in told.why


def test_the_spare_is_told_with_its_boards_and_its_start():
    told = said(cl.Shot(crossed_board=11, arrival="high", leave=(4,)))
    assert told.spare.startswith(
        "Feet 23, target 20, straight at the 4-pin. With the strike ball: feet 17½, target 11."
    )
    left = said(cl.Shot(crossed_board=11, arrival="pocket", leave=(7,)), hand="left")
    assert left.spare.startswith("Feet 22, target 20, straight at the 10-pin.")


def test_a_young_bowler_is_told_a_small_move_in_words_of_its_own():
    told = said(*[cl.Shot(crossed_board=11, arrival="nose")] * 3, age_years=10.0)
    assert told.headline in ("1 and ½ left", "Feet ½ left, eyes stay")
    assert told.why == "One small step, about half of a grown-up's. Then throw two good balls."
    assert "Twice" not in told.why + told.then


def test_the_quiet_side_is_noted_under_inside_moves_only():
    inside = said(*[cl.Shot(crossed_board=11, arrival="high")] * 3, hand="left")
    outside = said(*[cl.Shot(crossed_board=11, arrival="light", motion="late")] * 3, hand="left")
    assert any("half of a move to the right" in note for note in inside.notes)
    assert outside.notes == ()


def test_what_to_know_of_a_bowler_is_noted_before_the_first_ball():
    assert said(is_two_handed=True).notes
    assert said(cl.Shot(crossed_board=11, arrival="pocket"), is_two_handed=True).notes == ()


def test_before_the_first_ball_the_line_stands_in_large_type():
    assert said().headline == "Feet 22, target 11"


def test_waiting_says_how_long():
    told = said(*[cl.Shot(crossed_board=11, arrival="high")] * 2)
    assert told.headline == "One more, same line"
    assert "twice" in told.why
    assert "three" in told.why


def test_spare_line_for_pins_just_left():
    told = said(cl.Shot(crossed_board=11, arrival="pocket", leave=(10,)))
    assert told.spare.startswith("Feet 31, target 20, straight at the 10-pin.")
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
    advice = cl.advise(cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11)), model_on=False)
    with pytest.raises(cl.InputError, match=text):
        cl.say(advice, **arguments)
