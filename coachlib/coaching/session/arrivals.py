"""What happened on the present lane so far: where the balls arrived, and the last line that worked."""

import dataclasses
from collections.abc import Sequence

from coachlib.coaching.session.ball_reading import arrival_board, side_of
from coachlib.coaching.session.credit import credits_line
from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Observed, Session
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

    What counts is :func:`coachlib.coaching.session.credit.credits_line`: no strike that crossed over or
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
