"""Every line that a bowler can play on a pattern, and how often it would strike with their scatter.

All lines are thrown with the same release errors, on the film of the sheet and on a thinner and a thicker
one, because a lane seldom carries exactly what its sheet says. The chance is the mean over these films.
"""

import dataclasses
import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.levers import fits_problems, laydown_board
from coachlib.coaching.session import Session
from coachlib.coaching.trials import ball_and_pattern, meant_release, thrown
from coachlib.coaching.usual_start import UsualStart, usual_lines, usual_start
from coachlib.errors import InputError
from coachlib.physics.carry import strike_prob
from coachlib.physics.motion import simulate
from coachlib.physics.scatter import scattered_each
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD
from coachlib.world.line import FEET_HIGH_BOARD, FEET_LOW_BOARD, Line
from coachlib.world.oil import OilPattern, thinned
from coachlib.world.path import Path

Floats = NDArray[np.float64]

FILM_FRACS = (0.85, 1.0, 1.15)
"""Film on the lane over film of the sheet, each counted alike (our choice; no survey of lanes was found)."""

NOISE_PROB = 0.025
"""Lines that differ by less are called equal: half a ball of twenty, the finest that is ever said."""

IN_POCKET_BOARDS = 0.7
"""So near to 17.5 a ball is in the pocket (`pocket` of :mod:`coachlib.world.lane`) [boards]."""

_EXIT_SHARE = 0.01
# So little counts the rule of 31 beside the usual target: it decides between lines over the same one.

ROOM_FRAC = 0.8
"""A line still has room where it keeps this share of the best chance (our choice)."""

N_ROUGH_BALLS, N_FINE_BALLS = 64, 512
_N_CLOSER = 32
# How far outside of the laydown the target may lie; straight from board 1 to the pocket is 4.1 inside.
_AIM_BOARDS = (-4.5, 12.0)
_RUNNER_UP_BOARDS = 3.0
_N_RUNNERS_UP = 3
_WIDEST_PARALLEL_BOARDS, _WIDEST_AIM_BOARDS = 8, 4


@dataclasses.dataclass(frozen=True)
class Scanned:
    """The line found and the others beside it.

    Parameters
    ----------
    line : Line
        Of the usual lines the one that strikes most often, or of equal ones the most usual, see
        :func:`best_line`.
    strike_prob : float
        Its chance, mean over the films.
    film_probs : tuple of float
        Its chance on each of :data:`FILM_FRACS`.
    others : tuple of (Line, float)
        The best lines at least three boards of feet away from it and from each other, best first.
    """

    line: Line
    strike_prob: float
    film_probs: tuple[float, ...]
    others: tuple[tuple[Line, float], ...]


@dataclasses.dataclass(frozen=True)
class Room:
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


def playable_lines(bowler: Bowler, target_ft: float) -> list[Line]:
    """Return all lines of whole boards that fit lane, approach and bowler.

    Parameters
    ----------
    bowler : Bowler
        Stance limits, comfort board, walk and laydown offset count.
    target_ft : float
        Distance of the target. [ft]

    Raises
    ------
    InputError
        If there is none.
    """
    low = math.ceil(max(bowler.feet_low_board, FEET_LOW_BOARD))
    high = math.floor(innermost_board(bowler))
    lines = [
        line
        for feet in range(low, high + 1)
        for target in range(FIRST_BOARD, LAST_BOARD + 1)
        if is_playable(line := Line(float(feet), float(target), target_ft), bowler)
    ]
    if not lines:
        message = (
            f"feet_low_board is {bowler.feet_low_board:g} and the innermost stance {high:g}; expected "
            "stances from which a line fits the lane, usually boards 8 to 45. Widen feet_low_board to "
            "feet_high_board."
        )
        raise InputError(message, {"feet_low_board": message})
    return lines


def innermost_board(bowler: Bowler) -> float:
    """Return the innermost stance that the approach allows and the bowler still trusts [board]."""
    trusted = FEET_HIGH_BOARD if bowler.comfort_board is None else bowler.comfort_board
    return min(bowler.feet_high_board, trusted)


