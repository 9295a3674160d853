"""Where balls really go on the hidden lane of a game, shown when the game is over."""

import numpy as np

from coachlib.coaching.simulation.paths import N_BALLS, LinePaths
from coachlib.study.game.practice_game import PracticeGame
from coachlib.study.hidden_lane.hidden_bowler import N_ERRORS, even_errors


def true_balls(game: PracticeGame) -> LinePaths:
    """Return twenty balls of the true bowler on the line thrown last, on the oil as it lies at the end.

    The first shot is the ball without error, as in all :class:`coachlib.coaching.simulation.paths.LinePaths`.

    Raises
    ------
    InputError
        While balls are left.
    """
    lane, last = game.lane_at_end, game.session.shots[-1]
    ball = last.ball or game.ball
    errors = np.vstack([np.zeros((1, N_ERRORS)), even_errors(N_BALLS)])
    release = lane.hidden.bowler.releases([last.line], errors, lane.n_thrown)
    path = lane.surface(ball).roll(release, ball, keep_path=True)
    speed_mph = float(np.broadcast_to(release.speed_mph, release.n_shots)[0])
    return LinePaths(path, game.pattern, speed_mph, ball_weight_lb=ball.weight_lb)
