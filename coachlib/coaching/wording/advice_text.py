"""Every sentence a person reads, made from an advice.

Order of an advice: move, why in one clause, chance before and after (once the model speaks), what to look
for, what then; cautions on lines of their own. Nothing is computed here but the wording.
"""

import dataclasses
import math
from typing import Any

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.rules.rule_advice import BACK_RULE
from coachlib.coaching.rules.rule_voice import RuleVoice
from coachlib.coaching.rules.rulebook import WALKERS_MOVES
from coachlib.coaching.session.last_move import last_move
from coachlib.coaching.wording.arrival_words import HEAD_PIN_BOARDS
from coachlib.coaching.wording.callouts import (
    To,
    about_bowler,
    line_text,
    lowered,
    move_text,
    rule_name,
    side_text,
    with_sides,
)
from coachlib.coaching.wording.care_words import care_headline, stopped_texts
from coachlib.coaching.wording.changes_words import runners_up_texts
from coachlib.coaching.wording.doubt_words import doubt_text
from coachlib.coaching.wording.model_words import (
    AGAIN,
    assumed_text,
    cause_text,
    chances_text,
    is_of_rule,
    look_for_text,
    model_text,
    odd_text,
    then_text,
)
from coachlib.coaching.wording.seen_words import seen_text
from coachlib.coaching.wording.spare_words import spare_text
from coachlib.coaching.wording.why_words import (
    RELEASE_OFF,
    is_aside,
    is_equipment,
    reason_of_rule,
    sentence_case,
    text_of_rule,
    waits_to_go_back,
    why_of_answer,
)
from coachlib.errors import checked_choice, checked_thing
from coachlib.world.hand import Hand, checked_hand
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.levers import line_shift_boards, pivot_ft
from coachlib.world.line import Move
from coachlib.world.parsing import boards_text


@dataclasses.dataclass(frozen=True)
class Said:
    """An advice in words; every text may be empty.

    Parameters
    ----------
    headline : str
        The few words in large type: the move.
    sentence : str
        The line after the move, and what was seen.
    why, look_for, then : str
        The reason; what to watch on the next ball; what follows from it.
    chances : str
        Strikes of twenty balls before and after, and how much stands behind it; empty without the model.
    model : str
        Where the ball as meant arrives on the likely lanes, and what the rule's move is worth there.
    cause : str
        Bowler or lane, and which observation told most.
    runners_up : tuple of str
        The other moves, and what they are worth beside the advice.
    odd : str
        Which observation of the last ball does not fit the rest.
    assumed : str
        What nobody knows and what it was taken for.
    cautions : tuple of str
        Each on a line of its own.
    general : tuple of str
        Those cautions that may be folded away before the first ball: they go with its start alone.
    notes : tuple of str
        Worth saying beside a move.
    rule, source : str
        The rule of thumb and its lever on paper; where it comes from and how well founded it is.
    stops : str
        Where the rule stops being true.
    conflict : str
        Two rules that point opposite ways, said aloud.
    spare : str
        What the spare system says for the pins just left.
    summary : str
        All of it in a few sentences, for a screen reader.
    """

    headline: str
    sentence: str
    why: str
    chances: str = ""
    look_for: str = ""
    then: str = ""
    cautions: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()
    rule: str = ""
    source: str = ""
    stops: str = ""
    conflict: str = ""
    spare: str = ""
    summary: str = ""
    model: str = ""
    cause: str = ""
    runners_up: tuple[str, ...] = ()
    odd: str = ""
    assumed: str = ""
    general: tuple[str, ...] = ()


START_SENTENCE = "Mark where it crosses, how it hits the pins, and which pins it leaves."
_WATCH_ALL = "Same line, over the target: where does it turn, and where does it hit?"


