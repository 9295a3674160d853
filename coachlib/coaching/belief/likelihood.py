"""How likely what was seen of one ball is, on every possible lane with every possible bowler.

A particle throws the ball with 19 errors of aim (up to three spreads, and a few gross ones) and 5 of speed.
What was seen is asked of each: crossing, arrival or its class, pins left, where it turned, speed. What was
not seen is left out; nothing that was seen is impossible.
"""

import dataclasses
import functools
import math

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.line_table import COARSE_AXES, GridCells, cells_at
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.particles import TABLE_TARGET_FT, laydown_boards, slope_boards
from coachlib.coaching.belief.strikes import LAYDOWN_SD_BOARDS, MOST_SHIFT_BOARDS
from coachlib.coaching.belief.table_cache import BallTable, BeliefSetting, ball_table, particles_of
from coachlib.interpolation import between_rows, multilinear
from coachlib.physics.pins.carry_file import shipped_table
from coachlib.physics.pins.carry_table import ANGLES_DEG, BOARDS, GRID_SHAPE, SPEEDS_MPH, WEIGHTS_LB
from coachlib.world.ball import Ball
from coachlib.world.lane import class_limits
from coachlib.world.line import Line
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

Floats = NDArray[np.float64]

FIELDS = ("crossing", "arrival", "leave", "breakpoint", "motion", "speed")
"""What can be seen of a ball, in the order in which it is worth most to the bowler's question."""

GROSS_BOARDS = np.array([-4.0, -3.0, -2.0, 2.0, 3.0, 4.0])
_SPEED_ERRORS = np.array([-2.0, -1.0, 0.0, 1.0, 2.0])
_AIM_STEPS = np.linspace(-3.0, 3.0, 13)
_AIMED, _USUAL = 6, 2
"""Where the errors of aim and of speed are none."""

_MOTION_FT = 2.0
_WIDE_BOARDS = 0.8
_SHIFTS_BOARDS = (-MOST_SHIFT_BOARDS, MOST_SHIFT_BOARDS)


@dataclasses.dataclass(frozen=True, eq=False)
class Predicted:
    """What every particle would see of a ball, error by error.

    Parameters
    ----------
    error_boards : ndarray, shape (n_errors,)
        Errors of aim at the target. [boards]
    error_prob, speed_prob : ndarray
        How often each comes, shapes (n_errors,) and (n_speeds,).
    crossing_board : ndarray, shape (n_particles, n_errors)
        Where the ball crosses at the target distance. [board]
    arrival_board : ndarray, shape (n_particles, n_errors, n_speeds)
        Where it crosses the head-pin plane. [board]
    entry_deg, turn_ft, gutter_frac : ndarray, shape (n_particles, n_errors)
        As in the table of lines.
    spread_boards : ndarray, shape (n_particles, n_errors)
        Spread of the arrival from revs, rotation and laydown. [boards]
    meant_board : ndarray, shape (n_particles,)
        Arrival of the ball as meant, no error made. [board]
    usual_turn_ft : ndarray, shape (n_particles,)
        Where the ball as meant turns. [ft]
    speed_mph : ndarray, shape (n_particles, n_speeds)
        Speed at the hand. [mph]
    """

    error_boards: Floats
    error_prob: Floats
    speed_prob: Floats
    crossing_board: Floats
    arrival_board: Floats
    entry_deg: Floats
    turn_ft: Floats
    gutter_frac: Floats
    spread_boards: Floats
    meant_board: Floats
    usual_turn_ft: Floats
    speed_mph: Floats


def predicted_of(setting: BeliefSetting, ball: Ball | None, line: Line, n_before: int = 0) -> Predicted:
    """Return what every particle would see of a ball on a line, after so many balls on the lane."""
    particles, made = particles_of(setting), ball_table(setting, ball)
    bowler, lines = setting.bowler, made.lines
    errors, chances = _aim_errors(bowler.arrow_sd_boards, setting.numbers.gross_prob)
    laydown = laydown_boards(particles, bowler, line)
    slope = slope_boards(particles, laydown, line)
    thrown = slope[:, None] + errors * (TABLE_TARGET_FT / line.target_ft)
    cells = cells_at(particles.row, laydown[:, None], thrown)
    coarse = cells_at(particles.row, laydown[:, None], thrown, COARSE_AXES)
    faster_mph = _SPEED_ERRORS * bowler.speed_sd_mph - setting.numbers.slower_mph(n_before)
    faster = coarse.read(lines.per_mph)[:, :, None] * faster_mph
    arrival = cells.read(lines.arrival_board)[:, :, None] + np.clip(faster, *_SHIFTS_BOARDS)
    turn_ft = cells.read(lines.turn_ft)
    return Predicted(
        error_boards=errors,
        error_prob=chances,
        speed_prob=_normal_shares(_SPEED_ERRORS),
        crossing_board=line.target_board + particles.aim_boards[:, None] + errors,
        arrival_board=arrival,
        entry_deg=cells.read(lines.entry_deg),
        turn_ft=turn_ft,
        gutter_frac=cells.read(lines.gutter_frac),
        spread_boards=_spread(coarse, made, setting),
        meant_board=arrival[:, _AIMED, _USUAL],
        usual_turn_ft=turn_ft[:, _AIMED],
        speed_mph=particles.speed_mph[:, None] + _SPEED_ERRORS * bowler.speed_sd_mph,
    )


