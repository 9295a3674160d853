"""The balls that belong to an answer: as many strikes among the twenty as the answer tells."""

import dataclasses
from collections.abc import Sequence

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.advice.line_values import values_of
from coachlib.coaching.advice.model_voice import ModelVoice
from coachlib.coaching.advice.sheet_disagreement import SheetWord, sheet_word
from coachlib.coaching.belief.believed_balls import believed_balls
from coachlib.coaching.belief.filter import Belief, believe
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.simulation.paths import LinePaths
from coachlib.errors import InputError
from coachlib.world.ball import Ball
from coachlib.world.line import Line, Move, after_move


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
    model = None if voice is None else voice.model
    is_told = voice is not None and voice.is_counted
    if not is_told or voice is None or model is None or len({line.target_ft for line in lines}) > 1:
        return AnswerBalls([], None)
    belief = believe(session)
    told = [n_of_twenty(shown_strike_prob(belief, voice.line, model, line, session.ball)) for line in lines]
    thrown = believed_balls(belief, lines, session.ball, told, seed=session.seed, assumed=model.assumed)
    return AnswerBalls(thrown, sheet_word(belief, lines[0], session.ball))


def shown_strike_prob(
    belief: Belief, from_line: Line, model: ModelVoice, line: Line, ball: Ball | None
) -> float:
    """Return the strike chance of a line as shown: the answer's own where it tells one.

    Parameters
    ----------
    belief : Belief
        What the answer rests on.
    from_line : Line
        The line that the answer's moves start from.
    model : ModelVoice
        The answer's model.
    line : Line
        The line asked for.
    ball : Ball or None
        The ball in the hand.
    """
    known = (model.stay, model.best, model.rule, *model.runners_up)
    for one in known:
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
