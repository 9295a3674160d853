"""A session walked through again, event by event: how it stood after each step, and what was advised when."""

import dataclasses
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from coachlib.coaching.session import Corrected, Event, Observed, Session, Setting
from coachlib.errors import DataFileError, InputError
from coachlib.records.events import read_event, retraced

Row = tuple[Any, ...]
"""Number, kind and text of an event, as they stand in the file."""


class Story(NamedTuple):
    """A session as logged, and what was advised after each of its balls.

    Parameters
    ----------
    session : Session
        As it stands now.
    advice : mapping of int to dict
        What was answered then, by the number of the ball: ``kind``, ``move``, ``rule_ids``.
    """

    session: Session
    advice: Mapping[int, dict[str, Any]]


def states(rows: Iterable[Row], where: str) -> tuple[Session, ...]:
    """Return the states a session went through, oldest first; none where there are no rows.

    Parameters
    ----------
    rows : iterable of (number, kind, text)
        Its events in order.
    where : str
        What a message calls the place: ``session … in …``.

    Raises
    ------
    DataFileError
        Naming the event that is missing, was cut off, changed by hand or does not fit.
    """
    return _walked(rows, where)[0]


def story(rows: Iterable[Row], where: str) -> Story | None:
    """Return a session and its advice; None where there are no rows. Raises as :func:`states`."""
    trail, advice = _walked(rows, where)
    return Story(trail[-1], advice) if trail else None


def shown_as(session: Session, name: str) -> Session:
    """Return a session in which the bowler is called `name` at every moment; all else stays."""
    settings = [one for event in session.events for one in _settings(event)]
    if session.bowler.name == name and all(one.bowler.name == name for one in settings):
        return session  # the usual case, and a quarter of the time of reading a season

    def renamed(setting: Setting) -> Setting:
        return dataclasses.replace(setting, bowler=dataclasses.replace(setting.bowler, name=name))

    def told(event: Event) -> Event:
        if isinstance(event, Observed):
            return dataclasses.replace(event, setting=renamed(event.setting))
        if isinstance(event, Corrected):
            return event
        return dataclasses.replace(event, was=renamed(event.was), now=renamed(event.now))

    bowler = dataclasses.replace(session.bowler, name=name)
    return dataclasses.replace(session, bowler=bowler, events=tuple(map(told, session.events)))


def _settings(event: Event) -> tuple[Setting, ...]:
    if isinstance(event, Corrected):
        return ()
    return (event.setting,) if isinstance(event, Observed) else (event.was, event.now)


def _walked(rows: Iterable[Row], where: str) -> tuple[tuple[Session, ...], dict[int, dict[str, Any]]]:
    trail: tuple[Session, ...] = ()
    advice: dict[int, dict[str, Any]] = {}
    for expected, (found, kind, text) in enumerate(rows):
        try:
            payload = _payload(bool(trail), expected, found, kind, text)
            trail = retraced(trail, kind, payload) if trail else (payload["session"],)
        except InputError as error:
            message = (
                f"event {found} ({kind}) of {where} cannot be read: {error} "
                "Nothing was changed. Mend that event in a copy of the file, or start a new session."
            )
            raise DataFileError(message) from error
        _note_advice(advice, kind, payload, len(trail[-1].shots) if kind in ("advice", "undo") else 0)
    return trail, advice


def _payload(is_begun: bool, expected: int, found: int, kind: str, text: object) -> dict[str, Any]:
    """Return what an event says, as it stands in the file."""
    if found != expected:
        message = f"event {expected} is missing; expected all numbers from 0 on. It was taken out by hand."
        raise InputError(message)
    if (kind == "start") == is_begun:
        message = f"kind is {kind!r}; expected 'start' for event 0 and no other. It was changed by hand."
        raise InputError(message)
    return read_event(kind, text)


def _note_advice(advice: dict[int, dict[str, Any]], kind: str, payload: dict[str, Any], n_balls: int) -> None:
    """Keep an advice under its ball; what was said to a ball taken back is taken back with it."""
    if kind == "advice":
        advice[n_balls] = payload
    elif kind == "undo":
        for number in [number for number in advice if number > n_balls]:
            del advice[number]
