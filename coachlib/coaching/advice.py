"""The answer after a ball, in two voices: the rule of thumb, and what the moves are worth on lanes that fit.

The rule of thumb says what a coach would say with no computer. The model weighs the same moves on the lanes
that fit what was seen. Gates of the rulebook hold for both: a strike from the pocket and the bowler's own
miss move nothing; and where the target was hit until patience was over, the ball always coming in on the
same side, the way is settled, and the model says only how far. No move goes against the last ball, none is
made on one look, and where what was seen fits none of the model's lanes the rule of thumb answers alone.
Otherwise the model decides about feet and eyes; a rule's change of speed, hand, surface or ball is offered
where no line is worth the move, unless the model sees it lose. Where the voices differ, both are there to
be said.
"""

import dataclasses

from coachlib.coaching.belief.cause import Blame, Verdict, verdict_of_blame
from coachlib.coaching.belief.replay import believe
from coachlib.coaching.model import (
    DEFAULT_DECIDING,
    EQUAL_PROB,
    Barred,
    Candidate,
    Deciding,
    ModelVoice,
    model_voice,
    of_geometry,
    outward,
    with_speed,
)
from coachlib.coaching.one_ball import arrival_board, missed_boards
from coachlib.coaching.paths import what_is_assumed
from coachlib.coaching.reading import Reading
from coachlib.coaching.rule_voice import (
    Kind,
    RuleAnswer,
    RuleVoice,
    cautions_beside,
    line_after,
    notes_beside,
    rule_answer,
    spare_voice,
    start_cautions,
    verdict_of,
)
from coachlib.coaching.rulebook import Fired, Rulebook, load_rulebook
from coachlib.coaching.session import Changed, Observed, Session
from coachlib.coaching.values import Reach
from coachlib.errors import checked_thing
from coachlib.world.line import Line, Move

LEAST_TOLD = 2
"""Balls of which arrival or pins were noted before the model moves a line: one look is the sheet's word."""

MOST_APART_BOARDS = 3.0
"""So far from the model's arrival the nearest of the last on-target balls may lie (our guess) [boards]."""

BIG_AFTER_BALLS = 3
"""The first move of a session after so many balls is the big one, if scoring has not started (our guess)."""


