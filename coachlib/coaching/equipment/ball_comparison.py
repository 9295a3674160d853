"""Two or more balls thrown by one bowler on one line: what differs, and which line the other ball wants.

All balls are thrown with the same errors. What a ball does is told by measured quantities: how far it skids,
where it rolls, how much it turns, how many boards it covers; never by a name for its shape. The matching move
takes another ball as far out as the first one goes and back to where the first one arrives: the trade's "two
and one to the same breakpoint", computed for this bowler and this oil.

Valid for and not modelled: as in :mod:`coachlib.physics.motion`.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import lines_nearby
from coachlib.coaching.simulation.line_search import N_ROUGH_BALLS, as_simulated, best_line, line_chances
from coachlib.coaching.simulation.paths import LinePaths, known_film, line_paths
from coachlib.coaching.simulation.what_if import ROOM_BOARDS, ball_and_pattern, simulate_lines
from coachlib.errors import InputError, checked_thing, shown
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.lane import HEAD_PIN_FT, POCKET_BOARD
from coachlib.world.levers import line_angle_deg, move_between
from coachlib.world.line import Line, Move

FEET_REACH_BOARDS, EYES_REACH_BOARDS = 8, 6
"""Moves weighed: so many boards to both sides with feet and with eyes, 17 x 13 = 221 moves."""

MOST_OFF_BOARDS = 1.0
"""A move matches if turning board and arrival both come within this much of the first ball's (our choice)."""

_ROOM_STEP_BOARDS, _ROOM_REACH_BOARDS = 0.1, 6.0


@dataclasses.dataclass(frozen=True, eq=False)
class BallOnLine:
    """One ball on one line.

    Parameters
    ----------
    ball, line : Ball, Line
        What was thrown, and where.
    paths : LinePaths
        The ball as meant, and twenty with the bowler's own errors.
    launch_deg : float
        Heading at the hand as meant, negative to the outside. [deg]
    strike_prob : float
        Chance of a strike with the bowler's own errors, 512 balls, the carry table's level included.
    room_out_boards, room_in_boards : float
        How far the target may be missed to each side with the ball within a board of the pocket's middle;
        both 0 where the ball as meant is not. [boards]
    """

    ball: Ball
    line: Line
    paths: LinePaths
    launch_deg: float
    strike_prob: float
    room_out_boards: float
    room_in_boards: float

    @property
    def skid_ft(self) -> float:
        """Where skid ends and hook begins: turned by 1 degree [ft]."""
        return float(self.paths.path.hook_ft[0])

    @property
    def roll_ft(self) -> float:
        """Where hook ends and roll begins: no slip left; NaN if it still slips at the pins [ft]."""
        return float(self.paths.path.roll_ft[0])

    @property
    def entry_deg(self) -> float:
        """Heading at the pins [deg]."""
        return float(self.paths.path.entry_deg[0])

    @property
    def turn_deg(self) -> float:
        """How far the heading turned from hand to pins [deg]."""
        return self.entry_deg - self.launch_deg

    @property
    def arrival_board(self) -> float:
        """Board at the head-pin plane [board]."""
        return self.paths.arrival_board

    @property
    def covered_boards(self) -> float:
        """How far inside of its straight line the ball reaches the pins [boards]."""
        slope = np.tan(np.radians(self.launch_deg)) * ft_to_boards(HEAD_PIN_FT)
        return self.arrival_board - float(self.paths.meant_board[0]) - float(slope)

    @property
    def turn_board(self) -> float:
        """The outermost board of the ball as meant [board]."""
        return float(np.nanmin(self.paths.meant_board))

    @property
    def turn_ft(self) -> float:
        """Where it is outermost; NaN where that hangs on chance, as for a breakpoint [ft]."""
        return self.paths.breakpoint_ft


@dataclasses.dataclass(frozen=True)
class Match:
    """A move that brings one ball to another's turning board and arrival.

    Parameters
    ----------
    move, line : Move, Line
        From the line compared on, and the line it leads to.
    off_turn_boards, off_arrival_boards : float
        What is left of the difference, + inside. [boards]
    strike_prob : float
        Chance of a strike on that line.
    """

    move: Move
    line: Line
    off_turn_boards: float
    off_arrival_boards: float
    strike_prob: float

    @property
    def is_close(self) -> bool:
        """Whether both come within a board; if not, no move within reach matches the balls."""
        return max(abs(self.off_turn_boards), abs(self.off_arrival_boards)) <= MOST_OFF_BOARDS


