"""How far good balls stray on a lane that stays: what one ball tells, and what three on one side tell.

Counted on the simulation's own balls of a bowler, as they are drawn: those that cross over the target, and
where they come in. Grade: simulated.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session.ball_reading import PocketSide, on_target_boards
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.world.lane import POCKET_HIGH_BOARD, POCKET_LOW_BOARD

N_LOTS = 20
"""So many lots of twenty balls are thrown where a chance is counted."""


def are_over_target(session: Session) -> NDArray[np.bool_]:
    """Return which of the twenty balls of a session's line cross over its target."""
    crossed = line_paths(session, session.line).balls_board[round(session.line.target_ft)]
    return np.abs(crossed - session.line.target_board) <= on_target_boards(session.bowler)


def count_on_side(arrivals_board: NDArray[np.float64], side: PocketSide) -> int:
    """Return how many balls come in on a side of the pocket; one in the gutter counts as light.

    Parameters
    ----------
    arrivals_board : ndarray
        Where the balls hit; NaN for a ball in the gutter. [board]
    side : {"high", "pocket", "light"}
        Which of them are counted.
    """
    known = np.nan_to_num(arrivals_board, nan=0.0)
    is_on = {
        "pocket": (known >= POCKET_LOW_BOARD) & (known <= POCKET_HIGH_BOARD),
        "high": known > POCKET_HIGH_BOARD,
        "light": known < POCKET_LOW_BOARD,
    }
    return int(is_on[side].sum())


def same_side_prob(session: Session, n_balls: int) -> float:
    """Return how likely good balls all miss the pocket on one side by luck, on a lane that stays.

    Good balls are those that cross over the target. Speed, hand and the rest of the aim differ as the
    bowler's do. Counted on twenty times twenty balls.

    Parameters
    ----------
    session : Session
        Who throws what from which line on which oil.
    n_balls : int
        How many balls in a row.
    """
    lots = [dataclasses.replace(session, seed=seed) for seed in range(N_LOTS)]
    boards = np.concatenate([line_paths(one, one.line).arrivals_board[are_over_target(one)] for one in lots])
    if not len(boards):
        return 0.0
    shares = [count_on_side(boards, "high") / len(boards), count_on_side(boards, "light") / len(boards)]
    return float(sum(share**n_balls for share in shares))
