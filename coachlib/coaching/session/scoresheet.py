"""A score sheet entered by its frames: strikes and leaves become balls of a session, and the balls frames.

A frame is written as the pins standing after each of its balls, in the own frame: ``((),)`` is a strike,
``((10,), ())`` a spare after the 10-pin, ``((4, 9), (9,))`` an open frame. Its marks and sums come from
:mod:`coachlib.world.game`.
"""

import dataclasses
from collections.abc import Iterable, Iterator, Sequence
from typing import Any, NamedTuple, NoReturn

from coachlib.coaching.session.session import Session
from coachlib.errors import checked_thing, raise_input_errors, shown
from coachlib.world import game
from coachlib.world.pins import ALL_PINS, checked_pins
from coachlib.world.shot import Shot

LeftPins = tuple[int, ...]
FrameLeaves = tuple[LeftPins, ...]


class SheetSteps(NamedTuple):
    """What a score sheet adds to a session.

    Parameters
    ----------
    steps : tuple of (kind, payload)
        ``shot`` for balls that were not logged, ``correct`` for those logged with other pins or none.
    left_out : tuple of int
        Frames whose spare ball cannot come in, since later balls were logged already.
    """

    steps: tuple[tuple[str, dict[str, Any]], ...]
    left_out: tuple[int, ...]


class _Ball(NamedTuple):
    frame: int
    leave: LeftPins
    n_felled: int
    is_first: bool  # thrown at a fresh rack


def rolls_of(frames: Sequence[FrameLeaves]) -> tuple[int, ...]:
    """Return the pins felled by each ball, as :func:`coachlib.world.game.frames` takes them.

    Frames hold the pins standing after each ball, own frame; the game may stop anywhere.

    Raises
    ------
    InputError
        If a pin stands that was down before, a ball follows the end of a frame or of the game, or a frame
        has a ball too few before the last one.
    """
    return tuple(ball.n_felled for ball in _checked_balls(frames))


def marks_of(frames: Sequence[FrameLeaves]) -> tuple[str, ...]:
    """Return what a score sheet shows in each frame, ``X``, ``9/``, ``8-``; errors as :func:`rolls_of`."""
    marks = [""] * len(frames)
    for ball in _checked_balls(frames):
        is_all = not ball.leave
        felled = str(ball.n_felled) if ball.n_felled else "-"
        marks[ball.frame - 1] += ("X" if ball.is_first else "/") if is_all else felled
    return tuple(marks)


def games_of(shots: Iterable[Shot]) -> tuple[tuple[FrameLeaves, ...], ...]:
    """Return the frames of logged balls, game by game; the last game may be unfinished.

    Raises
    ------
    InputError
        Naming the ball: its pins were not noted, or it is a first ball where pins still stood.
    """
    games: list[list[FrameLeaves]] = [[]]
    for number, shot in enumerate(shots, start=1):
        if games[-1] and game.is_complete(rolls_of(games[-1])):
            games.append([])
        _add_ball(games[-1], number, shot)
    for frames in games:
        _checked_balls(frames)
    return tuple(tuple(frames) for frames in games if frames)


def sheet_steps(session: Session, frames: Sequence[FrameLeaves], first_ball: int = 1) -> SheetSteps:
    """Return what brings the balls of a score sheet into a session; the session itself stays as it is.

    The session may hold all balls, first balls alone, or none; `frames` are one game, which began with the
    session's ball `first_ball`.

    Raises
    ------
    InputError
        As :func:`rolls_of`; or naming the ball that is logged as a spare where the sheet has a first ball.
    """
    waiting = list(checked_thing("session", session, Session).shots[first_ball - 1 :])
    steps: list[tuple[str, dict[str, Any]]] = []
    left_out: list[int] = []
    for ball in _checked_balls(frames):
        if not waiting:
            steps.append(("shot", {"shot": Shot(leave=ball.leave, is_spare=not ball.is_first)}))
            continue
        number, shot = waiting[0].number, waiting[0].shot
        if shot.is_spare and ball.is_first:
            fix = "Correct that ball, or the frame before it."
            expected = f"expected the first ball of frame {ball.frame}. {fix}"
            raise_input_errors({"frames": f"ball {number} is logged as a spare ball; {expected}"})
        if not ball.is_first and not shot.is_spare:
            left_out.append(ball.frame)
            continue
        waiting.pop(0)
        if shot.leave != ball.leave:
            steps.append(("correct", {"number": number, "shot": dataclasses.replace(shot, leave=ball.leave)}))
    return SheetSteps(tuple(steps), tuple(left_out))


def _refuse(number: int, frame: FrameLeaves, allowed: str) -> NoReturn:
    fix = "Tap the pins that stood after each ball."
    raise_input_errors({"frames": f"frame {number} is {shown(frame)}; expected {allowed}. {fix}"})


def _checked_balls(frames: Sequence[FrameLeaves]) -> list[_Ball]:
    """Return the balls of a sheet, checked against the rules of the game."""
    balls = list(_balls(frames))
    for number, frame in enumerate(frames[: game.N_FRAMES - 1], start=1):
        n_full = 2 if frame[0] else 1
        if len(frame) > n_full or (len(frame) < n_full and number < len(frames)):
            _refuse(number, frame, "two balls, or one for a strike")
    game.frames([ball.n_felled for ball in balls])  # the tenth frame's own rules
    return balls


def _balls(frames: Sequence[FrameLeaves]) -> Iterator[_Ball]:
    for number, frame in enumerate(frames, start=1):
        before: LeftPins = ALL_PINS
        is_first = True
        if not frame:
            _refuse(number, frame, "at least one ball")
        for leave in map(checked_pins, frame):
            if not set(leave) <= set(before):
                allowed = f"only pins of {', '.join(map(str, before))} still standing"
                _refuse(number, frame, allowed)
            yield _Ball(number, leave, len(before) - len(leave), is_first)
            before, is_first = leave or ALL_PINS, not leave


def _add_ball(frames: list[FrameLeaves], number: int, shot: Shot) -> None:
    """Put a logged ball into the frame it belongs to."""
    if shot.leave is None:
        fix = "expected the pins it left, or all down. Correct that ball."
        raise_input_errors({"leave": f"ball {number} has no pins noted; {fix}"})
    is_fresh = not frames or is_frame_over(frames)
    is_at_ten = is_fresh or not frames[-1][-1]
    if shot.is_spare == is_at_ten:
        stood = "ten pins" if is_at_ten else "pins " + " ".join(map(str, frames[-1][-1]))
        kind, other = ("spare", "first") if is_at_ten else ("first", "spare")
        fix = "Correct that ball, or enter the ball that is missing before it."
        logged = f"ball {number} is logged as a {kind} ball with {stood} standing"
        raise_input_errors({"is_spare": f"{logged}; expected a {other} ball. {fix}"})
    if is_fresh:
        frames.append((shot.leave,))
    else:
        frames[-1] = (*frames[-1], shot.leave)


def is_frame_over(frames: Sequence[FrameLeaves]) -> bool:
    """Return whether the frame begun last has all its balls."""
    if len(frames) == game.N_FRAMES:
        return game.is_complete(rolls_of(frames))
    return len(frames[-1]) == 2 or not frames[-1][0]
