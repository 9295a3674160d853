"""The game plan: where to start on a pattern, how much room there is, and what to do if it goes wrong.

The starting line is, of those that such a bowler usually starts on
(:mod:`coachlib.coaching.simulation.usual_start`), the one that strikes most often with this ball on this
pattern, thrown in the model with the bowler's own scatter (:mod:`coachlib.coaching.simulation.line_search`).
What is not known is taken as usual and listed. No ball needs to be seen: the first ones overrule the plan.

Where a pattern's film is not known and cannot be guessed from its kind, the line follows the rule of 31 alone
and is marked as such.
"""

import dataclasses
import itertools
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.plan.plan_cases import WhatIf, cases_of
from coachlib.coaching.rules.rulebook import Rulebook, load_rulebook
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.coaching.simulation.line_search import (
    EQUAL_PROB,
    ROOM_FRAC,
    as_simulated,
    best_line,
    exit_boards,
    films_of,
    line_chances,
    meant_path,
)
from coachlib.coaching.simulation.paths import known_film, what_is_assumed
from coachlib.coaching.simulation.usual_start import usual_start
from coachlib.coaching.simulation.what_if import ball_and_pattern
from coachlib.errors import InputError, checked_thing
from coachlib.world.bowler import Bowler
from coachlib.world.lane import HEAD_PIN_FT, POCKET_BOARD
from coachlib.world.levers import board_at, fits_problems, laydown_board
from coachlib.world.line import Line, Move, after_move
from coachlib.world.oil import OilPattern
from coachlib.world.usual import throws_straight

RULE_OUT_BOARDS = 3.0
"""By rule alone a hooking ball is aimed so far to the outside of its laydown (our guess) [boards]."""

PLAN_FACTOR = 0.8
"""Chances shown over chances on the sheet: *tuned* on 96 hidden lanes of seeds 0 to 3, where planned lines
were said to strike 7.1 times of 20 and did 5.7 times (``python -m tests.benchmarks.plan_chances``). A
plan is the best of many lines on a sheet that no lane follows to the letter, so it is rosier than a
belief that has seen balls."""


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


@dataclasses.dataclass(frozen=True)
class RunnerUp:
    """Another line and what it loses against the planned one.

    Parameters
    ----------
    line : Line
        At least three boards of feet away.
    strike_prob : float
        Its chance.
    loses_prob : float
        The planned line's chance less this one's.
    """

    line: Line
    strike_prob: float
    loses_prob: float

    @property
    def is_equal(self) -> bool:
        """Whether the difference is less than can be told."""
        return abs(self.loses_prob) < EQUAL_PROB


@dataclasses.dataclass(frozen=True)
class Plan:
    """Where to start, and what then.

    Parameters
    ----------
    session : Session
        Bowler, ball and pattern as given, on the planned line, no ball seen yet.
    line : Line
        The line to start on.
    exit_board : float
        Where the ball as meant leaves the oil; for a plan by rule alone, its straight aim. [board]
    start : Advice
        What the rulebook says before the first ball.
    arrival_board : float or None
        Where the ball as meant arrives. [board]
    strike_prob : float or None
        Its chance as shown, mean over the sheet's film, a thinner and a thicker one; None by rule alone.
    film_probs : tuple of float
        The chance on each of these films, thin to thick, see
        :data:`coachlib.coaching.simulation.line_search.FILM_FRACS`.
    room : LineRoom or None
        How far the line may be shifted and keep most of its chance.
    runners_up : tuple of RunnerUp
        The best lines elsewhere.
    cases : tuple of WhatIf
        If it goes high, light, early, late.
    assumed : tuple of (str, str)
        What is not known, and what it was taken for.
    reason : str
        Why one starts about there, in one plain sentence with the placeholders of rules; empty for a plan by
        rule alone.
    """

    session: Session
    line: Line
    exit_board: float
    start: Advice
    arrival_board: float | None = None
    strike_prob: float | None = None
    film_probs: tuple[float, ...] = ()
    room: LineRoom | None = None
    runners_up: tuple[RunnerUp, ...] = ()
    cases: tuple[WhatIf, ...] = ()
    assumed: tuple[tuple[str, str], ...] = ()
    reason: str = ""

    @property
    def is_rule_only(self) -> bool:
        """Whether nothing was simulated: the line follows the rule of 31 alone."""
        return self.strike_prob is None


