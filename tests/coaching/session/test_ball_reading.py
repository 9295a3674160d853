"""What one ball tells by itself."""

import pytest

import coachlib as cl
from coachlib.coaching.rules import shot_facts
from coachlib.coaching.session import ball_reading as one_ball

LINE = cl.Line(22, 11)


def facts(bowler=None, **seen):
    return shot_facts.ball_facts(cl.Shot(**seen), LINE, bowler or cl.Bowler(rev_rate_rpm=300))


def test_a_hooking_ball_gives_back_half_of_the_aim_lever():
    # straight geometry: one board at 15 ft is four at 60 ft; half of it on a hooking ball is a rule of thumb
    assert one_ball.miss_lever(cl.Bowler(rev_rate_rpm=100), 15) == 4
    assert one_ball.miss_lever(cl.Bowler(rev_rate_rpm=300), 15) == 2
    assert one_ball.miss_lever(cl.Bowler(), 15) == 2


def test_a_miss_that_explains_the_result():
    seen = facts(crossed_board=12.5, arrival=20.5)
    assert seen["miss_boards"] == 1.5
    assert seen["expected_err_boards"] == 3.0
    assert seen["unexplained_boards"] == 0.0
    assert seen["is_on_target"] is False
    assert seen["is_miss_same_way_as_err"] is True


@pytest.mark.parametrize(
    ("sd_boards", "on_target", "spread"),
    [
        (0.50, 0.5, 0.8225),
        (0.65, 0.5, 1.06925),
        (0.66, 1.0, 1.0857),
        (1.10, 1.0, 1.8095),
        (1.30, 1.0, 2.1385),
    ],
)
def test_the_mark_is_a_board_and_half_a_board_for_a_keen_eye(sd_boards, on_target, spread):
    # Nine balls of ten of a normal distribution lie within 1.645 standard deviations of its middle.
    bowler = cl.Bowler(arrow_sd_boards=sd_boards)
    assert one_ball.on_target_boards(bowler) == on_target
    assert one_ball.usual_spread_boards(bowler) == pytest.approx(spread, abs=1e-9)


def test_the_usual_spread_is_never_narrower_than_the_mark():
    assert one_ball.usual_spread_boards(cl.Bowler(arrow_sd_boards=0.2)) == 0.5


@pytest.mark.parametrize(
    ("crossed", "sd_boards", "on_target", "within", "missed"),
    [
        (11.0, 1.1, True, False, False),
        (12.0, 1.1, True, False, False),
        (10.0, 1.1, True, False, False),
        (12.1, 1.1, False, True, False),
        (12.8, 1.1, False, True, False),
        (12.9, 1.1, False, False, True),
        (9.1, 1.1, False, False, True),
        (11.5, 0.65, True, False, False),
        (12.0, 0.65, False, True, False),
        (12.1, 0.65, False, False, True),
        (13.0, 1.3, False, True, False),
        (13.5, 1.3, False, False, True),
    ],
)
def test_a_ball_is_on_the_mark_within_the_spread_or_missed(crossed, sd_boards, on_target, within, missed):
    bowler = cl.Bowler(arrow_sd_boards=sd_boards)
    seen = facts(bowler, crossed_board=crossed, arrival="high")
    told = (seen["is_on_target"], seen["is_within_spread"], seen["is_missed"])
    assert told == (on_target, within, missed)
    miss = one_ball.missed_boards(cl.Shot(crossed_board=crossed), LINE, bowler)
    assert miss == (0.0 if on_target else pytest.approx(crossed - 11))


def test_a_crossing_not_noted_is_neither_hit_nor_missed():
    seen = facts(arrival="high")
    assert seen["has_crossing"] is False
    assert not {"is_on_target", "is_within_spread", "is_missed", "miss_boards"} & set(seen)
    assert one_ball.missed_boards(cl.Shot(arrival="high"), LINE, cl.Bowler()) is None


@pytest.mark.parametrize(
    ("seen", "severe", "severe_light"),
    [
        (dict(crossed_board=11, arrival="far_light"), False, True),
        (dict(crossed_board=12, arrival="out"), False, True),
        (dict(arrival="far_light"), False, True),
        (dict(crossed_board=11, arrival="light"), False, False),
        (dict(crossed_board=12.5, arrival="far_light"), False, False),
        (dict(crossed_board=12.5, arrival="nose"), False, False),
        (dict(crossed_board=12.5, arrival="high", leave=(4, 9)), False, False),
        (dict(arrival="nose"), True, False),
    ],
)
def test_a_ball_off_the_mark_is_never_severe(seen, severe, severe_light):
    told = facts(**seen)
    assert (told["is_severe"], told["is_severe_light"]) == (severe, severe_light)


def test_arrival_not_seen_is_taken_from_the_leave():
    seen = facts(crossed_board=11, leave=(4, 9))
    assert seen["arrival_class"] == "high"
    assert seen["side"] == "high"


def test_what_was_not_seen_is_left_out():
    seen = facts(crossed_board=11)
    assert "err_boards" not in seen
    assert seen["motion"] == seen["hit"] == "unknown"
    assert "unexplained_boards" not in facts(arrival="high")


@pytest.mark.parametrize(
    ("seen", "severe"),
    [
        (dict(crossed_board=11, arrival="nose"), True),
        (dict(crossed_board=11, arrival="high", leave=(4, 6, 7, 10)), True),
        (dict(crossed_board=14, arrival="nose"), False),
        (dict(crossed_board=11, arrival="nose", leave=()), False),
        (dict(crossed_board=11, arrival="high", leave=(4,)), False),
    ],
)
def test_severe_only_when_the_target_was_not_missed(seen, severe):
    assert facts(**seen)["is_severe"] is severe


@pytest.mark.parametrize(
    ("leave", "single", "split", "wide"),
    [
        ((10,), True, False, False),
        ((5,), False, False, False),
        ((4, 6, 7, 10), False, True, True),
        ((2, 7), False, True, False),
    ],
)
def test_pins(leave, single, split, wide):
    seen = facts(crossed_board=11, arrival="pocket", leave=leave)
    assert (seen["is_single_tap"], seen["is_open_split"], seen["is_wide_split"]) == (single, split, wide)


@pytest.mark.parametrize(
    ("leave", "expected"),
    [
        # P. Ridenour (USBC research): the classic 10-pin comes from a pocket hit at about board 16.5
        ((10,), "pocket"),
        # coaching columns: 4-pin is high, next comes 4-9 or 4-6-7-9-10; 3-6-7-10 and 6-7-10 through the nose
        ((4,), "high"),
        ((4, 9), "high"),
        ((3, 6, 7, 10), "nose"),
        ((6, 7, 10), "nose"),
        # bucket and 5-pin light: glossaries; washout thin to very thin: common practice, no source
        ((2, 4, 5, 8), "light"),
        ((5,), "light"),
        ((1, 2, 10), "far_light"),
        ((3, 6, 10), "crossover"),
        ((), "pocket"),
        ((1, 3, 7), None),
    ],
)
def test_what_leaves_say_of_an_arrival_that_was_not_seen(leave, expected):
    assert one_ball.arrival_class(cl.Shot(leave=leave)) == expected


def test_the_key_of_a_leave_is_rising():
    assert one_ball.leave_key((9, 4)) == "4 9"
    assert one_ball.leave_key(()) == ""
