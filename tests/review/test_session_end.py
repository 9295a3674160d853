"""What a session comes to: the line or move that worked, counts that agree, no luck credited, no score."""

import re

import pytest

import coachlib as cl
from coachlib.review.evening import evening_balls, spare_kind, spares_tried
from coachlib.review.session_end import (
    PAIN_WORDS,
    session_end,
    session_end_words,
    stretch_words,
    verdict_words,
)

FIRST, SECOND = cl.Line(22, 12), cl.Line(25, 14)
HIGH = cl.Shot(crossed_board=12, arrival="high", leave=(4,))
GOOD = cl.Shot(crossed_board=14, arrival="pocket", leave=())
STILL_HIGH = cl.Shot(crossed_board=14, arrival="high", leave=(4,))
TAP = cl.Shot(crossed_board=14, arrival="pocket", leave=(10,))
MADE, MISSED = cl.Shot(leave=(), is_spare=True), cl.Shot(leave=(10,), is_spare=True)
ACROSS = cl.Shot(crossed_board=12, arrival="crossover", leave=())
WILD = cl.Shot(crossed_board=16.5, arrival="pocket", leave=())


def _played(*steps, hand="right", **bowler):
    """Return a session of shots, and of lines, lanes or fields to change, in order."""
    session = cl.Session(cl.Bowler(name="Ilta", hand=hand, **bowler), FIRST, lane="7")
    for one in steps:
        session = cl.observe(session, one) if isinstance(one, cl.Shot) else cl.change(session, **one)
    return session


def _words(*steps, hand="right", **bowler):
    return session_end_words(session_end(_played(*steps, hand=hand, **bowler)), hand)


EVENING = (HIGH, HIGH, HIGH, {"line": SECOND}, GOOD, TAP, MADE, GOOD, TAP, MISSED, GOOD)


@pytest.mark.parametrize(("hand", "side"), [("right", "left"), ("left", "right")])
def test_the_move_that_worked_comes_first_with_its_counts(hand, side):
    words = _words(*EVENING, hand=hand)
    assert words[0] == (
        f"What worked: moving 3 and 2 {side}, before ball 4. "
        "0 of 3 over the target and in the pocket before it, 5 of 5 after."
    )
    assert "From ball 1: feet 22, target 12: 0 of 3 in the pocket." in words
    assert "From ball 4: feet 25, target 14: 5 of 5 in the pocket." in words
    assert words[-1].startswith("Next start: feet 25, target 14. The first line that worked")


@pytest.mark.parametrize(
    ("before", "after", "words"),
    [
        ((HIGH, HIGH, GOOD), (GOOD, GOOD, STILL_HIGH), "The move worked: 1 of 3 "),
        ((GOOD, GOOD, HIGH), (GOOD, STILL_HIGH, STILL_HIGH), "The move fell short: 2 of 3 "),
        ((GOOD, GOOD, HIGH), (GOOD, HIGH, HIGH), "The move did not help: 2 of 3 "),
        ((HIGH, HIGH, HIGH), (GOOD, GOOD), "The move worked."),
        ((HIGH, HIGH, HIGH), (GOOD, STILL_HIGH), "Too few balls to tell."),
        (
            (HIGH, HIGH, HIGH),
            (GOOD, GOOD, GOOD, *[STILL_HIGH] * 5),
            "The move worked at first: 0 of 3 over the target and in the pocket before, 3 of 8 after.",
        ),
    ],
)
def test_a_move_is_judged_by_its_first_balls_on_target_and_told_with_all_counts(before, after, words):
    on_first = [cl.Shot(crossed_board=12, arrival=one.arrival, leave=one.leave) for one in before]
    end = session_end(_played(*on_first, {"line": SECOND}, *after))
    assert verdict_words(end, end.stretches[-1]).startswith(words)


def test_a_line_that_sometimes_found_the_pocket_is_not_said_never_to_have():
    end = session_end(_played({"line": SECOND}, GOOD, HIGH, HIGH, HIGH))
    assert verdict_words(end, end.stretches[-1]) == "It did not find the pocket often."


def test_the_counts_are_those_of_the_balls_and_no_score_is_told():
    end = session_end(_played(*EVENING))
    assert sum(one.n_balls for one in end.stretches) == len(end.balls) == 8
    assert end.doings == (("you", 0), ("the lane", 1), ("you and the lane", 0), ("too early to say", 2))
    assert [tuple(one) for one in end.spares] == [("the 7 or the 10", 1, 2)]
    words = " ".join(session_end_words(end, "right"))
    assert "the lane 1, too early to say 2" in words
    assert "the 7 or the 10 1 of 2" in words
    assert not re.search(r"score|average|%|percent|rank|strike", words, re.IGNORECASE)


def test_strikes_that_came_across_credit_no_line():
    end = session_end(_played(ACROSS, ACROSS, ACROSS, ACROSS))
    assert end.worked is None
    assert end.start is None
    words = session_end_words(end, "right")
    assert "0 of 4 in the pocket" in " ".join(words)
    assert not words[0].startswith("What worked: feet")


def test_pocket_balls_from_a_missed_target_are_counted_as_that_and_credit_nothing():
    end = session_end(_played({"line": SECOND}, WILD, WILD, WILD, WILD))
    assert end.worked is None
    assert stretch_words(end.stretches[0]) == ("feet 25, target 14: 4 of 4 in the pocket, but off target")


def test_fresh_oil_and_another_lane_begin_a_stretch_of_their_own():
    session = _played(HIGH, {"games_on_lane": 2.0}, HIGH, {"games_on_lane": 0.0}, HIGH, {"lane": "8"}, HIGH)
    _, stretches = evening_balls(session)
    assert [(one.lane, one.n_balls, one.move) for one in stretches] == [
        (lane, n, None) for lane, n in (("7", 2), ("7", 1), ("8", 1))
    ]


