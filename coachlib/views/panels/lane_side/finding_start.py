"""The part of the lane side that suggests a starting line, and never puts it over one that was typed."""

from coachlib.views.panels.lane_side.begin import with_line, with_starting_line
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.set_up_form import set_up_from
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.typed import Answers


class FindingStart(LaneSideBase):
    """A starting line asked for in the form, and taken or not; the lane side is one of these."""

    @action("who")
    def find_start(self, typed: Answers) -> None:
        """Fill feet and target of the form with the starting line for its bowler, ball and pattern."""
        self.who.typed = dict(typed)
        self.shown.n_starts, self.shown.start_words = self.shown.n_starts + 1, ""
        self.shown.start_line = None
        self.who.typed, self.shown.start_words, self.shown.start_line = with_starting_line(
            typed, self.session
        )
        if self.shown.start_line is None:
            self._plan_for(self.who.typed)

    @action("who")
    def take_start(self, typed: Answers) -> None:
        """Take the starting line that was offered beside another one."""
        if self.shown.start_line is not None:
            self.who.typed = with_line(typed, self.shown.start_line)
            self.shown.start_line = None
            self._plan_for(self.who.typed)

    def _plan_for(self, typed: Answers) -> None:
        known = self.session.bowler if self.session else None
        self.shown.planned = set_up_from(typed, known, self.session)


def offer_words(line: tuple[str, str] | None) -> str:
    """Return the words of the button that takes a line offered; empty where none is."""
    return "" if line is None else f"Use feet {line[0]}, target {line[1]} instead"
