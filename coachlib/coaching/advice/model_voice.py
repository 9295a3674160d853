"""What the simulation says: its own move, what staying and the rule's move are worth, and the rest."""

import dataclasses
from collections.abc import Mapping
from typing import Literal

import numpy as np

from coachlib.coaching.advice.change_values import resurfaced_one_step, worth_of
from coachlib.coaching.advice.decision import (
    DISPLAY_FACTOR,
    Candidate,
    Decision,
    ForbiddenWay,
    best_allowed,
    decide,
    shown_lanes_frac,
    that_way,
)
from coachlib.coaching.advice.line_values import LineValues, Reach, values_of, values_within_reach
from coachlib.coaching.belief.cause import Blame, blame
from coachlib.coaching.belief.filter import Belief, believe
from coachlib.coaching.rules.change_facts import did_not_miss
from coachlib.coaching.rules.rule_advice import RuleAnswer
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.lane_history import lane_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.paths import USUAL_BALL, what_is_assumed
from coachlib.world.ball import Ball
from coachlib.world.line import Move

N_RUNNERS_UP = 3

LEAST_BALLS = 2
"""Balls not known to be off the mark, arrival or pins noted, before the model moves a line: one look is the
sheet's word."""

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
        What of the last ball does not fit the rest, one of ``belief.likelihood.FIELDS``; empty if all fits.
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


def model_voice(session: Session, ruled: RuleAnswer) -> ModelVoice:
    """Return what the model says of staying, of the moves within reach and of other changes.

    Where the rule's way, inside or outside, is settled, the best move that way is made; where the line moves
    whatever it gains, the best one that no ball speaks against. The eyes move alone where the feet are stuck,
    and a junior by a board.
    """
    belief, line, ball, rule_move = believe(session), session.line, session.ball, ruled.voice.move
    reach: Reach = "one board" if ruled.is_small else "usual"
    values = values_within_reach(belief, line, ball, "eyes only" if session.place.is_feet_stuck else reach)
    forbidden = _forbidden_way(session, ruled)
    made = that_way(values, rule_move) if ruled.is_settled and rule_move.is_feet_and_eyes else None
    if made is None and ruled.is_forced:
        made = best_allowed(values, forbidden, rule_move)
    answer, chosen = decide(values, forbidden, rule_move) if made is None else ("line", made)
    stay = _candidate(values, 0)
    voice = ModelVoice(
        answer=answer,
        move=values.moves[chosen] if answer == "line" else Move(),
        stay=stay,
        best=_candidate(values, chosen),
        rule=_rule_candidate(belief, session, values, rule_move),
        runners_up=_runners_up(values, chosen if answer == "line" else 0),
        n_balls=belief.n_balls,
        n_effective=belief.n_effective,
        odd=belief.odd,
        blame=blame(belief),
        assumed=what_is_assumed(session.bowler, ball, session.pattern),
        n_elsewhere=belief.n_balls - len(belief.balls),
    )
    if ruled.is_straight:
        return _of_geometry(voice, ruled)
    changes = () if ruled.is_small or ruled.reading.last is None else _speeds(belief, session, stay)
    return dataclasses.replace(voice, changes=changes, equipment=_equipment(belief, session, ruled, stay))


def _of_geometry(voice: ModelVoice, ruled: RuleAnswer) -> ModelVoice:
    """Return the model's voice for a straight ball: what geometry's move is worth, and nothing else.

    Where such a ball comes in is seen and reckoned, so that no other line, speed or cause is offered.
    """
    kind, move = ruled.kind, ruled.voice.move
    answer: Decision = "line" if kind == "line" else "watch" if kind == "watch" else "stay"
    best = voice.rule if kind == "line" and voice.rule is not None else voice.stay
    return dataclasses.replace(voice, answer=answer, move=move, best=best, blame=None, runners_up=(), odd="")


def _forbidden_way(session: Session, ruled: RuleAnswer) -> ForbiddenWay:
    """Return which way no move is made.

    Against the side of the last ball; none at all on one look, after a good ball in the pocket, after a ball
    beside the mark, which tells little, and while the last move is still being watched.
    """
    shots = [ball.shot for ball in lane_balls(session) if did_not_miss(ball, session.bowler)]
    n_balls = sum(shot.arrival is not None or shot.leave is not None for shot in shots)
    side, facts = ruled.reading.side, ruled.reading.facts
    is_good_pocket = side == "pocket" and facts.get("is_on_target") is True
    is_weak = facts.get("is_within_spread") is True
    if n_balls < LEAST_BALLS or side is None or is_good_pocket or is_weak or ruled.held == "all":
        return "all"
    if side == "pocket":
        return ruled.held
    is_early = facts.get("motion") in ("early", "roll_out")
    against: ForbiddenWay = "outward" if side == "high" or is_early else "inward"
    return against if ruled.held in ("", against) else "all"


