"""The answer after a ball, in two voices: the rule of thumb, and what the moves are worth in the simulation.

The rule of thumb says what a coach would say with no computer. The simulation weighs the same moves on the
lanes that are likely after the balls so far. Gates of the rulebook hold for both: a strike from the pocket,
a good ball in the pocket and the bowler's own miss move nothing, and a move is given two balls before the
next. Where the target was hit until patience was over, or twice with a very bad result, the way is settled,
and the simulation says only how far. No move goes against the side of the last ball, none is made on one
look, and where nothing simulated matches what was seen the rule of thumb answers alone. Otherwise the
simulation decides about feet and eyes; another surface or ball is the answer where the balls ask for one and
it is worth more than any line.
"""

import dataclasses
from collections.abc import Mapping
from typing import Literal

from coachlib.coaching.advice.decision import DEFAULT_DECIDING, Candidate, Deciding, ForbiddenWay
from coachlib.coaching.advice.joint_answer import (
    LEAST_TOLD,
    is_counted,
    is_unfit,
    joint_answer,
    looks_again,
    reach_of,
)
from coachlib.coaching.advice.model_voice import (
    ModelVoice,
    model_voice,
    of_geometry,
    with_equipment,
    with_speed,
)
from coachlib.coaching.advice.verdict import Cause, told_cause
from coachlib.coaching.belief.filter import believe
from coachlib.coaching.rules.change_facts import did_not_miss
from coachlib.coaching.rules.rule_advice import (
    AdviceKind,
    RuleAnswer,
    rule_answer,
    spare_voice,
)
from coachlib.coaching.rules.rule_voice import (
    RuleVoice,
    cautions_beside,
    line_after,
    notes_beside,
    start_cautions,
)
from coachlib.coaching.rules.rulebook import Fired, Rulebook, load_rulebook
from coachlib.coaching.rules.session_facts import Reading
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.lane_history import is_first_move, lane_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import what_is_assumed
from coachlib.errors import checked_thing
from coachlib.world.levers import outward
from coachlib.world.line import Line, Move

PAIN_RULE = "pain_stops"
"""The rule behind the answer while pain stops everything."""


@dataclasses.dataclass(frozen=True)
class Advice:
    """The answer.

    Parameters
    ----------
    kind : str
        ``stay``, ``watch``, ``line``, ``speed``, ``hand``, ``surface`` or ``ball``.
    move : Move
        All zero for ``stay`` and ``watch``.
    line, new_line : Line
        The line played, and the line after the move (the same one when feet and eyes stay).
    rule : RuleVoice
        The rule of thumb.
    cause : Cause
        Bowler or lane.
    reading : Reading
        The facts the rule rests on.
    session : Session
        The session advised.
    cautions : tuple of Fired
        Each to be said on a line of its own.
    start_cautions : tuple of Fired
        Those of them that only the start by the amount of oil brings, before the first ball.
    notes : tuple of Fired
        Worth saying beside a move: the other lane, a quiet side, what to change next; before the first ball,
        what to know of such a bowler.
    is_small : bool
        Whether the move was kept to one board for a young bowler.
    spare : RuleVoice or None
        What the spare system says for the pins just left.
    model : ModelVoice or None
        What the moves are worth; None where only the rule was asked.
    agree : bool or None
        Whether both voices go the same way, inward or outward, or both stay.
    is_gate : bool
        Whether a gate of the rulebook holds the line whatever the model says.
    is_big : bool
        Whether this is the big decision of the set: the first move after practice.
    is_unfit : bool
        Whether what was seen fits none of the model's lanes, so that the rule of thumb answers alone.
    is_settled : bool
        Whether balls on target settle the way of the move, and the model says only how far.
    is_counted : bool
        Whether the simulation's counts may be shown: not for a move that the rule of thumb settles and whose
        gain would show as nothing.
    is_stopped : bool
        Whether pain was noted and the coach has not said yet to go on: then nothing is advised but to stop.
    """

    kind: AdviceKind
    move: Move
    line: Line
    new_line: Line
    rule: RuleVoice
    cause: Cause
    reading: Reading
    session: Session
    cautions: tuple[Fired, ...] = ()
    notes: tuple[Fired, ...] = ()
    is_small: bool = False
    spare: RuleVoice | None = None
    model: ModelVoice | None = None
    agree: bool | None = None
    is_gate: bool = False
    is_big: bool = False
    is_unfit: bool = False
    is_settled: bool = False
    is_counted: bool = True
    start_cautions: tuple[Fired, ...] = ()
    is_stopped: bool = False

    @property
    def stay_strike_prob(self) -> float | None:
        """The chance of a strike on the present line, as shown."""
        return None if self.model is None or not self.is_counted else self.model.stay.strike_prob

    @property
    def move_strike_prob(self) -> float | None:
        """The chance of a strike after the change advised, as shown; of staying where nothing changes."""
        return None if self._advised is None else self._advised.strike_prob

    @property
    def better_lanes_frac(self) -> float | None:
        """On which share of the likely lanes the line advised beats staying; None where it stays."""
        return None if self._advised is None or self.kind != "line" else self._advised.better_lanes_frac

    @property
    def runners_up(self) -> tuple[Candidate, ...]:
        """The next best moves, best first."""
        return () if self.model is None or not self.is_counted else self.model.runners_up

    @property
    def _advised(self) -> Candidate | None:
        if self.model is None or not self.is_counted:
            return None
        if self.move.is_stay:
            return self.model.stay
        known = (self.model.best, self.model.rule, self.model.equipment)
        found = next((one for one in known if one is not None and one.move == self.move), None)
        return self.model.stay if found is None and self.kind != "line" else found


