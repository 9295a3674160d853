"""What a bowler's release tells beside their own usual one: speed, slide, walk, and where the ball turned.

A speed that has dropped is common practice, no source, but for the size of a mile an hour on the lane (2
boards, in print).
"""

import itertools
from collections.abc import Sequence
from statistics import fmean

from coachlib.coaching.rules.change_facts import mean_known
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import side_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.world.levers import slide_foot_board
from coachlib.world.shot import Shot

OWN_SPEED_BALLS = 4  # so many last balls make the own usual speed, instead of the profile's
TURNS_EARLIER_FT = 1.5  # smaller differences are not seen by eye (our guess)
DRIFT_BALLS = (3, 5)  # the drift is asked of so many last balls, at least and at most

FIRST_BALLS_OF_SPEED = 4
"""So many first balls make the session's own speed where none was declared (our guess)."""

SPEED_DOWN_MPH = 1.0
"""So far under the own speed a ball is a slow one (our guess; about two boards at the pins) [mph]."""

SPEED_DOWN_BALLS = 3
"""So many slow balls in a row are no slip any more (our guess)."""

NEW_SPEED_BALLS = 6
"""So many in a row are the speed of the day: after them the line is read again (our guess)."""

_LEAST_MPH = 1e-9


def release_facts(this_line: Sequence[Observed], session: Session) -> dict[str, FactValue]:
    """Return what speed, slide, walk and turn of the last ball of a line tell, beside the usual ones."""
    last, bowler = this_line[-1], session.bowler
    shot, others = last.shot, [event for event in session.first_balls if event.number < last.number]
    facts: dict[str, FactValue] = {
        "speed_down_mph": speed_down_mph(session),
        "n_balls_thrown": len(session.shots),
        "drift_range_boards": _drift_range_boards(this_line),
        "is_turning_earlier": _is_turning_earlier(shot, [event.shot for event in this_line[:-1]]),
    }
    if shot.speed_mph is not None:
        recent = [one.shot.speed_mph for one in others if one.shot.speed_mph is not None][-OWN_SPEED_BALLS:]
        own_mph = fmean(recent) if len(recent) == OWN_SPEED_BALLS else bowler.speed_mph
        if own_mph is not None:
            diff_mph = shot.speed_mph - own_mph
            facts["speed_diff_mph"], facts["abs_speed_diff_mph"] = diff_mph, abs(diff_mph)
            facts["is_speed_fitting"] = diff_mph * {"high": -1, "light": 1}.get(side_of(shot) or "", 0) > 0
    drift = bowler.drift_boards
    if drift is None:
        slid = ((one.shot.slide_board, slide_foot_board(one.line, bowler)) for one in others)
        drift = mean_known(None if slide is None else slide - foot for slide, foot in slid)
    if shot.slide_board is not None and drift is not None:
        off = shot.slide_board - slide_foot_board(last.line, bowler) - drift
        facts["slide_diff_boards"], facts["abs_slide_diff_boards"] = off, abs(off)
    return facts


def speed_down_mph(session: Session) -> float | None:
    """Return how far the last first balls were under the bowler's own speed, or None [mph].

    Own speed is the declared one, else the mean of the first four first balls whose speed was noted. A speed
    declared anew starts afresh. The result is the mean of the slow balls in a row up to the last one; None
    below three, or where six of them have become the speed of the day.
    """
    own = session.bowler.speed_mph
    since = itertools.takewhile(lambda one: one.setting.bowler.speed_mph == own, reversed(session.shots))
    noted = [event.shot.speed_mph for event in since if not event.shot.is_spare]
    speeds = [speed for speed in reversed(noted) if speed is not None]
    if own is None:
        first, speeds = speeds[:FIRST_BALLS_OF_SPEED], speeds[FIRST_BALLS_OF_SPEED:]
        own = fmean(first) if speeds else 0.0
    slow: list[float] = []
    for speed in speeds:
        if len(slow) == NEW_SPEED_BALLS:
            own, slow = fmean(slow), []
        slow = [*slow, speed] if own - speed >= SPEED_DOWN_MPH - _LEAST_MPH else []
    return own - fmean(slow) if len(slow) >= SPEED_DOWN_BALLS else None


def _drift_range_boards(this_line: Sequence[Observed]) -> float | None:
    """Return how much the walk varies: slide minus start board, largest less smallest of the last balls."""
    drifts = [
        event.shot.slide_board - event.shot.start_board
        for event in this_line
        if event.shot.slide_board is not None and event.shot.start_board is not None
    ][-DRIFT_BALLS[1] :]
    return max(drifts) - min(drifts) if len(drifts) >= DRIFT_BALLS[0] else None


def _is_turning_earlier(shot: Shot, earlier: list[Shot]) -> bool | None:
    usual_ft = mean_known(before.breakpoint_ft for before in earlier)
    if shot.breakpoint_ft is not None and usual_ft is not None:
        return shot.breakpoint_ft < usual_ft - TURNS_EARLIER_FT
    motions = [before.motion for before in earlier if before.motion is not None]
    if shot.motion is None or not motions:
        return None
    return shot.motion in ("early", "roll_out") and motions[0] not in ("early", "roll_out")
