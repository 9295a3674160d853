"""The part of the lane side that knows whose session runs, and goes from one bowler's to another's."""

from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.views.panels.lane_side.begin import current_setup
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.live_session import LiveSession
from coachlib.views.panels.lane_side.set_up_form import SetUp, set_up_answers
from coachlib.views.panels.lane_side.turns import form_for, owner_after, owner_of
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.bowler import Bowler

OF_THE_PLACE = (
    *(
        "lanes",
        "games",
        "pattern",
        "scoring_started",
        "others",
        "own_side",
        "feet_stuck",
        "weather",
        "approach",
    ),
    *("to", "speed_unit"),
)
"""Fields of the form that hold for whoever throws next on the same lanes."""


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
        said = set_up_answers(held)
        self.who.typed = {**self.who.typed, **{name: said[name] for name in OF_THE_PLACE}}

    def _go_to(self, key: str) -> None:
        """Show a session of the log and go on with it, with what was marked in it and not read."""
        running = LiveSession.again(self.logbook, key, **self._voices)
        self._show_from_now(running, as_shown(running.session, running.preferences))
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
            self.shown.status = "session given to that student" if now else "session belongs to nobody"


def as_shown(session: Session, kept: dict[str, Any] | None) -> SetUp:
    """Return what the panel shows of a session beside it: as kept in the log, else what the session tells."""
    return SetUp(session.setting, **(kept or {"lanes": session.lanes}))
