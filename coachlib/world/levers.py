"""What a move of feet and eyes does to a straight line: the lever behind every 2-and-1.

Two honest geometries. In the **slide** model the slide foot moves as much as the stance; in the **walk**
model the bowler stands `stance_ft` behind the foul line and walks the line through the target, so that the
slide board moves only part of the way. Both hold for the straight line through laydown and target: a
hooking ball answers to the lane as well.

References
----------
.. [1] "Spares systems", two UK club pages: a 2-board stance move gives 1 board at the foul line and 3 at
   the pins (the walk model). Checked in tests/published/test_levers_published.py.
.. [2] Slide model: similar triangles, derived.
"""

import math
from collections.abc import Sequence
from typing import Literal, overload

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_choice, checked_number, checked_thing
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler, Walk
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD, TARGET_FT
from coachlib.world.line import Line, Move
from coachlib.world.usual import STRAIGHT_REVS_RPM, throws_straight

STANCE_FT = 15.0
"""How far behind the foul line the stance is unless the bowler says otherwise [ft]."""

MUST_REACH_FT = 45.0
"""A straight aim line must stay on the lane this far (derived: by then the ball is turning back) [ft]."""

HOOK_BY_THEN_BOARDS = 8.0
"""How far a hooking ball has turned back from its aim line by then (our guess) [boards]."""

_Distances = Sequence[float] | NDArray[np.float64]


@overload
def line_shift_boards(
    move: Move, at_ft: float, walk: Walk = ..., target_ft: float = ..., stance_ft: float = ...
) -> float: ...
@overload
def line_shift_boards(
    move: Move, at_ft: _Distances, walk: Walk = ..., target_ft: float = ..., stance_ft: float = ...
) -> NDArray[np.float64]: ...
def line_shift_boards(
    move: Move,
    at_ft: float | _Distances,
    walk: Walk = "slide",
    target_ft: float = TARGET_FT,
    stance_ft: float = STANCE_FT,
) -> float | NDArray[np.float64]:
    """Return how far a move shifts the straight line at some distance.

    Parameters
    ----------
    move : Move
        Only its feet and eyes count.
    at_ft : float, ndarray or list of float
        Distance from the foul line. [ft]
    walk : {"slide", "walk"}
        How the bowler walks, see :class:`coachlib.Bowler`.
    target_ft : float, default 15
        Distance of the target. [ft]
    stance_ft : float, default 15
        Distance of the stance behind the foul line, used by ``walk`` alone. [ft]

    Returns
    -------
    float or ndarray
        ``+`` inside, same shape as `at_ft`; an array for a list. [boards]

    Raises
    ------
    InputError
        If `move` is no move, a distance is out of range or `walk` is unknown.

    Notes
    -----
    Slide: f + (e - f) d / a. Walk: e + (f - e) (a - d) / (a + s). f feet, e eyes, a target, s stance, d
    distance.
    """
    _check(move, walk, target_ft, stance_ft, at_ft)
    along_ft = np.asarray(at_ft, dtype=float) if isinstance(at_ft, Sequence) else at_ft
    feet, eyes = move.feet_boards, move.target_boards
    if walk == "slide":
        return feet + (eyes - feet) * along_ft / target_ft
    return eyes + (feet - eyes) * (target_ft - along_ft) / (target_ft + stance_ft)


def pivot_ft(
    move: Move, walk: Walk = "slide", target_ft: float = TARGET_FT, stance_ft: float = STANCE_FT
) -> float:
    """Return the distance at which a move changes nothing, given as for :func:`line_shift_boards`.

    Returns
    -------
    float
        From the foul line; negative behind it, ``inf`` for a parallel move. [ft]
    """
    _check(move, walk, target_ft, stance_ft, 0.0)
    feet, eyes = move.feet_boards, move.target_boards
    if feet == eyes:
        return math.inf
    if walk == "slide":
        return target_ft * feet / (feet - eyes) + 0.0  # never -0.0
    return target_ft + eyes * (target_ft + stance_ft) / (feet - eyes)


def aim_lever(target_ft: float) -> float:
    """Return how many boards at the pins one board at the target is worth, laydown kept: 4 at 15 ft."""
    return HEAD_PIN_FT / checked_number("target_ft", target_ft, 1, 60, "ft")


def laydown_board(line: Line, bowler: Bowler) -> float:
    """Return where the ball is laid down at the foul line [board].

    A sliding bowler lays it down `laydown_offset_boards` outside the stance. A walker's **ball** travels
    the straight line from beside the stance to the target, the feet beside it all the way.
    """
    beside_stance = line.feet_board - bowler.laydown_offset_boards
    if bowler.walk == "slide":
        return beside_stance
    share = line.target_ft / (line.target_ft + bowler.stance_ft)
    return line.target_board + (beside_stance - line.target_board) * share


