"""What other moves and changes are worth, and both voices where they differ, in counts of twenty."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.change_values import Worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR, Candidate
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.callouts import (
    line_text,
    lowered,
    move_text,
    strikes_beside_text,
    strikes_text,
)
from coachlib.coaching.wording.model_words import is_of_rule, names_rules_move, of_ten
from coachlib.world.hand import Hand
from coachlib.world.line import after_move


def worth_line(worth: Worth, hand: Hand, ball_name: str = "") -> str:
    """Return what a change is worth, e.g. ``"Half a mph faster: about 6 strikes in 20, up from 5."``.

    Parameters
    ----------
    worth : Worth
        From :func:`coachlib.worth`.
    hand : {"right", "left"}
        The bowling hand, for the sides.
    ball_name : str
        The ball taken up, where the change is one of ball.
    """
    parts = [ball_name] * bool(ball_name)
    if not ball_name or worth.move.is_feet_and_eyes:
        parts.append(move_text(worth.move, hand))
    new, stay = DISPLAY_FACTOR * worth.strike_prob, DISPLAY_FACTOR * worth.stay_strike_prob
    if abs(DISPLAY_FACTOR * worth.gain_prob) < EQUAL_PROB or n_of_twenty(new) == n_of_twenty(stay):
        return f"{', '.join(parts)}: about the same as now, {strikes_text(stay)}."
    lanes = f"Better on {of_ten(worth.better_lanes_frac)}."
    return f"{', '.join(parts)}: about {strikes_beside_text(new, stay)}. {lanes}"


def runners_up_texts(advice: Advice, hand: Hand) -> tuple[tuple[str, str], ...]:
    """Return the other moves and what each loses beside the advice; none that is about the same."""
    model = advice.model
    if model is None or not advice.is_counted:
        return ()
    best = n_of_twenty(model.stay.strike_prob if advice.advised is None else advice.advised.strike_prob)
    others = {
        one.move: one for one in (model.stay, model.rule, model.best, *model.runners_up) if one is not None
    }
    others |= {one.move: one for one in model.changes if one.move not in others}
    return tuple(
        (_named(advice, one, hand), f"{abs(n_less)} {'fewer' if n_less > 0 else 'more'} in {N_TWENTY}")
        for move, one in others.items()
        if move != advice.move and (n_less := best - n_of_twenty(one.strike_prob))
    )


def _named(advice: Advice, one: Candidate, hand: Hand) -> str:
    if one.move.is_stay:
        return "Stay"
    rule = None if advice.model is None else advice.model.rule
    if one.move.is_feet_and_eyes:
        beside = line_text(after_move(advice.line, one.move)).lower()
    else:
        beside = "changes your delivery, not your line, only if comfortable"
    named = f"{move_text(one.move, hand)} ({beside})"
    return f"{named}, the rule of thumb" if rule is not None and one.move == rule.move else named


def voices_text(advice: Advice, hand: Hand) -> str:
    """Return what the rule says and what looks better from the balls so far, if the counts shown differ.

    Empty where they say the same, where only the rule was asked, and where the reason says it already.
    """
    model = advice.model
    if model is None or not advice.is_counted or is_of_rule(advice) or names_rules_move(advice):
        return ""
    rule = "no move" if advice.rule.move.is_stay else move_text(advice.rule.move, hand).lower()
    if advice.kind != "line":
        return f"Rule of thumb: {rule}. From what you saw, that is not sure to help."
    beside = model.rule or model.stay
    is_same = n_of_twenty(advice.move_strike_prob or 0.0) == n_of_twenty(beside.strike_prob)
    verdict = "is about the same" if is_same else "looks better"
    return f"Rule of thumb: {rule}. From what you saw, {lowered(move_text(advice.move, hand))} {verdict}."
