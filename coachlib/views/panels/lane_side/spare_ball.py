"""The second ball: asked for as soon as pins are left, answered by one tap, never read for the line."""

from collections.abc import Sequence
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.errors import InputError
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.shared.form import leave_text
from coachlib.views.panels.shared.panel import action
from coachlib.world.hand import own_pins
from coachlib.world.shot import Shot

ANSWERS = (("missed_left", "missed left"), ("made", "made"), ("missed_right", "missed right"))
"""What may be answered and the words on it, from left to right as seen from behind."""


def open_spare(session: Session, passed: int | None) -> Observed | None:
    """Return the first ball whose spare is asked for now, unless it was `passed` over."""
    left = last_leave(session)
    return None if left is None or left.number == passed else left


def last_leave(session: Session) -> Observed | None:
    """Return the last ball, if it is a first ball on this lane that left pins."""
    last = session.shots[-1] if session.shots else None
    if last is None or last.lane != session.lane or last.shot.is_spare or not last.shot.leave:
        return None
    return last


def spare_view(session: Session, left: Observed, words: str) -> dict[str, Any]:
    """Return what is asked of a spare ball: pins as numbered on the lane, and the spare system's `words`."""
    hand, leave = left.setting.bowler.hand, left.shot.leave or ()
    return {
        "ball": len(session.shots) + 1,
        "title": f"Spare: {leave_text(leave, hand)} left. How did it go?",
        "words": words,
        "answers": [list(one) for one in ANSWERS],
        "pins": list(own_pins(leave, hand)),
    }


def spare_shot(left: Observed, result: str, standing: Sequence[int] | None = None) -> Shot:
    """Return the spare ball that an answer describes.

    Parameters
    ----------
    left : Observed
        The first ball that left the pins.
    result : {"missed_left", "made", "missed_right"}
        The answer; the side of a miss is kept as a note, as it was seen from behind.
    standing : sequence of int, optional
        Pins that still stand after a miss, as numbered on the lane; all of them if left out. A single
        pin needs no mark: missed, it still stands.

    Raises
    ------
    InputError
        If there is no such answer, or pins stand that were not left.
    """
    words = dict(ANSWERS).get(result)
    if words is None:
        known = ", ".join(said for _, said in ANSWERS)
        message = f"Tap one of the three: {known}. “{result}” is none of them."
        raise InputError(message, {"form": message})
    if result == "made":
        return Shot(leave=(), is_spare=True)
    return Shot(leave=_still_standing(left, standing), is_spare=True, note=words)


def _still_standing(left: Observed, standing: Sequence[int] | None) -> tuple[int, ...]:
    """Return the pins that a miss left, in the own frame; a single pin needs no mark."""
    leave, hand = left.shot.leave or (), left.setting.bowler.hand
    if standing is None or (not standing and len(leave) == 1):
        return leave
    kept = own_pins(tuple(standing), hand)
    if not kept or not set(kept) <= set(leave):
        message = (
            f"Tap only the pins that fell, or “made” if all did. Standing now: "
            f"{' '.join(map(str, standing)) or 'none'}. Some of {leave_text(leave, hand)} must stand."
        )
        raise InputError(message, {"form": message})
    return tuple(sorted(kept))


class TakingSpares(LaneSideBase):
    """Spare balls logged or passed over; the lane side is one of these."""

    @action("entry")
    def spare(self, ball: int, result: str, standing: list[int] | None = None) -> None:
        """Log how the spare went; the line, its answer and what was chosen stay as they are."""
        session = self._run().session
        left, n_next = last_leave(session), len(session.shots) + 1
        if ball != n_next or left is None:
            message = f"Mark the next first ball, ball {n_next}. Ball {ball} is logged already."
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