def test_two_lanes_keep_their_own_lines_though_balls_take_turns():
    session = _played(HIGH, {"lane": "8"}, HIGH, {"lane": "7"}, HIGH, {"lane": "8"}, HIGH)
    end = session_end(session)
    assert [(one.lane, one.n_balls) for one in end.stretches] == [("7", 2), ("8", 2)]
    assert any(words.startswith("Lane 8, from ball 2: ") for words in session_end_words(end, "right"))


@pytest.mark.parametrize(
    ("noted", "verdict", "doing"),
    [
        ({"crossed_board": 12.5, "arrival": "high"}, "lane", "the lane"),
        ({"crossed_board": 12.5, "arrival": "high"}, "direction known", "too early to say"),
        ({"crossed_board": 12.5, "arrival": "high"}, "too early", "too early to say"),
        ({"crossed_board": 15, "arrival": "high"}, "bowler", "you"),
        ({"crossed_board": 15, "arrival": "high"}, "both", "you and the lane"),
        ({"arrival": "light"}, "lane", "the lane"),
        ({"crossed_board": 12, "arrival": "pocket"}, "lane", None),
    ],
)
def test_whose_doing_a_miss_was_is_what_was_said_at_the_lane(noted, verdict, doing):
    balls, _ = evening_balls(_played(cl.Shot(**noted)), {1: {"verdict": verdict}})
    assert balls[0].doing == doing


@pytest.mark.parametrize("crossed_board", [10.9, 13.1])
def test_a_ball_that_missed_the_target_by_more_than_a_board_is_never_the_lane_s(crossed_board):
    session = _played(cl.Shot(crossed_board=crossed_board, arrival="high"), arrow_sd_boards=1.46)
    balls, _ = evening_balls(session, {1: {"verdict": "lane"}})
    assert balls[0].doing == "too early to say"


def test_where_no_answer_was_kept_the_rule_of_thumb_says_whose_doing_it_was():
    wide = cl.Shot(crossed_board=15, arrival="high")
    balls, _ = evening_balls(_played(HIGH, wide, HIGH, HIGH), {1: {"kind": "watch"}})
    assert [ball.doing for ball in balls] == ["too early to say", "you", "too early to say", "the lane"]


@pytest.mark.parametrize(("went_on", "done"), [(False, "Stopped for it."), (True, "You chose to go on.")])
def test_where_it_hurt_is_told_even_when_the_note_was_taken_back(went_on, done):
    hurt = cl.Bowler(name="Ilta", pain="right  knee.")
    go_on = [{"goes_on_with_pain": True}] if went_on else []
    words = _words(*EVENING, {"bowler": hurt}, *go_on, {"bowler": cl.Bowler(name="Ilta")})
    assert words[0] == f"Noted: right knee. {done}"
    assert PAIN_WORDS not in words
    assert not any("Noted" in text for text in _words(*EVENING))


def test_pain_is_said_before_all_else():
    words = _words(*EVENING, pain="thumb")
    assert words[0] == PAIN_WORDS
    assert re.search("doctor or a physio", words[0])


@pytest.mark.parametrize("noted", ["none", "no", "-", ""])
def test_a_note_that_nothing_hurts_is_no_pain(noted):
    assert PAIN_WORDS not in _words(*EVENING, pain=noted)


def test_wild_crossings_are_the_one_thing_with_their_spread():
    crossed = [cl.Shot(crossed_board=board, arrival="light") for board in (15, 15, 13, 18, 6)]
    words = _words({"line": cl.Line(20, 15)}, *crossed, arrow_sd_boards=1.46)
    (thing,) = [text for text in words if text.startswith("One thing: ")]
    assert thing.startswith("One thing: hitting the target: a spread of 4.5 boards over 5 balls. ")


def test_a_session_without_a_ball_says_so():
    assert _words() == ("No ball was read in this session.",)


def test_what_is_to_be_worked_on_is_not_praised_above():
    wild = [cl.Shot(crossed_board=board, arrival="high", leave=(4,)) for board in (*[12] * 8, 20, 3)]
    words = _words(*wild)
    assert any("One thing: hitting the target" in text for text in words)
    assert "your aim" not in words[0]


def test_where_no_line_was_steady_the_spares_or_the_aim_are_what_worked():
    lost = cl.Shot(crossed_board=12, arrival="high", leave=(4,))
    assert _words(lost, MADE, lost, MADE, lost, MADE)[0] == "What worked: your spares. 3 of 3 made."
    assert _words(lost, lost, lost)[0] == "What worked: your aim. You hit your target 3 of 3 times."


@pytest.mark.parametrize(
    ("leave", "kind"),
    [
        ((10,), "the 7 or the 10"),
        ((7,), "the 7 or the 10"),
        ((4,), "one pin"),
        ((3, 10), "splits"),
        ((2, 4, 5), "two or more"),
        ((1, 2, 10), "two or more"),  # the head pin stands: no split by definition
    ],
)
def test_kinds_of_leaves(leave, kind):
    assert spare_kind(leave) == kind


def test_a_spare_counts_only_right_after_its_leave_and_where_it_was_noted():
    unknown = cl.Shot(is_spare=True)
    session = _played(TAP, MADE, TAP, unknown, TAP, GOOD, MADE, TAP, {"lane": "8"}, MADE)
    assert [tuple(one) for one in spares_tried(session.shots)] == [("the 7 or the 10", 1, 1)]


def test_balls_thrown_with_pain_are_no_stop():
    hurt = {"bowler": cl.Bowler(name="Ilta", pain="left thumb")}
    words = _words(*EVENING, hurt, HIGH, HIGH)
    assert "Noted: left thumb. 2 more balls were thrown with it." in words
