"""Scoring of a ten-pin game: the score so far, the most still possible, and what a strike is worth now.

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
    return score(_played_on(rolls, ()))


def strike_worth_pins(rolls: Sequence[int], instead: Sequence[int] = (9, 1)) -> int:
    """Return how much more the game ends with if the coming ball is a strike.

    Compared with `instead` in this frame; every later frame is a 9-spare in both, so that only this ball
    differs. A strike on a double is worth more than one after an open frame.

    Parameters
    ----------
    rolls : sequence of int
        The game so far, up to a fresh rack.
    instead : sequence of int
        What the frame would be otherwise, without fill balls: ``(9, 1)`` a spare, ``(9, 0)`` an open frame.

    Raises
    ------
    InputError
        If the next ball is not the first at a fresh rack, the game is over, or `instead` is no frame.
    """
    if is_complete(rolls) or not _is_fresh(rolls):
        message = f"rolls has {len(rolls)} balls and the next is not at ten pins; expected a fresh rack. "
        raise InputError(message + "Give the game up to the end of a frame.")
    wanted = _checked(instead)
    if not 0 < sum(wanted) <= _ALL or len(wanted) != 2 or wanted[0] == _ALL:
        message = (
            f"instead is {tuple(wanted)!r}; expected two balls that fell 1 to 10 pins. Give e.g. (9, 1)."
        )
        raise InputError(message)
    spare = (_ALL - 1, 1)
    with_strike = score(_played_on([*rolls, _ALL], spare))
    return with_strike - score(_played_on([*rolls, *_fitting(rolls, wanted)], spare))


def _fitting(rolls: Sequence[int], balls: Sequence[int]) -> Sequence[int]:
    """Return as many of a frame's balls as the tenth frame has left."""
    split = _split(rolls)
    n_thrown = len(split[-1]) if len(split) == N_FRAMES else 0
    return balls[:1] if n_thrown == 2 else balls


def _played_on(rolls: Sequence[int], habit: Sequence[int]) -> list[int]:
    """Return the game played to its end: each fresh rack by `habit`, or everything with the next ball."""
    played = list(rolls)
    while not is_complete(played):
        standing = _standing(played)
        is_habit = standing == _ALL and bool(habit)
        played.append(habit[0] if is_habit else standing)
    return played


def _standing(rolls: Sequence[int]) -> int:
    """Return how many pins stand before the next ball."""
    split = _split(rolls)
    if not split or _is_full(split[-1], is_last=len(split) == N_FRAMES):
        return _ALL
    left = _ALL
    for pins in split[-1]:
        left = left - pins or _ALL
    return left


def _is_fresh(rolls: Sequence[int]) -> bool:
    return _standing(_checked(rolls)) == _ALL and not _is_second_at_gutter(rolls)


def _is_second_at_gutter(rolls: Sequence[int]) -> bool:
    """Return whether the last ball fell no pin and was the first of its frame or rack."""
    split = _split(rolls)
    return bool(split) and not _is_full(split[-1], len(split) == N_FRAMES) and split[-1][-1] == 0


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
