"""Which line to play with a ball on some oil: one list of lines, one count of strikes, one choice.

All lines that are compared are thrown with the same release errors, so that a difference comes from the
line. A chance is the carry table's, its level included. A lane seldom carries exactly what its sheet says:
unless other films are given, a line is thrown on the film of the sheet and on a thinner and a thicker one,
and its chance is the mean. It holds for a lane as laid down in the pattern, not for the one lane in front of
a person, and is rosier than what is scored there.
"""

import dataclasses
from collections.abc import Callable, Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.coaching.simulation.paths import USUAL_BALL, known_film
from coachlib.coaching.simulation.usual_start import usual_lines, usual_start
from coachlib.coaching.simulation.what_if import ball_and_pattern, meant_release, simulate_lines
from coachlib.errors import InputError
from coachlib.physics.motion import simulate
from coachlib.physics.pins.carry import strike_prob_of
from coachlib.physics.scatter import scattered_each
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import CENTRE_BOARD, LAST_BOARD, POCKET_BOARD, POCKET_HALF_BOARDS
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, thinned
from coachlib.world.path import Path
from coachlib.world.usual import as_usual

Floats = NDArray[np.float64]
Chances = Callable[[Sequence[Line], int], Floats]
"""From lines, all of one target distance, and a number of balls at each, to the chance on each."""

EQUAL_PROB = 0.0125
"""Lines and moves whose chances differ by less, a quarter ball of 20, are equal for plan, advice and words.

*Measured* for moves after balls were seen: with the believed lanes drawn anew, the difference of two good
moves changes by 0.003 (one standard deviation, mean of eight cases; in the widest, nine pairs of ten stay
below 0.016): ``python -m tests.benchmarks.equal_moves``. The difference of two lines of a plan, 512 balls
each, changes by less than 0.01 with other balls: ``tests/coaching/simulation/test_line_search.py``.
"""

FILM_FRACS = (0.85, 1.0, 1.15)
"""Film on the lane over film of the sheet, each counted alike (our choice; no survey of lanes was found)."""

ROOM_FRAC = 0.8
"""A line still has room where it keeps this share of the best chance (our choice)."""

N_ROUGH_BALLS, N_FINE_BALLS = 64, 512
"""Balls at every line, then at the promising ones."""

MOST_SLIPS_FRAC = 0.5
"""Where more balls than these still slip at the pins the chance is not known (our choice)."""

_N_CLOSER = 16
_EXIT_SHARE = 0.01  # so little counts the rule of 31 beside the usual target: it decides over one target
_RUNNER_UP_BOARDS = 3.0
_N_RUNNERS_UP = 3


@dataclasses.dataclass(frozen=True)
class BestLine:
    """The line found and the others beside it.

    Parameters
    ----------
    line : Line
        The line.
    strike_prob : float
        Its chance, mean over the films.
    film_probs : tuple of float
        Its chance on each film.
    slips_frac : float
        Share of its balls that still slip at the pins. The carry table is made of rolling balls.
    others : tuple of (Line, float)
        The best lines at least three boards of feet away from it and from each other, best first.
    """

    line: Line
    strike_prob: float
    film_probs: tuple[float, ...] = ()
    slips_frac: float = 0.0
    others: tuple[tuple[Line, float], ...] = ()

    @property
    def is_known(self) -> bool:
        """Whether at least half of the balls roll, so that the carry table speaks of them."""
        return self.slips_frac <= MOST_SLIPS_FRAC


# the candidates


def starting_lines(session: Session) -> list[Line]:
    """Return the lines that such a bowler usually starts on with this ball on this oil, best liked first.

    The liking: the target nearest to the usual one, then the line whose ball leaves the oil nearest to the
    rule of 31's board. See :mod:`coachlib.coaching.simulation.usual_start`: a coach begins there, and the
    simulation of a sheet is no ground to send anybody elsewhere. Where no ball as meant finds the pocket on
    a usual line, the lines beside them are asked too.
    """
    session = as_simulated(session)
    ball, pattern = ball_and_pattern(session)
    usual = usual_start(session.bowler, ball, pattern)
    playable = playable_lines(session.bowler, session.line.target_ft)
    for lines in usual_lines(usual, playable, session.bowler):
        path = meant_path(session, lines)
        if (_off_pocket_boards(path) <= POCKET_HALF_BOARDS).any():
            break
    exits = np.abs(exit_boards(path, pattern) - pattern.rule_of_31_board)
    targets = np.abs(np.array([line.target_board for line in lines]) - usual.target_board)
    return [lines[number] for number in np.argsort(targets + _EXIT_SHARE * exits, kind="stable")]


# what a line is worth


def line_chances(
    session: Session, lines: Sequence[Line], films: Sequence[OilPattern], n_balls: int = N_FINE_BALLS
) -> Floats:
    """Return how often each line strikes on each film, with the bowler's own scatter.

    So many balls are thrown at each line on each film, always with the same errors; one in the gutter never
    strikes. Bowler, ball and seed count.

    Returns
    -------
    ndarray, shape (n_films, n_lines)

    Raises
    ------
    InputError
        If there is no line, or they are aimed at different distances.
    """
    return _struck_and_slipped(session, lines, films, n_balls)[0]


def films_of(pattern: OilPattern) -> tuple[OilPattern, ...]:
    """Return the films that a line is judged on."""
    return tuple(thinned(pattern, frac) for frac in FILM_FRACS)


def as_simulated(session: Session) -> Session:
    """Return the session with what is unknown taken as usual, and without the balls it has seen."""
    bowler, ball = as_usual(session.bowler, session.ball), session.ball or USUAL_BALL
    film = known_film(session.pattern)
    return dataclasses.replace(session, bowler=bowler, ball=ball, pattern=film, events=())


