"""A session's ball thrown with one thing changed. Limiting cases, and agreement with the plain simulation."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.simulation import what_if as trials
from coachlib.world.levers import laydown_board, line_shift_boards
from coachlib.world.oil_shape import ramp_pattern

BALL = cl.load_ball("hybrid_2000")
EVEN = ramp_pattern(ratio=1.0, length_ft=55.0)
MOVES = [cl.Move(feet_boards=f, target_boards=e) for f, e in ((1.0, 1.0), (2.0, 1.0), (3.0, 2.0), (0.0, 1.0))]


def session(pattern=EVEN, walk="slide", line=None, name="club_right"):
    bowler = dataclasses.replace(cl.load_bowler(name), walk=walk)
    return cl.Session(bowler=bowler, line=line or cl.Line(25.0, 14.0), ball=BALL, pattern=pattern)


def on_house(**options):
    return session(cl.load_pattern("house_41"), line=cl.Line(29.0, 16.0), **options)


@pytest.mark.parametrize("walk", ["slide", "walk"])
def test_on_even_film_every_move_is_its_lever(walk):
    # limiting case: a path on the same film everywhere turns and shifts as a whole
    levers = [line_shift_boards(move, 60.0, walk) for move in MOVES]
    changes = trials.arrival_changes_boards(session(walk=walk), MOVES)
    assert changes == pytest.approx(levers, abs=0.02)


def test_on_even_film_a_miss_is_four_boards_for_one():
    arrival = trials.simulate_lines(session(), misses_boards=[-1.0, 0.0, 1.0]).arrival_board
    assert np.diff(arrival) == pytest.approx([4.0, 4.0], abs=0.02)


def test_a_miss_at_a_nearer_target_is_worth_more():
    nearer = session(line=cl.Line(25.0, 15.0, 10.0))
    arrival = trials.simulate_lines(nearer, misses_boards=[0.0, 1.0]).arrival_board
    assert np.diff(arrival) == pytest.approx([6.0], abs=0.03)


def test_the_meant_ball_is_the_plain_simulation():
    one = on_house()
    release = trials.meant_release(one)
    assert float(release.laydown_board) == laydown_board(one.line, one.bowler)
    plain = cl.simulate(release, BALL, one.pattern, "right").arrival_board
    assert trials.simulate_lines(one).arrival_board == plain


def test_a_line_thrown_among_others_is_the_line_thrown_alone():
    one = on_house()
    lines = [one.line, cl.Line(31.0, 17.0), cl.Line(25.0, 15.0, 20.0)]
    together = trials.simulate_lines(one, lines, misses_boards=0.5).arrival_board
    alone = [
        trials.simulate_lines(dataclasses.replace(one, line=line), misses_boards=0.5).arrival_board[0]
        for line in lines
    ]
    assert list(together) == alone


def test_other_release_values_are_thrown():
    # published band (tests/published/test_bands.py): a mile an hour is 1 to 3 boards
    arrival = trials.simulate_lines(on_house(), speed_mph=[16.0, 17.0, 18.0]).arrival_board
    assert ((np.diff(arrival) < -1.0) & (np.diff(arrival) > -3.0)).all()


def test_an_unknown_release_field_is_named_with_the_known_ones():
    with pytest.raises(
        cl.InputError, match=r"speed_kmh is no field of a release; expected one of laydown_board"
    ):
        trials.simulate_lines(on_house(), speed_kmh=27.0)


def test_room_on_even_film_is_the_lever_and_more_on_a_house_pattern():
    # limiting case: 2 boards at the pins over a lever of 4; the grid of aims is a tenth of a board
    assert trials.aim_rooms_boards(session(), [22.0, 26.0]) == pytest.approx([0.5, 0.5], abs=0.11)
    assert trials.aim_rooms_boards(on_house(), [28.0, 29.0]).min() > 2.0


def test_the_longest_stretch_is_counted_and_never_two_together():
    holds = np.array([True, True, False, True, True, True, False, True])
    assert trials._longest(holds) == 3
    assert trials._longest(np.zeros(4, bool)) == 0


def test_the_hand_changes_nothing_on_a_pattern_alike_on_both_sides():
    left = dataclasses.replace(on_house().bowler, hand="left")
    mirrored = dataclasses.replace(on_house(), bowler=left)
    assert trials.simulate_lines(mirrored).arrival_board == trials.simulate_lines(on_house()).arrival_board


def test_headings_begin_with_the_launch_and_end_with_the_entry():
    one = on_house()
    path = trials.simulate_lines(one, keep_path=True)
    heading = trials.headings_deg(path)[:, 0]
    assert heading.shape == (60,)
    assert heading[0] == pytest.approx(float(trials.meant_release(one).launch_deg), abs=0.05)
    assert heading[-1] == pytest.approx(path.entry_deg[0], abs=0.01)


def test_who_wears_the_lane_is_the_session():
    one = on_house()
    thrower = trials.thrower_of(one)
    assert (thrower.bowler, thrower.ball) == (one.bowler, BALL)
    assert (thrower.laydown_board, thrower.target_board, thrower.target_ft) == (22.5, 16.0, 15.0)


@pytest.mark.parametrize(("missing", "text"), [("ball", "ball is None"), ("pattern", "pattern is None")])
def test_without_ball_or_pattern_nothing_is_thrown(missing, text):
    with pytest.raises(cl.InputError, match=text):
        trials.simulate_lines(dataclasses.replace(on_house(), **{missing: None}))
