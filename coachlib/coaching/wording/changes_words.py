"""What other moves and changes are worth, a line each: balls of twenty, lanes of ten."""

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.advice.change_values import Worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR, Candidate
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import N_TWENTY, n_of_twenty
from coachlib.coaching.wording.callouts import line_text, move_text, strikes_beside_text, strikes_text
from coachlib.coaching.wording.model_words import of_ten
from coachlib.world.hand import Hand
from coachlib.world.line import after_move


def worth_line(told: Worth, hand: Hand, ball_name: str = "") -> str:
    """Return what a change is worth, e.g. ``"Half a mph faster: about 6 strikes in 20, up from 5."``.

    Parameters
    ----------
    told : Worth
        From :func:`coachlib.coaching.advice.change_values.worth`.
    hand : {"right", "left"}
        The bowling hand, for the sides.
    ball_name : str
        The ball taken up, where the change is one of ball.
    """
    parts = [ball_name] * bool(ball_name)
    if not ball_name or told.move.is_feet_and_eyes:
        parts.append(move_text(told.move, hand))
    new, stay = DISPLAY_FACTOR * told.strike_prob, DISPLAY_FACTOR * told.stay_strike_prob
    if abs(DISPLAY_FACTOR * told.gain_prob) < EQUAL_PROB or n_of_twenty(new) == n_of_twenty(stay):
        return f"{', '.join(parts)}: about the same as now, {strikes_text(stay)}."
    lanes = f"Better on {of_ten(told.better_lanes_frac)}."
    return f"{', '.join(parts)}: about {strikes_beside_text(new, stay)}. {lanes}"


def runners_up_texts(advice: Advice, hand: Hand) -> tuple[tuple[str, str], ...]:
    """Return the other moves and what each loses beside the advice; none that is about the same."""
    if advice.model is None or not advice.is_counted:
        return ()
    best = advice.move_strike_prob if advice.move_strike_prob is not None else advice.model.stay.strike_prob
    others = [one for one in _others(advice) if one.move != advice.move]
    changes = [one for one in advice.model.changes if one.move not in [other.move for other in others]]
    told = [one for one in (*others, *changes) if n_of_twenty(one.strike_prob) != n_of_twenty(best)]
    return tuple((_named(advice, one, hand), _loss(best, one.strike_prob)) for one in told)


def _others(advice: Advice) -> list[Candidate]:
    model = advice.model
    if model is None:
        return []
    known = [model.stay, *([model.rule] if model.rule else []), model.best, *model.runners_up]
    return list({one.move: one for one in known}.values())


def _named(advice: Advice, one: Candidate, hand: Hand) -> str:
    if one.move.is_stay:
        return "Stay"
    rule = None if advice.model is None else advice.model.rule
    if one.move.is_feet_and_eyes:
        named = f"{move_text(one.move, hand)} ({line_text(after_move(advice.line, one.move)).lower()})"
    else:
        care = "changes your delivery, not your line; only if comfortable"
        named = f"{move_text(one.move, hand)} ({care})"
    return f"{named}, the rule of thumb" if rule is not None and one.move == rule.move else named


def _loss(best_prob: float, prob: float) -> str:
    n_balls = n_of_twenty(best_prob) - n_of_twenty(prob)
    return f"{abs(n_balls)} {'fewer' if n_balls > 0 else 'more'} in {N_TWENTY}"