def meant_path(session: Session, lines: Sequence[Line]) -> Path:
    """Return where the ball as meant goes on each line, on the film of the sheet."""
    return simulate_lines(session, lines, keep_path=True)


def exit_boards(path: Path, pattern: OilPattern) -> Floats:
    """Return where each ball leaves the oil; far off for one in the gutter [board]."""
    return np.nan_to_num(path.board_at(pattern.length_ft).astype(float), nan=-LAST_BOARD)


# the choice


def best_line(
    session: Session,
    lines: Sequence[Line] | None = None,
    films: Sequence[OilPattern] | None = None,
    n_rough: int = N_ROUGH_BALLS,
) -> BestLine:
    """Return the best of some lines for a session's bowler, ball and oil; by default the one to start on.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern with film, target distance and seed count; what is unknown is taken as usual.
    lines : sequence of Line, optional
        In order of liking: of equal ones the first is taken. Default: :func:`starting_lines`.
    films : sequence of OilPattern, optional
        What may lie on the lane, each counted alike. Default: :func:`films_of` the session's pattern.
    n_rough : int
        Balls at each line at the first look.

    Notes
    -----
    All are thrown with few balls, the promising ones again with many. One is taken whose ball as meant finds
    the pocket, or comes nearest to it, as long as it keeps :data:`ROOM_FRAC` of the best chance: a good ball
    that misses it could not be judged.
    """
    session = as_simulated(session)
    lines = starting_lines(session) if lines is None else lines
    films = films_of(ball_and_pattern(session)[1]) if films is None else films
    rough = line_chances(session, lines, films, n_rough).mean(axis=0)
    closer = [lines[number] for number in _promising(lines, rough)]
    fine, slipped = _struck_and_slipped(session, closer, films, N_FINE_BALLS)
    means = fine.mean(axis=0)
    off = _off_pocket_boards(simulate_lines(session, closer))
    chosen = _first_of_best(means, off)
    return BestLine(
        closer[chosen],
        float(means[chosen]),
        tuple(fine[:, chosen].tolist()),
        float(slipped[:, chosen].mean()),
        _others(closer, means, chosen),
    )


def on_starting_line(bowler: Bowler, ball: Ball, pattern: OilPattern, seed: int = 0) -> Session:
    """Return a session of this bowler on the line to start on with this ball on this oil."""
    session = Session(bowler, Line(CENTRE_BOARD, CENTRE_BOARD), ball, pattern, seed=seed)
    return dataclasses.replace(session, line=best_line(session).line)


def most_likely(lines: Sequence[Line], chances: Chances, n_rough: int, n_fine: int, n_kept: int) -> Line:
    """Return the line with the best chance: a look at all of them, then a long look at the best `n_kept`."""
    kept = [lines[int(number)] for number in np.argsort(-chances(lines, n_rough), kind="stable")[:n_kept]]
    return kept[int(np.argmax(chances(kept, n_fine)))]


def _struck_and_slipped(
    session: Session, lines: Sequence[Line], films: Sequence[OilPattern], n_balls: int
) -> tuple[Floats, Floats]:
    """Return the chance of each line on each film, and the share of its balls that slip at the pins."""
    if len({line.target_ft for line in lines}) != 1:
        message = f"lines has {len(lines)} lines; expected at least one, all with the same target_ft. "
        raise InputError(message + "Compare lines aimed at one distance.")
    ball, _ = ball_and_pattern(session)
    meant = meant_release(session, lines)
    release = scattered_each(meant, session.bowler, n_balls, session.seed, lines[0].target_ft)
    struck, slipped = [], []
    for film in films:
        path = simulate(release, ball, film, session.bowler.hand, keep_path=False)
        struck.append(strike_prob_of(path, ball.weight_lb).reshape(len(lines), n_balls).mean(axis=1))
        slips = np.isnan(path.roll_ft) & ~path.gutter
        slipped.append(slips.reshape(len(lines), n_balls).mean(axis=1))
    return np.array(struck), np.array(slipped)


def _off_pocket_boards(path: Path) -> Floats:
    """Return how far from the pocket's middle each ball arrives; far off for one in the gutter [boards]."""
    return np.abs(np.nan_to_num(path.arrival_board) - POCKET_BOARD)


def _first_of_best(chances: Floats, off_boards: Floats) -> int:
    """Return the first of the best lines whose ball as meant finds the pocket, or comes nearest to it."""
    wanted = chances > ROOM_FRAC * chances.max()
    wanted &= off_boards <= max(POCKET_HALF_BOARDS, off_boards[wanted].min())
    return int(np.argmax(wanted & (chances > chances[wanted].max() - EQUAL_PROB)))


def _promising(lines: Sequence[Line], rough: Floats) -> list[int]:
    """Return the best lines and the best line of each stance, in the order of the lines."""
    falling = np.argsort(-rough, kind="stable").tolist()
    best_of_stance: dict[float, int] = {}
    for number in falling:
        best_of_stance.setdefault(lines[number].feet_board, number)
    return sorted({*falling[:_N_CLOSER], *best_of_stance.values()})


def _others(lines: Sequence[Line], chances: Floats, chosen: int) -> tuple[tuple[Line, float], ...]:
    """Return the best lines that stand apart from the chosen one and from each other.

    What strikes more often by other ways than the pocket is not offered.
    """
    apart = [chosen]
    for number in np.argsort(-chances, kind="stable").tolist():
        feet = lines[number].feet_board
        if all(abs(feet - lines[other].feet_board) >= _RUNNER_UP_BOARDS for other in apart):
            apart.append(number)
    kept = apart[1 : 1 + _N_RUNNERS_UP]
    return tuple((lines[n], float(chances[n])) for n in kept if chances[n] < chances[chosen] + EQUAL_PROB)