def likelihoods_of(
    looks: Predicted, shot: Shot, setting: BeliefSetting, made: BallTable, usual_turn_ft: Floats
) -> dict[str, Floats]:
    """Return how likely each thing seen is, as arrays that fit (n_particles, n_errors, n_speeds).

    By the names of :data:`FIELDS`; only what was seen. Of the ball's table weight and speed at the pins count
    for the pins left; `usual_turn_ft`, shape (n_particles,), is where each bowler's ball turns on the first
    line. [ft]
    """
    numbers = setting.numbers
    odds: dict[str, Floats] = {}
    if shot.crossed_board is not None:
        off = looks.crossing_board - shot.crossed_board
        odds["crossing"] = _bell(off, numbers.crossing_sd_boards)[:, :, None]
    if shot.arrival is not None:
        odds["arrival"] = _arrival_odds(looks, shot, numbers)
    if shot.leave is not None:
        odds["leave"] = _leave_odds(looks, shot.leave, made, numbers)
    if shot.breakpoint_ft is not None:
        off = looks.turn_ft - float(shot.breakpoint_ft)
        odds["breakpoint"] = _student(off, numbers.breakpoint_sd_ft, numbers.tail_freedom)[:, :, None]
    if shot.motion is not None:
        later_ft = looks.turn_ft - usual_turn_ft[:, None]
        odds["motion"] = _motion_odds(later_ft, shot.motion, numbers)[:, :, None]
    if shot.speed_mph is not None:
        odds["speed"] = _bell(looks.speed_mph - shot.speed_mph, numbers.speed_seen_sd_mph)[:, None, :]
    return odds


def peaks_of(
    odds: dict[str, Floats], looks: Predicted, shot: Shot, numbers: BeliefNumbers
) -> dict[str, float]:
    """Return how likely each thing seen would be at its likeliest place, whoever sees it."""
    sd = math.hypot(numbers.arrival_sd_boards, float(np.median(looks.spread_boards)))
    known = {
        "motion": 1.0,
        "arrival": 1.0 if isinstance(shot.arrival, str) else 1.0 / sd,
        "crossing": float(_bell(np.zeros(1), numbers.crossing_sd_boards)[0]),
        "speed": float(_bell(np.zeros(1), numbers.speed_seen_sd_mph)[0]),
        "breakpoint": 1.0 / numbers.breakpoint_sd_ft,
    }
    return {name: known[name] if name in known else float(values.max()) for name, values in odds.items()}


def joint_likelihood(looks: Predicted, odds: dict[str, Floats], without: tuple[str, ...] = ()) -> Floats:
    """Return particle by error by speed how likely the ball was, errors weighed by how often they come."""
    total = looks.error_prob[:, None] * looks.speed_prob
    total = np.broadcast_to(total, looks.arrival_board.shape)
    for name, values in odds.items():
        if name not in without:
            total = total * values
    return total


def _aim_errors(sd_boards: float, gross_prob: float) -> tuple[Floats, Floats]:
    usual = _normal_shares(_AIM_STEPS) * (1.0 - gross_prob)
    gross = np.full(len(GROSS_BOARDS), gross_prob / len(GROSS_BOARDS))
    return np.concatenate([_AIM_STEPS * sd_boards, GROSS_BOARDS]), np.concatenate([usual, gross])


def _normal_shares(steps: Floats) -> Floats:
    shares = np.exp(-0.5 * steps**2)
    return shares / shares.sum()


