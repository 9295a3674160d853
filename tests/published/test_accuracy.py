"""How far ten shots of a bowler lie apart at the arrows, by average.

In print: US Bowler, July 2012, p. 11, a test with tape on the lane. It measures from edge to edge of the
tracks, so an average holds to about a fifth. The gross misses of the hidden bowler are left out: who counts a
range on tape throws such a ball again (our reading).
"""

import numpy as np
import pytest

import coachlib as cl
from coachlib.study.hidden_lane.hidden_bowler import as_said, ball_errors
from coachlib.units import ft_to_boards
from coachlib.world.bowler import ACCURACY_SD_BOARDS

RANGE_BOARDS = {"tour": 1.41, "220": 2.0, "200": 3.0, "180": 4.0, "160": 4.5}
N_TESTS, N_SHOTS = 200, 10


@pytest.mark.parametrize("name", RANGE_BOARDS)
def test_ten_shots_lie_as_far_apart_as_the_tape_says(name):
    bowler = as_said(cl.Bowler(arrow_sd_boards=ACCURACY_SD_BOARDS[name]))
    rng = np.random.default_rng(3)
    errors = np.vstack([ball_errors(rng) for _ in range(N_TESTS * N_SHOTS)])
    errors[:, 6] = 0.0
    release = bowler.releases([cl.Line(22, 12)], errors)
    slope = np.tan(np.radians(release.launch_deg))
    crossed = (release.laydown_board + slope * ft_to_boards(15.0)).reshape(N_TESTS, N_SHOTS)
    assert np.ptp(crossed, axis=1).mean() == pytest.approx(RANGE_BOARDS[name], rel=0.1)
