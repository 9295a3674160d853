"""How well a bowler of given revs and rotation on a given film explains the balls that were seen.

A ball is predicted nine times: as meant, and with each of aim, speed, rotation and revs once above and once
below. From these come the mean and the spread of what would be seen, errors of one release shared by
arrival and breakpoint. A ball seen is weighed against that with heavy tails (Student's t, 5 degrees of
freedom), so that one ball badly thrown or badly seen does not decide.
"""

import dataclasses
import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.levers import laydown_board
from coachlib.coaching.seeing import (
    ARRIVAL_SD_BOARDS,
    BREAKPOINT_SD_BOARDS,
    BREAKPOINT_SD_FT,
    CROSSING_SD_BOARDS,
    SPEED_SD_MPH,
)
from coachlib.coaching.session import Observed
from coachlib.physics.motion import simulate
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import CENTRE_BOARD, FIRST_BOARD, HEAD_PIN_FT, LAST_BOARD
from coachlib.world.oil import OilPattern, thinned
from coachlib.world.path import Path
from coachlib.world.release import Release, release_on_line

Floats = NDArray[np.float64]
SEEN_SD = np.array([ARRIVAL_SD_BOARDS, BREAKPOINT_SD_BOARDS, BREAKPOINT_SD_FT])
TAIL_FREEDOM = 5.0
_N_ERRORS = 4  # aim, speed, rotation, revs
_LIMITS = {"speed_mph": (8.0, 25.0), "rev_rate_rpm": (0.0, 700.0), "axis_rotation_deg": (0.0, 110.0)}
_GUTTER_BOARD = 0.0


@dataclasses.dataclass(frozen=True)
class Thrown:
    """The balls of a fit as arrays, one entry a ball.

    Parameters
    ----------
    laydown_board, crossed_board : ndarray
        Where each was laid down, and where it crossed at the target distance: as seen, else as meant. [board]
    crossed_sd_boards : ndarray
        How far off that may be: the seeing, else the bowler's aim. [boards]
    target_ft : ndarray
        Distance of the target. [ft]
    speed_mph, speed_sd_mph : ndarray
        Speed at the hand as seen, else as usual, and how far off it may be. [mph]
    seen : ndarray, shape (n_balls, 3)
        Arrival board, breakpoint board, breakpoint distance; NaN what was not seen.
    """

    laydown_board: Floats
    crossed_board: Floats
    crossed_sd_boards: Floats
    target_ft: Floats
    speed_mph: Floats
    speed_sd_mph: Floats
    seen: Floats


def thrown_balls(balls: Sequence[Observed], bowler: Bowler) -> Thrown:
    """Return the balls of a session as arrays."""
    usual_mph = float(release_on_line(bowler, CENTRE_BOARD, CENTRE_BOARD).speed_mph)
    laydown = [_laydown_board(ball, bowler) for ball in balls]
    target, target_ft = np.array([[ball.line.target_board, ball.line.target_ft] for ball in balls]).T
    shots = [ball.shot for ball in balls]
    crossed = _numbers([shot.crossed_board for shot in shots])
    miss, miss_sd = _settled(crossed - target, 0.0, CROSSING_SD_BOARDS, bowler.arrow_sd_boards)
    speeds = _numbers([shot.speed_mph for shot in shots])
    speed, speed_sd = _settled(speeds, usual_mph, SPEED_SD_MPH, bowler.speed_sd_mph)
    seen = [_numbers([shot.arrival_board, shot.breakpoint_board, shot.breakpoint_ft]) for shot in shots]
    return Thrown(np.array(laydown), target + miss, miss_sd, target_ft, speed, speed_sd, np.array(seen))


def _numbers(values: Sequence[float | None]) -> Floats:
    return np.array(values, dtype=float)


def _laydown_board(ball: Observed, bowler: Bowler) -> float:
    slid = ball.shot.slide_board
    laydown = laydown_board(ball.line, bowler) if slid is None else slid - bowler.laydown_offset_boards
    return min(max(laydown, FIRST_BOARD), LAST_BOARD)


def _settled(seen: Floats, usual: float, seeing_sd: float, own_sd: float) -> tuple[Floats, Floats]:
    """Return the likely true values, and how far off they may be.

    What is seen is spread wider than what was thrown. So a value is drawn towards the mean of those seen, by
    the share that seeing errors have in their spread; one not seen is that mean, or the usual value.
    """
    is_seen = np.isfinite(seen)
    middle = float(seen[is_seen].mean()) if is_seen.any() else usual
    share = own_sd**2 / (own_sd**2 + seeing_sd**2)
    value = np.where(is_seen, middle + share * (seen - middle), middle)
    return value, np.where(is_seen, math.sqrt(share) * seeing_sd, own_sd)


