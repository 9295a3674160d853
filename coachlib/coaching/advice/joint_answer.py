"""One answer of two voices: what holds where the rule of thumb and the simulation differ."""

import dataclasses

from coachlib.coaching.advice.decision import Candidate
from coachlib.coaching.advice.model_voice import LEAST_BALLS, ModelVoice
from coachlib.coaching.belief.cause import verdict_of_blame
from coachlib.coaching.rules.rule_advice import (
    BACK_RULE,
    AdviceKind,
    RuleAnswer,
    Verdict,
    kind_of,
    verdict_of,
)
from coachlib.coaching.rules.rulebook import Rulebook
from coachlib.coaching.session.lane_history import boards_on_target
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.line import Move

MOST_APART_BOARDS = 3.0
"""So far from the model's arrival the nearest of the last on-target balls may lie (our guess) [boards]."""


@dataclasses.dataclass(frozen=True)
class Cause:
    """Whose doing the last ball was.

    Parameters
    ----------
    verdict : str
        ``bowler``, ``lane``, ``both``, ``direction known`` (it misses on one side, and why cannot be told
        yet) or ``too early``.
    bowler_prob : float or None
        How likely the bowler's error moved the ball farther than the line lies off; None without the model.
    told_most : str
        The observation that told most, one of ``belief.likelihood.FIELDS``; empty without the model.
    """

    verdict: Verdict
    bowler_prob: float | None = None
    key_observation: str = ""


def is_unfit(session: Session, model: ModelVoice) -> bool:
    """Return whether balls on target came in elsewhere than on all lanes that still carry weight."""
    boards = boards_on_target(session)[-3:]
    if model.blame is None or len(boards) < LEAST_BALLS:
        return False
    off = [board - model.blame.meant_board for board in boards]  # one stray ball is no other lane
    return min(off) > MOST_APART_BOARDS or max(off) < -MOST_APART_BOARDS


def joint_answer(ruled: RuleAnswer, model: ModelVoice | None) -> tuple[AdviceKind, Move]:
    """Return what is done: gates first, then what is settled, then another ball, then the model's line."""
    by_rule = (ruled.kind, ruled.voice.move)
    if model is None or ruled.reading.last is None or ruled.is_gate or ruled.is_straight:
        return by_rule
    if ruled.is_exact:
        return _exact_answer(ruled, model)
    if ruled.is_settled and not ruled.voice.move.is_feet_and_eyes:
        return by_rule  # another target distance: the model has no say
    equipment, gain_prob = model.equipment, model.best.gain_prob if model.answer == "line" else 0.0
    is_best = equipment is not None and equipment.gain_prob > gain_prob + EQUAL_PROB
    if is_best and equipment is not None and _n_gained(model, equipment) > 0 and ruled.held != "all":
        return kind_of(equipment.move), equipment.move
    if model.answer == "line":
        return _line_answer(ruled, model)
    if ruled.kind in ("speed", "hand", "surface", "ball") and not _loses(model.rule or model.equipment):
        return by_rule
    return model.answer, Move()


def _line_answer(ruled: RuleAnswer, model: ModelVoice) -> tuple[AdviceKind, Move]:
    """Return the model's line; where the way is settled and no gain shows, the rule's own unless it loses."""
    is_of_rule = ruled.is_settled and ruled.voice.move.is_feet_and_eyes
    is_silent = is_of_rule and _n_gained(model, model.best) <= 0 and not _loses(model.rule)
    return "line", ruled.voice.move if is_silent else model.move


def _exact_answer(ruled: RuleAnswer, model: ModelVoice) -> tuple[AdviceKind, Move]:
    """Return a move of settled size: half a move made at once becomes a smaller one if it loses.

    Half back at a shown loss waits for one ball more; so many balls as patience asks for are believed.
    """
    if ruled.voice.rule_ids[:1] != (BACK_RULE,):
        return _line_answer(ruled, model)
    n_too_far = ruled.reading.facts.get("n_too_far")
    is_early = isinstance(n_too_far, int | float) and n_too_far < ruled.voice.numbers["patience"]
    is_loss = model.rule is not None and _n_gained(model, model.rule) < 0
    return ("watch", Move()) if is_loss and is_early else ("line", ruled.voice.move)


def _n_gained(model: ModelVoice, one: Candidate) -> int:
    """Return how many strikes of twenty a change adds, as shown."""
    return n_of_twenty(one.strike_prob) - n_of_twenty(model.stay.strike_prob)


def is_counted(kind: AdviceKind, move: Move, model: ModelVoice) -> bool:
    """Return whether the simulation's counts stand behind an answer."""
    if kind != "line":
        return True
    made = next((one for one in (model.best, model.rule) if one is not None and one.move == move), None)
    return made is not None and _n_gained(model, made) > 0


def looks_again(kind: AdviceKind, ruled: RuleAnswer) -> AdviceKind:
    """Return "watch" for "stay" where a ball that did not miss the target missed the pocket, and the reverse.

    A good ball in the pocket is no reason to wait for another, unless a rule asks to watch something.
    """
    side, facts = ruled.reading.side, ruled.reading.facts
    is_off = side in ("high", "light") and facts.get("is_missed") is not True
    if kind == "stay" and is_off and not ruled.is_gate:
        return "watch"
    is_good = side == "pocket" and facts.get("is_on_target") is True
    return "stay" if kind == "watch" and is_good and ruled.kind == "stay" else kind


def _loses(rule: Candidate | None) -> bool:
    """Return whether the rule's change was weighed and is worse than to stay."""
    return rule is not None and rule.gain_prob < -EQUAL_PROB


def cause_of(ruled: RuleAnswer, model: ModelVoice | None, book: Rulebook) -> Cause:
    """Return whose doing the last ball was: the rule of thumb's verdict, and the simulation's numbers if any.

    By the belief one ball never blames the lane; gates and a settled way hold.
    """
    blamed, by_rule = None if model is None else model.blame, verdict_of(ruled.reading, book)
    side, facts = ruled.reading.side, ruled.reading.facts
    if blamed is None or side in (None, "pocket"):
        return Cause(by_rule)
    if ruled.is_gate or ruled.is_settled:
        is_against = blamed.bowler_prob < 0.5 if by_rule == "bowler" else blamed.bowler_prob > 0.5
        return Cause(by_rule) if is_against else Cause(by_rule, blamed.bowler_prob, blamed.key_observation)
    verdict = verdict_of_blame(blamed)
    is_other_side = (blamed.meant_board > POCKET_BOARD) != (side == "high")
    if facts.get("is_missed") is not True and verdict in ("bowler", "both"):
        verdict = "too early"  # the target was not missed: never the bowler's doing by the crossing
    elif verdict in ("lane", "direction known") and is_other_side:
        verdict = "too early"  # believed on one side, seen on the other
    elif verdict == "lane" and int(facts.get("n_ok") or 0) < 2:
        verdict = "direction known"
    return Cause(verdict, blamed.bowler_prob, blamed.key_observation)
