"""What a change of speed, hand, surface or ball is worth, in one line: balls of twenty, lanes of ten."""

from coachlib.coaching.callouts import move_text, of_twenty
from coachlib.coaching.changes import Worth
from coachlib.coaching.model import DISPLAY_FACTOR, EQUAL_PROB
from coachlib.coaching.model_words import of_ten
from coachlib.world.hand import Hand


def worth_line(told: Worth, hand: Hand, ball_name: str = "") -> str:
    """Return what a change is worth beside staying, e.g. ``"Half a mph faster: 6 of 20 instead of 5 of 20"``.

    Parameters
    ----------
    told : Worth
        From :func:`coachlib.coaching.changes.worth`.
    hand : {"right", "left"}
        The bowling hand, for the sides.
    ball_name : str
        The ball taken up, where the change is one of ball.
    """
    parts = [ball_name] * bool(ball_name)
    if not ball_name or told.move.is_feet_and_eyes:
        parts.append(move_text(told.move, hand))
    new, stay = (of_twenty(DISPLAY_FACTOR * chance) for chance in (told.strike_prob, told.stay_strike_prob))
    equal = ", equal" if abs(DISPLAY_FACTOR * told.gain_prob) < EQUAL_PROB else ""
    chances = f"{new} either way" if new == stay else f"{new} instead of {stay}{equal}"
    return f"{', '.join(parts)}: {chances}; better on {of_ten(told.better_lanes_frac)}."
