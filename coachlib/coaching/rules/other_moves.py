"""Moves other than the rule's own: a young bowler's half of it, and what needs no feet.

A small move really shifts the line less than a grown-up's, and the same way. Where the feet cannot move, the
eyes are changed first, then speed, hand and ball: the order is the trade's (cheapest to undo first); sizes
and ways are those of the rulebook's own moves.
"""

import itertools

from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.world.bowler import Bowler
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.levers import line_shift_boards
from coachlib.world.line import Line, Move

HALF_BOARDS = (-1.0, -0.5, 0.0, 0.5, 1.0)
"""Feet and eyes of a small move: a board at most, no finer than a child can see [boards]."""

SMALL_SHIFT_BOARDS = 1.5
"""So far a small move shifts the straight line at the pins at most; a 2-and-1 shifts it by 2 [boards]."""

_FEELABLE_BOARDS = 0.25

BALLS_A_LEVER = 3
"""Each lever is given so many balls before the next one is named (our guess)."""

_EYES = (0.5, 1.0)
_HIGH = (Move(speed_mph=0.5), Move(note="a softer wrist, for fewer revs"), Move(ball="weaker"))
_LIGHT = (Move(speed_mph=-0.5), Move(note="a firmer wrist, for more revs"), Move(ball="stronger"))
_BURNT = (Move(speed_mph=0.5), Move(rotation_deg=10.0), Move(ball="weaker"))


def small_move(move: Move, line: Line, bowler: Bowler) -> Move:
    """Return a grown-up's move of feet and eyes as a young bowler makes it; another ball brings no line.

    A board of feet and of eyes at most, shifting the line at the pins the same way by less, as near to half
    as such a move can; where none can, a move that is small already, as 1 and ½, and of one that is not, as
    a 3-and-2, exactly half. A move of something else is returned as it is.
    """
    if move.ball:
        return Move(ball=move.ball)
    if not move.is_feet_and_eyes:
        return move
    wanted = pins_shift_boards(move, line, bowler)
    tried = [
        small
        for feet, eyes in itertools.product(HALF_BOARDS, HALF_BOARDS)
        if _goes_with(small := Move(feet_boards=feet, target_boards=eyes), move)
        and _is_less(pins_shift_boards(small, line, bowler), wanted)
    ]
    if not tried and is_small(move, line, bowler):
        return move
    if not tried:
        return Move(feet_boards=0.5 * move.feet_boards, target_boards=0.5 * move.target_boards)
    alike = [small for small in tried if bool(small.feet_boards) == bool(move.feet_boards)]
    return min(alike or tried, key=lambda small: _off(small, wanted, line, bowler))


def is_small(move: Move, line: Line, bowler: Bowler) -> bool:
    """Return whether a move is one that a young bowler makes."""
    is_short = max(abs(move.feet_boards), abs(move.target_boards)) <= HALF_BOARDS[-1]
    return is_short and abs(pins_shift_boards(move, line, bowler)) <= SMALL_SHIFT_BOARDS


def pins_shift_boards(move: Move, line: Line, bowler: Bowler) -> float:
    """Return how far a move shifts this bowler's straight line at the pins, + inside [boards]."""
    return line_shift_boards(move, HEAD_PIN_FT, bowler.walk, line.target_ft, bowler.stance_ft)


def _goes_with(small: Move, move: Move) -> bool:
    """Return whether a move is of the same kind: the feet and eyes that move, move as the other's do."""
    if small.feet_boards * move.feet_boards < 0 or small.target_boards * move.target_boards < 0:
        return False
    if move.feet_boards:  # a parallel move stays parallel, and the eyes never move alone instead of the feet
        is_parallel = move.feet_boards == move.target_boards
        is_alike = small.feet_boards == small.target_boards if is_parallel else True
        is_idle = not move.target_boards and bool(small.target_boards)
        return bool(small.feet_boards) and is_alike and not is_idle
    return bool(small.target_boards or small.feet_boards)


def _is_less(shift: float, wanted: float) -> bool:
    return abs(shift) < abs(wanted) and shift * wanted > 0.0


def _off(small: Move, wanted: float, line: Line, bowler: Bowler) -> tuple[float, float]:
    """Return how far a small move is from half of the grown-up's, and how big it is."""
    off = abs(pins_shift_boards(small, line, bowler) - 0.5 * wanted)
    return round(off / _FEELABLE_BOARDS), small.size_boards


def other_levers(side: FactValue, motion: FactValue, n_too_many: int = 0) -> tuple[Move, ...]:
    """Return changes that need no feet, the next one to try first: eyes, then speed, hand and ball.

    Eyes go inside for a light ball; one that burnt up, by its `motion`, wants the other way. `n_too_many`
    are balls to that side beyond patience: every :data:`BALLS_A_LEVER` of them the next lever is named.
    Nothing for another side than ``high`` or ``light``.
    """
    if side not in ("high", "light"):
        return ()
    if side == "high":
        eyes, rest = [Move(target_boards=-boards) for boards in _EYES], _HIGH
    elif motion in ("early", "roll_out"):
        eyes, rest = [], _BURNT
    else:
        eyes, rest = [Move(target_boards=boards) for boards in _EYES], _LIGHT
    n_passed = min(max(n_too_many, 0) // BALLS_A_LEVER, len(rest) - 1)
    return (*eyes, *rest[n_passed:])