@dataclasses.dataclass(frozen=True)
class Cause:
    """Whose doing the last ball was.

    Parameters
    ----------
    verdict : str
        ``bowler``, ``lane``, ``both``, ``direction known`` (it misses on one side, and why cannot be told
        yet) or ``too early``.
    bowler_prob : float or None
        How likely the bowler's error moved the ball farther than the line lies off; None without the model.
    told_most : str
        The observation that told most, one of ``belief.seen.FIELDS``; empty without the model.
    """

    verdict: Verdict
    bowler_prob: float | None = None
    told_most: str = ""


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
    """

    kind: Kind
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
    start_cautions: tuple[Fired, ...] = ()

    @property
    def stay_strike_prob(self) -> float | None:
        """The chance of a strike on the present line, as shown."""
        return None if self.model is None else self.model.stay.strike_prob

    @property
    def move_strike_prob(self) -> float | None:
        """The chance of a strike on the line advised, as shown; that of staying where feet and eyes stay."""
        return None if self._advised is None else self._advised.strike_prob

    @property
    def better_lanes_frac(self) -> float | None:
        """On which share of the lanes that fit the line advised beats staying; None where it stays."""
        return None if self._advised is None or self.kind != "line" else self._advised.better_lanes_frac

    @property
    def runners_up(self) -> tuple[Candidate, ...]:
        """The next best moves, best first."""
        return () if self.model is None else self.model.runners_up

    @property
    def _advised(self) -> Candidate | None:
        if self.model is None or self.kind != "line":
            return None if self.model is None else self.model.stay
        known = (self.model.best, self.model.rule)
        return next((one for one in known if one is not None and one.move == self.move), None)


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
    model = _asked(session, ruled, deciding) if model_on else None
    is_unfit = model is not None and _is_unfit(session, ruled, model)
    model = None if is_unfit else model
    kind, move = _joint_answer(ruled, model)
    return Advice(
        kind=kind,
        move=move,
        line=session.line,
        new_line=line_after(session, move),
        rule=ruled.voice,
        cause=_cause(ruled, model, book),
        reading=ruled.reading,
        session=session,
        cautions=cautions_beside(session, book, ruled.reading, move),
        notes=() if ruled.is_straight else notes_beside(session, book, ruled.reading, move),
        is_small=ruled.is_small,
        spare=spare_voice(session, book),
        model=model,
        agree=None if model is None else _agree(ruled, model),
        is_gate=ruled.is_gate,
        is_big=kind == "line" and _is_first_move(session),
        is_unfit=is_unfit,
        is_settled=ruled.is_settled,
        start_cautions=start_cautions(session, book, ruled.reading, move),
    )


def _asked(session: Session, ruled: RuleAnswer, deciding: Deciding) -> ModelVoice:
    belief = believe(session)
    assumed = what_is_assumed(session.bowler, session.ball, session.pattern)
    is_settled = ruled.is_settled and ruled.voice.move.is_feet_and_eyes
    reach = _reach(session, ruled)
    move = ruled.voice.move
    barred = _barred(session, ruled)
    voice = model_voice(
        belief, session.line, session.ball, move, reach, deciding, assumed, is_settled, barred
    )
    if ruled.is_straight:
        return of_geometry(voice, ruled.kind, move)
    if ruled.is_small or ruled.reading.last is None or session.bowler.pain:
        return voice
    return with_speed(voice, belief, session.line, session.ball)


def _barred(session: Session, ruled: RuleAnswer) -> Barred:
    """Return which way no move is made: against the side of the last ball, and none at all on one look."""
    told = [seen.shot for seen in session.shots if seen.lane == session.lane and not seen.shot.is_spare]
    n_told = sum(shot.arrival is not None or shot.leave is not None for shot in told)
    side = ruled.reading.side
    if n_told < LEAST_TOLD or side is None:
        return "all"
    if side == "pocket" or ruled.reading.facts.get("is_on_target") is False:
        return ""
    is_early = ruled.reading.facts.get("motion") in ("early", "roll_out")
    return "outward" if side == "high" or is_early else "inward"


def _is_unfit(session: Session, ruled: RuleAnswer, model: ModelVoice) -> bool:
    """Return whether balls that hit the target came in elsewhere than on all lanes that still carry weight.

    Either all of them lie far to one side of where the ball as meant should come in, or the way that they
    settle loses on the model's lanes.
    """
    if ruled.is_settled and model.answer == "line" and model.best.gain_prob < -EQUAL_PROB:
        return True
    boards = _arrivals_on_target(session)
    if model.blame is None or len(boards) < LEAST_TOLD:
        return False
    off = [board - model.blame.meant_board for board in boards]  # one stray ball is no other lane
    return min(off) > MOST_APART_BOARDS or max(off) < -MOST_APART_BOARDS


def _arrivals_on_target(session: Session) -> list[float]:
    """Return where the last balls of this line arrived that were noted to hit the target, at most three."""
    boards = []
    for seen in reversed(session.shots):
        if (seen.line, seen.ball, seen.lane) != (session.line, session.ball, session.lane):
            break
        is_hit = missed_boards(seen.shot, seen.line, session.bowler) == 0.0
        board = arrival_board(seen.shot) if is_hit and not seen.shot.is_spare else None
        boards += [] if board is None else [board]
    return boards[:3]


def _reach(session: Session, ruled: RuleAnswer) -> Reach:
    if session.place.is_feet_stuck:
        return "eyes only"
    return "one board" if ruled.is_small else "usual"


def _joint_answer(ruled: RuleAnswer, model: ModelVoice | None) -> tuple[Kind, Move]:
    """Return what is done: gates first, then the model's line, then a rule's change of another kind."""
    if model is None or ruled.reading.last is None or ruled.is_gate:
        return ruled.kind, ruled.voice.move
    if ruled.is_settled and not ruled.voice.move.is_feet_and_eyes:
        return ruled.kind, ruled.voice.move  # another target distance: the model has no say
    if model.answer == "line":
        return "line", model.move
    if ruled.kind in ("speed", "hand", "surface", "ball") and not _loses(model.rule):
        return ruled.kind, ruled.voice.move
    return model.answer, Move()


def _loses(rule: Candidate | None) -> bool:
    """Return whether the rule's change was weighed and is worse than to stay."""
    return rule is not None and rule.gain_prob < -EQUAL_PROB


def _cause(ruled: RuleAnswer, model: ModelVoice | None, book: Rulebook) -> Cause:
    told = None if model is None else model.blame
    if told is None or ruled.reading.side in (None, "pocket"):
        return Cause(verdict_of(ruled.reading, book))
    verdict = _verdict(ruled, told, book)
    is_against = told.bowler_prob < 0.5 if verdict == "bowler" else told.bowler_prob > 0.5
    is_against = is_against and (ruled.is_gate or ruled.is_settled)
    return Cause(verdict) if is_against else Cause(verdict, told.bowler_prob, told.told_most)


def _verdict(ruled: RuleAnswer, told: Blame, book: Rulebook) -> Verdict:
    """Return the belief's verdict; one ball never blames the lane; gates and a settled way hold."""
    verdict = verdict_of_blame(told)
    if ruled.is_gate or ruled.is_settled:
        return verdict_of(ruled.reading, book)
    is_alone = int(ruled.reading.facts.get("n_ok") or 0) < 2
    return "direction known" if verdict == "lane" and is_alone else verdict


def _agree(ruled: RuleAnswer, model: ModelVoice) -> bool:
    if ruled.is_gate or ruled.reading.last is None:
        return True
    if ruled.is_settled and not ruled.voice.move.is_feet_and_eyes:
        return True
    is_line = ruled.kind == "line"
    if not is_line or model.answer != "line":
        return not is_line and model.answer != "line"
    return outward(ruled.voice.move) == outward(model.move)


def _is_first_move(session: Session) -> bool:
    """Return whether no line was changed on this lane since practice, and practice is over or long enough."""
    n_balls = 0
    for event in reversed(session.events):
        if isinstance(event, Changed):
            if not event.was.scoring_started and event.now.scoring_started:
                return True
            if event.was.line != event.now.line and event.was.lane == event.now.lane:
                return False
        elif isinstance(event, Observed):
            n_balls += not event.shot.is_spare
    return not session.scoring_started and n_balls >= BIG_AFTER_BALLS
