"""Where a bowler of some style usually starts on some oil: the lines that a coach would try first.

The target follows the rulebook's starting lines on a house pattern (few revs near board 8 and straight, the
second arrow else, the third arrow for many revs), two hands farther in, and goes with the length of the oil
as the rule of 31 does, a board a foot. A straight ball is aimed from the own side at the pocket whatever the
oil. In print as a rule of thumb (sections F and J of ``data/rules.toml``); the widths and the boards for two
hands are *our guess*.
"""

import dataclasses
from collections.abc import Iterator, Sequence

import numpy as np

from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.usual import as_usual, throws_straight

LOW_REVS_RPM, HIGH_REVS_RPM = 250.0, 400.0  # as in data/rules.toml
USUAL_LENGTH_FT, SHORT_FT, LONG_FT = 40.0, 36.0, 42.0
MOST_SHIFT_BOARDS = 4.0
AROUND_BOARDS = 2.0
"""So far from the usual target a start is still usual (our guess) [boards]."""

_WIDER_BOARDS, _MOST_AROUND_BOARDS = 2.0, 40.0


@dataclasses.dataclass(frozen=True)
class UsualStart:
    """Where such a bowler usually starts.

    Parameters
    ----------
    target_board : float
        The usual target. [board]
    least_out_boards, most_out_boards : float
        How far outside of the laydown the target usually lies. [boards]
    reason : str
        Why, in one plain sentence, in the own frame with the placeholders of rules.
    """

    target_board: float
    least_out_boards: float
    most_out_boards: float
    reason: str


_STRAIGHT = UsualStart(
    11.0, -4.5, 2.0, "A straight ball: from your own side over the target into the pocket."
)
_LOW = UsualStart(8.0, -2.0, 4.0, "Few revs: usually near board 8, and straight.")
_MEDIUM = UsualStart(10.0, 0.0, 8.0, "Medium revs: usually over the second arrow.")
_HIGH = UsualStart(15.0, 2.0, 10.0, "Many revs: usually over the third arrow, out to board 8 or 9.")
_TWO_HANDED = UsualStart(
    19.0, 2.0, 12.0, "Two hands and many revs: usually between the third and the fourth arrow."
)


def usual_start(bowler: Bowler, ball: Ball | None, pattern: OilPattern) -> UsualStart:
    """Return where a bowler of this style usually starts on oil of this length."""
    if throws_straight(bowler, ball):
        return _STRAIGHT
    start = _of_style(bowler, ball)
    shift = max(-MOST_SHIFT_BOARDS, min(MOST_SHIFT_BOARDS, pattern.length_ft - USUAL_LENGTH_FT))
    word = ""
    if pattern.length_ft <= SHORT_FT:
        word = " Short oil: farther {outside} than usual."
    elif pattern.length_ft >= LONG_FT:
        word = " Long oil: farther {inside} than usual."
    return dataclasses.replace(start, target_board=start.target_board + shift, reason=start.reason + word)


def usual_lines(start: UsualStart, lines: Sequence[Line], bowler: Bowler) -> Iterator[list[Line]]:
    """Yield those of some lines that such a bowler usually starts on, then wider and wider circles of them.

    There must be at least one; the bowler's walk and laydown offset count.
    """
    for around in np.arange(AROUND_BOARDS, _MOST_AROUND_BOARDS, _WIDER_BOARDS):
        if near := [line for line in lines if _is_usual(start, line, bowler, around)]:
            yield near
    yield list(lines)


def _of_style(bowler: Bowler, ball: Ball | None) -> UsualStart:
    revs_rpm = as_usual(bowler, ball).rev_rate_rpm or 0.0
    if bowler.is_two_handed and revs_rpm > HIGH_REVS_RPM:
        return _TWO_HANDED
    if revs_rpm > HIGH_REVS_RPM:
        return _HIGH
    return _LOW if revs_rpm < LOW_REVS_RPM else _MEDIUM


def _is_usual(start: UsualStart, line: Line, bowler: Bowler, around: float) -> bool:
    """Return whether a line is usual; the farther the target may be off, the freer the angle too."""
    out = (laydown_board(line, bowler) - line.target_board) * 15.0 / line.target_ft
    more = around - AROUND_BOARDS
    is_aimed = start.least_out_boards - more <= out <= start.most_out_boards + more
    return is_aimed and abs(line.target_board - start.target_board) <= around