def slide_foot_board(line: Line, bowler: Bowler) -> float:
    """Return where the slide foot ends [board]."""
    return laydown_board(line, bowler) + bowler.laydown_offset_boards


def board_at(line: Line, bowler: Bowler, at_ft: float) -> float:
    """Return where the straight line through laydown and target is at some distance [board]."""
    laydown = laydown_board(line, bowler)
    return laydown + (line.target_board - laydown) * at_ft / line.target_ft


def line_angle_deg(line: Line, bowler: Bowler) -> float:
    """Return the angle of the straight line against the boards, negative to the outside [deg]."""
    slope = (line.target_board - laydown_board(line, bowler)) / ft_to_boards(line.target_ft)
    return math.degrees(math.atan(slope))


def target_on_line(line: Line, bowler: Bowler, target_ft: float) -> Line:
    """Return the same straight line aimed at another distance: look farther or closer.

    The target is rounded to half a board, the finest a bowler can name. A walker's stance then follows the
    new target so that the laydown stays.
    """
    target_board = round(board_at(line, bowler, target_ft) * 2) / 2
    if bowler.walk == "slide":
        return Line(line.feet_board, target_board, target_ft)
    share = target_ft / (target_ft + bowler.stance_ft)
    beside_stance = target_board + (laydown_board(line, bowler) - target_board) / share
    return Line(round((beside_stance + bowler.laydown_offset_boards) * 2) / 2, target_board, target_ft)


def move_between(old: Line, new: Line) -> Move:
    """Return the move from one line to another.

    Another target distance is told apart, never as boards of eyes.
    """
    return Move(
        feet_boards=new.feet_board - old.feet_board,
        target_boards=new.target_board - old.target_board if new.target_ft == old.target_ft else 0.0,
        target_ft=new.target_ft - old.target_ft,
    )


def way_of(move: Move) -> Literal["inward", "outward"]:
    """Return which way a move of feet and eyes goes."""
    return "outward" if outward(move) else "inward"


def outward(move: Move) -> bool:
    """Return whether a move goes out: feet outward, or eyes farther in than feet, which closes the angle."""
    return move.feet_boards < 0 or move.target_boards > move.feet_boards


def is_hooking(bowler: Bowler, ball: Ball | None = None) -> bool:
    """Return whether a bowler's ball is read as one that hooks.

    One of up to 200 rpm is not, nor one that goes straight, see :func:`coachlib.world.usual.throws_straight`.
    """
    if bowler.rev_rate_rpm is not None and bowler.rev_rate_rpm <= STRAIGHT_REVS_RPM:
        return False
    return not throws_straight(bowler, ball)


def fits_problems(line: Line, bowler: Bowler, played: Line | None = None) -> tuple[str, ...]:
    """Return why a line cannot be walked or aimed; empty when it fits lane, approach and bowler.

    Parameters
    ----------
    line : Line
        The line proposed.
    bowler : Bowler
        Own stance limits, walk, revs and laydown offset count.
    played : Line, optional
        The line being played. Who already aims farther out than the rule allows is only told when the new
        line aims farther out still.

    Notes
    -----
    A straight ball's aim line must stay on the lane to 45 ft. A hooking ball has left its aim line by then,
    so that line may run 8 boards past the edge.
    """
    problems = []
    laydown = laydown_board(line, bowler)
    if not 1 <= laydown <= 39:
        problems.append(f"laydown would be board {laydown:g}; the lane has boards 1 to 39")
    if not bowler.feet_low_board <= line.feet_board <= bowler.feet_high_board:
        problems.append(
            f"feet would be on board {line.feet_board:g}; this bowler stands on {bowler.feet_low_board:g} "
            f"to {bowler.feet_high_board:g}"
        )
    aimed = board_at(line, bowler, MUST_REACH_FT)
    allowed_low = LOW_EDGE_BOARD - (HOOK_BY_THEN_BOARDS if is_hooking(bowler) else 0.0)
    if played is not None:
        allowed_low = min(allowed_low, board_at(played, bowler, MUST_REACH_FT))
    if not allowed_low <= aimed <= HIGH_EDGE_BOARD:
        problems.append(f"the line would aim off the lane before {MUST_REACH_FT:g} ft")
    return tuple(problems)


def _check(move: Move, walk: str, target_ft: float, stance_ft: float, at_ft: object) -> None:
    checked_thing("move", move, Move)
    checked_choice("walk", walk, ("slide", "walk"))
    checked_number("target_ft", target_ft, 5, 45, "ft", "The arrows are at about 15 ft.")
    fix = "Measure from the foul line to the toes in the stance."
    checked_number("stance_ft", stance_ft, 3, 18, "ft", fix)
    fix = "Give distances from the foul line; the pit is at 63 ft."
    for distance in np.atleast_1d(np.asarray(at_ft, dtype=object)).ravel():
        checked_number("at_ft", distance, -20, 63, "ft", fix)
