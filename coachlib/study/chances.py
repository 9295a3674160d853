"""How many of a bowler's balls strike on a line: their scatter thrown at it, and the pins asked.

All lines are thrown with the same errors, so that two of them differ by the line alone. It is what a judge
may know: on the sheet it ranks lines to begin with, on a hidden film it is the truth.
"""

import dataclasses
import functools
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.levers import fits_problems, laydown_board
from coachlib.errors import InputError
from coachlib.physics.carry import strike_prob
from coachlib.physics.friction import Grip, grip_of
from coachlib.physics.kernel import march
from coachlib.physics.motion import ground_of, launch_of, path_of
from coachlib.physics.states import Ground
from coachlib.study.hidden_bowler import HiddenBowler, as_said, even_errors
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import Release
from coachlib.world.usual import with_hook_of

Floats = NDArray[np.float64]

N_LOOK, N_SURE, N_KEPT = 32, 256, 16
"""Balls at every line, balls at the best of them, and how many of them."""

MOST_OUT_BOARDS = 12.0
"""Lines to begin with aim straight ahead or up to so far outside of the laydown, at the target [boards]."""


@dataclasses.dataclass(frozen=True)
class Surface:
    """What a ball rolls on: the film as the march reads it, and the friction law that goes with it."""

    ground: Ground
    grip: Grip

    def roll(self, release: Release, ball: Ball, keep_path: bool = False) -> Path:
        """Return where balls go."""
        return path_of(release, march(launch_of(release, ball), self.ground, self.grip, 2 * keep_path))


def strikes_of(path: Path, ball: Ball) -> Floats:
    """Return the chance of a strike of each ball that arrived; 0 for one in the gutter."""
    arrived = ~path.gutter
    chances = np.zeros(path.n_shots)
    board = np.clip(path.arrival_board[arrived], 0.0, 40.0)
    entry = np.clip(path.entry_deg[arrived], -15.0, 20.0)
    chances[arrived] = strike_prob(board, entry, path.speed_at_pins_mph[arrived], ball.weight_lb)
    return chances


def line_chances(
    lines: Sequence[Line],
    bowler: HiddenBowler,
    ball: Ball,
    surface: Surface,
    n_balls: int = N_SURE,
    ball_number: int = 0,
    draw: int = 0,
) -> Floats:
    """Return the chance of a strike on each line under the bowler's scatter, shape (n_lines,).

    Parameters
    ----------
    lines : sequence of Line
        What is meant.
    bowler, ball, surface
        Who throws what on what.
    n_balls : int
        Balls a line.
    ball_number : int
        How many balls were thrown before: the bowler tires.
    draw : int
        Another number throws other errors. Who judges a line takes another one than who chose it: the best of
        many is too good on the errors that it was chosen by.
    """
    release = bowler.releases(lines, even_errors(n_balls, draw), ball_number)
    return strikes_of(surface.roll(release, ball), ball).reshape(len(lines), n_balls).mean(axis=1)


def best_line(lines: Sequence[Line], chances: Callable[[Sequence[Line], int], Floats]) -> Line:
    """Return the line with the best chance: a look at all of them, then a long look at the best.

    Parameters
    ----------
    lines : sequence of Line
        At least one.
    chances : callable
        From lines and balls a line to the chance on each.
    """
    first = np.argsort(-chances(lines, N_LOOK), kind="stable")[:N_KEPT]
    kept = [lines[int(number)] for number in first]
    return kept[int(np.argmax(chances(kept, N_SURE)))]


@functools.lru_cache(maxsize=64)
def lines_about(line: Line, bowler: Bowler, feet_reach: int, target_reach: int) -> tuple[Line, ...]:
    """Return the lines within reach that fit lane, approach and bowler; the line itself is the first."""
    near = [line]
    for feet in range(-feet_reach, feet_reach + 1):
        for target in range(-target_reach, target_reach + 1):
            new = _line_or_none(line.feet_board + feet, line.target_board + target, line.target_ft)
            if new is not None and new != line and not fits_problems(new, bowler, line):
                near.append(new)
    return tuple(near)


@functools.lru_cache(maxsize=256)
def start_line(bowler: Bowler, ball: Ball, pattern: OilPattern) -> Line:
    """Return the line of whole boards that promises most on the sheet, for the bowler as they said.

    Raises
    ------
    InputError
        If no line fits the bowler's stance limits, or the pattern has no film.
    """
    bowler = with_hook_of(bowler, ball)
    surface = Surface(ground_of(pattern, bowler.hand), grip_of(ball))
    lines = _sensible_lines(bowler)
    if not lines:
        message = (
            f"feet_low_board and feet_high_board are {bowler.feet_low_board:g} and "
            f"{bowler.feet_high_board:g}; expected room for one line on the lane. Widen them."
        )
        raise InputError(message, {"feet_low_board": message})
    return best_line(lines, lambda some, n: line_chances(some, as_said(bowler), ball, surface, n))


def _sensible_lines(bowler: Bowler) -> list[Line]:
    feet = range(int(np.ceil(bowler.feet_low_board)), int(np.floor(bowler.feet_high_board)) + 1)
    lines = (Line(float(one), float(eyes)) for one in feet for eyes in range(FIRST_BOARD, LAST_BOARD + 1))
    return [
        line
        for line in lines
        if 0.0 <= laydown_board(line, bowler) - line.target_board <= MOST_OUT_BOARDS
        and not fits_problems(line, bowler)
    ]


def _line_or_none(feet_board: float, target_board: float, target_ft: float) -> Line | None:
    try:
        return Line(feet_board, target_board, target_ft)
    except InputError:
        return None
