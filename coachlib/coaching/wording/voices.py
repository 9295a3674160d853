"""Both voices in one sentence, where rule of thumb and model differ."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import move_text
from coachlib.coaching.wording.model_words import is_of_rule, names_rules_move
from coachlib.world.hand import Hand
from coachlib.world.line import Move


def voices_text(advice: Advice, hand: Hand) -> str:
    """Return what the rule says and what looks better from the balls so far, if the counts shown differ.

    Parameters
    ----------
    advice : Advice
        The answer.
    hand : {"right", "left"}
        Whose left and right.

    Returns
    -------
    str
        Empty where they say the same, where only the rule was asked, and where the reason says it already.
    """
    if advice.model is None or not advice.is_counted or is_of_rule(advice):
        return ""
    if names_rules_move(advice):
        return ""
    says = "no move" if advice.rule.move.is_stay else _named(advice.rule.move, hand)
    return f"Rule of thumb: {says}. From what you saw, {_worth(advice, hand)}."


def _worth(advice: Advice, hand: Hand) -> str:
    """Return what the model's answer is worth beside the rule's, by the counts of twenty that are shown."""
    if advice.kind != "line" or advice.model is None:
        return "that is not sure to help"
    told = advice.model.rule or advice.model.stay
    if n_of_twenty(advice.move_strike_prob or 0.0) == n_of_twenty(told.strike_prob):
        return f"{_named(advice.move, hand)} is about the same"
    return f"{_named(advice.move, hand)} looks better"


def _named(move: Move, hand: Hand) -> str:
    return move_text(move, hand).lower()
