"""What one ball tells by itself."""

import pytest

import coachlib as cl
from coachlib.coaching import one_ball

LINE = cl.Line(22, 11)


def facts(bowler=None, **seen):
    return one_ball.ball_facts(cl.Shot(**seen), LINE, bowler or cl.Bowler(rev_rate_rpm=300))


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


def test_who_sprays_more_may_miss_more():
    assert facts(crossed_board=12.5, arrival="high")["is_on_target"] is False
    wide = cl.Bowler(arrow_sd_boards=1.30)
    assert facts(wide, crossed_board=12.5, arrival="high")["is_on_target"] is True


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
