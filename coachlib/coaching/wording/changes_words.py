"""What a change of speed, hand, surface or ball is worth, in one line: balls of twenty, lanes of ten."""

from coachlib.coaching.advice.change_values import Worth
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import move_text, strikes_beside_text, strikes_text
from coachlib.coaching.wording.model_words import of_ten
from coachlib.world.hand import Hand


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
