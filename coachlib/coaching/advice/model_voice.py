"""What the simulation says: its own move, what staying and the rule's move are worth, and the rest."""

import dataclasses

import numpy as np

from coachlib.coaching.advice.change_values import resurfaced_one_step, worth_of
from coachlib.coaching.advice.decision import (
    DEFAULT_DECIDING,
    DISPLAY_FACTOR,
    Candidate,
    Deciding,
    Decision,
    ForbiddenWay,
    best_allowed,
    decide,
    shown_lanes_frac,
    that_way,
)
from coachlib.coaching.advice.line_values import LineValues, Reach, values_of, values_within_reach
from coachlib.coaching.belief.cause import Blame, blame
from coachlib.coaching.belief.filter import Belief
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.paths import USUAL_BALL
from coachlib.world.ball import Ball
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.line import Line, Move

N_RUNNERS_UP = 3


OTHER_SPEEDS = (Move(speed_mph=-0.5), Move(speed_mph=0.5))
"""Changes of speed that are weighed on the line being played, the smallest that rules name."""


@dataclasses.dataclass(frozen=True)
class ModelVoice:
    """What the same moves are worth, simulated for this bowler on the likely lanes.

    Parameters
    ----------
    answer : str
        ``stay``, ``watch`` or ``line``.
    move : Move
        The move to make; all zero for ``stay`` and ``watch``.
    stay : Candidate
        To stay.
    best : Candidate
        The move made; where none is made, the best within reach by its gain less its cost, or to stay.
    rule : Candidate or None
        The rule's move, valued in the same table; None where it is no move of feet and eyes.
    runners_up : tuple of Candidate
        The next best, each some boards from those before it.
    n_balls : int
        Balls behind the belief.
    n_effective : float
        How many believed lanes carry it.
    odd : str
        What of the last ball does not fit the rest, one of ``belief.seen.FIELDS``; empty if all fits.
    blame : Blame or None
        Whose doing the last ball was.
    changes : tuple of Candidate
        The better change of speed on the line being played, if it gains more than :data:`EQUAL_PROB`.
    assumed : tuple of (str, str)
        What is not known, and what it was taken for.
    n_elsewhere : int
        Of these the balls of other lanes, or before fresh oil: they tell of the bowler alone.
    equipment : Candidate or None
        What another surface or ball is worth on this line, where the balls seen ask for one.
    """

    answer: Decision
    move: Move
    stay: Candidate
    best: Candidate
    rule: Candidate | None
    runners_up: tuple[Candidate, ...]
    n_balls: int
    n_effective: float
    odd: str
    blame: Blame | None
    changes: tuple[Candidate, ...] = ()
    assumed: tuple[tuple[str, str], ...] = ()
    n_elsewhere: int = 0
    equipment: Candidate | None = None

    @property
    def reason(self) -> str:
        """Where the ball as meant comes in, in the own frame; empty before the first ball."""
        if self.blame is None:
            return ""
        off_boards = self.blame.meant_board - POCKET_BOARD
        side = "high" if off_boards > 0 else "light"
        return f"A good shot comes in {abs(off_boards):.1f} boards {side}."

    @property
    def look_for(self) -> str:
        """What to see next."""
        if self.answer == "line":
            return "Hit the new target: does it finish closer to the pocket?"
        return "The same line over the same board: where it crosses and where it comes in."


def model_voice(
    belief: Belief,
    line: Line,
    ball: Ball | None,
    rule_move: Move | None = None,
    reach: Reach = "usual",
    deciding: Deciding = DEFAULT_DECIDING,
    assumed: tuple[tuple[str, str], ...] = (),
    is_settled: bool = False,
    forbidden: ForbiddenWay = "",
    is_forced: bool = False,
) -> ModelVoice:
    """Return what the model says.

    Parameters
    ----------
    belief : Belief
        Lanes and bowler, weighed by the balls so far.
    line : Line
        The line being played.
    ball : Ball or None
        The ball in the hand.
    rule_move : Move, optional
        The rule's move, to be valued in the same table.
    reach : {"usual", "one board", "eyes only"}
        Which moves are weighed, see :func:`coachlib.coaching.advice.line_values.values_within_reach`.
    deciding : Deciding, optional
        How much must speak for a move.
    assumed : tuple of (str, str)
        What is not known, and what it was taken for.
    is_settled : bool
        Whether the rule's way, inside or outside, is settled; then the best move that way is made.
    barred : {"", "inward", "outward", "all"}
        Which way no move is made.
    is_forced : bool
        Whether the line moves whatever it gains: where no way is settled, the best move not barred is made.
    """
    values = values_within_reach(belief, line, ball, reach)
    rule_move = rule_move or Move()
    settled = that_way(values, rule_move) if is_settled and not rule_move.is_stay else None
    if settled is None and is_forced:
        settled = best_allowed(values, forbidden, rule_move)
    answer, chosen = decide(values, deciding, forbidden, rule_move) if settled is None else ("line", settled)
    return ModelVoice(
        answer=answer,
        move=values.moves[chosen] if answer == "line" else Move(),
        stay=_candidate(values, 0),
        best=_candidate(values, chosen),
        rule=_rule_candidate(belief, line, ball, values, rule_move),
        runners_up=_runners_up(values, chosen if answer == "line" else 0),
        n_balls=belief.n_balls,
        n_effective=belief.n_effective,
        odd=belief.odd,
        blame=blame(belief),
        assumed=assumed,
        n_elsewhere=belief.n_balls - len(belief.balls),
    )