def is_playable(line: Line, bowler: Bowler) -> bool:
    """Return whether a line fits lane and bowler and is aimed a usual way."""
    least, most = _AIM_BOARDS
    return least <= laydown_board(line, bowler) - line.target_board <= most and not fits_problems(
        line, bowler
    )


def strike_chances(
    session: Session, lines: Sequence[Line], films: Sequence[OilPattern], n_balls: int
) -> Floats:
    """Return how often each line strikes on each film, with the bowler's own scatter.

    Parameters
    ----------
    session : Session
        Bowler, ball and seed count.
    lines : sequence of Line
        All with one target distance.
    films : sequence of OilPattern
        What lies on the lane.
    n_balls : int
        Thrown at each line on each film, always with the same errors.

    Returns
    -------
    ndarray, shape (n_films, n_lines)
        A ball in the gutter never strikes.
    """
    ball, _ = ball_and_pattern(session)
    meant = meant_release(session, lines)
    release = scattered_each(meant, session.bowler, n_balls, session.seed, lines[0].target_ft)
    chances = []
    for film in films:
        path = simulate(release, ball, film, session.bowler.hand, keep_path=False)
        struck = _strike_probs(path, ball.weight_lb)
        chances.append(struck.reshape(len(lines), n_balls).mean(axis=1))
    return np.array(chances)


def films_of(pattern: OilPattern) -> tuple[OilPattern, ...]:
    """Return the films that a line is judged on."""
    return tuple(thinned(pattern, frac) for frac in FILM_FRACS)


def best_line(session: Session) -> Scanned:
    """Return the line to start on, and the best ones elsewhere.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern with film, target distance and seed count.

    Notes
    -----
    Only lines that such a bowler usually starts on are asked, see :mod:`coachlib.coaching.usual_start`: a
    coach begins there, and the simulation of a sheet is no ground to send anybody elsewhere. They are thrown
    with few balls, the promising ones again with many: what is chosen with one set of balls is told with
    another. One is taken whose ball as meant finds the pocket, or comes nearest to it, as long as it keeps
    :data:`ROOM_FRAC` of the best chance: a good ball that misses it could not be judged. Of the equal ones
    among these the one whose target is nearest to the usual one, and then the one
    that leaves the oil nearest to the rule of 31's board.
    """
    ball, pattern = ball_and_pattern(session)
    films = films_of(pattern)
    usual = usual_start(session.bowler, ball, pattern)
    lines = usual_lines(usual, playable_lines(session.bowler, session.line.target_ft), session.bowler)
    rough = strike_chances(session, lines, films, N_ROUGH_BALLS).mean(axis=0)
    closer = [lines[number] for number in _promising(lines, rough)]
    fine = strike_chances(session, closer, films, N_FINE_BALLS)
    means = fine.mean(axis=0)
    chosen = _chosen(means, closer, meant_path(session, closer), usual, pattern)
    ranked = [chosen, *(number for number in np.argsort(-means, kind="stable").tolist() if number != chosen)]
    apart = _far_apart([closer[number] for number in ranked])[1:]
    most = means[chosen] + NOISE_PROB  # what strikes more often by other ways than the pocket is not offered
    others = tuple((line, chance) for line in apart if (chance := float(means[closer.index(line)])) < most)
    return Scanned(closer[chosen], float(means[chosen]), tuple(fine[:, chosen].tolist()), others)


def meant_path(session: Session, lines: Sequence[Line]) -> Path:
    """Return where the ball as meant goes on each line, on the film of the sheet."""
    return thrown(session, lines, keep_path=True)


def exit_boards(path: Path, pattern: OilPattern) -> Floats:
    """Return where each ball leaves the oil; far off for one in the gutter [board]."""
    return np.nan_to_num(path.board_at(pattern.length_ft).astype(float), nan=-LAST_BOARD)


