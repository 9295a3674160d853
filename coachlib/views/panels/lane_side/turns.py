"""Whose session it is: a student chosen or added, several who throw in turn, one to go on with."""

import dataclasses
from datetime import UTC, datetime, timedelta
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import fields_of
from coachlib.errors import DataFileError, InputError
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.student import Student
from coachlib.records.students.students import Students
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.live_session import LiveSession
from coachlib.views.panels.lane_side.set_up_form import SetUp, current_setup, set_up_answers
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.bowler import Bowler

NEW = "new"
"""Chosen in the form: the name typed is that of a new student."""

NEW_SESSION = {"action": "start_new", "words": "New session"}

TURN_HOURS = 12.0
"""A session written to within so many hours takes part in the turns of this evening (our guess)."""

_OF_THE_BOWLER = (
    *("name", "hand", "walk", "stance_ft", "revs", "rotation", "speed", "speed_unit", "accuracy", "spread"),
    *("age", "two_handed", "pain"),
)
_OF_THE_PLACE = (
    *("lanes", "games", "pattern", "scoring_started", "others", "own_side", "feet_stuck", "weather"),
    *("approach", "to", "speed_unit"),
)
"""Fields of the form that hold for whoever throws next on the same lanes."""


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

    :data:`NEW` or nothing leaves the form as it is typed; lane, oil, ball and the rest of the place stay.

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


def start_for(wanted: SetUp, typed: Answers, logbook: Logbook) -> tuple[Session, str | None]:
    """Return the session that a filled form starts and the student it belongs to, who is added if new.

    Raises
    ------
    InputError
        If a new student has no name, or is called like another one.
    """
    student, session = chosen_student(typed), Session(**fields_of(wanted.setting))
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
        message = "Type the new student's name or alias. The name is empty."
        raise InputError(message, {"name": message})
    student = Student(bowler.name, bowler=dataclasses.replace(bowler, name=""))
    return Students(logbook).add(student)


def logged_session(logbook: Logbook, key: str) -> LoggedSession:
    """Return a session's line in the list."""
    return next(one for one in logbook.sessions() if one.key == key)


def offer_to_go_on(logbook: Logbook) -> dict[str, Any] | None:
    """Return words and choices for a session that was not closed, or for a log that cannot be read.

    None where nothing is open.
    """
    try:
        key = logbook.latest_open()
    except DataFileError as error:
        choices = [{"action": "set_log_aside", "words": "Rename that file and start a new log"}]
        return {"words": str(error), "choices": choices}
    if key is None:
        return None
    try:
        return {
            "words": _open_words(logbook, key),
            "choices": [{"action": "go_on", "words": "Go on"}, NEW_SESSION],
        }
    except DataFileError as error:
        return {"words": str(error), "choices": [NEW_SESSION]}


def _open_words(logbook: Logbook, key: str) -> str:
    """Return who threw what when in the session not closed: ``Maija, ball 7, lane 8, 25 Nov 14:05``."""
    session, when = logbook.replay(key), logged_session(logbook, key).last_event.astimezone()
    who = session.bowler.name or "no name"
    balls = f"ball {len(session.shots)}" if session.shots else "no ball yet"
    return f"The last session was not ended: {who}, {balls}, lane {session.lane}, {when.day} {when:%b %H:%M}."


class TakingTurns(LaneSideBase):
    """Students chosen or added for a session, and several sessions in turn; the lane side is one of these."""

    @action("who")
    def go_on(self) -> None:
        """Go on with the session that was not ended."""
        key = self.logbook.latest_open()
        if key is not None:
            self._go_to(key)

    @action("who")
    def choose_student(self, student: str, typed: Answers) -> None:
        """Fill the form with a student's own numbers and the line of last time."""
        self.who.typed = form_for(student, typed, self.logbook, self.shown.preferences)

    @action("who")
    def turn(self, session: str) -> None:
        """Go to the session of who throws next; what was marked and not read stays with this one."""
        if self.running is None or session != self.running.key:
            self._keep_draft()
            self._go_to(session)

    @action("who")
    def another(self) -> None:
        """Ask who else throws; the session that runs stays open."""
        running = self.running
        self._keep_draft()
        held = current_setup(running.session, self.shown.preferences) if running else self.shown.preferences
        self.running = None
        self._clear()
        shown = set_up_answers(held)
        self.who.typed = {**self.who.typed, **{name: shown[name] for name in _OF_THE_PLACE}}

    def _go_to(self, key: str) -> None:
        """Show a session of the log and go on with it, with what was marked in it and not read."""
        self._show_from_now(LiveSession.again(self.logbook, key, **self._voices))
        self.entry.typed, self.entry.stale = self._drafts.pop(key, ({}, False))

    def _keep_draft(self) -> None:
        if self.running is not None:
            self._end_correction()
            self._drafts[self.running.key] = (self.entry.typed, self.entry.stale)

    def _give_to_student(self, typed: Answers, bowler: Bowler) -> None:
        """Put the running session under the student whom the form names."""
        run = self.running
        if run is None:
            return
        was = owner_of(self.logbook, run.key)
        now = owner_after(typed, bowler, self.logbook, was)
        if now != was:
            self.logbook.assign(run.key, now)
            self._keep_draft()
            self._go_to(run.key)
            self.shown.status = "session kept under that student" if now else "session kept under no student"
