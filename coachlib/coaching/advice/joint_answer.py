"""One answer of two voices: what holds where the rule of thumb and the simulation differ."""

from coachlib.coaching.advice.decision import Candidate
from coachlib.coaching.advice.line_values import Reach
from coachlib.coaching.advice.model_voice import (
    ModelVoice,
)
from coachlib.coaching.rules.rule_advice import BACK_RULE, AdviceKind, RuleAnswer, kind_of
from coachlib.coaching.session.lane_history import boards_on_target
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.world.line import Move


def is_unfit(session: Session, model: ModelVoice) -> bool:
    """Return whether balls on target came in elsewhere than on all lanes that still carry weight."""
    boards = boards_on_target(session)[-3:]
    if model.blame is None or len(boards) < LEAST_TOLD:
        return False
    off = [board - model.blame.meant_board for board in boards]  # one stray ball is no other lane
    return min(off) > MOST_APART_BOARDS or max(off) < -MOST_APART_BOARDS


def reach_of(session: Session, ruled: RuleAnswer) -> Reach:
    """Return how far lines are weighed: eyes alone where the feet are stuck, a board for a junior."""
    if session.place.is_feet_stuck:
        return "eyes only"
    return "one board" if ruled.is_small else "usual"


def joint_answer(ruled: RuleAnswer, model: ModelVoice | None) -> tuple[AdviceKind, Move]:
    """Return what is done: gates first, then what is settled, then another ball, then the model's line."""
    by_rule = (ruled.kind, ruled.voice.move)
    if model is None or ruled.reading.last is None or ruled.is_gate or ruled.is_straight:
        return by_rule
    if ruled.is_exact:
        return _exact_answer(ruled, model)
    if ruled.is_settled and not ruled.voice.move.is_feet_and_eyes:
        return by_rule  # another target distance: the model has no say
    if _is_equipment_best(model) and model.equipment is not None and ruled.held != "all":
        return kind_of(model.equipment.move), model.equipment.move
    if model.answer == "line":
        return _line_answer(ruled, model)
    if ruled.kind in ("speed", "hand", "surface", "ball") and not _loses(model.rule or model.equipment):
        return by_rule
    return model.answer, Move()


def _line_answer(ruled: RuleAnswer, model: ModelVoice) -> tuple[AdviceKind, Move]:
    """Return the model's line; where the way is settled and no gain shows, the rule's own unless it loses."""
    is_of_rule = ruled.is_settled and ruled.voice.move.is_feet_and_eyes
    is_silent = is_of_rule and not _shows(model, model.best) and not _loses(model.rule)
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


def _is_equipment_best(model: ModelVoice) -> bool:
    """Return whether another surface or ball shows a gain, and more of it than the best line."""
    if model.equipment is None or not _shows(model, model.equipment):
        return False
    of_line = model.best.gain_prob if model.answer == "line" else 0.0
    return model.equipment.gain_prob > of_line + EQUAL_PROB


def _shows(model: ModelVoice, one: Candidate) -> bool:
    """Return whether a change is better by at least one strike of twenty, as shown."""
    return _n_gained(model, one) > 0


def _n_gained(model: ModelVoice, one: Candidate) -> int:
    return n_of_twenty(one.strike_prob) - n_of_twenty(model.stay.strike_prob)


def is_counted(kind: AdviceKind, move: Move, model: ModelVoice) -> bool:
    """Return whether the simulation's counts stand behind an answer."""
    if kind != "line":
        return True
    known = (model.best, model.rule)
    taken = next((one for one in known if one is not None and one.move == move), None)
    return taken is not None and _shows(model, taken)


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


LEAST_TOLD = 2
"""Balls not known to be off the mark, arrival or pins noted, before the model moves a line: one look is the
sheet's word."""


MOST_APART_BOARDS = 3.0
"""So far from the model's arrival the nearest of the last on-target balls may lie (our guess) [boards]."""
