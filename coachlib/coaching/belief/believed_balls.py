"""The twenty balls of a picture, drawn from what is believed now, so that the picture is the number.

Each of twenty balls is thrown on a likely lane by the bowler as believed on it, with this bowler's own
scatter. Nothing is random; the same session always gives the same balls:

1. 128 draws are made. A Sobol sequence of six numbers fills lanes and errors evenly: the first picks the
   particle, as often as its weight says and sorted by where the ball as meant arrives there; the others are
   the errors of aim, speed, revs, rotation and laydown. Every draw is thrown on every line shown.
2. On the line played they are sorted by where they arrive and cut into twenty parts of the same size. Of
   each part one ball is taken, at first the middle one.
3. The chance that is told stands on all lanes and all errors (and is a little lower than believed, see
   ``model.DISPLAY_FACTOR``). While the strike chances of the twenty sum to something else, on the line played
   or on the next, the one ball is changed for another of its part that helps most.
4. So many of them strike as the answer tells, see :mod:`coachlib.coaching.simulation.outcomes`.

Both lines are thrown with the same particles and the same errors: they differ by the move alone. The thick
line is one ball as meant: of those on all the lanes drawn the one that runs nearest to their middle.
"""

import collections
import dataclasses
from collections.abc import Callable, Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.filter import Belief
from coachlib.coaching.belief.line_table import COARSE_AXES, cells_at
from coachlib.coaching.belief.particles import Particles, laydown_boards, slope_boards
from coachlib.coaching.belief.simulated_balls import N_ERRORS, SimulatedBalls, throw_on_lanes
from coachlib.coaching.belief.strikes import MOST_SHIFT_BOARDS
from coachlib.coaching.belief.table_cache import ball_table, particles_of
from coachlib.coaching.simulation.outcomes import Arrivals
from coachlib.coaching.simulation.paths import N_BALLS, USUAL_BALL, LinePaths
from coachlib.physics.scatter import standard_errors
from coachlib.world.ball import Ball
from coachlib.world.line import Line
from coachlib.world.path import Path

Floats = NDArray[np.float64]

N_DRAWS = 128
"""Draws from which the twenty are taken; a power of 2, which a Sobol sequence fills most evenly."""

NEAR_BALLS = 0.25
"""So near to the number told the twenty's own strike chances are brought, where other draws allow it."""

_KEPT = 8


def believed_balls(
    belief: Belief,
    lines: Sequence[Line],
    ball: Ball | None,
    n_strikes: Sequence[int],
    *,
    seed: int = 0,
    assumed: tuple[tuple[str, str], ...] = (),
) -> list[LinePaths]:
    """Return the twenty balls of one line or two, the one played and the next, as believed now.

    Parameters
    ----------
    belief : Belief
        Lanes and bowler, weighed by the balls so far.
    lines : sequence of Line
        One entry of the result each; its first shot is the middle of what is believed.
    ball : Ball or None
        A usual one where it is not known.
    n_strikes : sequence of int
        How many of twenty the answer tells for each line.
    seed : int
        Another one draws other balls.
    assumed : tuple of (str, str)
        What is not known, and what it was taken for.
    """
    key = (
        belief.setting,
        belief.weights.tobytes(),
        belief.slower_mph,
        tuple(lines),
        ball,
        tuple(n_strikes),
        seed,
    )
    if (kept := _DRAWN.get(key)) is None:
        kept = _DRAWN[key] = _drawn(belief, tuple(lines), ball or USUAL_BALL, n_strikes, seed)
        while len(_DRAWN) > _KEPT:
            _DRAWN.popitem(last=False)
    return [dataclasses.replace(paths, assumed=assumed) for paths in kept]


_DRAWN: "collections.OrderedDict[object, list[LinePaths]]" = collections.OrderedDict()


def meant_boards(belief: Belief, line: Line, ball: Ball | None, *, is_worn: bool = True) -> Floats:
    """Return where the ball as meant arrives on every particle, read off the tables, shape (n,) [board].

    Of the belief only its setting and its wear count, the latter unless not `is_worn`; weigh the result by
    ``belief.weights``. A usual ball where it is not known.
    """
    particles, table = particles_of(belief.setting), ball_table(belief.setting, ball).lines
    laydown = laydown_boards(particles, belief.setting.bowler, line)
    slope = slope_boards(particles, laydown, line)
    boards = cells_at(particles.row, laydown[:, None], slope[:, None]).read(table.arrival_board)[:, 0]
    if not (is_worn and belief.slower_mph):
        return boards
    coarse = cells_at(particles.row, laydown[:, None], slope[:, None], COARSE_AXES)
    worn = -belief.slower_mph * coarse.read(table.per_mph)[:, 0]
    return boards + np.clip(worn, -MOST_SHIFT_BOARDS, MOST_SHIFT_BOARDS)


