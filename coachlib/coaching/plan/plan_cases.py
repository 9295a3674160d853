"""If it goes high, light, early or late: the lane that would show it, and the move that keeps most there.

Each case is a lane of the model on which the ball of the planned line does what the case says. High and light
are the film of the sheet thinned or thickened until the ball as meant arrives there; early is a film so thin
that it turns three feet sooner; late is oil that reaches three feet farther down. On that lane every move of
feet and eyes within reach is thrown with the bowler's scatter. Beside it stands what the rulebook says to as
many such balls as it waits for.

Not modelled: one strip worn out and the rest left alone, a rougher or smoother lane, a change of ball.
"""

import dataclasses
import functools
from typing import Literal

import numpy as np

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.rules.rulebook import Rulebook
from coachlib.coaching.session.session import Session, observe
from coachlib.coaching.simulation.candidate_lines import lines_nearby
from coachlib.coaching.simulation.line_search import EQUAL_PROB, N_ROUGH_BALLS, Floats, line_chances
from coachlib.coaching.simulation.what_if import ball_and_pattern, simulate_lines
from coachlib.world.array_field import MOST_FILM_UM, film_rows
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.levers import move_between
from coachlib.world.line import Line, Move
from coachlib.world.oil import OilPattern, thinned
from coachlib.world.shot import Motion, Shot

CaseKind = Literal["high", "light", "early", "late"]
_MOTIONS: dict[CaseKind, Motion] = {"high": "even", "light": "even", "early": "early", "late": "late"}

HIGH_BOARD, LIGHT_BOARD = 18.7, 16.0  # what the classes count as, world.lane
HIGH_BOARDS, LIGHT_BOARDS = 0.7, -1.0
"""A case arrives at least so far from where the plan does (our choice) [boards]."""

_WAYS: dict[CaseKind, float] = {"high": -1.0, "light": 1.0}

TURN_FT = 3.0
"""How much sooner or later it turns; less is not seen from behind the foul line (our guess) [ft]."""

LONGEST_FT = 55.0  # the longest oil a pattern may have, world.oil

REACH_FEET_BOARDS, REACH_EYES_BOARDS = 8, 5
_FRACS = np.geomspace(0.25, 4.0, 25)
_N_CLOSER = 16


@dataclasses.dataclass(frozen=True)
class WhatIf:
    """What to do if the ball of the plan does not do what the plan says.

    Parameters
    ----------
    kind : {"high", "light", "early", "late"}
        What is seen.
    arrival_board : float
        Where the ball as meant arrives on the lane of this case. [board]
    stay_prob : float
        What the planned line is worth there.
    move, new_line : Move, Line
        The smallest of the moves that are equal to the best one there; all zero for "stay".
    move_prob : float
        What it is worth.
    rule : Advice
        What the rulebook says to such balls.
    rule_prob : float or None
        What its move is worth there; None where it is no move of feet and eyes.
    """

    kind: CaseKind
    arrival_board: float
    stay_prob: float
    move: Move
    new_line: Line
    move_prob: float
    rule: Advice
    rule_prob: float | None

    @property
    def is_agreed(self) -> bool:
        """Whether the rule's move is the model's."""
        return self.rule.move == self.move


def cases_of(session: Session, rulebook: Rulebook) -> tuple[WhatIf, ...]:
    """Return the cases of a session on a planned line, with ball and film: high, light, early, late.

    A case that no film of the model brings about is left out. A straight ball hardly answers to the oil: it
    may have none.
    """
    return tuple(_case(session, kind, lane, rulebook) for kind, lane in lanes_of(session).items())


def lanes_of(session: Session) -> dict[CaseKind, OilPattern]:
    """Return the film of each case that a film can bring about."""
    _, pattern = ball_and_pattern(session)
    shares = _FRACS[_FRACS * pattern.film_array_um.max() <= MOST_FILM_UM]  # no thicker than a film may be
    arrivals, turns_ft = np.array([_meant(session, thinned(pattern, frac)) for frac in shares]).T
    planned_board, planned_ft = _meant(session, pattern)
    fracs: dict[CaseKind, float | None] = {
        "high": _frac_at(shares, arrivals, max(HIGH_BOARD, planned_board + HIGH_BOARDS)),
        "light": _frac_at(shares, arrivals, min(LIGHT_BOARD, planned_board + LIGHT_BOARDS)),
        "early": _frac_at(shares, -turns_ft, TURN_FT - planned_ft),
    }
    lanes = {kind: thinned(pattern, frac) for kind, frac in fracs.items() if frac is not None}
    if pattern.length_ft + TURN_FT <= LONGEST_FT:
        farther = lengthened(pattern, TURN_FT)
        if _meant(session, farther)[1] - planned_ft > 0.5 * TURN_FT:
            lanes["late"] = farther
    return lanes


