"""What was seen of one ball, all of it, in words with units; and which pins stood before a spare ball."""

from collections.abc import Sequence

from coachlib.coaching.session.ball_reading import is_gutter_ball
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.views.panels.shared.form import HIT_WORDS, leave_text
from coachlib.world.hand import Hand
from coachlib.world.parsing import board_text
from coachlib.world.shot import Shot

MOTION_WORDS = {"skid_long": "skidded long", "over_hook": "over-hooked", "roll_out": "rolled out"}


def all_seen_words(shot: Shot, hand: Hand) -> str:
    """Return all that was noted of a ball, e.g. ``"Crossed board 12, came in high, pins 4 left, 15.2 mph"``.

    Parameters
    ----------
    shot : Shot
        The ball; boards in the own frame, as a bowler counts them.
    hand : {"right", "left"}
        For the numbers of the pins.

    Returns
    -------
    str
        A sentence or two, the note as it was written last; empty where nothing was noted.
    """
    crossed, *way = way_seen(shot)
    hit = HIT_WORDS.get(shot.hit or "", "")
    parts = (crossed, _came_in(shot), _pins(shot, hand), hit, *way, *_feet(shot))
    words = ", ".join(filter(None, parts))
    told = f"{words[:1].upper()}{words[1:]}." if words else ""
    return " ".join(filter(None, (told, f"Noted: {shot.note}" if shot.note else "")))


def way_seen(shot: Shot) -> tuple[str, str, str, str]:
    """Return crossing, turn, breakpoint and speed of a ball in words; each empty where it was not seen."""
    crossed = "" if shot.crossed_board is None else f"crossed board {board_text(shot.crossed_board)}"
    turned = "" if shot.motion is None else MOTION_WORDS.get(shot.motion, f"turned {shot.motion}")
    speed = "" if shot.speed_mph is None else f"{shot.speed_mph:.1f} mph at the hand"
    return crossed, turned, _breakpoint(shot), speed


def stood_words(shots: Sequence[Observed], number: int) -> str:
    """Return which pins stood before a spare ball: ``"pins 3 6 10 stood before it"``.

    Parameters
    ----------
    shots : sequence of Observed
        All balls of the session, in order.
    number : int
        The spare ball, 1 for the first ball of the session.
    """
    seen = shots[number - 1]
    before = shots[number - 2] if number > 1 else None
    if before is None or before.lane != seen.lane or before.shot.is_spare or not before.shot.leave:
        return "the pins that stood before it were not noted"
    pins = leave_text(before.shot.leave, seen.setting.bowler.hand)
    return f"pin{'s' * (len(before.shot.leave) > 1)} {pins} stood before it"


def _came_in(shot: Shot) -> str:
    if shot.arrival is None:
        return ""
    if not isinstance(shot.arrival, str):
        return f"came in on board {board_text(shot.arrival)}"
    if is_gutter_ball(shot):
        return "ended in the gutter"
    return ARRIVAL_WORDS[shot.arrival].did


def _pins(shot: Shot, hand: Hand) -> str:
    if not shot.leave:
        return leave_text(shot.leave, hand)
    return f"pin{'s' * (len(shot.leave) > 1)} {leave_text(shot.leave, hand)} left"


def _breakpoint(shot: Shot) -> str:
    board = "" if shot.breakpoint_board is None else f" on board {board_text(shot.breakpoint_board)}"
    along = "" if shot.breakpoint_ft is None else f" at {shot.breakpoint_ft:.0f} ft"
    return f"farthest out{board}{along}" if board or along else ""


def _feet(shot: Shot) -> tuple[str, str]:
    start = "" if shot.start_board is None else f"started on board {board_text(shot.start_board)}"
    slide = "" if shot.slide_board is None else f"slid on board {board_text(shot.slide_board)}"
    return start, slide
