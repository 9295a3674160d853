"""The events of a session as text for the log, read back strictly, and walked through again.

An event is a kind and a payload. As text it is one JSON object with the number of its schema, so that a later
version can tell what it reads. What is wrong is told as an :class:`InputError` that names the field; the
logbook adds which event of which file it was.
"""

import dataclasses
from collections.abc import Callable, Mapping
from typing import Any, Literal, get_type_hints

import numpy as np
import pydantic
from pydantic_core import PydanticSerializationError, from_json, to_json
from typing_extensions import TypedDict

from coachlib.coaching.session import session as steps
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import LaneName, Setting
from coachlib.coaching.wording.callouts import To
from coachlib.errors import DataFileError, InputError, checked_choice, shown
from coachlib.records.log.student import Student
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

SCHEMA = 1
"""The schema in which events are written, and the newest one that is read."""

_FIELDS: dict[str, dict[str, Any]] = {
    "start": {"session": Session},
    "shot": {"shot": Shot},
    "change": get_type_hints(Setting),
    "undo": {},
    "correct": {"number": int, "shot": Shot},
    "preferences": {"lanes": tuple[LaneName, ...], "to": To, "speed_unit": Literal["mph", "km/h"]},
    "student": {"student": Student},
}
"""What a payload holds, by kind; of a change any of these, else all."""


def _adapter(kind: str) -> pydantic.TypeAdapter[Any]:
    if kind == "advice":
        return pydantic.TypeAdapter(dict[str, Any])
    fields = TypedDict("_Payload", _FIELDS[kind], total=kind != "change")  # type: ignore[misc]
    strict = pydantic.with_config(pydantic.ConfigDict(strict=True, extra="forbid"))
    return pydantic.TypeAdapter(strict(fields))


APPENDED_KINDS = ("shot", "change", "undo", "correct", "advice", "preferences")
_PAYLOADS = {kind: _adapter(kind) for kind in ("start", *APPENDED_KINDS)}
_STUDENT = _adapter("student")

_STEPS: dict[str, Callable[..., Session]] = {
    "shot": steps.observe,
    "change": steps.change,
    "undo": steps.undo,
    "correct": steps.correct,
}

_THINGS: dict[Any, Callable[..., Any]] = {
    "shot": Shot,
    "line": Line,
    "ball": Ball,
    "pattern": OilPattern,
    "bowler": Bowler,
    "place": Place,
}


def event_text(payload: Mapping[str, Any]) -> str:
    """Return a payload, things, numbers and texts by name, as it is kept: JSON with the schema's number.

    Raises
    ------
    InputError
        If something in it cannot be written as JSON.
    """
    try:
        content = {"schema": SCHEMA, "payload": dict(payload)}
        return to_json(content, inf_nan_mode="strings", fallback=_plain_number).decode()
    except (PydanticSerializationError, TypeError, ValueError) as error:
        message = (
            f"payload is {shown(payload)}; expected things, numbers and texts by name ({error}). "
            "Give what was passed to observe, change or correct."
        )
        raise InputError(message) from error


def read_event(kind: str, text: object) -> dict[str, Any]:
    """Return the payload of an event, every field checked, from the text of :func:`event_text`.

    The kind is ``start`` or one of :data:`APPENDED_KINDS`; the text may be whatever else stands in the file.

    Raises
    ------
    InputError
        Naming the field: unknown kind, text cut off, newer schema, a value that is missing or not allowed.
    """
    checked_choice("kind", kind, tuple(_PAYLOADS), "Take the event out or put its kind right.")
    return _read(_PAYLOADS[kind], kind, text)


def read_student(student_key: object, text: object) -> Student:
    """Return a student from the text that :func:`event_text` made of ``{"student": …}``.

    Raises
    ------
    DataFileError
        If it was cut off or changed by hand, naming the field.
    """
    try:
        student: Student = _read(_STUDENT, "student", text)["student"]
    except InputError as error:
        message = (
            f"student {student_key} cannot be read: {error} Nothing was changed. "
            "Mend that student in a copy of the file."
        )
        raise DataFileError(message) from error
    return student


def stepped(session: Session, kind: str, payload: dict[str, Any]) -> Session:
    """Return the session after one event; advice and preferences change nothing.

    Raises
    ------
    InputError
        If the event does not fit the session: nothing to undo, no such ball, a value not allowed.
    """
    return _STEPS[kind](session, **payload) if kind in _STEPS else session


def _read(adapter: pydantic.TypeAdapter[Any], kind: str, text: object) -> Any:
    payload = _unwrapped(text)
    try:
        return _rechecked(adapter.validate_json(to_json(payload)))
    except pydantic.ValidationError as error:
        raise InputError(_own_message(payload, error) or _field_message(kind, error)) from error


def _unwrapped(text: object) -> Any:
    try:
        content = from_json(text if isinstance(text, str) else "")
    except ValueError as error:
        message = (
            f"the event's text is {shown(text)}; expected one whole JSON object ({error}). "
            "It was cut off or changed by hand."
        )
        raise InputError(message) from error
    schema = content.get("schema") if isinstance(content, dict) else None
    if not isinstance(schema, int) or not 1 <= schema <= SCHEMA:
        message = (
            f"schema is {shown(schema)}; expected a number from 1 to {SCHEMA}, which this version reads. "
            "Read a newer log with the newer coachlib that wrote it."
        )
        raise InputError(message)
    return content.get("payload")


def _rechecked(value: Any) -> Any:
    """Return a value built again through its own door, where the checks across several fields stand."""
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        held = {field.name: _rechecked(getattr(value, field.name)) for field in dataclasses.fields(value)}
        return type(value)(**held)
    if isinstance(value, tuple):
        return tuple(map(_rechecked, value))
    if isinstance(value, dict):
        return {name: _rechecked(held) for name, held in value.items()}
    return value


def _own_message(payload: Any, error: pydantic.ValidationError) -> str:
    """Return what the thing itself says to its wrong values, with units; empty if none of ours is wrong."""
    for name in error.errors()[0]["loc"]:
        payload = payload.get(name) if isinstance(payload, dict) else None
        if name in _THINGS and isinstance(payload, dict):
            try:
                _THINGS[name](**payload)
            except InputError as own:
                return f"{name}: {own}"
    return ""


def _field_message(kind: str, error: pydantic.ValidationError) -> str:
    problem = error.errors(include_url=False)[0]
    field = ".".join(map(str, problem["loc"])) or "payload"
    if problem["type"] == "missing":
        return f"{field} is missing; a {kind!r} event needs it. Put it in."
    if problem["type"] in ("extra_forbidden", "unexpected_keyword_argument"):
        return f"{field} is no field of a {kind!r} event. Check the spelling or take it out."
    reason = problem["msg"][:1].lower() + problem["msg"][1:].rstrip(".")
    return f"{field} is {shown(problem['input'])}; {reason}. Put a value there that is allowed."


def _plain_number(value: Any) -> Any:
    if isinstance(value, np.generic):
        return value.item()
    unknown = f"{type(value).__name__} cannot be written"
    raise TypeError(unknown)
