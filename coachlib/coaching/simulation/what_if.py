"""What if: the ball of a session thrown in the model with one thing changed, be it a move, a miss or a speed.

The session says who throws which ball, on which pattern and line; nothing that was seen counts. Balls are
thrown as meant, without scatter, unless a function says otherwise. Valid for and not modelled: as in
:mod:`coachlib.physics.motion`.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import ArrayLike, NDArray

from coachlib.coaching.session.session import Session
from coachlib.errors import raise_input_errors
from coachlib.physics.motion import simulate
from coachlib.physics.wear import Thrower
from coachlib.units import ft_to_boards
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line, Move, after_move
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import Release, release_on_line
from coachlib.world.usual import as_usual

N_BALLS = 64
"""Balls thrown at each line where a share is counted; good to about 1 in 20."""

ROOM_BOARDS = 1.0
"""A miss is forgiven while the ball arrives this near to the middle of the pocket (our choice) [boards]."""

_AIM_STEP_BOARDS = 0.1
_WIDEST_AIM_BOARDS = 12.0


def simulate_lines(
    session: Session,
    lines: Sequence[Line] | None = None,
    *,
    misses_boards: ArrayLike = 0.0,
    keep_path: bool = False,
    **changes: ArrayLike,
) -> Path:
    """Return where the ball goes on each line, with a miss or a changed release.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and line count; all must be known.
    lines : sequence of Line, optional
        One shot each; default is the session's line.
    misses_boards : float or array
        How far inside of the target the ball crosses, laydown kept. [boards]
    keep_path : bool, default False
        Keep the board at each foot.
    **changes
        Other values of :class:`coachlib.Release` fields: ``speed_mph=[16, 17, 18]``.

    Raises
    ------
    InputError
        If ball or pattern are unknown, a name is no field of a release, or a value is out of range.
    """
    ball, pattern = ball_and_pattern(session)
    release = meant_release(session, lines, misses_boards=misses_boards, **changes)
    return simulate(release, ball, pattern, session.bowler.hand, keep_path)


def meant_release(
    session: Session,
    lines: Sequence[Line] | None = None,
    *,
    misses_boards: ArrayLike = 0.0,
    **changes: ArrayLike,
) -> Release:
    """Return what leaves the hand in :func:`simulate_lines`, same arguments."""
    lines = lines or [session.line]
    bowler = as_usual(session.bowler, session.ball)
    releases = [meant_on_line(bowler, line) for line in lines]
    release = joined_releases(releases) if len(releases) > 1 else releases[0]
    target_ft = np.array([line.target_ft for line in lines]) if len(lines) > 1 else lines[0].target_ft
    slope = np.tan(np.radians(release.launch_deg)) + np.asarray(misses_boards) / ft_to_boards(target_ft)  # type: ignore[arg-type]
    values = {field.name: getattr(release, field.name) for field in dataclasses.fields(Release)}
    for name in changes:
        if name not in values:
            known = ", ".join(values)
            message = f"{name} is no field of a release; expected one of {known}. Check the spelling."
            raise_input_errors({name: message})
    return Release(**values | {"launch_deg": np.degrees(np.arctan(slope)), **changes})


def arrival_changes_boards(session: Session, moves: Sequence[Move]) -> NDArray[np.float64]:
    """Return how far each move of feet and eyes shifts the arrival, + inside [boards]."""
    lines = [session.line, *(after_move(session.line, move) for move in moves)]
    arrival = simulate_lines(session, lines).arrival_board
    return arrival[1:] - arrival[0]


def aim_rooms_boards(session: Session, feet_boards: Sequence[float]) -> NDArray[np.float64]:
    """Return how far the aim may stray from each stance with the ball still within a board of the pocket.

    Only aims straight ahead or to the outside are asked, of a bowler who slides parallel: the laydown stays
    while the aim strays. The result is the longest stretch of boards at the target distance, to a tenth. A
    straight ball has ``2 * ROOM_BOARDS`` over its lever: half a board at 15 ft. [boards]
    """
    rooms = []
    for feet in feet_boards:
        line = dataclasses.replace(session.line, feet_board=feet)
        laydown = laydown_board(line, session.bowler)
        low, high = max(laydown - _WIDEST_AIM_BOARDS, FIRST_BOARD), min(laydown, LAST_BOARD)
        aims = np.arange(low, high, _AIM_STEP_BOARDS)
        start = dataclasses.replace(session, line=dataclasses.replace(line, target_board=float(aims[0])))
        arrival = simulate_lines(start, misses_boards=aims - aims[0]).arrival_board
        rooms.append(_longest(np.abs(arrival - POCKET_BOARD) <= ROOM_BOARDS) * _AIM_STEP_BOARDS)
    return np.round(rooms, 1)


def thrower_of(session: Session) -> Thrower:
    """Return who wears the lane if this session goes on; an InputError if ball or pattern are unknown."""
    ball, _ = ball_and_pattern(session)
    line = session.line
    return Thrower(
        session.bowler, ball, laydown_board(line, session.bowler), line.target_board, line.target_ft
    )


def headings_deg(path: Path) -> NDArray[np.float64]:
    """Return the heading over each foot of the kept paths, shape (60, n_shots), + inside [deg]."""
    return np.degrees(np.arctan(np.diff(path.path_board.astype(float), axis=0) / ft_to_boards(1.0)))


def ball_and_pattern(session: Session) -> tuple[Ball, OilPattern]:
    """Return ball and pattern of a session, or raise an error that says which is missing."""
    if session.ball is None or session.pattern is None:
        name = "ball" if session.ball is None else "pattern"
        example = {"ball": "load_ball('hybrid_2000')", "pattern": "load_pattern('house_41')"}[name]
        message = f"{name} is None; expected the {name} to simulate with. Give one, e.g. {example}."
        raise_input_errors({name: message})
    return session.ball, session.pattern


def meant_on_line(bowler: Bowler, line: Line) -> Release:
    """Return the ball as meant on a line, by a bowler of whom all is known."""
    return release_on_line(bowler, laydown_board(line, bowler), line.target_board, line.target_ft)


def joined_releases(releases: Sequence[Release]) -> Release:
    """Return several releases as one, first to last."""
    fields = [field.name for field in dataclasses.fields(Release)]
    rows = {name: [np.broadcast_to(getattr(one, name), one.n_shots) for one in releases] for name in fields}
    return Release(**{name: np.concatenate(values) for name, values in rows.items()})


def _longest(holds: NDArray[np.bool_]) -> int:
    """Return the length of the longest run of True."""
    edges = np.flatnonzero(np.diff(np.concatenate([[False], holds, [False]]).astype(int)))
    return int(np.max(edges[1::2] - edges[::2], initial=0))
