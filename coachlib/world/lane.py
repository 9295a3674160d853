"""The lane and the one frame in which the library thinks.

Boards are counted **from the bowler's own side**: 1 at the gutter of the bowling hand, 20 the centre, 39 the
far gutter. ``inside`` is towards the far side, ``outside`` towards the own gutter; ``+`` is inside. Distances
are in feet from the foul line. A board number is the position of the ball's centre. ::

    own gutter                                              far gutter
    0.5 |1   5    10   15   20   25   30   35   39| 39.5         60 ft   head pin (board 20), pocket 17.5
        |    ^    ^    ^    ^    ^    ^    ^      |              12-16   arrows
        |_________________________________________|               0 ft   foul line
             outside  <-   - | +   ->  inside

A right-hander sees this picture mirrored, a left-hander as drawn; :mod:`coachlib.world.hand` does the
turning.

References
----------
.. [1] USBC lane specification as quoted in retailers' specification articles: 60 ft from the foul line to the
   head-pin spot, lane width 41 1/2 in, 39 boards.
.. [2] Arrow distances: common practice, no source; kept here as parameters.
"""

from typing import Literal, get_args

from coachlib.units import N_BOARDS

CENTRE_BOARD = 20.0
FIRST_BOARD, LAST_BOARD = 1, N_BOARDS
LOW_EDGE_BOARD, HIGH_EDGE_BOARD = 0.5, N_BOARDS + 0.5

TARGET_FT = 15.0
"""Where a target is read unless the bowler says otherwise: at the arrows [ft]."""

HEAD_PIN_FT = 60.0
"""The head-pin plane, the one place at which an arrival is keyed [ft]."""

POCKET_BOARD = 17.5
ARROW_BOARDS = (5, 10, 15, 20, 25, 30, 35)
ARROWS_FT = (12.5, 13.6, 14.6, 15.7, 14.6, 13.6, 12.5)  # common practice, no source
DOT_BOARDS = (3, 5, 8, 11, 14, 26, 29, 32, 35, 37)
DOTS_FT = 7.2  # within the 6 to 8 ft of coaching pages

ArrivalClass = Literal["out", "far_light", "light", "pocket", "high", "nose", "crossover", "past"]
ARRIVAL_CLASSES: tuple[ArrivalClass, ...] = get_args(ArrivalClass)
MISSES_HEAD_PIN: tuple[ArrivalClass, ...] = ("out", "past")
"""The classes that leave the head pin standing: on the own side, and past it on the far side."""

_UPPER_BOARDS = (13.7, 15.1, 16.8, 18.2, 19.2, 20.8, 26.3)  # the last is 13.7 mirrored at the head pin
POCKET_LOW_BOARD, POCKET_HIGH_BOARD = _UPPER_BOARDS[2:4]
"""Between these an arrival is in the pocket [board]."""

POCKET_HALF_BOARDS = 0.7
"""So far from :data:`POCKET_BOARD` they lie, on both sides [boards]."""

_CLASS_BOARDS = (12.5, 14.4, 16.0, 17.5, 18.7, 20.0, 21.8, 27.5)


def arrival_class(arrival_board: float) -> ArrivalClass:
    """Return the class of an arrival at the head-pin plane.

    Parameters
    ----------
    arrival_board : float
        Ball centre at 60 ft in the own frame. [board]

    Returns
    -------
    str
        ``out`` (misses the head pin) below 13.7, ``far_light`` below 15.1, ``light`` below 16.8,
        ``pocket`` up to 18.2, ``high`` up to 19.2, ``nose`` up to 20.8, ``crossover`` up to 26.3, else
        ``past`` (misses the head pin on the far side). Grade: rule of thumb, limits ours; the outermost are
        where a ball of 4.3 in just touches the head pin (derived).
    """
    for limit_board, name in zip(_UPPER_BOARDS, ARRIVAL_CLASSES, strict=False):
        if arrival_board < limit_board or (limit_board > POCKET_BOARD and arrival_board == limit_board):
            return name
    return "past"


def arrival_class_board(name: ArrivalClass) -> float:
    """Return the board that stands for a class where a number is needed [board]."""
    return _CLASS_BOARDS[ARRIVAL_CLASSES.index(name)]


def class_limits(name: ArrivalClass) -> tuple[float, float]:
    """Return between which boards an arrival is of a class; the outermost are endless [board]."""
    number = ARRIVAL_CLASSES.index(name)
    limits = (-float("inf"), *_UPPER_BOARDS, float("inf"))
    return limits[number], limits[number + 1]
