"""Which balls speak for a line: those in the pocket that did not miss the target. A strike alone does not."""

from coachlib.coaching.session.ball_reading import missed_boards, side_of
from coachlib.coaching.session.session import Observed


def is_off_target(seen: Observed) -> bool:
    """Return whether a ball is known to have missed its target."""
    return bool(missed_boards(seen.shot, seen.line, seen.setting.bowler))


def credits_line(seen: Observed) -> bool:
    """Return whether a ball speaks for the line it was thrown on.

    Only a first ball that came into the pocket does, and only if it is not known to have missed the target.
    A strike that came in across, high or light is luck of the pins; one from a missed target is another
    line's. Where only the pins were noted, a strike counts as one from the pocket, the usual way to it.
    Grade: common practice, no source.

    Parameters
    ----------
    seen : Observed
        The ball, with the line and the bowler it was thrown by.
    """
    return not seen.shot.is_spare and side_of(seen.shot) == "pocket" and not is_off_target(seen)
