"""What the parts of the lane side share: its widgets, what it shows, and the steps the whole provides."""

from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels.lane_side.entry import Entry
from coachlib.views.panels.lane_side.live_session import LiveSession
from coachlib.views.panels.lane_side.set_up_form import SetUp
from coachlib.views.panels.lane_side.setup import WhoAndLine
from coachlib.views.panels.lane_side.shown import Shown
from coachlib.views.panels.shared.panel import Panel
from coachlib.views.panels.shared.typed import Answers


class LaneSideBase(Panel):
    """The base of the lane side and of its parts."""

    logbook: Logbook
    running: LiveSession | None
    shown: Shown
    who: WhoAndLine
    entry: Entry
    _voices: dict[str, Any]
    _drafts: dict[str, tuple[dict[str, Any], bool]]

    @property
    def session(self) -> Session | None:
        """The session as it stands, None before one was started."""
        return self.running.session if self.running else None

    def _run(self) -> LiveSession:
        raise NotImplementedError

    def _clear(self) -> None:
        raise NotImplementedError

    def _end_correction(self) -> None:
        raise NotImplementedError

    def _remember_unit(self, typed: Answers) -> None:
        raise NotImplementedError

    def _show_from_now(self, running: LiveSession, preferences: SetUp | None) -> None:
        raise NotImplementedError

    def _step(self, kind: str, payload: dict[str, Any], status: str, *, is_beside: bool = False) -> None:
        raise NotImplementedError
