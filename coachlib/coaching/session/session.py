"""A session: what holds now, and everything that happened, in order.

A session is frozen. Each step returns a new one, and the events in it are the truth: undo takes the last one
back, correcting an earlier shot replaces it, and the log rebuilds the whole by walking through them again.
"""

import dataclasses
from types import EllipsisType
from typing import Any, Literal

import numpy as np

from coachlib.coaching.session.setting import Changed, Corrected, Event, Observed, Setting, fields_of
from coachlib.errors import InputError, checked_thing, raise_input_errors, shown
from coachlib.validation import thing
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

Phase = Literal["fresh", "blending", "opening", "worn"]

FIRST_BALLS_A_GAME = 10
"""First balls counted as one game on the lane (our guess: one bowler's frames)."""


@thing
class Session(Setting):
    """Everything the advice is made from: what holds now, and what happened.

    Parameters
    ----------
    bowler, line, ball, pattern, lane, games_on_lane, scoring_started, place, goes_on_with_pain
        What holds now, see :class:`Setting`.
    seed : int
        For whatever draws random numbers later on.
    events : tuple
        What happened, oldest first; use :func:`observe`, :func:`change`, :func:`undo` and :func:`correct`.
    """

    seed: int = 0
    events: tuple[Event, ...] = ()

    @property
    def setting(self) -> Setting:
        """What holds now."""
        return Setting(**fields_of(self))

    @property
    def is_stopped(self) -> bool:
        """Whether pain was noted and the coach has not said yet to go on."""
        return self.bowler.has_pain and not self.goes_on_with_pain

    @property
    def shots(self) -> tuple[Observed, ...]:
        """All balls seen, oldest first."""
        return tuple(event for event in self.events if isinstance(event, Observed))

    @property
    def first_balls(self) -> tuple[Observed, ...]:
        """All balls seen but those at spares, oldest first."""
        return tuple(event for event in self.shots if not event.shot.is_spare)

    @property
    def settings(self) -> tuple[Setting, ...]:
        """All that held, oldest first, as each event tells it, and what holds now."""
        return (*(one for event in self.events for one in _settings_in(event)), self.setting)

    @property
    def lanes(self) -> tuple[str, ...]:
        """The lanes played on so far, the first one first."""
        return tuple(dict.fromkeys(setting.lane for setting in self.settings))

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
    """Return the session with one more ball seen; an InputError if one of the two is something else."""
    checked_thing("session", session, Session)
    checked_thing("shot", shot, Shot)
    event = Observed(len(session.shots) + 1, shot, session.setting)
    return dataclasses.replace(session, events=(*session.events, event))


def change(
    session: Session,
    *,
    bowler: Bowler | EllipsisType = ...,
    line: Line | EllipsisType = ...,
    ball: Ball | EllipsisType | None = ...,
    pattern: OilPattern | EllipsisType | None = ...,
    lane: str | EllipsisType = ...,
    games_on_lane: float | EllipsisType = ...,
    scoring_started: bool | EllipsisType = ...,
    place: Place | EllipsisType = ...,
    goes_on_with_pain: bool | EllipsisType = ...,
) -> Session:
    """Return the session with a new line, ball, lane, pattern, bowler, games or state of scoring.

    Parameters
    ----------
    session : Session
        The session so far.
    bowler, line, ball, pattern, lane, games_on_lane, scoring_started, place, goes_on_with_pain
        What holds from now on, see :class:`Setting`; what is left out (``...``) stays. Going to another lane
        brings back the line, ball and games last held there, unless they are given too. Fewer games than were
        played on the lane say that it was oiled again. A bowler with another note of pain is stopped again.

    Raises
    ------
    InputError
        For a value that is not allowed; the session given stays as it was.
    """
    given = {
        "bowler": bowler,
        "line": line,
        "ball": ball,
        "pattern": pattern,
        "lane": lane,
        "games_on_lane": games_on_lane,
        "scoring_started": scoring_started,
        "place": place,
        "goes_on_with_pain": goes_on_with_pain,
    }
    return _changed(session, {name: value for name, value in given.items() if value is not ...})


