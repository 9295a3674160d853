"""What the pins left say about the arrival, where the arrival itself was not seen.

Grade: rule of thumb. After the leave-to-cause lists of P. Ridenour, "Is that the 3 pin carrying the 10
pin?" (USBC research), a regional coach's column, "I got a bad break" (Apr 2005), and French coaching
articles; the rest common practice, no source. Pins are numbered in the own frame: the 10 is the corner on
the bowling hand's side.
"""

from coachlib.world.lane import ArrivalClass

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


def arrival_from_leave(leave: tuple[int, ...]) -> ArrivalClass | None:
    """Return the arrival that usually leaves these pins, or None for a leave that does not tell.

    Parameters
    ----------
    leave : tuple of int
        Pins left by a first ball, own frame; () is a strike.
    """
    return _CLASS_OF_LEAVE.get(leave_key(leave))
