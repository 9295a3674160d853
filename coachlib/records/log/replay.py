"""A session walked through again, event by event: how it stood after each step, and what was advised when."""

import dataclasses
from collections.abc import Iterable, Mapping
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Corrected, Observed, Setting
from coachlib.errors import DataFileError, InputError
from coachlib.records.log.advice_record import ball_of
from coachlib.records.log.events import read_event, stepped

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


class Walk:
    """A session on its way through its events: the states it went through and the advice that holds.

    Undo goes back to the state before, whatever the last step was; a correction takes back what was said of a
    ball that was seen wrongly, and of those after it.
    """

    def __init__(self) -> None:
        self.states: list[Session] = []
        self.advice: dict[int, dict[str, Any]] = {}
        self._before: dict[int, dict[int, dict[str, Any]]] = {}  # by the number of states with a correction

    def take(self, kind: str, payload: dict[str, Any]) -> None:
        """Follow one event, read from its text.

        Raises
        ------
        InputError
            If it does not fit the session: nothing to undo, no such ball, a value not allowed.
        """
        if kind == "start":
            self.states.append(payload["session"])
        elif kind == "undo":
            self._undo()
        elif kind == "advice":
            self.advice[ball_of(payload, len(self.states[-1].shots))] = payload
        elif (after := stepped(self.states[-1], kind, payload)) != self.states[-1]:
            self.states.append(after)
            if isinstance(last := after.events[-1], Corrected):
                self._before[len(self.states)] = dict(self.advice)
                if not last.is_of_spare:
                    self._forget(payload["number"])

    def _undo(self) -> None:
        if len(self.states) == 1:  # of an event that was in the session when it was put into the log
            self.states = [stepped(self.states[0], "undo", {})]
        else:
            self.advice = self._before.pop(len(self.states), self.advice)
            self.states.pop()
        self._forget(len(self.states[-1].shots) + 1)

    def _forget(self, first: int) -> None:
        self.advice = {number: answer for number, answer in self.advice.items() if number < first}


def walk_through(rows: Iterable[EventRow], where: str) -> Walk:
    """Return a session walked through; one without states where there are no rows.

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
    walk = Walk()
    for expected, (found, kind, text) in enumerate(rows):
        try:
            _check_place(expected, found, kind)
            walk.take(kind, read_event(kind, text))
        except InputError as error:
            message = (
                f"event {found} ({kind}) of {where} cannot be read: {error} "
                "Nothing was changed. Mend that event in a copy of the file, or start a new session."
            )
            raise DataFileError(message) from error
    return walk


def shown_as(session: Session, name: str) -> Session:
    """Return a session in which the bowler is called `name` at every moment; all else stays."""
    if all(setting.bowler.name == name for setting in session.settings):
        return session  # the usual case, and a quarter of the time of reading a season

    def renamed(part: Any) -> Any:
        if isinstance(part, Corrected):
            return part
        if isinstance(part, Setting):
            return dataclasses.replace(part, bowler=dataclasses.replace(part.bowler, name=name))
        held = ("setting",) if isinstance(part, Observed) else ("was", "now")
        return dataclasses.replace(part, **{field: renamed(getattr(part, field)) for field in held})

    return dataclasses.replace(renamed(session), events=tuple(map(renamed, session.events)))


def _check_place(expected: int, found: int, kind: str) -> None:
    message = ""
    if found != expected:
        message = f"event {expected} is missing; expected all numbers from 0 on. It was taken out by hand."
    elif (kind == "start") != (expected == 0):
        message = f"kind is {kind!r}; expected 'start' for event 0 and no other. It was changed by hand."
    if message:
        raise InputError(message)