def _spread(coarse: GridCells, made: BallTable, setting: BeliefSetting) -> Floats:
    bowler, lines = setting.bowler, made.lines
    revs = np.clip(coarse.read(lines.per_rpm) * bowler.rev_rate_sd_rpm, *_SHIFTS_BOARDS)
    rotation = np.clip(coarse.read(lines.per_deg) * bowler.axis_rotation_sd_deg, *_SHIFTS_BOARDS)
    return np.sqrt(revs**2 + rotation**2 + LAYDOWN_SD_BOARDS**2)


def _arrival_odds(looks: Predicted, shot: Shot, numbers: BeliefNumbers) -> Floats:
    from scipy.special import ndtr

    sd = np.sqrt(numbers.arrival_sd_boards**2 + looks.spread_boards**2)[:, :, None]
    kept = 1.0 - looks.gutter_frac[:, :, None]
    if not isinstance(shot.arrival, str):
        near = _student(looks.arrival_board - float(shot.arrival or 0.0), sd, numbers.tail_freedom)
        return near * kept + _student(np.array(12.0), sd, numbers.tail_freedom) * (1.0 - kept)
    low, high = class_limits(shot.arrival)
    shares = (ndtr((high - looks.arrival_board) / sd) - ndtr((low - looks.arrival_board) / sd)) * kept
    shares = shares + (1.0 - kept) * (shot.arrival == "out")
    return numbers.class_floor_prob + (1.0 - numbers.class_floor_prob) * shares


def _leave_odds(looks: Predicted, leave: tuple[int, ...], made: BallTable, numbers: BeliefNumbers) -> Floats:
    shares, usual = _leave_shares(leave, made.lines.speed_at_pins_mph, made.ball.weight_lb)
    far = (looks.arrival_board - BOARDS[0]) / (BOARDS[1] - BOARDS[0])
    side = (looks.entry_deg[:, :, None] - ANGLES_DEG[0]) / (ANGLES_DEG[1] - ANGLES_DEG[0])
    gutter = looks.gutter_frac[:, :, None]
    chance = multilinear(shares, (far, side)) * (1.0 - gutter) + gutter * (leave == ALL_PINS)
    return numbers.leave_floor_prob * usual + (1.0 - numbers.leave_floor_prob) * chance


@functools.lru_cache(maxsize=256)
def _leave_shares(leave: tuple[int, ...], speed_mph: float, weight_lb: float) -> tuple[Floats, float]:
    """Return how often pins are left by board and angle, and by any ball, at least one in a thousand.

    By board and angle it is widened by what the ball does besides its aim.
    """
    from scipy.ndimage import gaussian_filter1d

    table = shipped_table()
    column = np.flatnonzero(table.leaves == sum(1 << (pin - 1) for pin in leave))
    if not column.size:
        return np.zeros((len(BOARDS), len(ANGLES_DEG))), 0.001
    shares = table.shares[:, column[0]].astype(float).reshape(GRID_SHAPE)
    for axis, value in ((SPEEDS_MPH, speed_mph), (WEIGHTS_LB, weight_lb)):
        shares = between_rows(np.moveaxis(shares, 2, 0), (value - axis[0]) / (axis[1] - axis[0]))
    wide = gaussian_filter1d(shares, _WIDE_BOARDS / (BOARDS[1] - BOARDS[0]), axis=0, mode="nearest")
    return wide, max(float(table.overall_frac[column[0]]), 0.001)


def _motion_odds(later_ft: Floats, motion: str, numbers: BeliefNumbers) -> Floats:
    from scipy.special import ndtr

    sd = numbers.turn_sd_ft
    early, late = ndtr((-_MOTION_FT - later_ft) / sd), ndtr((later_ft - _MOTION_FT) / sd)
    even = 1.0 - early - late
    share = {"early": early, "roll_out": early, "late": late, "skid_long": late, "even": even}.get(motion)
    if share is None:
        return np.ones_like(later_ft)
    return numbers.motion_floor_prob + (1.0 - numbers.motion_floor_prob) * share


_BELL_FLOOR = 1e-4


def _bell(off: Floats, sd: float) -> Floats:
    """Return a normal density, and a little everywhere: a slip of the pen is never impossible."""
    return np.exp(-0.5 * (off / sd) ** 2) / (sd * math.sqrt(2.0 * math.pi)) + _BELL_FLOOR


def _student(off: Floats, sd: Floats | float, freedom: float) -> Floats:
    """Return Student's density up to a factor that is the same for all; a normal one for endless freedom."""
    scaled = (off / sd) ** 2
    if math.isinf(freedom):
        return np.exp(-0.5 * scaled) / sd
    return (1.0 + scaled / freedom) ** (-0.5 * (freedom + 1.0)) / sd
