"""How far a planned line may be shifted to either side and keep most of its strikes."""

import dataclasses
from collections.abc import Sequence

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import ROOM_FRAC, films_of, line_chances
from coachlib.coaching.simulation.what_if import ball_and_pattern
from coachlib.errors import InputError
from coachlib.world.bowler import Bowler
from coachlib.world.levers import fits_problems
from coachlib.world.line import Line, Move, after_move

_WIDEST_PARALLEL_BOARDS, _WIDEST_AIM_BOARDS = 8, 4


@dataclasses.dataclass(frozen=True)
class LineRoom:
    """How far a line may be shifted and keep :data:`ROOM_FRAC` of its chance.

    Parameters
    ----------
    parallel_out_boards, parallel_in_boards : float
        Feet and eyes together, in whole boards. [boards]
    aim_out_boards, aim_in_boards : float
        The eyes alone, in half boards. [boards]
    """

    parallel_out_boards: float
    parallel_in_boards: float
    aim_out_boards: float
    aim_in_boards: float


def line_room(session: Session, line: Line) -> LineRoom:
    """Return how far a line may be shifted to either side and keep most of its chance."""
    _, pattern = ball_and_pattern(session)
    parallel = [float(shift) for shift in range(1, _WIDEST_PARALLEL_BOARDS + 1)]
    aim = [step / 2.0 for step in range(1, 2 * _WIDEST_AIM_BOARDS + 1)]
    ways = [(1.0, -1.0, parallel), (1.0, 1.0, parallel), (0.0, -1.0, aim), (0.0, 1.0, aim)]
    rows = [_shifted(session.bowler, line, feet * way, way, steps) for feet, way, steps in ways]
    lines = [line, *(shifted for row in rows for shifted in row)]
    chances = line_chances(session, lines, films_of(pattern)).mean(axis=0)
    kept = iter((chances[1:] >= ROOM_FRAC * chances[0]).tolist())
    reached = [_run([next(kept) for _ in row]) for row in rows]
    return LineRoom(*(([0.0, *steps])[n_kept] for (_, _, steps), n_kept in zip(ways, reached, strict=True)))


def _shifted(bowler: Bowler, line: Line, feet: float, eyes: float, steps: Sequence[float]) -> list[Line]:
    """Return the line shifted step by step, up to the last one that can be walked and aimed."""
    shifted: list[Line] = []
    for step in steps:
        try:
            candidate = after_move(line, Move(feet_boards=feet * step, target_boards=eyes * step))
        except InputError:  # beside the approach or the lane
            break
        if fits_problems(candidate, bowler):
            break
        shifted.append(candidate)
    return shifted


def _run(holds: Sequence[bool]) -> int:
    """Return how many hold before the first that does not."""
    return next((number for number, held in enumerate(holds) if not held), len(holds))