@dataclasses.dataclass(frozen=True, eq=False)
class Compared:
    """What one of the compared balls does, and where it wants to be played.

    Parameters
    ----------
    on_line : BallOnLine
        On the line that all are compared on.
    match : Match
        The move to the first ball's turning board and arrival; for the first ball itself "stay".
    on_match : BallOnLine
        After it.
    best_move : Move
        To this ball's own best line nearby: the shortest of those that are equal to the best.
    on_best : BallOnLine
        There.
    """

    on_line: BallOnLine
    match: Match
    on_match: BallOnLine
    best_move: Move
    on_best: BallOnLine


def compare_balls(
    session: Session, balls: Sequence[Ball], n_balls: int = N_ROUGH_BALLS
) -> tuple[Compared, ...]:
    """Return what each ball does on the session's line, in the order given; the first is the reference.

    Parameters
    ----------
    session : Session
        Bowler, pattern, line and seed count; its own ball does not.
    balls : sequence of Ball
        At least two.
    n_balls : int, default 64
        Balls at each of the 221 lines around the session's.

    Raises
    ------
    InputError
        If fewer than two balls are given, or the pattern is unknown.
    """
    balls = checked_balls(balls)
    film = known_film(checked_thing("session", session, Session).pattern)
    if film is None:
        message = "pattern is not known; expected a pattern with film to throw on. Give one, e.g. house_41."
        raise InputError(message, {"pattern": message})
    session = dataclasses.replace(session, pattern=film)
    lines = lines_nearby(session.line, session.bowler, FEET_REACH_BOARDS, EYES_REACH_BOARDS)
    first = ball_on_line(session, balls[0], session.line)
    return tuple(_compared(dataclasses.replace(session, ball=ball), lines, n_balls, first) for ball in balls)


def checked_balls(balls: object, least: int = 2) -> tuple[Ball, ...]:
    """Return the balls, or raise if they are too few or something else."""
    if not isinstance(balls, list | tuple) or len(balls) < least:
        noun = "balls" if least > 1 else "ball"
        message = f"balls is {shown(balls)}; expected a list of at least {least} {noun}. Give e.g. "
        raise InputError(message + "[load_ball('hybrid_2000'), load_ball('solid_1000')].")
    return tuple(checked_thing("balls", ball, Ball) for ball in balls)


def ball_on_line(session: Session, ball: Ball, line: Line) -> BallOnLine:
    """Return what one ball does on one line; the session's bowler, pattern and seed count."""
    session = dataclasses.replace(session, ball=ball, line=line)
    paths, chance = line_paths(session, line), _strike_prob(session)
    misses = np.arange(0.0, _ROOM_REACH_BOARDS, _ROOM_STEP_BOARDS)
    arrival = simulate_lines(session, misses_boards=np.concatenate([-misses, misses])).arrival_board
    is_there = (np.abs(arrival - POCKET_BOARD) <= ROOM_BOARDS).reshape(2, -1)
    n_held = np.logical_and.accumulate(is_there, axis=1).sum(axis=1).tolist()
    rooms = [round(max(0, n - 1) * _ROOM_STEP_BOARDS, 1) for n in n_held]
    return BallOnLine(ball, line, paths, line_angle_deg(line, session.bowler), chance, *rooms)


def _strike_prob(session: Session) -> float:
    """Return the chance of a strike on the session's line, on the film of the sheet."""
    session = as_simulated(session)
    _, film = ball_and_pattern(session)
    return float(line_chances(session, [session.line], [film])[0, 0])


def _compared(session: Session, lines: Sequence[Line], n_balls: int, first: BallOnLine) -> Compared:
    ball, film = ball_and_pattern(session)
    on_line = first if ball == first.ball else ball_on_line(session, ball, session.line)
    best = best_line(session, lines, [film], n_balls)
    match = _match(session, lines, first)
    return Compared(
        on_line=on_line,
        match=match,
        on_match=on_line if match.move.is_stay else ball_on_line(session, ball, match.line),
        best_move=move_between(session.line, best.line),
        on_best=ball_on_line(session, ball, best.line),
    )


def _match(session: Session, lines: Sequence[Line], first: BallOnLine) -> Match:
    """Return the line nearest to the first ball's turning board and arrival, both counted alike."""
    meant = simulate_lines(session, lines, keep_path=True)
    off_turn = np.min(meant.path_board, axis=0).astype(float) - first.turn_board
    off_arrival = meant.arrival_board - first.arrival_board
    off = np.where(np.isfinite(off_arrival), off_turn**2 + off_arrival**2, np.inf)
    number = int(np.argmin(off))
    line = lines[number]
    return Match(
        move=move_between(session.line, line),
        line=line,
        off_turn_boards=float(off_turn[number]),
        off_arrival_boards=float(off_arrival[number]),
        strike_prob=_strike_prob(dataclasses.replace(session, line=line)),
    )