def with_equipment(
    voice: ModelVoice, belief: Belief, line: Line, ball: Ball | None, move: Move
) -> ModelVoice:
    """Return the model's voice with another surface or ball weighed as the rule's change.

    Another ball is simulated as the one in the hand with its surface a step duller (stronger) or smoother
    (weaker): which ball it will be is not known.
    """
    way = move.surface or {"stronger": "duller", "weaker": "smoother"}[move.ball]
    new_ball = resurfaced_one_step(ball or USUAL_BALL, way)
    told = worth_of(belief, line, ball, Move(), new_ball)
    gain_prob = DISPLAY_FACTOR * told.gain_prob
    frac = shown_lanes_frac(told.better_lanes_frac)
    weighed = Candidate(move, voice.stay.strike_prob + gain_prob, gain_prob, frac)
    return dataclasses.replace(voice, equipment=weighed)


def of_geometry(voice: ModelVoice, kind: str, move: Move) -> ModelVoice:
    """Return the model's voice for a straight ball: what geometry's move is worth, and nothing else.

    Where such a ball comes in is seen and reckoned, so that no other line, speed or cause is offered.
    """
    answer: Decision = "line" if kind == "line" else "watch" if kind == "watch" else "stay"
    best = voice.rule if kind == "line" and voice.rule is not None else voice.stay
    return dataclasses.replace(
        voice, answer=answer, move=move, best=best, blame=None, runners_up=(), changes=(), odd=""
    )


def with_speed(voice: ModelVoice, belief: Belief, line: Line, ball: Ball | None) -> ModelVoice:
    """Return the model's voice with what a little more or less speed is worth."""
    changed = [_changed(belief, line, ball, move, voice.stay) for move in OTHER_SPEEDS]
    best = max(changed, key=lambda one: one.gain_prob)
    return dataclasses.replace(voice, changes=(best,) if best.gain_prob > EQUAL_PROB else ())


def _candidate(values: LineValues, number: int) -> Candidate:
    return Candidate(
        move=values.moves[number],
        strike_prob=DISPLAY_FACTOR * float(values.strike_prob[number]),
        gain_prob=DISPLAY_FACTOR * float(values.gain[number]),
        better_lanes_frac=shown_lanes_frac(float(values.better_frac[number])),
    )


def _rule_candidate(
    belief: Belief, line: Line, ball: Ball | None, values: LineValues, move: Move | None
) -> Candidate | None:
    """Return what the rule's move is worth; None for another hand, ball, surface or target distance."""
    if move is None or move.target_ft or move.ball or move.surface or move.rotation_deg:
        return None
    if move.speed_mph:
        return _changed(belief, line, ball, move, _candidate(values, 0))
    if not move.is_feet_and_eyes:
        return None
    alone = Move(feet_boards=move.feet_boards, target_boards=move.target_boards)
    number = values.index(alone)
    if number is not None:
        return _candidate(values, number)
    return _candidate(values_of(belief, line, ball, (Move(), alone)), 1)


def _changed(belief: Belief, line: Line, ball: Ball | None, move: Move, stay: Candidate) -> Candidate:
    told = worth_of(belief, line, ball, move)
    gain_prob = DISPLAY_FACTOR * told.gain_prob
    return Candidate(move, stay.strike_prob + gain_prob, gain_prob, shown_lanes_frac(told.better_lanes_frac))


def _runners_up(values: LineValues, chosen: int) -> tuple[Candidate, ...]:
    """Return the next best moves, each at least two boards of feet or eyes from those already told."""
    told = [0, chosen]
    for number in np.argsort(-values.net, kind="stable"):
        if len(told) == N_RUNNERS_UP + 2 or values.net[number] <= 0.0:
            break
        if all(_apart(values.moves[number], values.moves[other]) >= 2 for other in told):
            told.append(int(number))
    return tuple(_candidate(values, number) for number in told[2:])


def _apart(one: Move, other: Move) -> float:
    return max(abs(one.feet_boards - other.feet_boards), abs(one.target_boards - other.target_boards))