def say(advice: Advice, hand: Hand | None = None, to: To = "bowler") -> Said:
    """Return an advice in words.

    Parameters
    ----------
    advice : Advice
        The answer of :func:`coachlib.advise`.
    hand : {"right", "left"}, optional
        Whose left and right; the bowler's own if left out.
    to : {"bowler", "coach"}
        Who is spoken to: "you", or "the bowler".

    Raises
    ------
    InputError
        If `hand` or `to` is unknown.
    """
    checked_thing("advice", advice, Advice)
    hand = checked_hand(advice.session.bowler.hand if hand is None else hand)
    checked_choice("to", to, ("bowler", "coach"))
    if advice.is_stopped:
        text = Said(**stopped_texts(advice, to))
        return dataclasses.replace(text, summary=_summary(text))
    voice = advice.rule
    text = Said(
        headline=_headline(advice, hand, to),
        sentence=START_SENTENCE
        if advice.reading.last is None
        else f"{line_text(advice.new_line)}. {seen_text(advice, hand, to)}",
        why=why_of_answer(advice, hand, to),
        chances=chances_text(advice),
        look_for=_look_for(advice, hand),
        then=_then(advice, hand),
        cautions=tuple(reason_of_rule(one, voice, hand) for one in advice.cautions),
        general=tuple(reason_of_rule(one, voice, hand) for one in advice.start_cautions),
        notes=tuple(reason_of_rule(one, voice, hand) for one in advice.notes),
        rule=_rule(advice, hand),
        source="; ".join(rule_name(one.rule, hand, voice.numbers) for one in voice.fired),
        stops=text_of_rule(voice, "stops", hand),
        conflict=_conflict(voice, hand),
        spare=spare_text(advice, hand),
        model=model_text(advice, hand),
        cause=cause_text(advice, to),
        runners_up=tuple(": ".join(one) for one in runners_up_texts(advice, hand)),
        odd=doubt_text(advice, hand, to) or odd_text(advice, hand),
        assumed=assumed_text(advice),
    )
    told: dict[str, Any] = {name: _told(getattr(text, name), to) for name in _OF_RULES}
    text = dataclasses.replace(text, **told)
    return dataclasses.replace(text, summary=_summary(text))


_OF_RULES = ("why", "look_for", "then", "cautions", "general", "notes", "rule", "stops", "spare")
"""Texts that the rulebook writes for the bowler."""


def _told(texts: str | tuple[str, ...], to: To) -> str | tuple[str, ...]:
    """Return texts of the rulebook as who listens reads them."""
    return (
        about_bowler(texts, to) if isinstance(texts, str) else tuple(about_bowler(one, to) for one in texts)
    )


def _headline(advice: Advice, hand: Hand, to: To) -> str:
    if headline := care_headline(advice, to):
        return headline
    if not advice.move.is_stay:
        text = move_text(advice.move, hand)
        if advice.rule.rule_ids[:1] != (BACK_RULE,):
            return text
        made = last_move(advice.session)  # a move of one board is taken back whole
        is_whole = advice.new_line == (None if made is None else made.old_line)
        return f"Go back{'' if is_whole else ' half'}: {lowered(text)}"
    if advice.reading.last is None:
        return line_text(advice.line)
    if advice.kind == "watch":
        return "One more, same line"
    if advice.cause.verdict == "bowler" and advice.reading.facts.get("is_missed") is True:
        return "That was you, not the lane" if to == "bowler" else "That was the bowler, not the lane"
    return RELEASE_OFF.get(advice.rule.rule_ids[:1], "Stay")


def _look_for(advice: Advice, hand: Hand) -> str:
    voice, side = advice.rule, advice.reading.side
    if not is_of_rule(advice):
        return look_for_text(advice)
    if voice.forbidden or is_equipment(advice):
        return _WATCH_ALL
    if advice.reading.last is None and not voice.fired:
        return ""
    if voice.fired and not is_aside(voice.fired[0]):
        return text_of_rule(voice, "look", hand)
    return "Two high or two light on target would change this." if side == "pocket" else _WATCH_ALL


