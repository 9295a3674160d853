"""Facts about the bowler's state rather than the line: a speed that has dropped, and how many balls it was.

Grade: common practice, no source, but for the size of a mile an hour on the lane (2 boards, in print).
"""

import itertools
from collections.abc import Mapping
from statistics import fmean

from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.session import Session

FIRST_BALLS_OF_SPEED = 4
"""So many first balls make the session's own speed where none was declared (our guess)."""

SPEED_DOWN_MPH = 1.0
"""So far under the own speed a ball is a slow one (our guess; about two boards at the pins) [mph]."""

SPEED_DOWN_BALLS = 3
"""So many slow balls in a row are no slip any more (our guess)."""

NEW_SPEED_BALLS = 6
"""So many in a row are the speed of the day: after them the line is read again (our guess)."""

_LEAST_MPH = 1e-9


def care_facts(session: Session) -> Mapping[str, FactValue]:
    """Return what is known of speed and length of the session.

    Parameters
    ----------
    session : Session
        The session so far; spare balls do not count for the speed, and do for the number of balls.
    """
    return {"speed_down_mph": speed_down_mph(session), "n_balls_thrown": len(session.shots)}


def speed_down_mph(session: Session) -> float | None:
    """Return how far the last first balls were under the bowler's own speed, or None.

    Parameters
    ----------
    session : Session
        The session so far. Own speed is the declared one, else the mean of the first four first balls whose
        speed was noted. A speed declared anew starts afresh.

    Returns
    -------
    float or None
        Mean of the slow balls in a row up to the last one; None below three, or where six of them have
        become the speed of the day. [mph]
    """
    speeds, own = _speeds(session), session.bowler.speed_mph
    if own is None:
        first, speeds = speeds[:FIRST_BALLS_OF_SPEED], speeds[FIRST_BALLS_OF_SPEED:]
        own = fmean(first) if speeds else 0.0
    slow: list[float] = []
    for speed in speeds:
        if len(slow) == NEW_SPEED_BALLS:
            own, slow = fmean(slow), []
        slow = [*slow, speed] if own - speed >= SPEED_DOWN_MPH - _LEAST_MPH else []
    return own - fmean(slow) if len(slow) >= SPEED_DOWN_BALLS else None


def _speeds(session: Session) -> list[float]:
    """Return the speeds noted of first balls since the declared speed last changed, oldest first."""
    declared = session.bowler.speed_mph
    since = itertools.takewhile(
        lambda seen: seen.setting.bowler.speed_mph == declared, reversed(session.shots)
    )
    noted = [seen.shot.speed_mph for seen in since if not seen.shot.is_spare]
    return [speed for speed in noted if speed is not None][::-1]
