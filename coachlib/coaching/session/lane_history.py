"""What happened on the lane being played since it was oiled: the one history that everybody asks.

Rules, belief, advice and trend read the same balls: fresh oil and another lane begin anew. A spare ball is no
first ball and is never among them.
"""

import collections
import itertools
from collections.abc import Iterable, Iterator

from coachlib.coaching.session.ball_reading import arrival_board, missed_boards
from coachlib.coaching.session.session import Session, session_at
from coachlib.coaching.session.setting import Changed, Event, Observed
from coachlib.world.bowler import Bowler

Oil = tuple[str, int]
"""A lane, and how often it was oiled anew in the session."""


def oil_of(session: Session, lane: str | None = None) -> Oil:
    """Return which oil lies on a lane now: the lane, and how often it was oiled anew in this session.

    Without `lane`, the one being played.
    """
    lane = session.lane if lane is None else lane
    changes = (event for event in session.events if isinstance(event, Changed))
    return lane, sum(event.is_oiled_anew for event in changes if event.now.lane == lane)


def balls_by_oil(session: Session) -> dict[Oil, tuple[Observed, ...]]:
    """Return the first balls by the oil they rolled on, oldest first: see :func:`oil_of`."""
    balls: dict[Oil, tuple[Observed, ...]] = {}
    for oil, event in balls_with_oil(session):
        balls[oil] = (*balls.get(oil, ()), event)
    return balls


def balls_with_oil(session: Session) -> Iterator[tuple[Oil, Observed]]:
    """Yield the first balls, oldest first, each with the oil it rolled on: see :func:`oil_of`."""
    oiled: dict[str, int] = collections.Counter()
    for event in session.events:
        if isinstance(event, Changed):
            oiled[event.now.lane] += event.is_oiled_anew
        elif isinstance(event, Observed) and not event.shot.is_spare:
            yield (event.lane, oiled[event.lane]), event


def lane_balls(session: Session) -> tuple[Observed, ...]:
    """Return the first balls on the present lane since it was oiled, oldest first."""
    return balls_by_oil(session).get(oil_of(session), ())


def line_balls(session: Session) -> tuple[Observed, ...]:
    """Return the last of :func:`lane_balls` that were thrown in a row on the present line and ball."""
    balls, held = lane_balls(session), (session.line, session.ball)
    n_held = n_in_a_row((event.line, event.ball) == held for event in reversed(balls))
    return balls[len(balls) - n_held :]


def boards_on_target(session: Session) -> tuple[float, ...]:
    """Return where those of :func:`line_balls` met the pins that were noted to hit the target [board]."""
    hits = hits_among(line_balls(session), session.bowler)
    boards = (arrival_board(event.shot) for event in hits)
    return tuple(board for board in boards if board is not None)


def n_in_a_row(holds: Iterable[bool]) -> int:
    """Return how many of these hold one after another from the first on."""
    return sum(1 for _ in itertools.takewhile(bool, holds))


def hits_among(balls: Iterable[Observed], bowler: Bowler) -> list[Observed]:
    """Return those of some balls that were noted to hit the target, in the same order."""
    return [event for event in balls if missed_boards(event.shot, event.line, bowler) == 0.0]


def events_on_oil(session: Session) -> tuple[Event, ...]:
    """Return what happened on the present lane since it was oiled: balls, and changes while it was held."""
    events: list[Event] = []
    for event in session.events:
        if isinstance(event, Changed):
            if event.now.lane == session.lane and event.is_oiled_anew:
                events = []
            elif event.was.lane == event.now.lane == session.lane:
                events.append(event)
        elif isinstance(event, Observed) and event.lane == session.lane:
            events.append(event)
    return tuple(events)


def last_ball(session: Session) -> Observed | None:
    """Return the last ball on the present lane since it was oiled, a spare ball too."""
    balls = (event for event in reversed(events_on_oil(session)) if isinstance(event, Observed))
    return next(balls, None)


def is_first_move(session: Session) -> bool:
    """Return whether practice is over and no line was changed on a lane since."""
    if not session.scoring_started:
        return False
    for event in reversed(session.events):
        if isinstance(event, Changed):
            if not event.was.scoring_started and event.now.scoring_started:
                return True
            if event.was.line != event.now.line and event.was.lane == event.now.lane:
                return False
    return True


def ball_before(session: Session) -> Session | None:
    """Return the session just after the first ball before the last one, if nothing was changed between.

    None if there is none on this lane since it was oiled, or line, ball or bowler were others then. Spare
    balls and balls on the other lane of the pair may lie between.
    """
    here = lane_balls(session)[-2:]
    held = (session.bowler, session.line, session.ball)
    if len(here) < 2 or any((event.setting.bowler, event.line, event.ball) != held for event in here):
        return None
    return session_at(session, here[0].number)