def _equipment(belief: Belief, session: Session, ruled: RuleAnswer, stay: Candidate) -> Candidate | None:
    """Return what the other surface or ball that the balls ask for is worth, or None.

    Before scoring the surface, afterwards the ball. Another ball is simulated as the one in the hand with its
    surface a step duller (stronger) or smoother (weaker): which ball it will be is not known.
    """
    facts, move = ruled.reading.facts, ruled.voice.move
    if ruled.kind not in ("surface", "ball") or move.is_feet_and_eyes:
        is_out = bool(facts.get("is_plastic_ball")) or ruled.is_gate or ruled.is_exact
        asked = None if is_out else _equipment_way(facts)
        if asked is None:
            return None
        other = Move(ball="stronger" if asked == "duller" else "weaker")
        move = other if session.scoring_started else Move(surface=asked)
    way = move.surface or {"stronger": "duller", "weaker": "smoother"}[move.ball]
    new_ball = resurfaced_one_step(session.ball or USUAL_BALL, way)
    return dataclasses.replace(_changed(belief, session, Move(), stay, new_ball), move=move)


def _equipment_way(facts: Mapping[str, FactValue]) -> Literal["duller", "smoother"] | None:
    """Return what is asked for: over and under (missed inside light, outside high), burnt up, no turn."""

    def at_least(name: str, n: int) -> bool:
        value = facts.get(name)
        return isinstance(value, int | float) and value >= n

    if at_least("n_inside_light", 2) and at_least("n_outside_high", 2):
        return "duller"
    if facts.get("side") != "light" or facts.get("is_on_target") is False or not at_least("n_same", 2):
        return None
    motion = facts.get("motion")
    if motion == "skid_long" and at_least("n_same", 3):
        return "duller"
    return "smoother" if motion in ("early", "roll_out") and at_least("n_early", 2) else None


def _speeds(belief: Belief, session: Session, stay: Candidate) -> tuple[Candidate, ...]:
    """Return the better change of speed if it is worth naming; nothing where something hurts."""
    if session.bowler.has_pain:
        return ()
    changed = [_changed(belief, session, move, stay) for move in OTHER_SPEEDS]
    best = max(changed, key=lambda one: one.gain_prob)
    return (best,) if best.gain_prob > EQUAL_PROB else ()


def _candidate(values: LineValues, number: int) -> Candidate:
    return Candidate(
        move=values.moves[number],
        strike_prob=DISPLAY_FACTOR * float(values.strike_prob[number]),
        gain_prob=DISPLAY_FACTOR * float(values.gain[number]),
        better_lanes_frac=shown_lanes_frac(float(values.better_frac[number])),
    )


def _rule_candidate(belief: Belief, session: Session, values: LineValues, move: Move) -> Candidate | None:
    """Return what the rule's move is worth; None for another hand, ball, surface or target distance."""
    if move.target_ft or move.ball or move.surface or move.rotation_deg:
        return None
    if move.speed_mph:
        return _changed(belief, session, move, _candidate(values, 0))
    if not move.is_feet_and_eyes:
        return None
    alone = Move(feet_boards=move.feet_boards, target_boards=move.target_boards)
    number = values.index(alone)
    if number is not None:
        return _candidate(values, number)
    return _candidate(values_of(belief, session.line, session.ball, (Move(), alone)), 1)


def _changed(
    belief: Belief, session: Session, move: Move, stay: Candidate, new_ball: Ball | None = None
) -> Candidate:
    worth = worth_of(belief, session.line, session.ball, move, new_ball)
    gain_prob = DISPLAY_FACTOR * worth.gain_prob
    return Candidate(move, stay.strike_prob + gain_prob, gain_prob, shown_lanes_frac(worth.better_lanes_frac))


def _runners_up(values: LineValues, chosen: int) -> tuple[Candidate, ...]:
    """Return the next best moves, each at least two boards of feet or eyes from those already listed."""
    listed = [0, chosen]
    for number in np.argsort(-values.net, kind="stable"):
        if len(listed) == N_RUNNERS_UP + 2 or values.net[number] <= 0.0:
            break
        if all(_apart(values.moves[number], values.moves[other]) >= 2 for other in listed):
            listed.append(int(number))
    return tuple(_candidate(values, number) for number in listed[2:])


def _apart(one: Move, other: Move) -> float:
    return max(abs(one.feet_boards - other.feet_boards), abs(one.target_boards - other.target_boards))
