"""The bowler on a hidden lane: not quite what they said, sometimes bad, tired in the end; how they strike.

Every number is *our guess*; the spreads that a bowler states are published where
:class:`coachlib.Bowler` says so. Errors are drawn by the number of the ball, never by the line: whoever plays
the same lane again on another line makes the same errors.
"""

import dataclasses
import functools
from collections.abc import Sequence
from typing import Any

import numpy as np

from coachlib.physics.pins.carry import strike_prob_of
from coachlib.physics.scatter import MOST_SD, standard_errors
from coachlib.study.hidden_lane.hidden_law import Floats, Surface
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD
from coachlib.world.line import Line
from coachlib.world.release import Release, release_on_line

N_ERRORS = 7
"""Errors of a ball: aim, speed, rotation, revs, tilt, laydown in spreads, and what a bad ball misses by."""

LAYDOWN_SD_BOARDS = 0.3
BAD_FRAC = 0.04
"""Share of balls that miss the target by two to four boards more than their errors say."""

N_LOOK, N_SURE, N_KEPT = 32, 256, 16
"""Balls at every line that a judge looks at, balls at the best of them, and how many of them."""

TIRED_BALLS = 40.0
"""After so many balls the bowler is as tired as drawn."""


@dataclasses.dataclass(frozen=True)
class HiddenBowler:
    """Who really throws.

    Parameters
    ----------
    bowler : Bowler
        True means and spreads; nothing in it is None.
    walk_frac : float
        0 slides parallel to the stance, 1 walks the target line.
    aim_boards : float
        How far inside of the target they aim without knowing. [boards]
    tired_mph, tired_revs_frac : float
        Speed and share of the revs lost by the end.
    """

    bowler: Bowler
    walk_frac: float
    aim_boards: float = 0.0
    tired_mph: float = 0.0
    tired_revs_frac: float = 0.0

    def releases(self, lines: Sequence[Line], errors: Floats, ball_number: int = 0) -> Release:
        """Return what leaves the hand: every line with every row of errors, the first line's first.

        Parameters
        ----------
        lines : sequence of Line
            What is meant.
        errors : ndarray, shape (n, 7)
            See :data:`N_ERRORS`.
        ball_number : int
            How many balls were thrown before: the bowler tires.
        """
        far_ft, laydown, aim = self._meant(lines, errors)
        slope = (aim - laydown) / np.array([ft_to_boards(one) for one in far_ft.ravel()])[:, None]
        share = min(ball_number / TIRED_BALLS, 1.0)
        return Release(
            laydown.ravel(),
            np.clip(np.degrees(np.arctan(slope)), -10.0, 10.0).ravel(),
            *(np.tile(row, len(lines)) for row in self._spun(errors, share)),
        )

    def _meant(self, lines: Sequence[Line], errors: Floats) -> tuple[Floats, Floats, Floats]:
        """Return target distance, laydown and place at the target, shape (n_lines, 1) and (n_lines, n)."""
        bowler = self.bowler
        feet, target, far_ft = (
            np.array([getattr(line, name) for line in lines])[:, None]
            for name in ("feet_board", "target_board", "target_ft")
        )
        beside = feet - bowler.laydown_offset_boards
        walked = self.walk_frac * bowler.stance_ft / (far_ft + bowler.stance_ft)
        laydown = beside + walked * (target - beside) + LAYDOWN_SD_BOARDS * errors[:, 5]
        missed = bowler.arrow_sd_boards * errors[:, 0] + errors[:, 6] + self.aim_boards
        return far_ft, np.clip(laydown, FIRST_BOARD, LAST_BOARD), target + missed

    def _spun(self, errors: Floats, tired_share: float) -> tuple[Floats, Floats, Floats, Floats]:
        """Return speed, revs, rotation and tilt, one a row of errors."""
        meant = release_on_line(self.bowler, 20.0, 20.0)
        bowler = self.bowler
        speed = meant.speed_mph - self.tired_mph * tired_share + bowler.speed_sd_mph * errors[:, 1]
        rotation = meant.axis_rotation_deg + bowler.axis_rotation_sd_deg * errors[:, 2]
        revs = meant.rev_rate_rpm * (1.0 - self.tired_revs_frac * tired_share)
        revs = revs + bowler.rev_rate_sd_rpm * errors[:, 3]
        tilt = meant.axis_tilt_deg + bowler.axis_tilt_sd_deg * errors[:, 4]
        return (
            np.clip(speed, 9.0, 25.0),
            np.clip(revs, 0.0, 700.0),
            np.clip(rotation, 0.0, 110.0),
            np.clip(tilt, -10.0, 60.0),
        )


