"""The model's voice: what staying and the best move are worth on the lanes that fit, and whether to move.

A move is made when it gains more than a margin and beats staying on enough of the believed lanes. That lanes
wear one way is in the belief itself, so that by default a move to the outside needs no more evidence than one
inward. All chances shown are scaled once: raw ones are too rosy.
"""

import dataclasses
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.advice.change_values import resurfaced_one_step, worth_of
from coachlib.coaching.advice.line_values import LineValues, Reach, values_of, values_within_reach
from coachlib.coaching.belief.cause import Blame, blame
from coachlib.coaching.belief.filter import Belief
from coachlib.coaching.simulation.line_search import EQUAL_PROB
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.coaching.simulation.paths import USUAL_BALL
from coachlib.world.ball import Ball
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.levers import outward, way_of
from coachlib.world.line import Line, Move

Decision = Literal["stay", "watch", "line"]
ForbiddenWay = Literal["", "inward", "outward", "all"]

DISPLAY_FACTOR = 0.93
"""Chances shown over chances believed: *tuned* on the seasons of seeds 0 to 5; `make bench-season` prints
what came of each chance on others."""

LANES_BEND = 0.32
"""How sure all believed lanes together can make a move, see :func:`shown_lanes_frac`: *tuned*."""

ALIKE_PROB = 0.006
"""Of the trade's moves that are equal the smallest is made where they differ by less than this.

Two standard deviations of the difference of two good moves with the believed lanes drawn anew, mean of eight
cases (``python -m tests.benchmarks.equal_moves``): the smallest of all that are merely equal would cost.
"""

N_LANES_SHOWN = 10
"""Likely lanes are told as a count of so many."""

N_RUNNERS_UP = 3

TRADE_SIZES: tuple[tuple[float, float], ...] = (
    (1, 0),
    (1, 1),
    (2, 1),
    (2, 2),
    (3, 1),
    (3, 2),
    (4, 2),
    (5, 2),
    (5, 3),
    (7, 3),
    (0, 1),
)
"""Feet and eyes of the moves that coaches call by name (the rulebook's; common practice)."""

OTHER_SPEEDS = (Move(speed_mph=-0.5), Move(speed_mph=0.5))
"""Changes of speed that are weighed on the line being played, the smallest that rules name."""


@dataclasses.dataclass(frozen=True)
class Deciding:
    """How much must speak for a move; all *tuned* on lanes of seeds 0 to 15.

    Parameters
    ----------
    margin_prob, outward_margin_prob : float
        Strike chance that a move must add.
    lanes_frac, outward_lanes_frac : float
        Share of believed lanes on which it must beat staying.
    """

    margin_prob: float = 0.02
    outward_margin_prob: float = 0.02
    lanes_frac: float = 0.5
    outward_lanes_frac: float = 0.5


DEFAULT_DECIDING = Deciding()


@dataclasses.dataclass(frozen=True)
class Candidate:
    """A move and what it is worth.

    Parameters
    ----------
    move : Move
        From the present line.
    strike_prob : float
        As shown.
    gain_prob : float
        What it adds to staying, as shown.
    better_lanes_frac : float
        On which share of the lanes that fit it beats staying, as shown.
    """

    move: Move
    strike_prob: float
    gain_prob: float
    better_lanes_frac: float


