"""A young bowler's move against the grown-up's: exact geometry, both ways of walking."""

import itertools

import pytest

import coachlib as cl
from coachlib.coaching.advice.line_values import moves_to_weigh
from coachlib.coaching.rules.other_moves import SMALL_SHIFT_BOARDS, is_small, pins_shift_boards, small_move
from coachlib.world.levers import line_shift_boards

LINE = cl.Line(22, 12)
MOVES = [(2, 1), (3, 1), (3, 2), (4, 2), (5, 2), (7, 3), (1, 1), (2, 2), (1, 0), (2, 0), (0, 1)]


@pytest.mark.parametrize(("walk", "sign"), list(itertools.product(("slide", "walk"), (1, -1))))
@pytest.mark.parametrize("boards", MOVES)
def test_it_shifts_the_line_less_and_the_same_way(boards: tuple[int, int], walk: str, sign: int) -> None:
    bowler = cl.Bowler(walk=walk)  # type: ignore[arg-type]
    grown = cl.Move(feet_boards=float(sign * boards[0]), target_boards=float(sign * boards[1]))
    small = small_move(grown, LINE, bowler)
    grown_shift, small_shift = (line_shift_boards(move, 60.0, walk) for move in (grown, small))  # type: ignore[arg-type]
    assert abs(small_shift) < abs(grown_shift)
    assert small_shift * grown_shift > 0
    assert max(abs(small.feet_boards), abs(small.target_boards)) <= (1.5 if boards == (3, 2) else 1)
    assert small.feet_boards * grown.feet_boards >= 0
    assert small.target_boards * grown.target_boards >= 0


def test_half_of_a_two_and_one_is_one_and_a_half() -> None:
    # similar triangles: 2-and-1 is -2 boards at 60 ft (FACTS 7), 1-and-a-half is -1
    small = small_move(cl.Move(feet_boards=2.0, target_boards=1.0), LINE, cl.Bowler())
    assert (small.feet_boards, small.target_boards) == (1.0, 0.5)
    assert pins_shift_boards(small, LINE, cl.Bowler()) == -1.0


def test_parallel_moves_stay_parallel_and_other_moves_stay_what_they_are() -> None:
    small = small_move(cl.Move(feet_boards=-2.0, target_boards=-2.0), LINE, cl.Bowler())
    assert small.feet_boards == small.target_boards < 0
    assert small_move(cl.Move(speed_mph=0.5), LINE, cl.Bowler()) == cl.Move(speed_mph=0.5)
    assert small_move(cl.Move(ball="weaker", feet_boards=2.0), LINE, cl.Bowler()) == cl.Move(ball="weaker")


def test_what_is_weighed_for_a_young_bowler_is_small_on_the_lane_too() -> None:
    moves = moves_to_weigh(LINE, cl.Bowler(), "one board")
    assert moves[0].is_stay
    assert len(moves) > 5
    shifts = [abs(line_shift_boards(move, 60.0)) for move in moves]
    assert max(shifts) <= SMALL_SHIFT_BOARDS < 2.0
    eyes_alone = cl.Move(target_boards=1.0)  # four boards at the pins: more than a grown-up's 2-and-1
    assert not is_small(eyes_alone, LINE, cl.Bowler())