def lengthened(pattern: OilPattern, by_ft: float) -> OilPattern:
    """Return the pattern stretched along the lane: its oil ends farther down and is as thick as before."""
    film = pattern.film_array_um
    share = pattern.length_ft / (pattern.length_ft + by_ft)
    n_rows = min(int(np.ceil(len(film) / share)), int(HEAD_PIN_FT / pattern.step_ft))
    laid = np.vstack([np.zeros(film.shape[1]), np.cumsum(film, axis=0)])
    places = np.arange(n_rows + 1) * share
    reached = np.array([np.interp(places, np.arange(len(laid)), column) for column in laid.T]).T
    rows = np.maximum(np.diff(reached, axis=0), 0.0) / share
    return dataclasses.replace(pattern, length_ft=pattern.length_ft + by_ft, film_um=film_rows(rows))


def _case(session: Session, kind: CaseKind, lane: OilPattern, rulebook: Rulebook) -> WhatIf:
    arrival_board = _meant(session, lane)[0]
    new_line, move_prob, stay_prob = _best_move(session, lane, _WAYS.get(kind, 0.0))
    rule = _rule_says(session, kind, arrival_board, rulebook)
    is_thrown = rule.move == Move(feet_boards=rule.move.feet_boards, target_boards=rule.move.target_boards)
    rule_prob = float(line_chances(session, [rule.new_line], [lane])[0, 0]) if is_thrown else None
    move = move_between(session.line, new_line)
    return WhatIf(kind, arrival_board, stay_prob, move, new_line, move_prob, rule, rule_prob)


def _best_move(session: Session, lane: OilPattern, way: float) -> tuple[Line, float, float]:
    """Return the line to move to and what it and the planned line are worth on a lane.

    `way` is where the ball as meant must go, + inside: a ball that came in high is sent lower; 0 asks
    nothing.
    """
    lines = lines_nearby(session.line, session.bowler, REACH_FEET_BOARDS, REACH_EYES_BOARDS)
    rough = line_chances(session, lines, [lane], N_ROUGH_BALLS)[0]
    numbers = sorted({0, *np.argsort(-rough, kind="stable")[:_N_CLOSER].tolist()})
    closer = [lines[number] for number in numbers]
    fine = line_chances(session, closer, [lane])[0]
    arrivals = simulate_lines(dataclasses.replace(session, pattern=lane), closer)
    goes = way * (np.nan_to_num(arrivals.arrival_board) - np.nan_to_num(arrivals.arrival_board[0]))
    fine[1:][goes[1:] < 0.0] = 0.0
    equal = [number for number, chance in enumerate(fine) if chance > fine.max() - EQUAL_PROB]
    sizes = [move_between(session.line, line).size_boards for line in closer]
    chosen = min(equal, key=lambda number: (sizes[number], -fine[number]))
    return closer[chosen], float(fine[chosen]), float(fine[0])


def _rule_says(session: Session, kind: CaseKind, arrival_board: float, rulebook: Rulebook) -> Advice:
    """Return the rulebook's answer to as many such balls over the target as it waits for."""
    shot = Shot(
        crossed_board=session.line.target_board,
        arrival=round(2.0 * arrival_board) / 2.0,
        motion=_MOTIONS[kind],
    )
    n_balls = round(rulebook.settings["patience"])
    let_bowl = dataclasses.replace(session, goes_on_with_pain=True)  # a plan is for a day with bowling
    return advise(functools.reduce(observe, [shot] * n_balls, let_bowl), rulebook, model_on=False)


def _meant(session: Session, lane: OilPattern) -> tuple[float, float]:
    """Return where the ball as meant arrives, and where it has turned by one degree; NaN if it does not."""
    path = simulate_lines(dataclasses.replace(session, pattern=lane))
    return float(path.arrival_board[0]), float(path.hook_ft[0])


def _frac_at(fracs: Floats, falling: Floats, wanted: float) -> float | None:
    """Return the film on which what falls as the film grows reaches a value; None if it never does."""
    known = np.isfinite(falling)
    values, log_fracs = falling[known][::-1], np.log(fracs[known][::-1])
    if not values.size or not values[0] <= wanted <= values[-1]:
        return None
    return float(np.exp(np.interp(wanted, np.maximum.accumulate(values), log_fracs)))
