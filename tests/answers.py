"""Answers with made-up worth, for tests of how they are shown: no number in them comes from the model."""

import dataclasses
from typing import Any

from coachlib import Advice, Bowler, Line, Move, Session, Shot, advise, observe
from coachlib.coaching.advice.decision import Candidate
from coachlib.coaching.advice.joint_answer import Cause
from coachlib.coaching.advice.model_voice import ModelVoice
from coachlib.coaching.wording.advice_text import say
from coachlib.views.panels.lane_side.answer import answer_view

SESSION = Session(bowler=Bowler(), line=Line(22, 12), lane="7")
HIGH = Shot(crossed_board=12, arrival="high", leave=(4,))
TWO_AND_ONE, ONE_AND_ONE = Move(feet_boards=2, target_boards=1), Move(feet_boards=1, target_boards=1)


def worth(move: Move, n_of_twenty: float) -> Candidate:
    """Return a move that strikes with so many of twenty balls."""
    return Candidate(move, n_of_twenty / 20, 0.0, 0.8)


def voice(stay: Candidate, best: Candidate, rule: Candidate | None = None, **fields: Any) -> ModelVoice:
    """Return a model's voice in which these are what the moves are worth."""
    known: dict[str, Any] = {
        "answer": "line" if not best.move.is_stay else "stay",
        "move": best.move,
        "runners_up": (),
        "n_balls": 3,
        "n_effective": 50.0,
        "odd": "",
        "blame": None,
    }
    return ModelVoice(stay=stay, best=best, rule=rule, **(known | fields))


def answer(
    model: ModelVoice | None,
    *,
    kind: str = "line",
    rule_move: Move = TWO_AND_ONE,
    agree: bool | None = True,
    **fields: Any,
) -> Advice:
    """Return an answer to three high balls, with a model's voice put in."""
    session = SESSION
    for _ in range(3):
        session = observe(session, HIGH)
    ruled = advise(session, model_on=False)
    move = model.move if model is not None and kind == "line" else Move()
    rule = dataclasses.replace(ruled.rule, move=rule_move)
    changes: dict[str, Any] = {"kind": kind, "move": move, "rule": rule, "model": model, "agree": agree}
    return dataclasses.replace(ruled, **(changes | fields))


def caused(verdict: Any, bowler_prob: float | None) -> Advice:
    """Return an answer with a cause."""
    return answer(None, cause=Cause(verdict, bowler_prob, "crossing"))


def view_of(session: Session, advice: Advice) -> dict[str, Any]:
    """Return what the lane side shows of an answer to a bowler."""
    return answer_view(session, advice, say(advice))
