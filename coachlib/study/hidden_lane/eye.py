"""What an eye behind the foul line sees of a ball on a hidden lane, and what it misses.

Seen things are wrong by an eye's error and now and then not seen at all. Spreads start from those of
:mod:`coachlib.coaching.simulation.observer`, other eyes see better or worse. All of it is *our guess*: no
measurement of a coach's eye was found.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.simulation.observer import BREAKPOINT_SD_BOARDS, BREAKPOINT_SD_FT, SPEED_SD_MPH
from coachlib.world.lane import arrival_class
from coachlib.world.shot import Motion, Shot

MOTION_SD_FT = 3.0
TURNS_EARLIER_FT, SKIDS_LONGER_FT = 4.0, 10.0
"""From so much before or after its usual place a turn is noted as early, late, or a long skid [ft]."""

UNSEEN_FRAC = {
    "crossed_board": 0.10,
    "arrival": 0.08,
    "leave": 0.04,
    "speed_mph": 0.40,
    "breakpoint": 0.50,
    "motion": 0.30,
}
CLASS_ONLY_FRAC = 0.25
"""How often an arrival is told as a class (light, pocket, high …) instead of a board."""


@dataclasses.dataclass(frozen=True)
class Eye:
    """How well this eye sees: the spreads of what is noted about what was [boards]."""

    crossing_sd_boards: float
    arrival_sd_boards: float


@dataclasses.dataclass(frozen=True)
class TrueBall:
    """What there was to see of one ball; NaN where it did not happen.

    Parameters
    ----------
    breakpoint_ft, later_ft : float
        Where it was farthest out; how much later than usual it turned. [ft]
    speed_mph : float
        At the hand. [mph]
    leave : tuple of int
        Pins left, own frame.
    """

    crossed_board: float
    arrival_board: float
    breakpoint_board: float
    breakpoint_ft: float
    later_ft: float
    speed_mph: float
    leave: tuple[int, ...]


def drawn_eye(rng: np.random.Generator) -> Eye:
    """Return an eye drawn at random."""
    return Eye(float(rng.uniform(0.55, 0.70)), float(rng.uniform(0.75, 1.05)))


def noted(ball: TrueBall, eye: Eye, rng: np.random.Generator) -> Shot:
    """Return the shot as this eye notes it; the same numbers are drawn whatever the ball did."""
    error = rng.standard_normal(6)
    missed = dict(zip(UNSEEN_FRAC, rng.random(len(UNSEEN_FRAC)) < list(UNSEEN_FRAC.values()), strict=True))
    is_class = rng.random() < CLASS_ONLY_FRAC
    board = ball.arrival_board + eye.arrival_sd_boards * error[1]
    arrival = None if np.isnan(board) else arrival_class(board) if is_class else _board(board, 0.5)
    fields = {
        "crossed_board": _board(ball.crossed_board + eye.crossing_sd_boards * error[0], 0.5),
        "arrival": arrival,
        "leave": ball.leave,
        "speed_mph": _within(round(ball.speed_mph + SPEED_SD_MPH * error[2], 1), 8.0, 25.0),
        "motion": _motion(ball.later_ft + MOTION_SD_FT * error[3]),
        **_breakpoint(ball, error[4:6], missed["breakpoint"]),
    }
    kept = {name: value for name, value in fields.items() if not missed.get(name)}
    if all(kept.get(name) is None for name in ("crossed_board", "arrival", "leave")):
        kept["leave"] = ball.leave
    return Shot(**kept)  # type: ignore[arg-type]


def _breakpoint(ball: TrueBall, error: NDArray[np.float64], is_missed: bool) -> dict[str, float | None]:
    if is_missed or np.isnan(ball.breakpoint_ft):
        return {"breakpoint_board": None, "breakpoint_ft": None}
    far_ft = round(ball.breakpoint_ft + BREAKPOINT_SD_FT * float(error[1]))
    return {
        "breakpoint_board": _board(ball.breakpoint_board + BREAKPOINT_SD_BOARDS * float(error[0]), 1.0),
        "breakpoint_ft": _within(float(far_ft), 10.0, 60.0),
    }


def _motion(later_ft: float) -> Motion | None:
    if np.isnan(later_ft):
        return None
    if later_ft < -TURNS_EARLIER_FT:
        return "early"
    if later_ft <= TURNS_EARLIER_FT:
        return "even"
    return "late" if later_ft <= SKIDS_LONGER_FT else "skid_long"


def _board(board: float, step_boards: float) -> float:
    return _within(round(float(board) / step_boards) * step_boards, 0.0, 40.0)


def _within(value: float, low: float, high: float) -> float:
    return min(max(value, low), high)
