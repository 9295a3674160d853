"""The rule of thumb's voice: what a coach would say with no computer.

Gates first (was it the bowler?), then what the lane says, how the ball
turned, where it came in and what it left. A move is offered only where it fits lane, approach and bowler.
Where two rules point opposite ways both are said, and the answer is to watch one more ball.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Literal

from coachlib.coaching.rules.other_moves import other_levers, small_move
from coachlib.coaching.rules.rule_voice import RuleVoice, fired_with, move_problems
from coachlib.coaching.rules.rulebook import Fired, Rulebook, fired_rules, opposite
from coachlib.coaching.rules.session_facts import RULE_OF_31_FT, Reading, read_session, spare_facts
from coachlib.coaching.rules.straight_ball import is_straight, straight_answer
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.lane_history import ball_before
from coachlib.coaching.session.last_move import last_move
from coachlib.coaching.session.session import Session
from coachlib.world.levers import outward
from coachlib.world.line import Move

AdviceKind = Literal["stay", "watch", "line", "speed", "hand", "surface", "ball"]
Held = Literal["", "inward", "outward", "all"]

BACK_RULE = "move_went_too_far"
"""The rule that takes half of a move back: its size is settled too."""

SHORT_RULE = "move_fell_short"
"""The rule that goes on the same way after two balls still on the side that the last move answered."""

AT_ONCE_RULE = "severe_once"
"""The rule that answers one ball at once, by half a move."""

HITS_BEFORE_NEXT, BALLS_BEFORE_NEXT, BACK_AFTER_BALLS = 2, 4, 3
"""Good balls, or balls of any kind, that a move is given before the next; no move back before the third."""


Verdict = Literal["bowler", "lane", "both", "direction known", "too early"]
"""Whose doing the last ball was, as far as one can say."""


@dataclasses.dataclass(frozen=True)
class RuleAnswer:
    """The answer as far as the rules of thumb give one.

    Parameters
    ----------
    kind : str
        ``stay``, ``watch``, ``line``, ``speed``, ``hand``, ``surface`` or ``ball``.
    voice : RuleVoice
        The rule behind it.
    reading : Reading
        The facts it rests on.
    is_gate : bool
        Whether a gate of the rulebook holds the line: a strike from the pocket, or the bowler's own miss.
    is_small : bool
        Whether moves are kept to one board for a young bowler.
    is_settled : bool
        Whether the way of a move of feet and eyes is settled: the target was hit so often in a row that
        patience is over, and each time the ball came in on the same side; or two very bad balls were, or
        two after a move that fell short.
    is_exact : bool
        Whether the size is settled as well: half of the last move is taken back, or half a move made at once.
    is_forced : bool
        Whether two very bad balls on the mark came in on this side, so that the line moves whatever it gains.
    held : str
        Which way no second move is made yet: ``inward`` or ``outward`` like the last one, ``all`` while its
        first balls are watched, else empty.
    is_straight : bool
        Whether the ball goes straight: geometry answers, and the model says only what it is worth.
    """

    kind: AdviceKind
    voice: RuleVoice
    reading: Reading
    is_gate: bool
    is_small: bool
    is_settled: bool = False
    is_exact: bool = False
    is_forced: bool = False
    held: Held = ""
    is_straight: bool = False


def rule_answer(session: Session, book: Rulebook) -> RuleAnswer:
    """Return what the rulebook says after the last ball of a session."""
    reading = read_session(session)
    fired = fired_rules(book, reading.facts)
    is_care = any(one.rule.section == "J" and one.kind in ("stay", "watch") for one in fired)
    if is_straight(session) and not is_care:
        return _straight(session, book, reading)
    kind, voice = _decided(session, book, reading, fired)
    if kind in ("speed", "hand") and _was_said(session, book, voice.move):
        kind, voice = "watch", dataclasses.replace(voice, move=Move())
    first_id = voice.fired[0].rule.id if voice.fired else ""
    is_exact = kind == "line" and first_id in (BACK_RULE, AT_ONCE_RULE)
    is_forced = _is_forced(reading, book)
    is_patient = _is_patient(reading, book, "n_same_run") or first_id == SHORT_RULE
    return RuleAnswer(
        kind=kind,
        voice=voice,
        reading=reading,
        is_gate=bool(voice.fired) and voice.fired[0].rule.section in ("A", "J") and kind == "stay",
        is_small=_moves_as_junior(reading, book),
        is_settled=kind == "line" and (is_exact or is_forced or is_patient),
        is_exact=is_exact,
        is_forced=is_forced,
        held=_held(session),
    )


def _is_patient(reading: Reading, book: Rulebook, count: str) -> bool:
    return _number(reading.facts, count) >= book.settings["patience"]


def _is_forced(reading: Reading, book: Rulebook) -> bool:
    """Return whether the last ball is the second very bad one over the target on this side."""
    facts, twice = reading.facts, book.settings["patience_when_severe"]
    if facts.get("is_severe") is True and reading.side == "high":
        return _number(facts, "n_severe_high") >= twice
    return facts.get("is_severe_light") is True and _number(facts, "n_severe_light") >= twice


def _held(session: Session) -> Held:
    """Return which way no move is made yet, for want of balls since the last one.

    None at all before two good balls (or four of any kind), nor while one of them alone went too far; none
    back before :data:`BACK_AFTER_BALLS`. Half back, as the rule says, is no such move.
    """
    made = last_move(session)
    if made is None:
        return ""
    is_early = len(made.hits) < HITS_BEFORE_NEXT and made.n_balls < BALLS_BEFORE_NEXT
    if is_early or made.n_too_far == 1:
        return "all"
    if made.n_balls < BACK_AFTER_BALLS:
        return "inward" if outward(made.move) else "outward"
    return ""


def _straight(session: Session, book: Rulebook, reading: Reading) -> RuleAnswer:
    """Return what geometry says of a straight ball; how it turned is not asked."""
    reading = dataclasses.replace(reading, facts={**reading.facts, "motion": "unknown"})
    kind, move, fired = straight_answer(session, reading.facts, _moves_as_junior(reading, book))
    voice = RuleVoice(move, (fired,), numbers=_numbers(session, book))
    return RuleAnswer(kind, voice, reading, kind == "stay", is_small=False, is_straight=True)


def kind_of(move: Move) -> AdviceKind:
    """Return what kind of change a move is: another ball brings its own line; else the line comes first."""
    if move.ball:
        return "ball"
    if move.is_feet_and_eyes or move.target_ft:
        return "line"
    if move.speed_mph:
        return "speed"
    if move.rotation_deg or move.note:
        return "hand"
    return "surface" if move.surface else "stay"


def verdict_of(reading: Reading, book: Rulebook) -> Verdict:
    """Return whose doing the last ball was, by the gates alone.

    The book's settings say what still counts as explained, and how many balls of one side blame the lane.
    ``direction known`` is a full answer: it misses on one side, and why cannot be told yet.
    """
    facts, settings = reading.facts, book.settings
    unclear: Verdict = "direction known" if _number(facts, "n_same") >= 2 else "too early"
    if reading.side in (None, "pocket"):
        return "too early"
    if facts.get("is_missed") is True:
        if not facts.get("is_miss_same_way_as_err"):
            return unclear
        return "both" if _number(facts, "lane_part_boards") >= settings["explained_boards"] else "bowler"
    if facts.get("is_within_spread") is True:
        return unclear
    is_other_speed = _number(facts, "abs_speed_diff_mph") > settings["speed_off_mph"]
    is_other_slide = _number(facts, "abs_slide_diff_boards") > settings["slide_off_boards"]
    if (is_other_speed and facts.get("is_speed_fitting") is True) or is_other_slide:
        return "bowler"
    is_often = _is_patient(reading, book, "n_same") or facts.get("is_trend_inward")
    return "lane" if facts.get("has_crossing") and is_often else unclear


def _decided(
    session: Session, book: Rulebook, reading: Reading, fired: tuple[Fired, ...]
) -> tuple[AdviceKind, RuleVoice]:
    numbers = _numbers(session, book)
    answers = [one for one in fired if one.kind in ("stay", "watch", "move")]
    is_junior = _moves_as_junior(reading, book)
    blocked: Fired | None = None
    for one in answers:
        if one.kind != "move":
            return "stay" if one.kind == "stay" else "watch", RuleVoice(fired=(one,), numbers=numbers)
        moves = one.moves
        if is_junior:  # a young bowler makes about half of each
            moves = tuple(small_move(move, session.line, session.bowler) for move in moves)
        move = _first_allowed(session, book, reading, moves)
        if move is None:
            blocked = blocked or one
            continue
        if against := _against(one, answers):
            return "watch", RuleVoice(fired=(one,), against=against, numbers=numbers)
        if move.ball and session.place.is_feet_stuck:
            move = _instead(session, book, reading) or move
        beside = fired_with(session, book, reading, move, "add")
        move = move if is_junior else _joined(session, move, beside)
        return kind_of(move), RuleVoice(move, (one, *beside), numbers=numbers)
    if blocked is not None:
        forbidden = fired_with(session, book, reading, blocked.moves[0], "reject")
        instead = _instead(session, book, reading)
        kind: AdviceKind = "watch" if instead is None else kind_of(instead)
        return kind, RuleVoice(instead or Move(), (blocked,), forbidden=forbidden, numbers=numbers)
    starts = () if session.shots else tuple(one for one in fired if one.kind == "start")
    is_open = reading.side in ("high", "light") and reading.facts.get("is_missed") is not True
    return "watch" if is_open else "stay", RuleVoice(fired=starts, numbers=numbers)


def _instead(session: Session, book: Rulebook, reading: Reading) -> Move | None:
    """Return the first other lever that this bowler can use here."""
    facts = reading.facts
    if not _is_patient(reading, book, "n_same") and not _is_forced(reading, book):
        return None
    n_too_many = int(_number(facts, "n_same_run") - book.settings["patience"])
    levers = other_levers(reading.side, facts.get("motion"), n_too_many)
    return _first_allowed(session, book, reading, levers)


def _was_said(session: Session, book: Rulebook, move: Move) -> bool:
    """Return whether the ball before got the same answer, so that it is now time to watch what it does."""
    before = ball_before(session)
    if before is None:
        return False
    reading = read_session(before)
    return _decided(before, book, reading, fired_rules(book, reading.facts))[1].move == move


def _numbers(session: Session, book: Rulebook) -> dict[str, float]:
    exits = {} if session.pattern is None else {"exit_board": session.pattern.length_ft - RULE_OF_31_FT}
    return {"patience": book.settings["patience"], **exits}


def _first_allowed(session: Session, book: Rulebook, reading: Reading, moves: Sequence[Move]) -> Move | None:
    """Return the first move that no rule forbids and that fits lane, approach and bowler."""
    for move in moves:
        if not fired_with(session, book, reading, move, "reject") and not move_problems(session, move):
            return move
    return None


def _moves_as_junior(reading: Reading, book: Rulebook) -> bool:
    """Return whether the bowler is known to be so young that moves are kept to one board."""
    age_years = reading.facts.get("age_years")
    return age_years is not None and _number(reading.facts, "age_years") < book.settings["junior_years"]


def _against(one: Fired, answers: list[Fired]) -> tuple[Fired, ...]:
    """Return fired rules of other sections with a move the opposite way; gates are never argued with."""
    if one.rule.section == "A":
        return ()
    others = (other for other in answers if other.kind == "move" and other.rule.section != one.rule.section)
    return tuple(other for other in others if opposite(one, other))


def _joined(session: Session, move: Move, beside: tuple[Fired, ...]) -> Move:
    """Return a change of ball together with the line that goes with it, where that line fits."""
    for extra in (extra for one in beside for extra in one.moves):
        joined = dataclasses.replace(move, feet_boards=extra.feet_boards, target_boards=extra.target_boards)
        if not move_problems(session, joined):
            return joined
    return move


def spare_voice(session: Session, book: Rulebook) -> RuleVoice | None:
    """Return what the spare system says for the pins just left, or None."""
    facts = spare_facts(session)
    fired = [] if facts is None else [one for one in fired_rules(book, facts) if one.rule.section == "I"]
    if not fired:
        return None
    move = next((move for move in fired[0].moves if not move_problems(session, move)), Move())
    beside = (one for one in fired[1:] if one.kind == "note")
    return RuleVoice(move, (fired[0], *beside), numbers=_numbers(session, book))


def _number(facts: Mapping[str, FactValue], name: str) -> float:
    value = facts.get(name)
    return float(value) if isinstance(value, int | float) else 0.0
