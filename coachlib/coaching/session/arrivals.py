"""What happened on the present lane so far: where the balls arrived, and the last line that worked."""

import dataclasses
from collections.abc import Sequence

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
    """One first ball of a lane.

    Parameters
    ----------
    number : int
        Of the ball in the session.
    board : float or None
        Where it met the pins, or where its leave says it did. [board]
    is_strike : bool
        Whether all pins fell.
    line : Line
        The line it was thrown on.
    """

    number: int
    board: float | None
    is_strike: bool
    line: Line


def arrivals(session: Session, most: int = MOST_ARRIVALS) -> tuple[Arrived, ...]:
    """Return the last first balls of the present lane, oldest first.

    Parameters
    ----------
    session : Session
        The session so far.
    most : int
        How many at most.

    Raises
    ------
    InputError
        If `session` is none.
    """
    balls = lane_balls(checked_thing("session", session, Session))[-most:]
    return tuple(
        Arrived(seen.number, arrival_board(seen.shot), seen.shot.is_strike, seen.line) for seen in balls
    )


def last_line_that_worked(session: Session) -> Line | None:
    """Return the last line of the present lane on which this ball found the pocket half of the time.

    What counts is :func:`credits_line`: no strike that crossed over or
    missed the target.

    Parameters
    ----------
    session : Session
        The session so far.

    Returns
    -------
    Line or None
        None where no ball did; it may be the line being played.

    Raises
    ------
    InputError
        If `session` is none.
    """
    here = lane_balls(checked_thing("session", session, Session))
    here = tuple(seen for seen in here if seen.ball == session.ball and side_of(seen.shot) is not None)
    worked = [seen.line for seen in here if credits_line(seen)]
    found = (line for line in reversed(worked) if 2 * worked.count(line) >= _n_on(line, here))
    return next(found, None)


def _n_on(line: Line, seen: Sequence[Observed]) -> int:
    return sum(one.line == line for one in seen)


def is_off_target(seen: Observed) -> bool:
    """Return whether a ball is known to have missed its target."""
    return bool(missed_boards(seen.shot, seen.line, seen.setting.bowler))


def credits_line(seen: Observed) -> bool:
    """Return whether a ball speaks for the line it was thrown on.

    Only a first ball that came into the pocket does, and only if it is not known to have missed the target.
    A strike that came in across, high or light is luck of the pins; one from a missed target is another
    line's. Where only the pins were noted, a strike counts as one from the pocket, the usual way to it.
    Grade: common practice, no source.

    Parameters
    ----------
    seen : Observed
        The ball, with the line and the bowler it was thrown by.
    """
    return not seen.shot.is_spare and side_of(seen.shot) == "pocket" and not is_off_target(seen)