def _drawn(
    belief: Belief, lines: tuple[Line, ...], ball: Ball, n_strikes: Sequence[int], seed: int
) -> list[LinePaths]:
    setting = belief.setting
    particles, errors = _draws(belief, lines[0], ball, seed)
    throws = [(line, one) for one in (errors, np.zeros_like(errors)) for line in lines]
    thrown = throw_on_lanes(particles, setting.bowler, throws, ball, setting.pattern, belief.slower_mph)
    each = [_some(thrown, np.arange(N_DRAWS) + N_DRAWS * number) for number in range(len(throws))]
    scattered, meant = each[: len(lines)], each[len(lines) :]
    arrivals = [_arrivals(one.path, ball) for one in scattered]
    chances = np.stack([one.strike_prob for one in arrivals])
    taken = _twenty(scattered[0].carried_board[-1], chances, np.array(n_strikes, dtype=float))
    speed_mph = float(np.median(particles.speed_mph))
    return [
        _line_paths(scattered[i], meant[i], taken, n, belief, ball, speed_mph)
        for i, n in enumerate(n_strikes)
    ]


def _draws(belief: Belief, line: Line, ball: Ball, seed: int) -> tuple[Particles, Floats]:
    """Return the particle and the errors of every draw; the likelier a particle, the more draws."""
    from scipy.special import ndtr

    normal = standard_errors(N_DRAWS, seed, 1 + N_ERRORS)
    order = np.argsort(meant_boards(belief, line, ball), kind="stable")
    running = np.cumsum(belief.weights[order])
    place = np.searchsorted(running, np.asarray(ndtr(normal[:, 0])) * running[-1])
    rows = order[np.minimum(place, len(order) - 1)]
    return particles_of(belief.setting).some(rows), normal[:, 1:]


def _some(thrown: SimulatedBalls, columns: NDArray[np.intp]) -> SimulatedBalls:
    path = _each_field(lambda values: np.take(values, columns, axis=-1), thrown.path)
    return SimulatedBalls(path, thrown.carried_board[:, columns])


def _each_field(make: Callable[..., NDArray[Any]], *paths: Path) -> Path:
    """Return a path whose columns are made of those of others."""
    names = [field.name for field in dataclasses.fields(Path) if field.name != "along_ft"]
    return Path(**{name: make(*(getattr(path, name) for path in paths)) for name in names})


def _arrivals(path: Path, ball: Ball) -> Arrivals:
    return Arrivals(path.arrival_board, path.entry_deg, path.speed_at_pins_mph, ball.weight_lb)


def _twenty(order_board: NDArray[np.float32], chances: Floats, n_strikes: Floats) -> NDArray[np.intp]:
    """Return which twenty draws are shown, see the module.

    `order_board` is where each draw arrives on the line played, carried on beside the lane; `chances`, shape
    (n_lines, n_draws), are strike chances, and `n_strikes` what the twenty's should sum to on each line.
    """
    parts = np.array_split(np.argsort(order_board, kind="stable"), N_BALLS)
    taken = np.array([part[len(part) // 2] for part in parts])
    for _ in range(2 * N_BALLS):
        off = chances[:, taken].sum(axis=1) - n_strikes
        if (np.abs(off) <= NEAR_BALLS).all():
            break
        swaps = [
            (off[:, None] + chances[:, part] - chances[:, taken[i], None]) for i, part in enumerate(parts)
        ]
        left = [(swap**2).sum(axis=0) for swap in swaps]
        best = int(np.argmin([one.min() for one in left]))
        if left[best].min() >= (off**2).sum() - 1e-12:
            break
        taken[best] = parts[best][int(np.argmin(left[best]))]
    return taken


def _line_paths(
    scattered: SimulatedBalls,
    meant: SimulatedBalls,
    taken: NDArray[np.intp],
    n_strikes: int,
    belief: Belief,
    ball: Ball,
    speed_mph: float,
) -> LinePaths:
    twenty, middle = _some(scattered, taken), _some(meant, np.array([_middle(meant.carried_board)]))
    path = _each_field(lambda *two: np.concatenate(two, axis=-1), middle.path, twenty.path)
    return LinePaths(
        path=path,
        pattern=belief.setting.pattern,
        speed_mph=speed_mph,
        ball_weight_lb=ball.weight_lb,
        n_told=n_strikes,
        is_believed=True,
    )


def _middle(boards: NDArray[np.float32]) -> int:
    """Return which path, shape (61, n), runs nearest to the median of all of them."""
    middle = np.median(boards, axis=1)
    return int(np.argmin(((boards - middle[:, None]) ** 2).sum(axis=0)))
