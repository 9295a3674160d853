"""What happened on the present lane so far: where the balls arrived, and the last line that worked."""

import dataclasses

from coachlib.coaching.session.ball_reading import arrival_board, missed_boards, side_of
from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.errors import checked_thing
from coachlib.world.line import Line

MOST_ARRIVALS = 12
"""So many last balls show a trend (our guess)."""


@dataclasses.dataclass(frozen=True)
class Arrived:
    """One first ball of a lane, by its number in the session, and where it met the pins [board]."""

    number: int
    board: float | None
    is_strike: bool
    line: Line


def arrivals(session: Session, most: int = MOST_ARRIVALS) -> tuple[Arrived, ...]:
    """Return the last first balls of the present lane, so many at most, oldest first."""
    balls = lane_balls(checked_thing("session", session, Session))[-most:]
    return tuple(
        Arrived(event.number, arrival_board(event.shot), event.shot.is_strike, event.line) for event in balls
    )


def last_line_that_worked(session: Session) -> Line | None:
    """Return the last line of the present lane on which this ball found the pocket half of the time.

    What counts is :func:`credits_line`: no strike that crossed over or missed the target. None where no ball
    did; it may be the line being played.
    """
    balls = lane_balls(checked_thing("session", session, Session))
    here = [event for event in balls if event.ball == session.ball and side_of(event.shot) is not None]
    thrown = [event.line for event in here]
    worked = [event.line for event in here if credits_line(event)]
    found = (line for line in reversed(worked) if 2 * worked.count(line) >= thrown.count(line))
    return next(found, None)


def is_off_target(event: Observed) -> bool:
    """Return whether a ball is known to have missed its target."""
    return bool(missed_boards(event.shot, event.line, event.setting.bowler))


def credits_line(event: Observed) -> bool:
    """Return whether a ball speaks for the line it was thrown on, by the bowler it was thrown by.

    Only a first ball that came into the pocket does, and only if it is not known to have missed the target.
    A strike that came in across, high or light is luck of the pins; one from a missed target is another
    line's. Where only the pins were noted, a strike counts as one from the pocket, the usual way to it.
    Grade: common practice, no source.
    """
    return not event.shot.is_spare and side_of(event.shot) == "pocket" and not is_off_target(event)