def advise(
    session: Session,
    rulebook: Rulebook | None = None,
    *,
    model_on: bool = True,
    deciding: Deciding = DEFAULT_DECIDING,
) -> Advice:
    """Return the answer after the last ball of a session.

    Parameters
    ----------
    session : Session
        The session so far; before the first ball of a line the answer is to stay on it.
    rulebook : Rulebook, optional
        The rules, with a club's own laid over them; ours if left out.
    model_on : bool, default True
        Whether the moves are valued too; the first time for a bowler, ball and pattern that takes a second
        or two.
    deciding : Deciding, optional
        How much must speak for a move of feet and eyes.

    Returns
    -------
    Advice
        The same shots always give the same advice.

    Raises
    ------
    InputError
        If `session` is no session or `rulebook` no rulebook.
    DataFileError
        If the packed rules or the carry table are damaged.
    """
    checked_thing("session", session, Session)
    book = load_rulebook() if rulebook is None else checked_thing("rulebook", rulebook, Rulebook)
    ruled = rule_answer(session, book)
    if session.is_stopped:
        return _stopped(session, book, ruled)
    model = _asked(session, ruled, deciding) if model_on else None
    is_off = model is not None and is_unfit(session, model)
    model = None if is_off else model
    kind, move = joint_answer(ruled, model)
    cause = told_cause(ruled, model, book)
    kind = looks_again(kind, ruled)
    return Advice(
        kind=kind,
        move=move,
        line=session.line,
        new_line=line_after(session, move),
        rule=ruled.voice,
        cause=cause,
        reading=ruled.reading,
        session=session,
        cautions=cautions_beside(session, book, ruled.reading, move),
        notes=() if ruled.is_straight else notes_beside(session, book, ruled.reading, move),
        is_small=ruled.is_small,
        spare=spare_voice(session, book),
        model=model,
        agree=None if model is None else _agree(ruled, model),
        is_gate=ruled.is_gate,
        is_big=kind == "line" and is_first_move(session),
        is_unfit=is_off,
        is_settled=ruled.is_settled,
        is_counted=model is None or is_counted(kind, move, model),
        start_cautions=start_cautions(session, book, ruled.reading, move),
    )