def room_of(session: Session, line: Line) -> Room:
    """Return how far a line may be shifted to either side and keep most of its chance."""
    _, pattern = ball_and_pattern(session)
    parallel = [float(shift) for shift in range(1, _WIDEST_PARALLEL_BOARDS + 1)]
    aim = [step / 2.0 for step in range(1, 2 * _WIDEST_AIM_BOARDS + 1)]
    ways = [(1.0, -1.0, parallel), (1.0, 1.0, parallel), (0.0, -1.0, aim), (0.0, 1.0, aim)]
    rows = [_shifted(session.bowler, line, feet * way, way, steps) for feet, way, steps in ways]
    lines = [line, *(shifted for row in rows for shifted in row)]
    chances = strike_chances(session, lines, films_of(pattern), N_FINE_BALLS).mean(axis=0)
    kept = iter((chances[1:] >= ROOM_FRAC * chances[0]).tolist())
    reached = [_run([next(kept) for _ in row]) for row in rows]
    return Room(*(([0.0, *steps])[n_kept] for (_, _, steps), n_kept in zip(ways, reached, strict=True)))


def _strike_probs(path: Path, weight_lb: float) -> Floats:
    struck = np.zeros(path.n_shots)
    on = ~path.gutter
    if on.any():
        struck[on] = strike_prob(
            path.arrival_board[on], path.entry_deg[on], path.speed_at_pins_mph[on], weight_lb
        )
    return struck


def _chosen(
    chances: Floats, lines: Sequence[Line], path: Path, usual: UsualStart, pattern: OilPattern
) -> int:
    """Return the best line; of equal ones one that finds the pocket as meant, nearest to the usual one."""
    off = np.abs(np.nan_to_num(path.arrival_board) - POCKET_BOARD)
    wanted = chances > ROOM_FRAC * chances.max()
    wanted &= off <= max(IN_POCKET_BOARDS, off[wanted].min())
    wanted &= chances > chances[wanted].max() - NOISE_PROB
    exits = np.abs(exit_boards(path, pattern) - pattern.rule_of_31_board)
    targets = np.abs(np.array([line.target_board for line in lines]) - usual.target_board)
    return int(np.argmin(np.where(wanted, targets + _EXIT_SHARE * exits, np.inf)))


def _promising(lines: Sequence[Line], rough: Floats) -> list[int]:
    """Return the best lines and the best line of each stance, in the order of the lines."""
    chosen = set(np.argsort(-rough, kind="stable")[:_N_CLOSER].tolist())
    best_of_stance: dict[float, int] = {}
    for number, line in enumerate(lines):
        held = best_of_stance.setdefault(line.feet_board, number)
        if rough[number] > rough[held]:
            best_of_stance[line.feet_board] = number
    return sorted(chosen | set(best_of_stance.values()))


def _far_apart(ranked: Sequence[Line]) -> list[Line]:
    """Return the first line and the next ones that stand apart from all before them."""
    chosen: list[Line] = []
    for line in ranked:
        if all(abs(line.feet_board - other.feet_board) >= _RUNNER_UP_BOARDS for other in chosen):
            chosen.append(line)
    return chosen[: 1 + _N_RUNNERS_UP]


def _shifted(bowler: Bowler, line: Line, feet: float, eyes: float, steps: Sequence[float]) -> list[Line]:
    """Return the line shifted step by step, up to the last one that can be walked and aimed."""
    shifted: list[Line] = []
    for step in steps:
        feet_board, target_board = line.feet_board + feet * step, line.target_board + eyes * step
        if not (
            FEET_LOW_BOARD <= feet_board <= FEET_HIGH_BOARD and FIRST_BOARD <= target_board <= LAST_BOARD
        ):
            break
        candidate = Line(feet_board, target_board, line.target_ft)
        if fits_problems(candidate, bowler):
            break
        shifted.append(candidate)
    return shifted


def _run(holds: Sequence[bool]) -> int:
    """Return how many hold before the first that does not."""
    return next((number for number, held in enumerate(holds) if not held), len(holds))
