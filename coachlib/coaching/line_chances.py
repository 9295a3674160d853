"""The strike chance of many lines with one ball, all thrown with the same errors.

Balls and lines that are compared share their errors ball by ball, so that a difference comes from what was
changed. The chance is the carry table's, its level included; it holds for a lane as laid down in the pattern,
not for the one lane in front of a person, and is rosier than what is scored there.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session import Session
from coachlib.coaching.trials import meant_release
from coachlib.errors import InputError, checked_number
from coachlib.physics.carry import strike_prob
from coachlib.physics.motion import simulate
from coachlib.physics.scatter import scattered
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import Release

N_FIRST, N_AGAIN, N_LINES_AGAIN = 64, 256, 20
"""Balls at every line, then at so many of the best lines again."""

EQUAL_PROB = 0.02
"""Lines that differ by less are called equal: about what 64 balls a line leave open."""

MOST_SLIPS_FRAC = 0.5


@dataclasses.dataclass(frozen=True, eq=False)
class Throws:
    """The balls of one bowler on some lines, before any oil is known: thrown again with every ball.

    Parameters
    ----------
    lines : tuple of Line
        In order of liking: among equals the first is taken.
    n_balls : int
        Balls at each line.
    release : Release
        All of them, line after line.
    hand : {"right", "left"}
        The bowling hand.
    """

    lines: tuple[Line, ...]
    n_balls: int
    release: Release
    hand: Hand

    def strike_probs(self, ball: Ball, pattern: OilPattern) -> NDArray[np.float64]:
        """Return the strike chance on each line, a ball in the gutter counting as none."""
        return self.worth(ball, pattern)[0]

    def worth(self, ball: Ball, pattern: OilPattern) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
        """Return the strike chance on each line, and the share of its balls that still slip at the pins."""
        path = simulate(self.release, ball, pattern, self.hand, keep_path=False)
        slips = np.isnan(path.roll_ft) & ~path.gutter
        shape = (len(self.lines), self.n_balls)
        return strikes_prob(path, ball).reshape(shape).mean(axis=1), slips.reshape(shape).mean(axis=1)


@dataclasses.dataclass(frozen=True)
class LineChance:
    """A line and what it is worth.

    Parameters
    ----------
    line : Line
        The line.
    strike_prob : float
        The chance of a strike on it.
    slips_frac : float
        Share of its balls that still slip at the pins. The carry table is made of rolling balls: where many
        slip, the chance is not known.
    """

    line: Line
    strike_prob: float
    slips_frac: float = 0.0

    @property
    def is_known(self) -> bool:
        """Whether at least half of the balls roll, so that the table speaks of them."""
        return self.slips_frac <= MOST_SLIPS_FRAC


def strikes_prob(path: Path, ball: Ball) -> NDArray[np.float64]:
    """Return the strike chance of each shot of a path, 0 for a ball in the gutter."""
    at_pins = (path.arrival_board, path.entry_deg, path.speed_at_pins_mph)
    board, entry, speed = (np.where(path.gutter, 10.0, values) for values in at_pins)
    return np.where(path.gutter, 0.0, strike_prob(board, entry, speed, ball.weight_lb))


def throws_on(session: Session, lines: Sequence[Line], n_balls: int = N_FIRST) -> Throws:
    """Return the balls of a session's bowler on some lines, each line with the same errors.

    Parameters
    ----------
    session : Session
        Bowler and seed count.
    lines : sequence of Line
        At least one, all aimed at the same distance.
    n_balls : int
        Balls at each line.

    Raises
    ------
    InputError
        If there is no line, or they are aimed at different distances.
    """
    n_balls = round(checked_number("n_balls", n_balls, 1, 10_000, "balls"))
    if len({line.target_ft for line in lines}) != 1:
        message = f"lines has {len(lines)} lines; expected at least one, all with the same target_ft. "
        raise InputError(message + "Compare lines aimed at one distance.")
    meant, one = meant_release(session, list(lines)), meant_release(session, lines[:1])
    thrown = scattered(one, session.bowler, n_balls, session.seed, lines[0].target_ft)
    missed = np.tan(np.radians(thrown.launch_deg)) - np.tan(np.radians(one.launch_deg))
    slope = (np.atleast_1d(np.tan(np.radians(meant.launch_deg)))[:, None] + missed).ravel()
    each = {
        name: np.tile(np.broadcast_to(getattr(thrown, name), n_balls), len(lines)) for name in _SAME_ON_ALL
    }
    release = Release(
        laydown_board=np.repeat(np.atleast_1d(meant.laydown_board), n_balls),
        launch_deg=np.clip(np.degrees(np.arctan(slope)), -10.0, 10.0),
        **each,
    )
    return Throws(tuple(lines), n_balls, release, session.bowler.hand)


_SAME_ON_ALL = ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")


def best_line(session: Session, throws: Throws, ball: Ball, pattern: OilPattern) -> LineChance:
    """Return the line with the best chance; among equals the one that stands first.

    Parameters
    ----------
    session : Session
        Bowler and seed, as for `throws`.
    throws : Throws
        The lines to choose from; the best twenty are thrown again with 256 other errors, so that the chance
        told is not that of the luckiest draw.
    ball, pattern : Ball, OilPattern
        What is thrown, and on what.
    """
    first = throws.strike_probs(ball, pattern)
    picked = np.sort(np.argsort(-first, kind="stable")[:N_LINES_AGAIN])
    lines = [throws.lines[number] for number in picked]
    again = throws_on(dataclasses.replace(session, seed=session.seed + 1), lines, N_AGAIN)
    chances, slips = again.worth(ball, pattern)
    number = int(np.argmax(chances >= chances.max() - EQUAL_PROB))
    return LineChance(lines[number], float(chances[number]), float(slips[number]))
