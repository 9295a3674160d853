"""What the parts of the lane side share: its widgets, what it shows, and the steps it takes."""

import dataclasses
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels.lane_side.entry import Entry
from coachlib.views.panels.lane_side.live_session import LiveSession
from coachlib.views.panels.lane_side.set_up_form import SetUp, blank_answers
from coachlib.views.panels.shared.panel import Panel
from coachlib.views.panels.shared.parts import Form
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.line import Line

Draft = tuple[dict[str, Any], bool]
"""What stands in the form of a ball, and whether it was read."""


@dataclasses.dataclass
class Shown:
    """What the panel shows beside session and log, and may forget."""

    preferences: SetUp = dataclasses.field(default_factory=SetUp)
    """The lanes of the pair, the speed unit and who the sentences speak to."""
    offer: dict[str, Any] | None = None
    """A last session to go on with."""
    status: str = ""
    watch_for: str = ""
    """What to look for after a move."""
    start_words: str = ""
    n_starts: int = 0
    """How often a starting line was asked for, so that the page sees each answer."""
    start_line: tuple[str, str] | None = None
    """Feet and target suggested, where others were typed already."""
    passed_start: Line | None = None
    """A starting line that was suggested and not taken."""
    planned: SetUp | None = None
    """What the form said with the starting line that was found last."""
    is_open: bool = False
    is_settled: bool = False
    """Whether it was said that the line stays."""
    correcting: int | None = None
    """The earlier ball in the form."""
    draft: Draft = ({}, False)
    """What stood in the form before that one was opened."""
    asked: Answers = dataclasses.field(default_factory=dict)
    """The form that was asked about: sent again unchanged it is taken."""
    games_shown: str = ""
    """The games on this lane as the form showed them when it was opened."""
    passed_spare: int | None = None
    """The first ball whose spare was passed over."""
    summary: dict[str, Any] | None = None
    """The summary of the session that is about to end, whose place in the log is `ending`."""
    ending: str | None = None


class LaneSideBase(Panel):
    """The base of the lane side and of its parts."""

    logbook: Logbook
    running: LiveSession | None
    shown: Shown
    who: Form
    entry: Entry
    _voices: dict[str, Any]
    _drafts: dict[str, Draft]

    @property
    def session(self) -> Session | None:
        """The session as it stands, None before one was started."""
        return self.running.session if self.running else None

    def _run(self) -> LiveSession:
        if self.running is None:
            message = "Say who throws and press Start. No session is running."
            raise InputError(message)
        return self.running

    def _step(self, kind: str, payload: dict[str, Any], status: str, *, is_beside: bool = False) -> None:
        """Take a step; one `is_beside` the line leaves what was chosen after the last answer as it is."""
        self._run().step(kind, payload)
        if kind != "correct" and self.shown.correcting is not None:
            status += f", ball {self.shown.correcting} left as it was"
        self._end_correction()
        if kind != "shot" and self.entry.stale:  # a ball read belongs to the line and lane it was thrown on
            self.entry.typed, self.entry.stale = {}, False
        self.shown.asked, self.shown.status = {}, status
        if not is_beside:
            self.shown.watch_for, self.shown.is_settled = "", False

    def _end_correction(self) -> None:
        if self.shown.correcting is not None:
            self.shown.correcting = None
            self.entry.typed, self.entry.stale = self.shown.draft

    def _show_from_now(self, running: LiveSession, preferences: SetUp | None = None) -> None:
        """Show a session; what holds beside it is as kept in the log, if not given."""
        planned = self.shown.planned
        self._clear()
        self.shown.planned = planned
        session, self.running = running.session, running
        kept = running.preferences or {"lanes": session.lanes}
        self._prefer(preferences or SetUp(session.setting, **kept))
        self.shown.status = f"ball {len(session.shots)} logged" if session.shots else "session logged"

    def _clear(self) -> None:
        self.shown = Shown()
        self.who.typed = blank_answers()
        self.entry.typed, self.entry.stale = {}, False

    def _remember_unit(self, typed: Answers) -> None:
        unit = str(typed.get("speed_unit") or self.shown.preferences.speed_unit)
        self._prefer(dataclasses.replace(self.shown.preferences, speed_unit=unit))

    def _prefer(self, preferences: SetUp) -> None:
        """Take other lanes, listener or unit, and keep them with the session for who goes on with it."""
        self.shown.preferences = preferences
        self._run().prefer(lanes=preferences.lanes, to=preferences.to, speed_unit=preferences.speed_unit)
