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
    found: list[Frame] = []
    total = 0
    for balls, counted, has_all in _frames(_checked(rolls)):
        total += sum(counted)
        is_known = has_all and (not found or found[-1].running_score is not None)
        found.append(Frame(balls, total if is_known else None))
    return tuple(found)


def score(rolls: Sequence[int]) -> int:
    """Return the score as it stands: every pin felled, with the bonus thrown so far."""
    return sum(sum(counted) for _, counted, _ in _frames(_checked(rolls)))


def is_complete(rolls: Sequence[int]) -> bool:
    """Return whether the game is over."""
    begun = _frames(_checked(rolls))
    return len(begun) == N_FRAMES and begun[-1][2]


def max_possible(rolls: Sequence[int]) -> int:
    """Return the most that can still be scored: all that stands falls from now on."""
    played = list(rolls)
    while not is_complete(played):
        begun = _frames(played)
        balls = begun[-1][0] if begun else ()
        goes_on = len(begun) == N_FRAMES or (len(balls) == 1 and balls[0] < _ALL)
        played.append(_standing(balls if goes_on else ()))
    return score(played)


def _frames(rolls: Sequence[int]) -> list[tuple[tuple[int, ...], Sequence[int], bool]]:
    """Return the balls of each frame, those that count for it, and whether all of these are thrown.

    Whatever follows the tenth frame stays in it.
    """
    begun: list[tuple[tuple[int, ...], Sequence[int], bool]] = []
    first = 0
    while first < len(rolls):
        is_last = len(begun) == N_FRAMES - 1
        n_balls = len(rolls) - first if is_last else 1 if rolls[first] == _ALL else 2
        balls = tuple(rolls[first : first + n_balls])
        n_counted = 3 if _ALL in (balls[0], sum(balls[:2])) else 2
        counted = rolls[first : first + n_counted]
        begun.append((balls, counted, len(counted) == n_counted))
        first += n_balls
    return begun


def _standing(balls: Sequence[int]) -> int:
    """Return how many pins stand after some balls of a frame; new ones once all are down."""
    left = _ALL
    for pins in balls:
        left = left - pins or _ALL
    return left


def _checked(rolls: Sequence[int]) -> Sequence[int]:
    """Return the balls, or raise on the first that cannot be."""
    for number, pins in enumerate(rolls, start=1):
        if isinstance(pins, bool) or not isinstance(pins, int) or not 0 <= pins <= _ALL:
            message = f"ball {number} is {pins!r}; expected 0 to 10 pins. Count the pins felled by this ball."
            raise InputError(message)
    for number, (balls, _, _) in enumerate(_frames(rolls), start=1):
        _check_frame(number, balls)
    return rolls


def _check_frame(number: int, balls: tuple[int, ...]) -> None:
    for place, pins in enumerate(balls):
        left = _standing(balls[:place])
        if pins > left:
            problem = f"expected at most {left} pins with ball {place + 1}. Correct it."
            message = f"frame {number} is {balls}; {problem}"
            raise InputError(message)
    if len(balls) > 3 or (len(balls) == 3 and sum(balls[:2]) < _ALL):  # of the tenth: others have two
        message = f"frame {number} is {balls}; expected no ball after the end of the game. Take it away."
        raise InputError(message)
