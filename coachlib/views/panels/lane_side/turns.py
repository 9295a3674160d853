"""Whose session it is: a student chosen or added when it starts, and several who throw in turn."""

import dataclasses
from datetime import UTC, datetime, timedelta
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError, InputError
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.student import Student
from coachlib.records.students.students import Students
from coachlib.views.panels.lane_side.begin import started
from coachlib.views.panels.lane_side.set_up_form import SetUp, set_up_answers
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.bowler import Bowler

NEW = "new"
"""Chosen in the form: the name typed is that of a new student."""

TURN_HOURS = 12.0
"""A session written to within so many hours takes part in the turns of this evening (our guess)."""


def student_choices(logbook: Logbook) -> list[list[str]]:
    """Return the students to choose from, key and shown name; none where the log cannot be read."""
    try:
        return [[one.key, one.shown_name] for one in Students(logbook).listed()]
    except DataFileError:
        return []


def turn_choices(logbook: Logbook, now_key: str | None) -> list[dict[str, Any]]:
    """Return who throws in turn, in the order in which they began: ``key``, ``words``, ``is_now``."""
    since = datetime.now(UTC) - timedelta(hours=TURN_HOURS)
    try:
        opened = [one for one in logbook.open_sessions() if one.last_event >= since or one.key == now_key]
    except DataFileError:
        return []
    return [
        {"key": one.key, "words": one.bowler_name or "no name", "is_now": one.key == now_key}
        for one in opened
    ]


def chosen_student(typed: Answers) -> str:
    """Return the student chosen in the form: a key, :data:`NEW`, or nothing."""
    return str(typed.get("student") or "")


def known_bowler(typed: Answers, logbook: Logbook, held: Bowler | None) -> Bowler | None:
    """Return the numbers that the form does not ask about: of the running session, else of the student."""
    student = chosen_student(typed)
    if held is not None or student in ("", NEW):
        return held
    return Students(logbook).get(student).as_bowler


def form_for(student_key: str, typed: Answers, logbook: Logbook, set_up: SetUp) -> dict[str, Any]:
    """Return the form with a student's own numbers, and with the line they played last, if they did.

    Parameters
    ----------
    student_key : str
        Who was chosen; :data:`NEW` or nothing leaves the form as it is typed.
    typed : mapping
        The form; lane, oil, ball and the rest of the place stay.
    logbook : Logbook
        The log.
    set_up : SetUp
        What the panel holds beside the session: its unit of speed.

    Raises
    ------
    InputError
        If there is no such student.
    """
    if student_key in ("", NEW):
        return {**typed, "student": student_key}
    students = Students(logbook)
    setting = dataclasses.replace(set_up.setting, bowler=students.get(student_key).as_bowler)
    filled = set_up_answers(dataclasses.replace(set_up, setting=setting))
    own = {name: filled[name] for name in _OF_THE_BOWLER}
    last = next((one for one in students.sessions(student_key) if one.n_shots), None)
    if last is not None:
        line = logbook.replay(last.key).shots[0].line
        own |= {"feet": f"{line.feet_board:g}", "target": f"{line.target_board:g}"}
    return {**typed, **own, "student": student_key}


_OF_THE_BOWLER = (
    *("name", "hand", "walk", "stance_ft", "revs", "rotation", "speed", "speed_unit", "accuracy", "spread"),
    *("age", "two_handed", "pain"),
)


def start_for(wanted: SetUp, typed: Answers, logbook: Logbook) -> tuple[Session, str | None]:
    """Return the session that a filled form starts and the student it belongs to, who is added if new.

    Raises
    ------
    InputError
        If a new student has no name, or is called like another one.
    """
    student = chosen_student(typed)
    session = started(wanted)
    if student == NEW:
        student = _added(session.bowler, logbook)
    if not student:
        return session, None
    name = Students(logbook).get(student).shown_name
    return dataclasses.replace(session, bowler=dataclasses.replace(session.bowler, name=name)), student


def owner_after(typed: Answers, bowler: Bowler, logbook: Logbook, owner: str | None) -> str | None:
    """Return whose a running session is after the form was saved; a new student is added.

    A form that says nothing of students leaves it as it is.
    """
    if "student" not in typed:
        return owner
    student = chosen_student(typed)
    return _added(bowler, logbook) if student == NEW else student or None


def owner_of(logbook: Logbook, session_key: str) -> str | None:
    """Return the student whose session it is."""
    return next((one.student_key for one in logbook.open_sessions() if one.key == session_key), None)


def _added(bowler: Bowler, logbook: Logbook) -> str:
    if not bowler.name.strip():
        message = "name is empty; expected the new student's name or alias. Type one."
        raise InputError(message, {"name": message})
    student = Student(bowler.name, bowler=dataclasses.replace(bowler, name=""))
    return Students(logbook).add(student)
