"""A session walked through again, event by event: how it stood after each step, and what was advised when."""

import dataclasses
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Corrected, Event, Observed, Setting
from coachlib.errors import DataFileError, InputError
from coachlib.records.log.advice_record import ball_of
from coachlib.records.log.events import read_event, retraced

EventRow = tuple[Any, ...]
"""Number, kind and text of an event, as they stand in the file."""


class Replay(NamedTuple):
    """A session as logged, and what was advised after each of its balls.

    Parameters
    ----------
    session : Session
        As it stands now.
    advice : mapping of int to dict
        What was answered then, by the number of the ball: ``kind``, ``move``, ``rule_ids``. Of a ball that
        was corrected later, and of those after it, what was answered since; nothing where that was not kept.
    """

    session: Session
    advice: Mapping[int, dict[str, Any]]


def states(rows: Iterable[EventRow], where: str) -> tuple[Session, ...]:
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


def replay_with_advice(rows: Iterable[EventRow], where: str) -> Replay | None:
    """Return a session and its advice; None where there are no rows. Raises as :func:`states`."""
    trail, advice = _walked(rows, where)
    return Replay(trail[-1], advice) if trail else None


def shown_as(session: Session, name: str) -> Session:
    """Return a session in which the bowler is called `name` at every moment; all else stays."""
    if all(setting.bowler.name == name for setting in session.settings):
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


class _Advice:
    """What was answered so far; a correction takes back what was said of a ball that was seen wrongly."""

    def __init__(self) -> None:
        self.by_ball: dict[int, dict[str, Any]] = {}
        self._before: dict[int, dict[int, dict[str, Any]]] = {}  # by the length of the trail that it made

    def note(
        self, kind: str, payload: dict[str, Any], was: tuple[Session, ...], now: tuple[Session, ...]
    ) -> None:
        """Follow one event, from the trail before it to the one after it."""
        n_balls = len(now[-1].shots) if kind in ("advice", "undo") else 0
        if kind == "advice":
            self.by_ball[ball_of(payload, n_balls)] = payload
        elif kind == "undo":
            self.by_ball = self._before.pop(len(was), self.by_ball)
            self._drop(n_balls + 1)
        elif kind == "correct" and len(now) > len(was):
            self._before[len(now)] = dict(self.by_ball)
            if not _is_of_spare(now[-1]):
                self._drop(payload["number"])

    def _drop(self, first: int) -> None:
        self.by_ball = {number: said for number, said in self.by_ball.items() if number < first}


def _is_of_spare(session: Session) -> bool:
    last = session.events[-1]
    return isinstance(last, Corrected) and last.is_of_spare


def _walked(rows: Iterable[EventRow], where: str) -> tuple[tuple[Session, ...], dict[int, dict[str, Any]]]:
    trail: tuple[Session, ...] = ()
    advice = _Advice()
    for expected, (found, kind, text) in enumerate(rows):
        was = trail
        try:
            payload = _payload(bool(trail), expected, found, kind, text)
            trail = retraced(trail, kind, payload) if trail else (payload["session"],)
        except InputError as error:
            message = (
                f"event {found} ({kind}) of {where} cannot be read: {error} "
                "Nothing was changed. Mend that event in a copy of the file, or start a new session."
            )
            raise DataFileError(message) from error
        advice.note(kind, payload, was, trail)
    return trail, advice.by_ball


def _payload(is_begun: bool, expected: int, found: int, kind: str, text: object) -> dict[str, Any]:
    """Return what an event says, as it stands in the file."""
    if found != expected:
        message = f"event {expected} is missing; expected all numbers from 0 on. It was taken out by hand."
        raise InputError(message)
    if (kind == "start") == is_begun:
        message = f"kind is {kind!r}; expected 'start' for event 0 and no other. It was changed by hand."
        raise InputError(message)
    return read_event(kind, text)
