"""What is put into the log, tried before it is kept, and one line of the list of what is in it."""

import itertools
import sqlite3
from collections.abc import Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Setting, fields_of
from coachlib.errors import InputError, checked_choice
from coachlib.records.log.events import APPENDED_KINDS, event_text, read_event
from coachlib.records.log.replay import EventRow, Walk

Step = tuple[str, Mapping[str, Any]]
"""A kind of event and its payload, as :meth:`Logbook.append` takes them."""

_OF_LANE = ("line", "ball", "games_on_lane")


class LoggedSession(NamedTuple):
    """One line of the list of sessions; times are UTC. A student's sessions bear the name that is shown."""

    key: str
    started: datetime
    last_event: datetime
    bowler_name: str
    n_shots: int
    student_key: str | None = None


class NewSession(NamedTuple):
    """A whole session to be put into the log at once, as from a file.

    Parameters
    ----------
    key : str
        Under which it is kept; one that is in the log already is refused.
    started : datetime
        When it was, with its time zone.
    start : Session
        The state in which it starts.
    steps : sequence of (kind, payload)
        What happened, oldest first.
    student_key : str or None
        Whose it is.
    """

    key: str
    started: datetime
    start: Session
    steps: Sequence[Step] = ()
    student_key: str | None = None


def checked_event(
    kind: str, payload: Mapping[str, Any], kinds: Sequence[str] = APPENDED_KINDS
) -> tuple[str, str, dict[str, Any]]:
    """Return an event as text, and as it will be read later: that is what is tried now."""
    checked_choice("kind", kind, kinds)
    text = event_text(payload)
    return kind, text, read_event(kind, text)


def rows_of(new: NewSession) -> tuple[list[tuple[str, str]], Session]:
    """Return a new session's events as kinds and texts, and the state it ends in."""
    walk = Walk()
    start = checked_event("start", {"session": new.start}, ("start",))
    events = itertools.chain((start,), itertools.starmap(checked_event, new.steps))
    rows = []
    for kind, text, payload in events:
        walk.take(kind, payload)
        rows.append((kind, text))
    return rows, walk.states[-1]


def steps_to(was: Setting, now: Setting, /, *, is_oiled: bool = False, **observed: Any) -> list[Step]:
    """Return the steps from one setting to another and to what was seen then, such as a shot.

    Parameters
    ----------
    was, now : Setting
        What held, and what holds. A change of lane says line, ball and games too: without them those last
        held there would come back.
    is_oiled : bool, default False
        Whether the lane was oiled again, which games stated anew tell.
    **observed
        Payload by kind of event; None where there was none.
    """
    before, held = fields_of(was), fields_of(now)
    names = [name for name, value in held.items() if value != before[name]]
    names += _OF_LANE if "lane" in names else ()
    names += ("games_on_lane",) if is_oiled else ()
    change = {name: held[name] for name in names}
    steps: list[Step] = [("change", change)] if change else []
    return steps + [
        (kind, payload if isinstance(payload, Mapping) else {kind: payload})
        for kind, payload in observed.items()
        if payload is not None
    ]


def insert_session(db: sqlite3.Connection, row: EventRow) -> None:
    """Put the line of a session into the list; raises :class:`InputError` if its key is there already."""
    try:
        db.execute(
            "INSERT INTO session (key, started, last_event, is_open, bowler_name, n_shots, student_key)"
            " VALUES (?, ?, ?, ?, ?, ?, ?)",
            row,
        )
    except sqlite3.IntegrityError as error:
        message = (
            f"session {row[0]} of {row[1][:10]} is in this log already; expected a session that is new to "
            "it. Nothing was added. Leave that session out."
        )
        raise InputError(message, {"session": message}) from error


def summary(session: Session) -> tuple[str, int]:
    """Return what the list of sessions shows, kept beside the events so that the list needs no replay."""
    return session.bowler.name, len(session.shots)