def _stopped(session: Session, book: Rulebook, ruled: RuleAnswer) -> Advice:
    """Return the answer while pain stops everything: no move, no chances, nothing about pins left."""
    cautions = tuple(
        one for one in cautions_beside(session, book, ruled.reading, Move()) if one.rule.id == PAIN_RULE
    )
    return Advice(
        kind="stay",
        move=Move(),
        line=session.line,
        new_line=session.line,
        rule=RuleVoice(fired=cautions, numbers=ruled.voice.numbers),
        cause=Cause("too early"),
        reading=ruled.reading,
        session=session,
        cautions=cautions,
        is_gate=True,
        is_stopped=True,
    )


def _asked(session: Session, ruled: RuleAnswer, deciding: Deciding) -> ModelVoice:
    belief = believe(session)
    assumed = what_is_assumed(session.bowler, session.ball, session.pattern)
    is_settled = ruled.is_settled and ruled.voice.move.is_feet_and_eyes
    voice = model_voice(
        belief,
        session.line,
        session.ball,
        ruled.voice.move,
        reach_of(session, ruled),
        deciding,
        assumed,
        is_settled,
        _barred(session, ruled),
        ruled.is_forced,
    )
    if ruled.is_straight:
        return of_geometry(voice, ruled.kind, ruled.voice.move)
    asked_for = equipment_asked(session, ruled)
    if asked_for is not None:
        voice = with_equipment(voice, belief, session.line, session.ball, asked_for)
    if ruled.is_small or ruled.reading.last is None or session.bowler.has_pain:
        return voice
    return with_speed(voice, belief, session.line, session.ball)


def equipment_asked(session: Session, ruled: RuleAnswer) -> Move | None:
    """Return the other surface or ball that the balls seen ask for, or None.

    Over and under (missed inside it comes in light, missed outside high), burnt up, or never turning: before
    scoring the surface, afterwards the ball.
    """
    facts = ruled.reading.facts
    if ruled.kind in ("surface", "ball") and not ruled.voice.move.is_feet_and_eyes:
        return ruled.voice.move
    if facts.get("is_plastic_ball") or ruled.is_gate or ruled.is_exact:
        return None
    way = _equipment_way(facts)
    if way is None:
        return None
    if not session.scoring_started:
        return Move(surface=way)
    return Move(ball="stronger" if way == "duller" else "weaker")


def _equipment_way(facts: Mapping[str, FactValue]) -> Literal["duller", "smoother"] | None:
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


def _barred(session: Session, ruled: RuleAnswer) -> ForbiddenWay:
    """Return which way no move is made.

    Against the side of the last ball; none at all on one look, after a good ball in the pocket, after a ball
    beside the mark, which tells little, and while the last move is still being watched.
    """
    told = [seen for seen in lane_balls(session) if did_not_miss(seen, session.bowler)]
    n_told = sum(seen.shot.arrival is not None or seen.shot.leave is not None for seen in told)
    side, facts = ruled.reading.side, ruled.reading.facts
    is_good_pocket = side == "pocket" and facts.get("is_on_target") is True
    is_weak = facts.get("is_within_spread") is True
    if n_told < LEAST_TOLD or side is None or is_good_pocket or is_weak or ruled.held == "all":
        return "all"
    if side == "pocket":
        return ruled.held
    is_early = facts.get("motion") in ("early", "roll_out")
    against: ForbiddenWay = "outward" if side == "high" or is_early else "inward"
    return against if ruled.held in ("", against) else "all"


def _agree(ruled: RuleAnswer, model: ModelVoice) -> bool:
    if ruled.is_gate or ruled.reading.last is None:
        return True
    if ruled.is_settled and not ruled.voice.move.is_feet_and_eyes:
        return True
    is_line = ruled.kind == "line"
    if not is_line or model.answer != "line":
        return not is_line and model.answer != "line"
    return outward(ruled.voice.move) == outward(model.move)
