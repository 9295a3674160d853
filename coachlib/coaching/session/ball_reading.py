"""What one ball tells: where it crossed, where it met the pins, what it left, and what the miss explains.

What pins left say about an arrival that was not seen is a rule of thumb: after the leave-to-cause lists of
P. Ridenour, "Is that the 3 pin carrying the 10 pin?" (USBC research), a regional coach's column, "I got a bad
break" (Apr 2005), and French coaching articles; the rest common practice, no source. Pins are numbered in the
own frame: the 10 is the corner on the bowling hand's side.
"""

from typing import Literal

from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler
from coachlib.world.lane import ArrivalClass, arrival_class_board
from coachlib.world.levers import aim_lever, is_hooking
from coachlib.world.line import Line
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

PocketSide = Literal["high", "light", "pocket"]

SIDE_OF_CLASS: dict[ArrivalClass, PocketSide] = {
    "out": "light",
    "far_light": "light",
    "light": "light",
    "pocket": "pocket",
    "high": "high",
    "nose": "high",
    "crossover": "high",
    "past": "high",
}
ON_TARGET_BOARDS = 1.0
KEEN_ON_TARGET_BOARDS = 0.5  # an average of about 220 and better: half a board is told apart
USUAL_SPREADS = 1.645
"""Nine balls of ten cross within so many standard deviations of the target (normal distribution)."""
HOOKING_LEVER_SHARE = 0.5  # a hooking ball gives back about half of a straight line's lever (rule of thumb)


def arrival_board(shot: Shot) -> float | None:
    """Return where a ball met the pins, or where its leave says it did [board]."""
    if shot.arrival_board is not None:
        return shot.arrival_board
    named = arrival_class(shot)
    return None if named is None else arrival_class_board(named)


def arrival_class(shot: Shot) -> ArrivalClass | None:
    """Return the class of the arrival, or the one that usually leaves the pins left; None for others."""
    if shot.arrival_class is not None or shot.leave is None:
        return shot.arrival_class
    return _CLASS_OF_LEAVE.get(leave_key(shot.leave))


def is_gutter_ball(shot: Shot) -> bool:
    """Return whether a first ball ended in the gutter: out on the own side, and no pin taken."""
    return shot.arrival == "out" and shot.leave == ALL_PINS and not shot.is_spare


def side_of(shot: Shot) -> PocketSide | None:
    """Return on which side of the pocket a ball came in."""
    named = arrival_class(shot)
    return None if named is None else SIDE_OF_CLASS[named]


def on_target_boards(bowler: Bowler) -> float:
    """Return how far from the target, as marked, a ball still counts as on it [boards]."""
    is_keen = bowler.arrow_sd_boards <= ACCURACY_SD_BOARDS["220"]
    return KEEN_ON_TARGET_BOARDS if is_keen else ON_TARGET_BOARDS


def usual_spread_boards(bowler: Bowler) -> float:
    """Return how far from the target nine of ten balls of a bowler cross, at least the mark [boards].

    Grade: derived from the bowler's accuracy, see :data:`coachlib.world.bowler.ACCURACY_SD_BOARDS`.
    """
    return max(on_target_boards(bowler), USUAL_SPREADS * bowler.arrow_sd_boards)


def miss_lever(bowler: Bowler, target_ft: float) -> float:
    """Return how many boards at the pins one board of miss at the target is worth.

    60 / target distance on a straight line; half of it for a ball of more than 200 rpm or unknown revs, since
    the lane takes back part of the miss. Grade: rule of thumb.
    """
    return aim_lever(target_ft) * (HOOKING_LEVER_SHARE if is_hooking(bowler) else 1.0)


def missed_boards(shot: Shot, line: Line, bowler: Bowler) -> float | None:
    """Return the miss of a ball off the mark, 0.0 of one on it, None where it was not noted [boards].

    A ball off the mark may still be within the bowler's usual spread: then it is weak evidence.
    """
    if shot.crossed_board is None:
        return None
    miss = shot.crossed_board - line.target_board
    return miss if abs(miss) > on_target_boards(bowler) else 0.0


_LEAVES_BY_CLASS: dict[ArrivalClass, tuple[str, ...]] = {
    "pocket": ("", "7", "8", "9", "10", "7 10", "8 10", "5 7"),
    "high": ("4", "4 7", "4 9", "4 7 9", "4 7 10"),
    "nose": ("4 6", "4 6 7", "4 6 10", "4 6 7 10", "6 7 10", "3 6 7 10", "4 6 7 9 10", "4 6 7 8 10", "4 6 9"),
    "light": ("5", "2", "2 4", "2 5", "2 8", "2 4 5", "2 5 8", "2 4 8", "2 4 5 8", "5 8", "2 10", "5 10"),
    "far_light": ("1 2", "1 2 4", "1 2 10", "1 2 4 10", "1 2 4 7", "1 2 8", "1 2 4 8", "1 2 4 5 8"),
    "crossover": ("3 10", "6 10", "3 6 10"),
}
_CLASS_OF_LEAVE = {leave: name for name, leaves in _LEAVES_BY_CLASS.items() for leave in leaves}


def leave_key(leave: tuple[int, ...]) -> str:
    """Return pins left as the text under which rules and tables know them, e.g. ``"4 9"``."""
    return " ".join(str(pin) for pin in sorted(leave))
