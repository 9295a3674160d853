"""Laydown, straight lines and what fits; the published table is in tests/published."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import coachlib as cl
from coachlib.world import levers

BOARDS = st.integers(-8, 8)
WALKS = st.sampled_from(["slide", "walk"])
PLAYED = cl.Line(24, 14)


def test_same_line_at_other_distances():
    # similar triangles: laydown 20 over 15 at 15 ft
    bowler = cl.Bowler(laydown_offset_boards=6)
    line = cl.Line(26, 15)
    assert levers.laydown_board(line, bowler) == 20
    expected = {7.5: 17.5, 10: 16.667, 12.5: 15.833, 30: 10, 40: 6.667}
    for at_ft, board in expected.items():
        assert levers.board_at(line, bowler, at_ft) == pytest.approx(board, abs=5e-4)
    assert levers.line_angle_deg(line, bowler) == pytest.approx(-1.693, abs=5e-4)


@given(feet=BOARDS, eyes=BOARDS, walk=WALKS, at_ft=st.floats(0, 60), stance_ft=st.floats(10, 16))
def test_shift_is_the_difference_of_two_lines(feet, eyes, walk, at_ft, stance_ft):
    bowler = cl.Bowler(walk=walk, stance_ft=stance_ft)
    moved = cl.Line(PLAYED.feet_board + feet, PLAYED.target_board + eyes)
    difference = levers.board_at(moved, bowler, at_ft) - levers.board_at(PLAYED, bowler, at_ft)
    shift = cl.line_shift_boards(cl.Move(feet, eyes), at_ft, walk, 15, stance_ft)
    assert difference == pytest.approx(shift, abs=1e-9)


@given(feet=BOARDS, eyes=BOARDS, walk=WALKS, at_ft=st.floats(-15, 63))
def test_moves_add_up_and_turn_round(feet, eyes, walk, at_ft):
    there = cl.line_shift_boards(cl.Move(feet, eyes), at_ft, walk)
    assert cl.line_shift_boards(cl.Move(-feet, -eyes), at_ft, walk) == pytest.approx(-there)
    parts = [cl.line_shift_boards(move, at_ft, walk) for move in (cl.Move(feet), cl.Move(0, eyes))]
    assert there == pytest.approx(sum(parts), abs=1e-9)


@pytest.mark.parametrize("walk", ["slide", "walk"])
@pytest.mark.parametrize("target_ft", [7.5, 12, 25, 40])
def test_looking_elsewhere_keeps_the_line(walk, target_ft):
    bowler = cl.Bowler(walk=walk)
    elsewhere = levers.target_on_line(PLAYED, bowler, target_ft)
    assert elsewhere.target_ft == target_ft
    for at_ft in (0, target_ft):
        kept = levers.board_at(PLAYED, bowler, at_ft)
        # half-board rounding
        assert levers.board_at(elsewhere, bowler, at_ft) == pytest.approx(kept, abs=0.51)


def test_the_slide_foot_of_a_walker_moves_half_as_far():
    walker = cl.Bowler(walk="walk")
    feet = [levers.slide_foot_board(cl.Line(board, 15), walker) for board in (20, 25, 30)]
    assert cl.walk_from_test((20, 25, 30), tuple(feet)) == "walk"
    assert feet[2] - feet[0] == pytest.approx(5)


@pytest.mark.parametrize(
    ("line", "text"),
    [
        (cl.Line(24, 14), None),
        (cl.Line(5, 5), "laydown would be board"),
        (cl.Line(40, 25), "this bowler stands on 10 to 38"),
        (cl.Line(33, 11), "aim off the lane before 45 ft"),
        (cl.Line(12, 22), "aim off the lane before 45 ft"),
    ],
)
def test_what_does_not_fit(line, text):
    bowler = cl.Bowler(feet_low_board=5 if line.feet_board == 5 else 10, feet_high_board=38)
    problems = levers.fits_problems(line, bowler)
    assert (problems == ()) if text is None else any(text in problem for problem in problems)


def test_who_already_aims_far_out_may_keep_doing_so():
    bowler, played = cl.Bowler(rev_rate_rpm=150), cl.Line(32, 13)
    assert levers.fits_problems(cl.Line(33, 14), bowler)
    assert not levers.fits_problems(cl.Line(33, 14), bowler, played)
    assert levers.fits_problems(cl.Line(34, 13), bowler, played)


def test_move_between_lines():
    assert levers.move_between(PLAYED, cl.Line(26, 15)) == cl.Move(2, 1)
    assert levers.move_between(PLAYED, cl.Line(24, 9, 30)) == cl.Move(target_ft=15)


@pytest.mark.parametrize(
    ("arguments", "text"),
    [
        (dict(walk="run"), "walk is 'run'; expected one of 'slide', 'walk'"),
        (dict(target_ft=0), "target_ft is 0; expected 5 to 45 ft"),
        (dict(stance_ft=float("nan")), "stance_ft is nan; expected 3 to 18 ft"),
        (dict(at_ft=600), "at_ft is 600; expected -20 to 63 ft"),
        (dict(at_ft=[15, 600]), "at_ft is 600; expected -20 to 63 ft"),
        (dict(at_ft=[[15], [30, 45]]), r"at_ft is \[15\]; expected -20 to 63 ft"),
        (dict(at_ft=10**400), "at_ft is 1000.*; expected -20 to 63 ft"),
        (dict(move="2 and 1"), r"move is '2 and 1'; expected a Move\. Make one with Move"),
    ],
)
def test_nonsense_is_refused(arguments, text):
    with pytest.raises(cl.InputError, match=text):
        cl.line_shift_boards(**({"move": cl.Move(2, 1), "at_ft": 60} | arguments))
    with pytest.raises(cl.InputError, match="move is None; expected a Move"):
        cl.pivot_ft(None)


@pytest.mark.parametrize("kind", [list, tuple, np.array])
def test_several_distances_at_once(kind):
    # two and one, sliding: 2 at the foul line, 1 at the target, -2 at the pins
    shifts = cl.line_shift_boards(cl.Move(2, 1), kind([0, 15, 60]))
    assert isinstance(shifts, np.ndarray)
    assert shifts.tolist() == [2, 1, -2]


def test_mirror_needs_nothing_here():
    right, left = cl.Bowler(hand="right"), cl.Bowler(hand="left")
    assert levers.board_at(PLAYED, right, 60) == levers.board_at(PLAYED, left, 60)
    assert levers.laydown_board(PLAYED, right) == levers.laydown_board(PLAYED, left)
    assert levers.fits_problems(cl.Line(5, 5), right) == levers.fits_problems(cl.Line(5, 5), left) != ()


def test_a_hooking_ball_may_be_aimed_past_the_edge():
    line = cl.Line(25, 12)
    assert levers.board_at(line, cl.Bowler(), 45) == pytest.approx(-1)
    assert not levers.fits_problems(line, cl.Bowler(rev_rate_rpm=300))
    assert not levers.fits_problems(line, cl.Bowler())
    assert levers.fits_problems(line, cl.Bowler(rev_rate_rpm=150))
