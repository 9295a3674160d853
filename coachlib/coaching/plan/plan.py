"""The game plan: where to start on a pattern, how much room there is, and what to do if it goes wrong.

The starting line is, of those that such a bowler usually starts on
(:mod:`coachlib.coaching.simulation.usual_start`), the one that strikes most often with this ball on this
pattern, thrown in the model with the bowler's own scatter (:mod:`coachlib.coaching.simulation.line_search`).
What is not known is taken as usual and listed. No ball needs to be seen: the first ones overrule the plan.

Where a pattern's film is not known and cannot be guessed from its kind, the line follows the rule of 31 alone
and is marked as such.
"""

import dataclasses

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.plan.plan_cases import WhatIf, cases_of
from coachlib.coaching.plan.plan_room import LineRoom, line_room
from coachlib.coaching.rules.rulebook import Rulebook, load_rulebook
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.coaching.simulation.line_search import (
    EQUAL_PROB,
    BestLine,
    as_simulated,
    best_line,
    exit_boards,
    meant_path,
)
from coachlib.coaching.simulation.paths import known_film, what_is_assumed
from coachlib.coaching.simulation.usual_start import usual_start
from coachlib.errors import InputError, checked_thing
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import CENTRE_BOARD, HEAD_PIN_FT, POCKET_BOARD
from coachlib.world.levers import board_at, laydown_board
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.usual import throws_straight

RULE_OUT_BOARDS = 3.0
"""By rule alone a hooking ball is aimed so far to the outside of its laydown (our guess) [boards]."""

PLAN_FACTOR = 0.8
"""Chances shown over chances on the sheet: *tuned* on 96 hidden lanes of seeds 0 to 3, where planned lines
were said to strike 7.1 times of 20 and did 5.7 times (``python -m tests.benchmarks.plan_chances``). A
plan is the best of many lines on a sheet that no lane follows to the letter, so it is rosier than a
belief that has seen balls."""


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
    room : Room or None
        How far the line may be shifted and keep most of its chance.
    runners_up : tuple of RunnerUp
        The best lines elsewhere.
    cases : tuple of Case
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


def plan(
    who: Session | Bowler,
    ball: Ball | None = None,
    pattern: OilPattern | None = None,
    rulebook: Rulebook | None = None,
) -> Plan:
    """Return where to start on a pattern, and what to do if it goes high, light, early or late.

    Parameters
    ----------
    who : Session or Bowler
        A session brings its ball, pattern, target distance and seed; the balls it has seen do not count.
    ball : Ball, optional
        The ball; left out, a session's own, else a usual one.
    pattern : OilPattern, optional
        The oil; left out, a session's own.
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
    session = _session(who, ball, pattern)
    book = load_rulebook() if rulebook is None else checked_thing("rulebook", rulebook, Rulebook)
    oil = _known_oil(session)
    film = known_film(oil)
    return _by_rule(session, oil, book) if film is None else _by_model(session, oil, film, book)


def starting_line(session: Session) -> Plan:
    """Return the plan of a session without its room and its cases: half of the time.

    Parameters
    ----------
    session : Session
        As for :func:`plan`.

    Raises
    ------
    InputError, ModelError
        As :func:`plan`.
    """
    oil = _known_oil(session)
    film = known_film(oil)
    book = load_rulebook()
    return _by_rule(session, oil, book) if film is None else _on_best_line(session, oil, film, book)


def _session(who: Session | Bowler, ball: Ball | None, pattern: OilPattern | None) -> Session:
    """Return a session with nothing seen yet, on no line in particular."""
    if not isinstance(who, Session):
        bowler = checked_thing(
            "who", who, Bowler, "Give a session or a bowler, e.g. load_bowler('club_right')."
        )
        who = Session(bowler=bowler, line=Line(CENTRE_BOARD, CENTRE_BOARD))
    ball = who.ball if ball is None else checked_thing("ball", ball, Ball)
    pattern = who.pattern if pattern is None else checked_thing("pattern", pattern, OilPattern)
    return dataclasses.replace(who, ball=ball, pattern=pattern, events=())


def _known_oil(session: Session) -> OilPattern:
    if session.pattern is None:
        message = (
            "pattern is None; expected the oil to plan for. Give one, e.g. load_pattern('house_41'), or its "
            "length and kind: OilPattern(name='ours', length_ft=41, kind='house')."
        )
        raise InputError(message, {"pattern": message})
    return session.pattern


def _by_model(session: Session, oil: OilPattern, film: OilPattern, book: Rulebook) -> Plan:
    found = _on_best_line(session, oil, film, book)
    thrown = dataclasses.replace(as_simulated(session), line=found.line)
    return dataclasses.replace(found, room=line_room(thrown, found.line), cases=cases_of(thrown, book))


def _on_best_line(session: Session, oil: OilPattern, film: OilPattern, book: Rulebook) -> Plan:
    thrown = as_simulated(session)
    found = best_line(thrown)
    path = meant_path(thrown, [found.line])
    planned = dataclasses.replace(session, line=found.line, events=())
    return Plan(
        session=planned,
        line=found.line,
        arrival_board=float(path.arrival_board[0]),
        exit_board=float(exit_boards(path, film)[0]),
        start=advise(_let_bowl(planned), book, model_on=False),
        strike_prob=PLAN_FACTOR * found.strike_prob,
        film_probs=tuple(PLAN_FACTOR * one for one in found.film_probs),
        runners_up=_runners_up(found),
        assumed=_all_assumed(session, oil),
        reason=usual_start(session.bowler, session.ball, oil).reason,
    )


def _let_bowl(session: Session) -> Session:
    """Return the session of a day on which a bowler with pain is let bowl: a plan is for no other day."""
    return dataclasses.replace(session, goes_on_with_pain=True)


def _runners_up(found: BestLine) -> tuple[RunnerUp, ...]:
    best = found.strike_prob
    return tuple(
        RunnerUp(line, PLAN_FACTOR * chance, PLAN_FACTOR * (best - chance)) for line, chance in found.others
    )


def _all_assumed(session: Session, oil: OilPattern) -> tuple[tuple[str, str], ...]:
    assumed = what_is_assumed(session.bowler, session.ball, oil)
    return assumed if session.phase == "fresh" else (*assumed, ("wear of the oil", "oil as laid"))


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
    planned = dataclasses.replace(session, line=line, events=())
    return Plan(
        session=planned,
        line=line,
        exit_board=board_at(line, bowler, pattern.length_ft),
        start=advise(_let_bowl(planned), book, model_on=False),
    )
