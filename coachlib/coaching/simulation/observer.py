"""How well a person behind the foul line sees a ball, and balls of the model seen that way.

All spreads are our guess: no measurement of a coach's eye was found. Whoever films, or has a partner beside
the lane, sees better.
"""

import math

import numpy as np

from coachlib.coaching.simulation.what_if import joined_releases, meant_on_line
from coachlib.errors import checked_number
from coachlib.physics.motion import simulate
from coachlib.physics.scatter import scattered
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

CROSSING_SD_BOARDS = 0.55
ARRIVAL_SD_BOARDS = 0.9
BREAKPOINT_SD_BOARDS = 1.5
BREAKPOINT_SD_FT = 4.0
SPEED_SD_MPH = 0.3


def seen_shots(
    bowler: Bowler, line: Line, ball: Ball, pattern: OilPattern, n_balls: int, seed: int = 0
) -> tuple[Shot, ...]:
    """Return balls of a bowler of the model, with their spreads, as a coach would note them.

    Thrown at `line` on the film that really lies there; `seed` is for the release errors and for the eye.
    Crossing and arrival are noted to the half board, breakpoint to the board and foot, speed to a tenth. A
    ball in the gutter leaves ten pins and has no arrival.
    """
    n_balls = round(checked_number("n_balls", n_balls, 1, 1000, "balls"))
    meant = meant_on_line(bowler, line)
    seeds = np.random.SeedSequence(seed).generate_state(n_balls)
    thrown = joined_releases([scattered(meant, bowler, 1, int(one), line.target_ft) for one in seeds])
    path = simulate(thrown, ball, pattern, bowler.hand, keep_path=False)
    crossed = thrown.laydown_board + np.tan(np.radians(thrown.launch_deg)) * ft_to_boards(line.target_ft)
    eye = np.random.default_rng(seed).standard_normal((n_balls, 5))
    columns = (crossed, path.arrival_board, path.breakpoint_board, path.breakpoint_ft, thrown.speed_mph)
    sds = (CROSSING_SD_BOARDS, ARRIVAL_SD_BOARDS, BREAKPOINT_SD_BOARDS, BREAKPOINT_SD_FT, SPEED_SD_MPH)
    noted = np.column_stack(columns) + np.array(sds) * eye
    rows = zip(noted.tolist(), path.gutter, strict=True)
    return tuple(_noted(*row, is_in_gutter=bool(is_out)) for row, is_out in rows)


def _noted(
    crossing: float,
    arrival: float,
    turn_board: float,
    turn_ft: float,
    speed_mph: float,
    *,
    is_in_gutter: bool,
) -> Shot:
    at_target, at_hand = _noted_board(crossing, 0.5), round(speed_mph, 1)
    if is_in_gutter:
        return Shot(crossed_board=at_target, speed_mph=at_hand, leave=ALL_PINS)
    is_turning = math.isfinite(turn_ft)
    return Shot(
        crossed_board=at_target,
        arrival=_noted_board(arrival, 0.5),
        breakpoint_board=_noted_board(turn_board, 1.0) if is_turning else None,
        breakpoint_ft=float(min(max(round(turn_ft), 10), 60)) if is_turning else None,
        speed_mph=at_hand,
    )


def _noted_board(board: float, step_boards: float) -> float:
    noted = round(board / step_boards) * step_boards
    return min(max(noted, float(FIRST_BOARD)), float(LAST_BOARD))