def _changed(session: Session, changes: dict[str, Any]) -> Session:
    was = checked_thing("session", session, Session).setting
    games = session.games_now
    if isinstance(changes.get("lane"), str):
        changes["lane"] = changes["lane"].strip()
        if changes["lane"] != was.lane:
            last = _last_on(session, changes["lane"])
            games, changes = last.get("games_on_lane", 0.0), last | changes
    now = Setting(**(fields_of(was) | changes))
    if now.bowler.pain != was.bowler.pain and "goes_on_with_pain" not in changes:
        now = dataclasses.replace(now, goes_on_with_pain=False)
    is_oiled = "games_on_lane" in changes and now.games_on_lane < games
    if now == was and not is_oiled:
        return session
    return _with(session, now, (*session.events, Changed(was, now, is_oiled)))


def undo(session: Session) -> Session:
    """Return the session without its last event, be it a ball, a change or a correction.

    Raises
    ------
    InputError
        If nothing happened yet.
    """
    if not checked_thing("session", session, Session).events:
        message = "Enter a shot or a change first. There is nothing to undo yet."
        raise InputError(message)
    last = session.events[-1]
    if isinstance(last, Corrected):
        return _with_shot(dataclasses.replace(session, events=session.events[:-1]), last.number, last.was)
    setting = last.was if isinstance(last, Changed) else session.setting
    return _with(session, setting, session.events[:-1])


def correct(session: Session, number: int, shot: Shot) -> Session:
    """Return the session with an earlier ball seen differently; everything else stays.

    A correction is an event that :func:`undo` takes back; one that changes nothing is none. The first ball
    has number 1.

    Raises
    ------
    InputError
        If there is no such ball.
    """
    checked_thing("session", session, Session)
    checked_thing("shot", shot, Shot)
    _check_number(session, number)
    was = session.shots[number - 1].shot
    if was == shot:
        return session
    mended = _with_shot(session, number, shot)
    return dataclasses.replace(mended, events=(*mended.events, Corrected(int(number), was, shot)))


def session_at(session: Session, number: int) -> Session:
    """Return the session as it stood just after one of its balls, corrections since then included."""
    _check_number(session, number)
    event = session.shots[number - 1]
    return _with(session, event.setting, session.events[: session.events.index(event) + 1])


def _settings_in(event: Event) -> tuple[Setting, ...]:
    """Return what held before and after an event; a correction does not tell."""
    if isinstance(event, Corrected):
        return ()
    return (event.was, event.now) if isinstance(event, Changed) else (event.setting,)


def _with_shot(session: Session, number: int, shot: Shot) -> Session:
    """Return the session with one ball's shot put in the place of what was seen before."""
    (before,) = (event for event in session.shots if event.number == number)
    events = list(session.events)
    events[events.index(before)] = dataclasses.replace(before, shot=shot)
    return dataclasses.replace(session, events=tuple(events))


def _check_number(session: Session, number: object) -> None:
    n_balls = len(session.shots)
    if isinstance(number, int | np.integer) and not isinstance(number, bool) and 1 <= number <= n_balls:
        return
    known, fix = f"1 to {n_balls}", "Look it up in the list of shots."
    if not n_balls:
        known, fix = "and none was entered yet", "Enter a shot first."
    message = f"number is {shown(number)}; expected a ball of this session, {known}. {fix}"
    raise_input_errors({"number": message})


def _with(session: Session, setting: Setting, events: tuple[Event, ...]) -> Session:
    return dataclasses.replace(session, **fields_of(setting), events=events)


def _last_on(session: Session, lane: str) -> dict[str, Any]:
    """Return line, ball and games as last held on a lane, or nothing for a lane not played yet."""
    held = (_settings_in(event)[0] for event in reversed(session.events) if not isinstance(event, Corrected))
    last = next((setting for setting in held if setting.lane == lane), None)
    if last is None:
        return {}
    games = _games_played(session.events, lane, last.games_on_lane)
    return {"line": last.line, "ball": last.ball, "games_on_lane": games}


def _games_played(events: tuple[Event, ...], lane: str, stated_games: float) -> float:
    """Return the games last stated for a lane and the first balls seen on it since."""
    n_balls = 0
    for event in reversed(events):
        if isinstance(event, Observed):
            n_balls += event.lane == lane and not event.shot.is_spare
        elif isinstance(event, Changed) and event.now.lane == lane:
            was, now = event.was, event.now
            if event.is_oiled or (was.lane, was.games_on_lane) != (now.lane, now.games_on_lane):
                break
    return round(stated_games + n_balls / FIRST_BALLS_A_GAME, 3)
