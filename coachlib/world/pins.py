"""The ten pins: their spots, mirror images and what a set of them left standing is called by its gaps.

References
----------
.. [1] Pin spacing 12 in centre to centre, equilateral triangle: USBC specification, quoted second-hand. The
   positions below follow from it and from the head-pin spot at 60 ft.
"""

import math
from collections.abc import Iterable

import numpy as np

from coachlib.errors import raise_input_errors, shown
from coachlib.units import boards_to_in, in_to_boards
from coachlib.world.lane import CENTRE_BOARD, HEAD_PIN_FT

BALL_RADIUS_IN = 4.2975  # 27.002 in round, the largest allowed: USBC specification, quoted second-hand
PIN_RADIUS_IN = 2.383  # belly 4.766 in: transcriptions of the USBC drawing
BALL_TO_PIN_IN = BALL_RADIUS_IN + PIN_RADIUS_IN
"""Distance of the centres of ball and pin where they touch [in]."""

PIN_SPACING_IN = 12.0
ROW_IN = PIN_SPACING_IN * math.sqrt(3.0) / 2.0
ALL_PINS = tuple(range(1, 11))

_ROWS = ((1,), (2, 3), (4, 5, 6), (7, 8, 9, 10))
MIRROR_PIN = {pin: mirror for row in _ROWS for pin, mirror in zip(row, reversed(row), strict=True)}

# By the smaller of a leave and its mirror image.
_NAMES = {
    (2, 4, 5, 8): "bucket",
    (1, 2, 10): "washout",
    (1, 2, 4, 10): "washout",
    (1, 2, 8, 10): "washout",
    (1, 2, 4, 8, 10): "washout",
    (1, 2, 4, 7): "picket fence",
    (2, 7): "baby split",
    (2, 7, 10): "Christmas tree",
    (2, 8): "double wood",
    (1, 5): "double wood",
    (4, 6, 7, 10): "big four",
    (4, 6, 7, 8, 10): "Greek church",
}


def pin_board(pin: int) -> float:
    """Return the board of a pin's spot in the own frame; a right-hander's 10-pin is on board 3.08 [board]."""
    row = next(row for row in _ROWS if pin in row)
    steps = row.index(pin) - (len(row) - 1) / 2.0
    return CENTRE_BOARD - in_to_boards(steps * PIN_SPACING_IN)


def pin_ft(pin: int) -> float:
    """Return how far a pin's spot is from the foul line [ft]."""
    n_rows_behind = next(number for number, row in enumerate(_ROWS) if pin in row)
    return HEAD_PIN_FT + n_rows_behind * ROW_IN / 12.0


def checked_pins(pins: object) -> tuple[int, ...]:
    """Return pins sorted, or raise if one does not exist or is given twice.

    Raises
    ------
    InputError
        If it is no list of pins; or naming the pins that do not exist, or those given twice.
    """
    if isinstance(pins, np.ndarray):
        pins = pins.tolist()
    if isinstance(pins, str | bytes) or not isinstance(pins, Iterable):
        problem = "expected a list of pins 1 to 10, or () for a strike. Give them as numbers, e.g. (4, 9)."
        raise_input_errors({"leave": f"leave is {shown(pins)}; {problem}"})
    given = tuple(pin.item() if isinstance(pin, np.generic) else pin for pin in pins)
    wrong = [pin for pin in given if isinstance(pin, bool) or not isinstance(pin, int) or pin not in ALL_PINS]
    if wrong:
        problem = "expected pins 1 to 10. Type the pins left, e.g. 4 9."
        raise_input_errors({"leave": f"leave holds {', '.join(map(str, wrong))}; {problem}"})
    twice = sorted({pin for pin in given if given.count(pin) > 1})
    if twice:
        problem = "twice; expected each pin once. Take one away."
        raise_input_errors({"leave": f"leave holds {', '.join(map(str, twice))} {problem}"})
    return tuple(sorted(given))


def is_split(leave: Iterable[int]) -> bool:
    """Return whether pins left are a split: head pin down and a gap between or just ahead of pins.

    The gap is a pin down between standing pins (7-9) or just ahead of two of them (5-6), after the USBC
    rulebook's definition, from memory. Pins one behind the other (2-8) are no split.
    """
    standing = set(leave)
    if 1 in standing or len(standing) < 2:
        return False
    group, waiting = set(), [min(standing)]
    while waiting:
        pin = waiting.pop()
        group.add(pin)
        waiting.extend(other for other in standing - group if are_neighbours(pin, other))
    return group != standing


def leave_name(leave: Iterable[int]) -> str:
    """Return what the trade calls the pins left, with their numbers.

    Parameters
    ----------
    leave : iterable of int
        Pins left, as they are to be told: the name is the same for a leave and its mirror image, the numbers
        are those given.

    Returns
    -------
    str
        ``strike``, ``10-pin``, ``bucket 2-4-5-8``, ``split 8-10`` or plainly ``3-6-10``. Names: common
        practice, no source; split: :func:`is_split`.
    """
    pins = checked_pins(leave)
    if len(pins) < 2:
        return f"{pins[0]}-pin" if pins else "strike"
    mirrored = tuple(sorted(MIRROR_PIN[pin] for pin in pins))
    name = _NAMES.get(min(pins, mirrored)) or ("split" if is_split(pins) else "")
    return f"{name} {'-'.join(map(str, pins))}".strip()


def are_neighbours(pin: int, other: int) -> bool:
    """Return whether one pin stands just ahead of the other, to its side or straight."""
    along_in = abs(pin_ft(pin) - pin_ft(other)) * 12.0
    across_in = abs(boards_to_in(pin_board(pin) - pin_board(other)))
    is_diagonal = math.isclose(along_in, ROW_IN) and math.isclose(across_in, PIN_SPACING_IN / 2.0)
    is_straight = math.isclose(along_in, 2.0 * ROW_IN) and math.isclose(across_in, 0.0, abs_tol=1e-9)
    return is_diagonal or is_straight
