"""The weighing of balls against the Kalman filter of a general library, where both are exact.

Source: the state-space module of `statsmodels` (S. Seabold and J. Perktold, "Statsmodels: econometric and
statistical modeling with Python", 2010), an independent implementation. Limiting case: a lane without hook,
one unknown (where the ball is really laid down), arrivals seen with a
normal error, nothing forgotten.
"""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.belief import table_cache as setting_module
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.belief.line_table import LAYDOWN_BOARDS, SLOPE_BOARDS, LineTable
from coachlib.coaching.belief.parameters import BeliefNumbers
from coachlib.coaching.belief.table_cache import BallTable, belief_setting, particles_of

OFFSET_SD, SEEN_SD, SIDE_SD = 1.5, 0.9, 0.4
NUMBERS = BeliefNumbers(
    n_particles=2048,
    offset_sd_boards=OFFSET_SD,
    aim_sd_boards=0.0,
    walk_sd_frac=0.0,
    arrival_sd_boards=SEEN_SD,
    tail_freedom=float("inf"),
    gross_prob=0.0,
    discount=1.0,
    evidence_weight=1.0,
)
BOWLER = dataclasses.replace(cl.load_bowler("club_right"), arrow_sd_boards=0.1)
LINE = cl.Line(24, 12)


@pytest.fixture
def straight(monkeypatch):
    """Return a belief on a lane on which every ball arrives where it was laid down."""
    setting = belief_setting(BOWLER, cl.load_pattern("house_41"), NUMBERS)
    shape = (NUMBERS.n_particles, len(LAYDOWN_BOARDS), len(SLOPE_BOARDS))
    arrival = np.broadcast_to(LAYDOWN_BOARDS[:, None], shape).astype(np.float32)
    nothing = np.zeros(shape, dtype=np.float32)
    none = np.zeros((shape[0], len(LAYDOWN_BOARDS[::2]), len(SLOPE_BOARDS[::3])), dtype=np.float32)
    lines = LineTable(arrival, nothing, nothing, nothing, none, none, none, 15.0)
    made = BallTable(lines, nothing, cl.load_ball("hybrid_2000"))
    monkeypatch.setattr("coachlib.coaching.belief.likelihood.ball_table", lambda *_: made)
    monkeypatch.setattr("coachlib.coaching.belief.filter.ball_table", lambda *_: made)
    assert setting_module is not None
    return setting


def kalman(seen_board):
    from statsmodels.tsa.statespace.kalman_filter import KalmanFilter

    filtering = KalmanFilter(k_endog=1, k_states=1)
    filtering["design", 0, 0] = filtering["transition", 0, 0] = 1.0
    filtering["obs_cov", 0, 0] = SEEN_SD**2 + SIDE_SD**2
    filtering.bind(np.asarray(seen_board, dtype=float))
    usual = LINE.feet_board - BOWLER.laydown_offset_boards
    filtering.initialize_known(np.array([usual]), np.array([[OFFSET_SD**2]]))
    result = filtering.filter()
    return result.filtered_state[0], result.filtered_state_cov[0, 0]


def test_the_belief_of_a_straight_lane_is_the_kalman_filters(straight):
    arrivals = [18.4, 19.6, 17.9, 19.0, 18.8]
    session = cl.Session(bowler=BOWLER, ball=None, pattern=cl.load_pattern("house_41"), line=LINE)
    mean, spread = kalman(arrivals)
    for number, board in enumerate(arrivals):
        session = cl.observe(session, cl.Shot(arrival=board))
        weights = believe(session, straight).weights
        laydown = LINE.feet_board - particles_of(straight).laydown_offset_boards
        found = weights @ laydown
        # 2,048 particles of an 11-dimensional draw: the mean is good to some hundredths of a board
        assert found == pytest.approx(mean[number], abs=0.04)
        assert weights @ (laydown - found) ** 2 == pytest.approx(spread[number], rel=0.12)
