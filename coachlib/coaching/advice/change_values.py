"""What a change of speed, hand, surface or ball is worth on the likely lanes, beside staying as one is.

Speed is read off the slopes of the ball's table and costs nothing. Another hand, another surface or another
ball is another table, which takes a second or two the first time; it is made when it is asked for.

Valid for small changes of speed, up to about 1 mph: the slopes are straight. The bowler is taken to repeat
the changed release as well as the usual one, which takes practice.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.filter import Belief, believe
from coachlib.coaching.belief.line_table import COARSE_AXES, cells_at
from coachlib.coaching.belief.particles import laydown_boards, slope_boards
from coachlib.coaching.belief.strikes import MOST_SHIFT_BOARDS, aim_sd_at_table_ft, chances_at
from coachlib.coaching.belief.table_cache import BeliefSetting, ball_table, particles_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import USUAL_BALL
from coachlib.errors import InputError, checked_thing
from coachlib.world.ball import Ball, resurfaced
from coachlib.world.levers import fits_problems
from coachlib.world.line import Line, Move, after_move

Floats = NDArray[np.float64]

SURFACE_STEP = 2.0
"""A surface made duller has half the pad number, made smoother twice the number (our guess)."""

GRIT_LIMITS = (500.0, 4000.0)
_STEPS = np.linspace(-3.0, 3.0, 13)


@dataclasses.dataclass(frozen=True, eq=False)
class Worth:
    """What a change is worth; chances are believed ones, not yet scaled for showing.

    Parameters
    ----------
    move : Move
        The change.
    new_line : Line
        The line that goes with it.
    strike_prob, stay_strike_prob : float
        Mean over the likely lanes, with the change and without.
    better_lanes_frac : float
        On which share of them the change beats staying.
    """

    move: Move
    new_line: Line
    strike_prob: float
    stay_strike_prob: float
    better_lanes_frac: float

    @property
    def gain_prob(self) -> float:
        """What the change adds to staying."""
        return self.strike_prob - self.stay_strike_prob


def worth(session: Session, move: Move, ball: Ball | None = None) -> Worth:
    """Return what a change is worth after the balls of a session.

    Parameters
    ----------
    session : Session
        The balls so far, the line and the ball in the hand.
    move : Move
        Feet, eyes, speed, rotation and surface count; a note does not.
    ball : Ball, optional
        The ball to take up, for a change of ball.

    Raises
    ------
    InputError
        If the move asks for another ball and none is given or for another target distance, or its line does
        not fit lane and approach.
    """
    checked_thing("session", session, Session)
    checked_thing("move", move, Move)
    if move.target_ft:
        message = f"move is {move}; another target distance is not simulated. Leave target_ft at 0."
        raise InputError(message, {"move": message})
    new_line = after_move(session.line, move)
    problems = fits_problems(new_line, session.bowler, session.line)
    if problems:
        message = f"move is {move}; it does not fit: {'; '.join(problems)}. Give a smaller move."
        raise InputError(message, {"move": message})
    return worth_of(believe(session), session.line, session.ball, move, _taken_up(session.ball, move, ball))


def worth_of(
    belief: Belief, line: Line, ball: Ball | None, move: Move, new_ball: Ball | None = None
) -> Worth:
    """Return what a change is worth on the lanes of a belief; `new_ball` None keeps the one in the hand.

    Feet, eyes, speed and rotation of the move count.
    """
    new_line = after_move(line, Move(feet_boards=move.feet_boards, target_boards=move.target_boards))
    setting = belief.setting
    rows, weights = belief.effective_particles()
    stay = struck_on_lanes(setting, ball, line, -belief.slower_mph, rows)
    turned = dataclasses.replace(setting, more_rotation_deg=move.rotation_deg)
    new = struck_on_lanes(turned, new_ball or ball, new_line, move.speed_mph - belief.slower_mph, rows)
    return Worth(
        move=move,
        new_line=new_line,
        strike_prob=float(weights @ new),
        stay_strike_prob=float(weights @ stay),
        better_lanes_frac=float(weights @ (new > stay)),
    )


def struck_on_lanes(
    setting: BeliefSetting,
    ball: Ball | None,
    line: Line,
    more_mph: float = 0.0,
    rows: NDArray[np.intp] | None = None,
) -> Floats:
    """Return the chance of a strike on every believed lane, shape (n_particles,), under the bowler's scatter.

    `more_mph` is the speed beside the usual one [mph]; with `rows`, on these of the particles alone.
    """
    particles, made = particles_of(setting), ball_table(setting, ball)
    particles = particles if rows is None else particles.some(rows)
    laydown = laydown_boards(particles, setting.bowler, line)
    errors = _STEPS * aim_sd_at_table_ft(setting.bowler, line.target_ft)
    thrown = slope_boards(particles, laydown, line)[:, None] + errors
    cells = cells_at(particles.row, laydown[:, None], thrown)
    coarse = cells_at(particles.row, laydown[:, None], thrown, COARSE_AXES)
    shift = coarse.read(made.lines.per_mph) * more_mph
    arrival = cells.read(made.lines.arrival_board) + np.clip(shift, -MOST_SHIFT_BOARDS, MOST_SHIFT_BOARDS)
    spread, entry = cells.read(made.spread_boards), cells.read(made.lines.entry_deg)
    weight_lb = (ball or USUAL_BALL).weight_lb
    chances = chances_at(arrival, entry, spread, made.lines.speed_at_pins_mph, weight_lb)
    shares = np.exp(-0.5 * _STEPS**2)
    kept = 1.0 - cells.read(made.lines.gutter_frac)
    return np.asarray((chances * kept) @ (shares / shares.sum()))


def resurfaced_one_step(ball: Ball, way: str) -> Ball:
    """Return a ball with its surface one step duller or smoother, see :data:`SURFACE_STEP`."""
    factor = 1.0 / SURFACE_STEP if way == "duller" else SURFACE_STEP
    return resurfaced(ball, float(np.clip(ball.grit * factor, *GRIT_LIMITS)))


def _taken_up(held: Ball | None, move: Move, ball: Ball | None) -> Ball | None:
    """Return the ball that is thrown after a change, or None for the one in the hand."""
    if ball is not None:
        ball = checked_thing("ball", ball, Ball)
    elif move.ball:
        message = f"ball is missing for a change to a {move.ball} ball; expected a Ball. Say which: ball=…."
        raise InputError(message, {"ball": message})
    if not move.surface:
        return ball
    return resurfaced_one_step(ball or held or USUAL_BALL, move.surface)