def log_likelihood(
    revs_rpm: Floats,
    rotation_deg: Floats,
    film_frac: float,
    thrown: Thrown,
    bowler: Bowler,
    ball: Ball,
    pattern: OilPattern,
) -> Floats:
    """Return how well each pair of revs and rotation explains the balls on one film, up to a constant.

    Parameters
    ----------
    revs_rpm, rotation_deg : ndarray, shape (n,)
        What is tried. [rpm], [deg]
    film_frac : float
        Film on the lane over film of the pattern's sheet.
    thrown : Thrown
        The balls.
    bowler : Bowler
        Tilt, hand and spreads count.
    ball, pattern : Ball, OilPattern
        What was thrown, and on what.
    """
    release = _releases(revs_rpm, rotation_deg, thrown, bowler)
    path = simulate(release, ball, thinned(pattern, film_frac), bowler.hand, keep_path=False)
    shape = (len(revs_rpm), len(thrown.seen), 1 + 2 * _N_ERRORS)
    seen_by_model = np.stack([values.reshape(shape) for values in _what_is_seen(path)], axis=-1)
    total = np.zeros(len(revs_rpm))
    for number, seen in enumerate(thrown.seen):
        total += _one_ball(seen, seen_by_model[:, number])
    return total


def _releases(revs_rpm: Floats, rotation_deg: Floats, thrown: Thrown, bowler: Bowler) -> Release:
    """Return every try of every ball nine times, the last axis fastest."""
    usual = release_on_line(bowler, CENTRE_BOARD, CENTRE_BOARD)
    steps = np.vstack(
        [np.zeros(_N_ERRORS), *(sign * np.eye(_N_ERRORS)[k] for k in range(_N_ERRORS) for sign in (1, -1))]
    )
    aim, speed, rotation, revs = steps.T
    crossed = thrown.crossed_board[:, None] + thrown.crossed_sd_boards[:, None] * aim
    slope = (crossed - thrown.laydown_board[:, None]) / ft_to_boards(1.0) / thrown.target_ft[:, None]
    each = {
        "laydown_board": thrown.laydown_board[None, :, None],
        "launch_deg": np.clip(np.degrees(np.arctan(slope)), -10.0, 10.0)[None],
        "speed_mph": (thrown.speed_mph[:, None] + thrown.speed_sd_mph[:, None] * speed)[None],
        "rev_rate_rpm": revs_rpm[:, None, None] + bowler.rev_rate_sd_rpm * revs,
        "axis_rotation_deg": rotation_deg[:, None, None] + bowler.axis_rotation_sd_deg * rotation,
    }
    shape = (len(revs_rpm), len(thrown.seen), len(steps))
    limited = {name: np.clip(values, *_LIMITS.get(name, (-np.inf, np.inf))) for name, values in each.items()}
    return Release(
        **{name: np.broadcast_to(values, shape).ravel() for name, values in limited.items()},
        axis_tilt_deg=usual.axis_tilt_deg,
    )


def _what_is_seen(path: Path) -> tuple[Floats, Floats, Floats]:
    """Return arrival, breakpoint board and breakpoint distance; a ball in the gutter arrives there."""
    arrival = np.where(path.gutter, _GUTTER_BOARD, path.arrival_board)
    board = np.where(np.isnan(path.breakpoint_board), arrival, path.breakpoint_board)
    far_ft = np.where(np.isnan(path.breakpoint_ft), HEAD_PIN_FT, path.breakpoint_ft)
    return arrival, board, far_ft


def _one_ball(seen: Floats, predicted: Floats) -> Floats:
    """Return the log likelihood of one ball for each try; `predicted` is (n, 9, 3)."""
    is_seen = np.isfinite(seen)
    if not is_seen.any():
        return np.zeros(len(predicted))
    told = predicted[:, :, is_seen]
    meant, above, below = told[:, 0], told[:, 1::2], told[:, 2::2]
    mean = meant + 0.5 * (above + below - 2.0 * meant[:, None]).sum(axis=1)
    half = 0.5 * (above - below)
    spread = np.einsum("nki,nkj->nij", half, half) + np.diag(SEEN_SD[is_seen] ** 2)
    off = seen[is_seen] - mean
    square = np.einsum("ni,ni->n", off, np.linalg.solve(spread, off[..., None])[..., 0])
    n_seen = int(is_seen.sum())
    _, log_size = np.linalg.slogdet(spread)
    return -0.5 * log_size - 0.5 * (TAIL_FREEDOM + n_seen) * np.log1p(square / TAIL_FREEDOM)
