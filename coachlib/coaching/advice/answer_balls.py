"""The balls that belong to an answer, and whether the oil sheet expects others than were seen."""

import dataclasses
from collections.abc import Sequence

import numpy as np

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.advice.line_values import values_of
from coachlib.coaching.advice.model_voice import ModelVoice
from coachlib.coaching.belief.believed_balls import believed_balls, meant_boards
from coachlib.coaching.belief.filter import Belief, believe
from coachlib.coaching.belief.particles import weighted_middle
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.simulation.paths import LinePaths
from coachlib.errors import InputError
from coachlib.world.ball import Ball
from coachlib.world.line import Line, Move, after_move

LEAST_SHEET_BALLS = 3
"""Fewer balls are no word against a sheet."""

LEAST_BOARDS, LEAST_SHARE = 1.5, 0.9
"""So far apart, and on such a share of what is believed on the same side, is a disagreement. *Measured* with
a club bowler on 160 hidden lanes drawn as the belief thinks they may be: told on 63 of them after three
balls, 3 with the wrong sign, and of 52 lanes that truly play 2 boards or more from the sheet 36 are told;
after six balls 75, none and 49. At 1 board and .8 it would be told on 93 of 160, 6 with the wrong sign."""

HIGHER = "By the oil sheet it should come in higher than it did."
LOWER = "By the oil sheet it should come in lighter than it did."


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


@dataclasses.dataclass(frozen=True, eq=False)
class AnswerBalls:
    """The balls of an answer.

    Parameters
    ----------
    thrown : list of LinePaths
        One entry a line; empty where the model tells no chance for them.
    sheet : SheetWord or None
        Whether the oil sheet and the balls seen disagree; None where nothing is thrown.
    """

    thrown: list[LinePaths]
    sheet: SheetWord | None


def answer_balls(session: Session, voice: Advice | None, lines: Sequence[Line]) -> AnswerBalls:
    """Return the twenty balls of each line that an answer tells chances of.

    Parameters
    ----------
    session : Session
        As it stands.
    voice : Advice or None
        The answer to this session, whose model tells the chances.
    lines : sequence of Line
        The line played and, if there is one, the next. Another target distance has no chance in the answer:
        then nothing is thrown.

    Raises
    ------
    ModelError
        If a ball stops before the pins.
    """
    model = None if voice is None or not voice.is_counted else voice.model
    if voice is None or model is None or len({line.target_ft for line in lines}) > 1:
        return AnswerBalls([], None)
    belief = believe(session)
    counts = [n_of_twenty(_strike_prob(belief, voice.line, model, line, session.ball)) for line in lines]
    thrown = believed_balls(belief, lines, session.ball, counts, seed=session.seed, assumed=model.assumed)
    return AnswerBalls(thrown, sheet_word(belief, lines[0], session.ball))


def sheet_word(belief: Belief, line: Line, ball: Ball | None) -> SheetWord:
    """Return whether the oil sheet and the balls seen disagree on a line.

    Both are the ball as meant on the same possible lanes and bowlers, with the same wear: before any ball,
    all of them alike (the sheet's word), and now, as the balls weigh them. Without a sheet nothing disagrees.
    """
    boards, weights = meant_boards(belief, line, ball), belief.weights
    sheet = weighted_middle(boards, np.ones_like(weights))
    believed = weighted_middle(boards, weights)
    sign = 1 if sheet > believed else -1
    share = float(weights[sign * (sheet - boards) > 0.0].sum())
    is_apart = abs(sheet - believed) >= LEAST_BOARDS and share >= LEAST_SHARE
    is_heard = len(belief.balls) >= LEAST_SHEET_BALLS and not belief.setting.is_guessed
    return SheetWord(sheet, believed, sign if is_apart and is_heard else None)


def _strike_prob(belief: Belief, from_line: Line, model: ModelVoice, line: Line, ball: Ball | None) -> float:
    """Return the strike chance of a line as shown: the answer's own where it tells one."""
    for one in (model.stay, model.best, model.rule, *model.runners_up):
        if one is not None and _line_after(from_line, one.move) == line:
            return one.strike_prob
    return DISPLAY_FACTOR * float(values_of(belief, line, ball, (Move(),)).strike_prob[0])


def _line_after(line: Line, move: Move) -> Line | None:
    """Return the line after a move of feet and eyes alone; None for any other."""
    alone = Move(feet_boards=move.feet_boards, target_boards=move.target_boards)
    if move != alone:
        return None
    try:
        return after_move(line, move)
    except InputError:
        return None
