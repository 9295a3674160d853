"""Scoring of a ten-pin game: the score so far, and the most still possible.

References
----------
.. [1] USBC Playing Rules, chapter 2 (scoring of strike, spare and open frame, tenth frame), from memory: a
   strike counts ten and the next two balls, a spare ten and the next ball; in the tenth frame a strike or a
   spare earns the balls that its bonus needs.
"""

from collections.abc import Sequence
from typing import NamedTuple

from coachlib.errors import InputError

N_FRAMES = 10
_ALL = 10


class Frame(NamedTuple):
    """One frame: its balls, and the running score after it where all its bonus balls are thrown."""

    rolls: tuple[int, ...]
    running_score: int | None


def frames(rolls: Sequence[int]) -> tuple[Frame, ...]:
    """Return the frames begun so far.

    Parameters
    ----------
    rolls : sequence of int
        Pins felled by each ball, in the order thrown; a strike is one entry of 10.

    Raises
    ------
    InputError
        If a ball fells more pins than stand, or balls are left over after the tenth frame.
    """
    split = _split(_checked(rolls))
    found: list[Frame] = []
    first, total = 0, 0
    for balls in split:
        points = _points(rolls, first, balls, is_last=len(found) == N_FRAMES - 1)
        is_known = points is not None and (not found or found[-1].running_score is not None)
        total += points or 0
        found.append(Frame(balls, total if is_known else None))
        first += len(balls)
    return tuple(found)


def score(rolls: Sequence[int]) -> int:
    """Return the score as it stands: every pin felled, with the bonus thrown so far."""
    total, first = 0, 0
    for number, balls in enumerate(_split(_checked(rolls)), start=1):
        n_counted = 3 if number == N_FRAMES or balls[0] == _ALL or sum(balls) == _ALL else len(balls)
        total += sum(rolls[first : first + n_counted])
        first += len(balls)
    return total


def is_complete(rolls: Sequence[int]) -> bool:
    """Return whether the game is over."""
    split = _split(_checked(rolls))
    return len(split) == N_FRAMES and _is_full(split[-1], is_last=True)


def max_possible(rolls: Sequence[int]) -> int:
    """Return the most that can still be scored: all that stands falls from now on."""
    played = list(rolls)
    while not is_complete(played):
        played.append(_standing(played))
    return score(played)


def _standing(rolls: Sequence[int]) -> int:
    """Return how many pins stand before the next ball."""
    split = _split(rolls)
    if not split or _is_full(split[-1], is_last=len(split) == N_FRAMES):
        return _ALL
    left = _ALL
    for pins in split[-1]:
        left = left - pins or _ALL
    return left


def _split(rolls: Sequence[int]) -> list[tuple[int, ...]]:
    """Return the balls by frame; whatever follows the tenth stays in it."""
    split: list[tuple[int, ...]] = []
    first = 0
    while first < len(rolls):
        is_last = len(split) == N_FRAMES - 1
        n_balls = len(rolls) - first if is_last else 1 if rolls[first] == _ALL else 2
        split.append(tuple(rolls[first : first + n_balls]))
        first += n_balls
    return split


def _is_full(balls: Sequence[int], is_last: bool) -> bool:
    if is_last:
        return len(balls) == 3 or (len(balls) == 2 and sum(balls) < _ALL)
    return balls[0] == _ALL or len(balls) == 2


def _points(rolls: Sequence[int], first: int, balls: tuple[int, ...], is_last: bool) -> int | None:
    """Return what a frame scores, or None while a ball it counts is missing."""
    if is_last:
        return sum(balls) if _is_full(balls, is_last) else None
    n_counted = 3 if balls[0] == _ALL or sum(balls) == _ALL else 2
    counted = rolls[first : first + n_counted]
    return sum(counted) if len(counted) == n_counted else None


def _checked(rolls: Sequence[int]) -> Sequence[int]:
    """Return the balls, or raise on the first that cannot be."""
    for number, pins in enumerate(rolls, start=1):
        if isinstance(pins, bool) or not isinstance(pins, int) or not 0 <= pins <= _ALL:
            message = f"ball {number} is {pins!r}; expected 0 to 10 pins. Count the pins felled by this ball."
            raise InputError(message)
    for number, balls in enumerate(_split(rolls), start=1):
        _check_frame(number, balls)
    return rolls


def _check_frame(number: int, balls: tuple[int, ...]) -> None:
    left = _ALL
    for place, pins in enumerate(balls, start=1):
        if pins > left:
            message = (
                f"frame {number} is {balls}; expected at most {left} pins with ball {place}. Correct it."
            )
            raise InputError(message)
        left = left - pins or _ALL
    is_over = number == N_FRAMES and (len(balls) > 3 or (len(balls) == 3 and sum(balls[:2]) < _ALL))
    if is_over:
        message = f"frame {number} is {balls}; expected no ball after the end of the game. Take it away."
        raise InputError(message)
