"""The part of the lane side that takes steps back, and puts an earlier ball right."""

from coachlib.coaching.session.setting import Observed
from coachlib.errors import raise_input_errors
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.shared.form import doubts, shot_answers, shot_from
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.shots import undone_words
from coachlib.views.panels.shared.typed import Answers
from coachlib.world.shot import Shot


class Correcting(LaneSideBase):
    """Undo, and an earlier ball opened, saved or left as it was; the lane side is one of these."""

    @action("entry")
    def undo(self) -> None:
        """Take the last step back; a ball taken back stands in the form again."""
        before = self._run().session
        with self.entry.hold_sync():  # the form is not seen empty in between
            self._step("undo", {}, "")
            after = self._run().session
            self.shown.status = undone_words(before, after)
            if len(after.shots) < len(before.shots) and not before.shots[-1].shot.is_spare:
                self._fill(before.shots[-1])

    @action("entry")
    def correct(self, number: int) -> None:
        """Open an earlier ball in the form."""
        if self.shown.correcting is None:
            self.shown.draft = (self.entry.typed, self.entry.stale)
        self._fill(self._run().session.shots[number - 1])
        self.shown.correcting = number

    @action("entry")
    def save(self, number: int, typed: Answers) -> None:
        """Replace an earlier ball by what the form says; it and the balls after it are answered again."""
        before, self.entry.typed = self._run().session, dict(typed)
        seen = before.shots[number - 1]
        shot = shot_from(typed, seen.setting.bowler.hand)
        self._ask_once(shot, typed)
        self._step("correct", {"number": number, "shot": shot}, f"ball {number} corrected")
        self._remember_unit(typed)
        is_beside = seen.shot.is_spare and shot.is_spare
        if self._run().session != before and not is_beside:
            self._run().answer_again(number, self.shown.preferences.to)

    @action("entry")
    def cancel(self) -> None:
        """Leave an earlier ball as it was."""
        self._end_correction()

    def _fill(self, seen: Observed) -> None:
        hand, unit = seen.setting.bowler.hand, self.shown.preferences.speed_unit
        self.entry.typed, self.entry.stale = shot_answers(seen.shot, hand, unit), False

    def _end_correction(self) -> None:
        if self.shown.correcting is not None:
            self.shown.correcting = None
            self.entry.typed, self.entry.stale = self.shown.draft

    def _ask_once(self, shot: Shot, typed: Answers) -> None:
        """Ask back where what was seen does not go together; the same form sent again is taken as it is."""
        was_asked, self.shown.asked = self.shown.asked == dict(typed), dict(typed)
        if not was_asked and (asked := doubts(shot)):
            raise_input_errors(asked)