def _then(advice: Advice, hand: Hand) -> str:
    """Return what follows: the rule's own word, what goes with the move, and how to judge it."""
    voice = advice.rule
    if waits_to_go_back(advice):
        is_last = advice.reading.facts.get("n_too_far") == voice.numbers["patience"] - 1
        return "If the next good ball comes in there too, go back half." if is_last else AGAIN
    if not is_of_rule(advice):
        return then_text(advice)
    if advice.reading.last is None:
        return " ".join(reason_of_rule(one, voice, hand) for one in voice.fired)
    if voice.forbidden or is_equipment(advice):
        return "Give it two balls, and watch what it does." if not advice.move.is_stay else AGAIN
    if advice.is_small and not advice.move.is_stay:
        return f"Judge it after two balls on target. If both come in {_too_far(advice)}, go back."
    if voice.fired and is_aside(voice.fired[0]):
        return AGAIN
    parts = []
    for one in voice.fired[:1]:
        parts += [reason_of_rule(one, voice, hand)] * (one.kind in ("stay", "watch") and bool(one.text))
        parts += [with_sides(one.rule.then, hand, voice.numbers)] * bool(one.rule.then)
    parts += [reason_of_rule(one, voice, hand) for one in voice.fired[1:]]
    if advice.kind == "line" and advice.move.is_feet_and_eyes:
        parts.append("Judge it after two balls on target.")
        if len(parts) == 1:
            parts.append(f"If both come in {_too_far(advice)}, go back half.")
    return " ".join(part for part in parts if part) or AGAIN


def _too_far(advice: Advice) -> str:
    """Return how the next balls come in if the move was too big."""
    if advice.reading.side in ("high", "light"):
        return "light" if advice.reading.side == "high" else "high"
    return "light" if _shift(advice, advice.move) < 0 else "high"


def _shift(advice: Advice, move: Move) -> float:
    bowler = advice.session.bowler
    return line_shift_boards(move, HEAD_PIN_FT, bowler.walk, advice.line.target_ft, bowler.stance_ft)


def _rule(advice: Advice, hand: Hand) -> str:
    """Return the rule in words and its own lever on paper, whatever the answer is."""
    voice = advice.rule
    if not voice.fired:
        return "No rule of thumb asks for a change."
    title = sentence_case(text_of_rule(voice, "title", hand))
    size = (abs(voice.move.feet_boards), abs(voice.move.target_boards))
    is_other_size = advice.session.bowler.walk == "walk" and size in WALKERS_MOVES.values()
    walking = f"Walking toward the target: {boards_text(size[0])} and {boards_text(size[1])}."
    return " ".join(filter(None, (title, walking if is_other_size else "", _lever(advice, hand))))


def _lever(advice: Advice, hand: Hand) -> str:
    move = advice.rule.move
    if not move.is_feet_and_eyes:
        return ""
    bowler, shift = advice.session.bowler, _shift(advice, move)
    size = f"{boards_text(shift)} board{'' if abs(shift) <= 1 else 's'}"
    if abs(shift) > HEAD_PIN_BOARDS:
        size = f"more than {HEAD_PIN_BOARDS:.0f} boards"
    where = f"{size} {side_text(shift, hand)} at the pins" if abs(shift) >= 0.25 else "no change at the pins"
    at_ft = pivot_ft(move, bowler.walk, advice.line.target_ft, bowler.stance_ft)
    if math.isinf(at_ft):
        pivot = "parallel, no pivot"
    else:
        pivot = f"pivot at {at_ft:.0f} ft" if 0 <= at_ft <= HEAD_PIN_FT else "pivot off the lane"
    return f"On paper, drawn as a straight line: {where}, {pivot}."


def _conflict(voice: RuleVoice, hand: Hand) -> str:
    if not voice.against:
        return ""
    rules = ", but ".join(
        f"“{with_sides(one.rule.title, hand, voice.numbers)}” says {lowered(move_text(one.moves[0], hand))}"
        for one in (voice.fired[0], *voice.against)
    )
    return f"Two rules point opposite ways: {rules}. Throw it again and watch where it turns."


def _summary(text: Said) -> str:
    look_for = text.look_for and f"Look for: {text.look_for}"
    spare = text.spare and f"For this spare: {text.spare}"
    reasons = (text.why, text.cause, text.odd, text.chances, text.conflict)
    parts = (f"{text.headline}.", text.sentence, *reasons, look_for, text.then, spare, *text.cautions)
    return " ".join(filter(None, parts))
