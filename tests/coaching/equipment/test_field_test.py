"""The field test of two balls: intervals, numbers of shots, the order, and what is said."""

import dataclasses
import math

import numpy as np
import pytest
from scipy import stats

import coachlib as cl
from coachlib.coaching.equipment.field_test import field_test, order_of_shots, shots_needed
from coachlib.coaching.wording.field_test_words import sheet_lines, sheet_table

FIRST, SECOND = cl.load_ball("hybrid_2000"), cl.load_ball("solid_1000")
START = cl.Session(bowler=cl.load_bowler("club_right"), line=cl.Line(25, 14), ball=FIRST)


def session_of(first, second, leaves=None, is_in_turn=True):
    """Return a session with these arrivals; invented, in turn or one ball after the other."""
    shots = [(FIRST, board) for board in first] + [(SECOND, board) for board in second]
    if is_in_turn:
        shots = [shot for pair in zip(shots[: len(first)], shots[len(first) :], strict=True) for shot in pair]
    session = START
    for number, (ball, board) in enumerate(shots):
        leave = leaves[number] if leaves else None
        session = cl.observe(cl.change(session, ball=ball), cl.Shot(arrival=float(board), leave=leave))
    return session


def test_the_interval_is_welch_s():
    # Welch, Biometrika 34 (1947): t with the Welch-Satterthwaite degrees of freedom, written out here
    first, second = [17.0, 18.5, 16.0, 17.5, 19.0, 18.0], [18.0, 19.0, 20.5, 18.5, 19.5, 20.0]
    test = field_test(session_of(first, second))
    one, other = np.var(first, ddof=1) / 6, np.var(second, ddof=1) / 6
    freedom = (one + other) ** 2 / (one**2 / 5 + other**2 / 5)
    half, difference = stats.t.ppf(0.975, freedom) * math.sqrt(one + other), np.mean(second) - np.mean(first)
    found = (test.low_boards, test.difference_boards, test.high_boards)
    assert found == pytest.approx((difference - half, difference, difference + half))
    assert test.is_told_apart


def test_the_interval_holds_the_truth_in_95_of_100_tests():
    rng = np.random.default_rng(2)
    held = 0
    for _ in range(200):
        first, second = (rng.normal(mean, 1.3, 6).clip(1, 39) for mean in (17, 17.5))
        test = field_test(session_of(first, second))
        held += test.low_boards <= 0.5 <= test.high_boards
    assert 178 <= held <= 199  # 190 expected; 178 and less happen once in 3000


@pytest.mark.parametrize(("ratio", "n_each"), [(1.0, 16), (0.5, 63)])
def test_number_of_shots_against_the_textbook(ratio, n_each):
    # every table of sample sizes: 16 in each group for a difference of one spread, 63 for half of one (5
    # %, 80 %, normal approximation; Lehr, Statistics in Medicine 11 (1992) 1099, from memory: 16 over the
    # squared ratio)
    assert shots_needed(1.0 / ratio, 1.0) == n_each


def test_strikes_are_compared_as_fisher_s_lady_tastes_tea():
    # R. A. Fisher, The Design of Experiments, 1935: 3 of 4 against 1 of 4; two-sided 34/70
    leaves = [(), (10,), (), (10,), (), (10,), (10,), ()]
    test = field_test(session_of([17, 18, 17, 18], [17, 18, 17, 18], leaves))
    assert (test.first.n_strikes, test.second.n_strikes) == (3, 1)
    assert test.strike_prob_value == pytest.approx(34 / 70)


def test_a_dozen_shots_cannot_tell_a_small_difference_and_say_so():
    first, second = [16, 18, 17, 19, 15, 18], [17, 18, 18, 20, 15, 19]
    test = field_test(session_of(first, second))
    assert not test.is_told_apart
    lines = sheet_lines(test, "right")
    words = "12 shots are too few to tell these apart: solid_1000 may hit 1.4 boards right to 2.7"
    assert lines[2].startswith(words)
    assert lines[3] == f"To show a difference of 1 board 4 times in 5, throw {test.n_each_needed} with each."
    assert test.n_each_needed > 6


def test_a_great_difference_is_told_with_its_band():
    test = field_test(session_of([16, 17, 16.5, 17, 16], [19, 20, 19.5, 20, 19]))
    told = sheet_lines(test, "left")
    assert told[2].startswith("solid_1000 hits 3 boards right, somewhere between ")
    assert len(told) == 3


def test_strikes_are_told_only_as_far_as_they_go():
    boards = [17.0, 18.0, 17.5, 18.5] * 5
    some = [(), (), (10,), ()]
    alike = field_test(session_of(boards, boards, [leave for leave in some * 5 for _ in range(2)]))
    assert sheet_lines(alike, "right")[-1] == "Both strike alike so far."
    all_or_none = field_test(session_of(boards, boards, [(), (10,)] * 20))
    assert sheet_lines(all_or_none, "right")[-1] == (
        "hybrid_2000 strikes more. Chance alone would do this 1 time in 100 or less."
    )
    few = field_test(session_of(boards[:4], boards[:4], [(), (10,), (), (), (), (10,), (10,), (10,)]))
    assert f"throw about {few.n_each_for_strikes} with each" in sheet_lines(few, "right")[-1]


def test_one_ball_after_the_other_measures_the_lane():
    first, second = [16, 17, 16.5, 17], [17, 18, 17.5, 18]
    assert field_test(session_of(first, second)).is_in_turn
    test = field_test(session_of(first, second, is_in_turn=False))
    assert not test.is_in_turn
    assert "did not throw the balls in turn" in sheet_lines(test, "right")[-1]


def test_equal_arrivals_leave_nothing_open():
    test = field_test(session_of([17, 17, 17], [18, 18, 18]))
    assert (test.low_boards, test.high_boards, test.n_each_needed) == (1.0, 1.0, 3)


def test_other_lines_lanes_and_spares_do_not_count():
    session = session_of([16, 17, 16.5], [17, 18, 17.5])
    more = cl.observe(session, cl.Shot(leave=(10,), is_spare=True))
    more = cl.observe(cl.change(more, line=cl.Line(30, 17)), cl.Shot(arrival=5.0))
    more = cl.change(more, line=session.line)
    assert field_test(more) == field_test(session)


@pytest.mark.parametrize(
    ("session", "message"),
    [
        (cl.observe(START, cl.Shot(arrival=17.0)), "with 1 known balls on this line and lane: hybrid_2000"),
        (cl.observe(dataclasses.replace(START, ball=None), cl.Shot(arrival=17.0)), "with 0 known balls"),
        (session_of([17, 18], [17, 18]), "hybrid_2000 has 2 shots with an arrival on this line"),
    ],
)
def test_two_balls_with_three_shots_each_are_needed(session, message):
    with pytest.raises(cl.InputError, match=message):
        field_test(session)


def test_the_order_is_in_pairs_and_the_sheet_is_empty():
    order = order_of_shots(6, ["A", "B"], seed=1)
    assert all({*order[n : n + 2]} == {"A", "B"} for n in range(0, 12, 2))
    assert order == order_of_shots(6, ["A", "B"], seed=1)
    assert order != order_of_shots(6, ["A", "B"], seed=2)
    sheet = sheet_table(order)
    assert list(sheet.index) == list(range(1, 13))
    assert list(sheet["ball"]) == list(order)
    assert (sheet["arrival_board"] == "").all()
    with pytest.raises(cl.InputError, match="names has 3 names"):
        order_of_shots(6, ["A", "B", "C"])
