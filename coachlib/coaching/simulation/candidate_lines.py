"""The lines that a search may try: all that a bowler can play, and those within a move of one."""

import functools
import itertools
import math

from coachlib.errors import InputError, raise_input_errors
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, TARGET_FT
from coachlib.world.levers import fits_problems, laydown_board
from coachlib.world.line import FEET_HIGH_BOARD, FEET_LOW_BOARD, Line, Move, after_move

# How far outside of the laydown the target may lie; straight from board 1 to the pocket is 4.1 inside.
_AIM_BOARDS = (-4.5, 12.0)


def playable_lines(bowler: Bowler, target_ft: float = TARGET_FT) -> list[Line]:
    """Return all lines of whole boards that fit lane, approach and bowler; an InputError if there is none.

    Stance limits, comfort board, walk and laydown offset count; the target lies at `target_ft`. [ft]
    """
    low = math.ceil(max(bowler.feet_low_board, FEET_LOW_BOARD))
    high = math.floor(innermost_board(bowler))
    boards = itertools.product(range(low, high + 1), range(FIRST_BOARD, LAST_BOARD + 1))
    lines = [Line(float(feet), float(target), target_ft) for feet, target in boards]
    lines = [line for line in lines if _is_aimed_usually(line, bowler) and not fits_problems(line, bowler)]
    if not lines:
        message = (
            f"feet_low_board is {bowler.feet_low_board:g} and the innermost stance {high:g}; expected "
            "stances from which a line fits the lane, usually boards 8 to 45. Widen feet_low_board to "
            "feet_high_board."
        )
        raise_input_errors({"feet_low_board": message})
    return lines


def innermost_board(bowler: Bowler) -> float:
    """Return the innermost stance that the approach allows and the bowler still trusts [board]."""
    trusted = FEET_HIGH_BOARD if bowler.comfort_board is None else bowler.comfort_board
    return min(bowler.feet_high_board, trusted)


@functools.lru_cache(maxsize=64)
def moves_within_reach(
    line: Line, bowler: Bowler, feet_reach: int, eyes_reach: int
) -> tuple[tuple[Move, Line], ...]:
    """Return the moves of whole boards that fit lane, approach and bowler, and their lines; to stay first."""
    boards = itertools.product(range(-feet_reach, feet_reach + 1), range(-eyes_reach, eyes_reach + 1))
    moves = [Move(feet_boards=float(feet), target_boards=float(eyes)) for feet, eyes in boards]
    lines = [(move, line_if_it_fits(line, move, bowler)) for move in moves if not move.is_stay]
    return (Move(), line), *((move, new) for move, new in lines if new is not None)


def lines_nearby(line: Line, bowler: Bowler, feet_reach: int, eyes_reach: int) -> list[Line]:
    """Return the line and those of :func:`moves_within_reach`, the shortest move first."""
    moves = moves_within_reach(line, bowler, feet_reach, eyes_reach)
    return [new for _, new in sorted(moves, key=lambda one: one[0].size_boards)]


def line_if_it_fits(line: Line, move: Move, bowler: Bowler) -> Line | None:
    """Return the line after a move of feet and eyes, or None where it fits lane, approach or bowler not.

    Nobody is sent beyond their comfort board, or farther beyond it than they stand already.
    """
    try:
        new = after_move(line, move)
    except InputError:
        return None
    innermost = max(innermost_board(bowler), line.feet_board)
    return None if new.feet_board > innermost or fits_problems(new, bowler, line) else new


def _is_aimed_usually(line: Line, bowler: Bowler) -> bool:
    least, most = _AIM_BOARDS
    return least <= laydown_board(line, bowler) - line.target_board <= most
