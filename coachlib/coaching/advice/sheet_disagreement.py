"""Where the oil sheet and the balls disagree: the sheet expects higher, or lower, than what was seen."""

import dataclasses

import numpy as np

from coachlib.coaching.belief.believed_balls import meant_boards
from coachlib.coaching.belief.filter import Belief
from coachlib.coaching.belief.particles import weighted_middle
from coachlib.world.ball import Ball
from coachlib.world.line import Line

LEAST_BALLS = 3
"""Fewer balls are no word against a sheet."""

LEAST_BOARDS, LEAST_SHARE = 1.5, 0.9
"""So far apart, and on such a share of what is believed on the same side, is a disagreement. *Measured* with
a club bowler on 160 hidden lanes drawn as the belief thinks they may be: told on 63 of them after three
balls, 3 with the wrong sign, and of 52 lanes that truly play 2 boards or more from the sheet 36 are told;
after six balls 75, none and 49. At 1 board and .8 it would be told on 93 of 160, 6 with the wrong sign."""

HIGHER = "The oil sheet expects higher than we saw."
LOWER = "The oil sheet expects lower than we saw."


@dataclasses.dataclass(frozen=True)
class SheetWord:
    """What the sheet expects beside what was seen.

    Parameters
    ----------
    sheet_board : float
        Where the ball as meant arrives on the lanes that the sheet allows, middle of them. [board]
    believed_board : float
        The same as believed after the balls seen. [board]
    sign : int or None
        +1 where the sheet expects higher than seen, -1 lower, None where the two do not disagree.
    """

    sheet_board: float
    believed_board: float
    sign: int | None

    @property
    def text(self) -> str:
        """The sentence; empty where the two do not disagree."""
        return {1: HIGHER, -1: LOWER}.get(self.sign or 0, "")


def sheet_word(belief: Belief, line: Line, ball: Ball | None) -> SheetWord:
    """Return whether the oil sheet and the balls seen disagree on a line.

    Both are the ball as meant on the same possible lanes and bowlers, with the same wear: before any ball,
    all of them alike (the sheet's word), and now, as the balls weigh them. Without a sheet nothing disagrees.

    Parameters
    ----------
    belief : Belief
        What is believed now.
    line : Line
        The line played.
    ball : Ball or None
        The ball in the hand.
    """
    boards, weights = meant_boards(belief, line, ball), belief.weights
    sheet = weighted_middle(boards, np.ones_like(weights))
    believed = weighted_middle(boards, weights)
    sign = 1 if sheet > believed else -1
    share = float(weights[sign * (sheet - boards) > 0.0].sum())
    is_apart = abs(sheet - believed) >= LEAST_BOARDS and share >= LEAST_SHARE
    is_heard = len(belief.balls) >= LEAST_BALLS and not belief.setting.is_guessed
    return SheetWord(sheet, believed, sign if is_apart and is_heard else None)