def as_said(bowler: Bowler) -> HiddenBowler:
    """Return a bowler who is what they said; what they do not know is as usual for a club bowler."""
    return HiddenBowler(_all_known(bowler), 1.0 if bowler.walk == "walk" else 0.0)


def drawn_bowler(bowler: Bowler, rng: np.random.Generator) -> HiddenBowler:
    """Return a bowler drawn around what they said."""
    stated = _all_known(bowler)
    off = rng.standard_normal(7)
    rotation = np.clip((stated.axis_rotation_deg or 0.0) + 5.0 * off[2], 0.0, 110.0)
    true = dataclasses.replace(
        stated,
        speed_mph=float(np.clip((stated.speed_mph or 0.0) + 0.4 * off[0], 9.0, 24.0)),
        rev_rate_rpm=float(np.clip((stated.rev_rate_rpm or 0.0) * (1.0 + 0.06 * off[1]), 0.0, 700.0)),
        axis_rotation_deg=float(rotation),
        laydown_offset_boards=float(np.clip(stated.laydown_offset_boards + 0.5 * off[3], -2.0, 15.0)),
        arrow_sd_boards=float(stated.arrow_sd_boards * np.exp(0.1 * off[4])),
    )
    walked = 0.1 * abs(off[5])
    return HiddenBowler(
        bowler=true,
        walk_frac=float(1.0 - walked if stated.walk == "walk" else walked),
        aim_boards=0.25 * float(off[6]),
        tired_mph=float(rng.uniform(0.0, 0.5)),
        tired_revs_frac=float(rng.uniform(0.0, 0.03)),
    )


def ball_errors(rng: np.random.Generator) -> Floats:
    """Return the errors of one ball, shape (1, 7)."""
    errors = np.clip(rng.standard_normal(N_ERRORS), -MOST_SD, MOST_SD)
    is_bad, far, side = rng.random(3)
    errors[6] = (2.0 + 2.0 * far) * (1.0 if side < 0.5 else -1.0) if is_bad < BAD_FRAC else 0.0
    return errors[None, :]


@functools.lru_cache(maxsize=64)
def even_errors(n_balls: int, draw: int = 0) -> Floats:
    """Return errors spread evenly, shape (n_balls, 7), one ball in 25 a bad one; read-only."""
    errors = np.zeros((n_balls, N_ERRORS))
    errors[:, :6] = standard_errors(n_balls, draw, 6)
    bad = np.arange(24, n_balls, 25)
    errors[bad, 6] = np.resize((2.5, -3.5, 3.5, -2.5), bad.size)
    errors.flags.writeable = False
    return errors


def true_chances(
    lines: Sequence[Line],
    bowler: HiddenBowler,
    ball: Ball,
    surface: Surface,
    n_balls: int = N_SURE,
    ball_number: int = 0,
    draw: int = 0,
) -> Floats:
    """Return the chance of a strike on each line under the bowler's scatter, shape (n_lines,).

    All lines are thrown with the same errors, so that two of them differ by the line alone. It is what a
    judge may know: on the sheet it ranks lines to begin with, on a hidden film it is the truth.

    Parameters
    ----------
    lines : sequence of Line
        What is meant.
    bowler, ball, surface, n_balls
        Who throws what on what, and balls a line.
    ball_number : int
        How many balls were thrown before: the bowler tires.
    draw : int
        Another number throws other errors. Who judges a line takes another one than who chose it: the best of
        many is too good on the errors that it was chosen by.
    """
    release = bowler.releases(lines, even_errors(n_balls, draw), ball_number)
    struck = strike_prob_of(surface.roll(release, ball), ball.weight_lb)
    return struck.reshape(len(lines), n_balls).mean(axis=1)


def _all_known(bowler: Bowler) -> Bowler:
    usual = release_on_line(bowler, 20.0, 20.0)
    names = ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")
    known: dict[str, Any] = {name: float(getattr(usual, name)) for name in names}
    return dataclasses.replace(bowler, **known)
