"""What else can be changed where the feet cannot move: eyes, then speed, then hand, then ball.

The order is the trade's (cheapest to undo first); sizes and ways are those of the rulebook's own moves.
"""

from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.world.line import Move

BALLS_A_LEVER = 3
"""Each lever is given so many balls before the next one is named (our guess)."""

_EYES = (0.5, 1.0)
_HIGH = (Move(speed_mph=0.5), Move(note="a softer wrist, for fewer revs"), Move(ball="weaker"))
_LIGHT = (Move(speed_mph=-0.5), Move(note="a firmer wrist, for more revs"), Move(ball="stronger"))
_BURNT = (Move(speed_mph=0.5), Move(rotation_deg=10.0), Move(ball="weaker"))


def other_levers(side: FactValue, motion: FactValue, n_too_many: int = 0) -> tuple[Move, ...]:
    """Return changes that need no feet, the next one to try first.

    Parameters
    ----------
    side : {"high", "light"}
        Where the balls come in; nothing is returned for another.
    motion : str or None
        How the ball turns: a light ball that burnt up wants the other way.
    n_too_many : int, default 0
        Balls to that side beyond patience: every :data:`BALLS_A_LEVER` of them the next lever is named.

    Returns
    -------
    tuple of Move
        Eyes first (inside for a light ball), then speed, hand and ball.
    """
    if side not in ("high", "light"):
        return ()
    if side == "high":
        eyes, rest = [Move(target_boards=-boards) for boards in _EYES], _HIGH
    elif motion in ("early", "roll_out"):
        eyes, rest = [], _BURNT
    else:
        eyes, rest = [Move(target_boards=boards) for boards in _EYES], _LIGHT
    n_passed = min(max(n_too_many, 0) // BALLS_A_LEVER, len(rest) - 1)
    return (*eyes, *rest[n_passed:])
