"""A session: what holds now, and everything that happened, in order.

A session is frozen. Each step returns a new one, and the events in it are the truth: undo takes the last one
back, correcting an earlier shot replaces it, and the log rebuilds the whole by walking through them again.
"""

import dataclasses
from typing import Annotated, Any, Literal

from coachlib.errors import InputError
from coachlib.things import Letters, Limits, thing
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

Phase = Literal["fresh", "blending", "opening", "worn"]
LaneName = Annotated[str, Letters(20)]
Games = Annotated[float, Limits(0, 60, "games", "Count the games played on this lane since it was oiled.")]

FIRST_BALLS_A_GAME = 10
"""First balls counted as one game on the lane (our guess: one bowler's frames)."""


@thing
class Setting:
    """What holds until it is changed; the fields are those of :class:`Session`."""

    bowler: Bowler
    line: Line
    ball: Ball | None = None
    pattern: OilPattern | None = None
    lane: LaneName = "1"
    games_on_lane: Games = 0.0
    scoring_started: bool = False


@thing
class Observed:
    """One ball seen, with what held when it was thrown."""

    number: int
    shot: Shot
    setting: Setting

    @property
    def line(self) -> Line:
        """The line it was thrown on."""
        return self.setting.line

    @property
    def lane(self) -> str:
        """The lane it was thrown on."""
        return self.setting.lane

    @property
    def ball(self) -> Ball | None:
        """The ball it was thrown with."""
        return self.setting.ball


@thing
class Changed:
    """A change of line, ball, lane or anything else that holds until changed."""

    was: Setting
    now: Setting


Event = Observed | Changed


@thing
class Session:
    """Everything the advice is made from.

    Parameters
    ----------
    bowler : Bowler
        Who throws.
    line : Line
        The line being played on this lane.
    ball : Ball or None
        The ball in the hand.
    pattern : OilPattern or None
        None: not known.
    lane : str
        The lane of the pair, as the centre numbers it.
    games_on_lane : float
        Games played on this lane since it was oiled, as of now.
    scoring_started : bool
        From then on no surface may be altered.
    seed : int
        For whatever draws random numbers later on.
    events : tuple
        What happened, oldest first; use :func:`observe`, :func:`change`, :func:`undo` and :func:`correct`.
    """

    bowler: Bowler
    line: Line
    ball: Ball | None = None
    pattern: OilPattern | None = None
    lane: LaneName = "1"
    games_on_lane: Games = 0.0
    scoring_started: bool = False
    seed: int = 0
    events: tuple[Event, ...] = ()

    @property
    def setting(self) -> Setting:
        """What holds now."""
        return Setting(**{field.name: getattr(self, field.name) for field in dataclasses.fields(Setting)})

    @property
    def shots(self) -> tuple[Observed, ...]:
        """All balls seen, oldest first."""
        return tuple(event for event in self.events if isinstance(event, Observed))

    @property
    def lanes(self) -> tuple[str, ...]:
        """The lanes played on so far, the first one first."""
        settings = [event.was if isinstance(event, Changed) else event.setting for event in self.events]
        return tuple(dict.fromkeys([*(setting.lane for setting in settings), self.lane]))

    @property
    def phase(self) -> Phase:
        """How far this lane has changed: fresh below 0.7 games, blending 1.5, opening 2.5, then worn."""
        games = self.games_now
        return "fresh" if games < 0.7 else "blending" if games < 1.5 else "opening" if games < 2.5 else "worn"

    @property
    def games_now(self) -> float:
        """Games on this lane: as last stated, and the first balls seen on it since."""
        return _games_played(self.events, self.lane, self.games_on_lane)


def observe(session: Session, shot: Shot) -> Session:
    """Return the session with one more ball seen."""
    seen = Observed(len(session.shots) + 1, shot, session.setting)
    return dataclasses.replace(session, events=(*session.events, seen))


def change(session: Session, **changes: Any) -> Session:
    """Return the session with a new line, ball, lane, pattern, bowler, games or state of scoring.

    Parameters
    ----------
    session : Session
        The session so far.
    **changes
        Fields of :class:`Setting`. Going to another lane brings back the line, ball and games last held
        there, unless they are given too.

    Raises
    ------
    InputError
        For an unknown field or a value that is not allowed; the session given stays as it was.
    """
    was = session.setting
    if "lane" in changes and changes["lane"] != was.lane:
        changes = _last_on(session, changes["lane"]) | changes
    now = _replaced(was, changes)
    if now == was:
        return session
    return _with(session, now, (*session.events, Changed(was, now)))


def undo(session: Session) -> Session:
    """Return the session without its last event, be it a ball or a change.

    Raises
    ------
    InputError
        If nothing happened yet.
    """
    if not session.events:
        message = "there is nothing to undo; expected at least one shot or change. Enter a shot first."
        raise InputError(message)
    last = session.events[-1]
    setting = last.was if isinstance(last, Changed) else session.setting
    return _with(session, setting, session.events[:-1])


def correct(session: Session, number: int, shot: Shot) -> Session:
    """Return the session with an earlier ball seen differently; everything else stays.

    Parameters
    ----------
    session : Session
        The session so far.
    number : int
        Which ball, 1 for the first.
    shot : Shot
        What was really seen.

    Raises
    ------
    InputError
        If there is no such ball.
    """
    if number not in [seen.number for seen in session.shots]:
        message = f"number is {number!r}; expected a ball of this session, 1 to {len(session.shots)}. "
        raise InputError(message + "Look it up in the list of shots.")
    events = tuple(
        dataclasses.replace(event, shot=shot)
        if isinstance(event, Observed) and event.number == number
        else event
        for event in session.events
    )
    return dataclasses.replace(session, events=events)


def _replaced(setting: Setting, changes: dict[str, Any]) -> Setting:
    known = {field.name: getattr(setting, field.name) for field in dataclasses.fields(Setting)}
    return Setting(**(known | changes))


def _with(session: Session, setting: Setting, events: tuple[Event, ...]) -> Session:
    held = {field.name: getattr(setting, field.name) for field in dataclasses.fields(Setting)}
    return dataclasses.replace(session, **held, events=events)


def _last_on(session: Session, lane: object) -> dict[str, Any]:
    """Return line, ball and games as last held on a lane, or nothing for a lane not played yet."""
    for event in reversed(session.events):
        held = event.was if isinstance(event, Changed) else event.setting
        if held.lane == lane:
            games = _games_played(session.events, held.lane, held.games_on_lane)
            return {"line": held.line, "ball": held.ball, "games_on_lane": games}
    return {}


def _games_played(events: tuple[Event, ...], lane: str, stated_games: float) -> float:
    """Return the games last stated for a lane and the first balls seen on it since."""
    n_balls = 0
    for event in reversed(events):
        if isinstance(event, Observed):
            n_balls += event.lane == lane and not event.shot.is_spare
        elif event.now.lane == lane and _states_games(event):
            break
    return round(stated_games + n_balls / FIRST_BALLS_A_GAME, 3)


def _states_games(event: Changed) -> bool:
    return event.was.lane != event.now.lane or event.was.games_on_lane != event.now.games_on_lane