def plan(session: Session, rulebook: Rulebook | None = None) -> Plan:
    """Return where to start on a pattern, and what to do if it goes high, light, early or late.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern, target distance and seed count; its line and the balls it has seen do not.
    rulebook : Rulebook, optional
        The rules, with a club's own laid over them; ours if left out.

    Returns
    -------
    Plan
        The same question always gives the same plan.

    Raises
    ------
    InputError
        If no pattern is known, no line fits this bowler, or something given is something else.
    ModelError
        If a ball stops before the pins.

    Notes
    -----
    Valid for: a fresh lane. Wear, other players, and a bowler who is not as declared are not simulated, so
    the true chance is rather lower than the one shown.
    """
    checked_thing("session", session, Session)
    book = load_rulebook() if rulebook is None else checked_thing("rulebook", rulebook, Rulebook)
    found = starting_line(dataclasses.replace(session, events=()), book)
    if found.is_rule_only:
        return found
    on_line = dataclasses.replace(as_simulated(session), line=found.line)
    return dataclasses.replace(found, room=line_room(on_line, found.line), cases=cases_of(on_line, book))


def starting_line(session: Session, rulebook: Rulebook | None = None) -> Plan:
    """Return the plan of a session without its room and its cases, in half of the time; as :func:`plan`."""
    book, oil = rulebook or load_rulebook(), session.pattern
    if oil is None:
        message = (
            "pattern is None; expected the oil to plan for. Give one, e.g. load_pattern('house_41'), or its "
            "length and kind: OilPattern(name='ours', length_ft=41, kind='house')."
        )
        raise InputError(message, {"pattern": message})
    film = known_film(oil)
    if film is None:
        return _by_rule(session, oil, book)
    simulated = as_simulated(session)
    found = best_line(simulated)
    path = meant_path(simulated, [found.line])
    assumed = what_is_assumed(session.bowler, session.ball, oil)
    return _planned(
        session,
        found.line,
        float(exit_boards(path, film)[0]),
        book,
        arrival_board=float(path.arrival_board[0]),
        strike_prob=PLAN_FACTOR * found.strike_prob,
        film_probs=tuple(PLAN_FACTOR * one for one in found.film_probs),
        runners_up=tuple(
            RunnerUp(line, PLAN_FACTOR * chance, PLAN_FACTOR * (found.strike_prob - chance))
            for line, chance in found.others
        ),
        assumed=assumed if session.phase == "fresh" else (*assumed, ("wear of the oil", "oil as laid")),
        reason=usual_start(session.bowler, session.ball, oil).reason,
    )


def _planned(session: Session, line: Line, exit_board: float, book: Rulebook, **simulated: Any) -> Plan:
    """Return the plan on a line; a bowler with pain is let bowl: a plan is for no other day."""
    planned = dataclasses.replace(session, line=line, events=())
    let_bowl = dataclasses.replace(planned, goes_on_with_pain=True)
    return Plan(planned, line, exit_board, advise(let_bowl, book, model_on=False), **simulated)


def _by_rule(session: Session, pattern: OilPattern, book: Rulebook) -> Plan:
    """Return the line whose straight aim leaves the oil where the rule of 31 says.

    A hooking ball is aimed three boards to the outside over the target's distance. A straight one is aimed at
    the pocket first, and leaves the oil as near to the rule as that allows.
    """
    bowler = session.bowler

    def off_boards(line: Line) -> tuple[float, float]:
        exit_off = abs(board_at(line, bowler, pattern.length_ft) - pattern.rule_of_31_board)
        if throws_straight(bowler, session.ball):
            return abs(board_at(line, bowler, HEAD_PIN_FT) - POCKET_BOARD), exit_off
        return exit_off + abs(laydown_board(line, bowler) - line.target_board - RULE_OUT_BOARDS), 0.0

    line = min(playable_lines(bowler, session.line.target_ft), key=off_boards)
    return _planned(session, line, board_at(line, bowler, pattern.length_ft), book)


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
    n_kept = [sum(itertools.takewhile(bool, [next(kept) for _ in row])) for row in rows]
    return LineRoom(*([0.0, *steps][n] for (_, _, steps), n in zip(ways, n_kept, strict=True)))


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
