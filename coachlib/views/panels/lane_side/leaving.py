"""The part of the lane side that leaves a session: its summary first, then its end."""

import base64

from coachlib.errors import DataFileError
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.session_summary import SAVED, SessionSummary, summary_page, summary_view
from coachlib.views.panels.shared.panel import action


class Leaving(LaneSideBase):
    """Ending the session that runs, or the one offered; the lane side is one of these."""

    summary: SessionSummary

    @action("who")
    def start_new(self) -> None:
        """Leave the session offered: its summary first, then the form for who throws."""
        key = self.logbook.latest_open()
        if key is None:
            self._clear()
        else:
            self._leave(key)

    @action("who")
    def end(self) -> None:
        """Leave the session: its summary first; one without a ball ends at once."""
        self._leave(self._run().key)

    @action("who")
    def keep_going(self) -> None:
        """Go back from the summary; nothing was ended."""
        self.shown.summary = self.shown.ending = None

    @action("who")
    def close_session(self) -> None:
        """End the session whose summary is shown: it stays in the log and is not offered again."""
        if self.shown.ending is not None:
            self._close(self.shown.ending)

    @action("who")
    def print_page(self) -> None:
        """Give the browser the summary as a page to print; nothing is ended."""
        if self.shown.ending is None:
            return
        page = summary_page(self.logbook, self.shown.ending)
        name = f"{page.stem}.html"
        self.summary.file = {
            "name": name,
            "mime": "text/html",
            "content": base64.b64encode(page.text.encode()).decode(),
            "number": self.summary.file.get("number", 0) + 1,
            "told": SAVED.format(name=name),
        }

    def _leave(self, key: str) -> None:
        try:
            summary = summary_view(self.logbook, key, is_running=self.running is not None)
        except DataFileError:  # it cannot be read: nothing to show, and it must not stand in the way
            summary = None
        if summary is None:
            self._close(key)
        else:
            self.shown.summary, self.shown.ending, self.shown.is_open = summary, key, False

    def _close(self, key: str) -> None:
        self.logbook.close(key)
        self.running = None
        self._clear()