@dataclasses.dataclass(frozen=True)
class ModelVoice:
    """What the same moves are worth, simulated for this bowler on the lanes that fit what was seen.

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


def decide(
    values: LineValues,
    deciding: Deciding = DEFAULT_DECIDING,
    forbidden: ForbiddenWay = "",
    rule_move: Move | None = None,
) -> tuple[Decision, int]:
    """Return the answer, and the number of the move that it makes or that comes nearest to being made.

    A move must gain the margin, on enough lanes, and so much that it shows in counts of twenty and of ten
    lanes (a move that is said to be better on five of ten is none). Of moves that
    are equal the one a coach would name is made, see :func:`preferred`. `forbidden` is the way that the last
    ball speaks against; no move is made that way, nor the feet moved so.
    """
    is_outward = np.array([outward(move) for move in values.moves])
    margin = np.where(is_outward, deciding.outward_margin_prob, deciding.margin_prob)
    lanes = np.where(is_outward, deciding.outward_lanes_frac, deciding.lanes_frac)
    net = values.net
    gains = (net > margin) & (_shown_gains(values) >= 1)
    gains[0] = False
    passes = gains & (values.better_frac >= lanes) & _shows_most(values) & ~_are_forbidden(values, forbidden)
    if passes.any():
        return "line", preferred(values, passes, rule_move)
    return ("watch" if gains.any() else "stay"), int(np.argmax(net))


def preferred(values: LineValues, among: NDArray[np.bool_], rule_move: Move | None = None) -> int:
    """Return the number of the move to make of those that are worth about the same as the best.

    First the rule's own, also where no count of twenty tells it from the best; then the trade's other moves
    of feet and eyes; of those that are alike one that changes the angle before a parallel one, then the
    smallest.
    """
    net = np.where(among, values.net, -np.inf)
    best, shown = int(np.argmax(net)), _shown_gains(values)
    equal = np.flatnonzero(net >= net.max() - EQUAL_PROB)
    own = None if rule_move is None else values.index(rule_move)
    if own is not None and among[own] and (own in equal or shown[own] >= max(shown[best], 1)):
        return own
    of_trade = [number for number in equal if _is_of_trade(values.moves[number])]
    known = np.array(of_trade or equal)
    alike = known[net[known] >= net[known].max() - ALIKE_PROB]

    def rank(number: int) -> tuple[bool, float, float]:
        move = values.moves[number]
        size = move.size_boards
        return (move.feet_boards == move.target_boards, size, -float(net[number]))

    return int(min(alike.tolist(), key=rank))


def best_allowed(values: LineValues, forbidden: ForbiddenWay, rule_move: Move | None = None) -> int | None:
    """Return the number of the best move that no ball speaks against; None where each loses or is barred."""
    free = ~_are_forbidden(values, forbidden)
    free[0] = False
    free &= values.gain >= -EQUAL_PROB
    return preferred(values, free, rule_move) if free.any() else None


def that_way(values: LineValues, rule_move: Move) -> int | None:
    """Return the number of the best move that goes the way of the rule's move; None where none fits.

    The feet tell the way, and the eyes do not undo it: inward the angle is kept or opened, outward it is kept
    or closed. Where the feet are stuck, the eyes tell the way.
    """
    way = np.sign(rule_move.feet_boards)
    feet = [
        np.sign(move.feet_boards) == way != 0 and way * (move.feet_boards - move.target_boards) >= 0.0
        for move in values.moves
    ]
    eyes = [not move.is_stay and outward(move) == outward(rule_move) for move in values.moves]
    fits = np.array(feet if any(feet) else eyes)
    return preferred(values, fits, rule_move) if fits.any() else None


def _shown_gains(values: LineValues) -> NDArray[np.int_]:
    """Return by how many strikes of twenty each move is shown to be better than to stay."""
    shown = np.round(N_TWENTY * DISPLAY_FACTOR * values.strike_prob).astype(np.int_)
    return np.asarray(shown - shown[0], dtype=np.int_)


def _shows_most(values: LineValues) -> NDArray[np.bool_]:
    """Return which moves are shown to be better on more than five of ten likely lanes."""
    return np.array([shows_most(shown_lanes_frac(float(frac))) for frac in values.better_frac])


def shows_most(frac: float) -> bool:
    """Return whether a share of likely lanes, as shown, is told as more than five of ten."""
    return round(N_LANES_SHOWN * frac) > N_LANES_SHOWN / 2


def _is_of_trade(move: Move) -> bool:
    """Return whether coaches have a name for a move: one of the rulebook's sizes, to either side."""
    size = (abs(move.feet_boards), abs(move.target_boards))
    return size in TRADE_SIZES and move.feet_boards * move.target_boards >= 0.0


def _are_forbidden(values: LineValues, forbidden: ForbiddenWay) -> NDArray[np.bool_]:
    return np.array([_is_barred(move, forbidden) for move in values.moves])


def shown_lanes_frac(believed_frac: float) -> float:
    """Return on which share of hidden lanes a move was truly better, by the share of believed ones.

    Believed lanes are more alike than real ones. *Tuned* on the seasons of seeds 0 to 5; `make bench-season`
    prints what came of each count on others.
    """
    surer = max(believed_frac - 0.5, 0.0) / 0.5
    return 0.5 + LANES_BEND * surer**2


def _is_barred(move: Move, forbidden: ForbiddenWay) -> bool:
    """Return whether a move goes a barred way; the feet tell it too, whatever the eyes do."""
    return forbidden in ("all", way_of(move)) or (forbidden == "inward" and move.feet_boards > 0)


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
