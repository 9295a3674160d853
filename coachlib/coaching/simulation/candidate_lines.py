"""The lines that a search may try: all that a bowler can play, and those within a move of one."""

import functools
import math

from coachlib.errors import InputError
from coachlib.world.bowler import Bowler
from coachlib.world.lane import (
    FIRST_BOARD,
    LAST_BOARD,
    TARGET_FT,
)
from coachlib.world.levers import fits_problems, laydown_board
from coachlib.world.line import FEET_HIGH_BOARD, FEET_LOW_BOARD, Line, Move, after_move

# How far outside of the laydown the target may lie; straight from board 1 to the pocket is 4.1 inside.
_AIM_BOARDS = (-4.5, 12.0)


def playable_lines(bowler: Bowler, target_ft: float = TARGET_FT) -> list[Line]:
    """Return all lines of whole boards that fit lane, approach and bowler.

    Parameters
    ----------
    bowler : Bowler
        Stance limits, comfort board, walk and laydown offset count.
    target_ft : float
        Distance of the target. [ft]

    Raises
    ------
    InputError
        If there is none.
    """
    low = math.ceil(max(bowler.feet_low_board, FEET_LOW_BOARD))
    high = math.floor(innermost_board(bowler))
    lines = [
        line
        for feet in range(low, high + 1)
        for target in range(FIRST_BOARD, LAST_BOARD + 1)
        if _is_aimed_usually(line := Line(float(feet), float(target), target_ft), bowler)
        and not fits_problems(line, bowler)
    ]
    if not lines:
        message = (
            f"feet_low_board is {bowler.feet_low_board:g} and the innermost stance {high:g}; expected "
            "stances from which a line fits the lane, usually boards 8 to 45. Widen feet_low_board to "
            "feet_high_board."
        )
        raise InputError(message, {"feet_low_board": message})
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
    found = [(Move(), line)]
    for feet in range(-feet_reach, feet_reach + 1):
        for eyes in range(-eyes_reach, eyes_reach + 1):
            move = Move(feet_boards=float(feet), target_boards=float(eyes))
            new = line_if_it_fits(line, move, bowler)
            if new is not None and not move.is_stay:
                found.append((move, new))
    return tuple(found)


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
