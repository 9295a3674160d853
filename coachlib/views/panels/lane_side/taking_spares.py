"""The part of the lane side that asks how the spare went, in one tap."""

from coachlib.errors import InputError
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.spare_ball import ANSWERS, last_leave, spare_shot
from coachlib.views.panels.shared.panel import action


class TakingSpares(LaneSideBase):
    """Spare balls logged or passed over; the lane side is one of these."""

    @action("entry")
    def spare(self, ball: int, result: str, standing: list[int] | None = None) -> None:
        """Log how the spare went; the line, its answer and what was chosen stay as they are."""
        session, n_next = self._run().session, len(self._run().session.shots) + 1
        left = last_leave(session)
        if ball != n_next or left is None:
            message = f"Ball {ball} is logged already; expected ball {n_next}. Mark the next first ball."
            raise InputError(message)
        shot = spare_shot(left, result, standing)
        self._step("shot", {"shot": shot}, f"spare {dict(ANSWERS)[result]}, logged", is_beside=True)

    @action("entry")
    def pass_spare(self) -> None:
        """Go on with the next first ball: no spare was thrown."""
        left = last_leave(self._run().session)
        self.shown.passed_spare = left.number if left else None

    @action("entry")
    def ask_spare(self) -> None:
        """Come back to the spare that was passed over."""
        self.shown.passed_spare = None
