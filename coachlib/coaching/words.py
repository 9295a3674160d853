"""Every sentence a person reads, made from an advice.

Order of an advice: move, why in one clause, chance before and after (once the model speaks), what to look
for, what then; cautions on lines of their own. Nothing is computed here but the wording.
"""

import dataclasses
import math
from typing import Literal

from coachlib.coaching.advice import Advice
from coachlib.coaching.callouts import (
    boards_text,
    count_text,
    line_text,
    move_text,
    side_text,
    turned,
)
from coachlib.coaching.levers import line_shift_boards, pivot_ft
from coachlib.coaching.model_words import (
    assumed_text,
    cause_text,
    chances_text,
    is_of_rule,
    look_for_text,
    model_text,
    odd_text,
    runners_up_texts,
    then_text,
    why_text,
)
from coachlib.coaching.rule_voice import RuleVoice, move_problems
from coachlib.coaching.rulebook import WALKERS_MOVES, Fired
from coachlib.errors import checked_choice, checked_thing
from coachlib.world.hand import Hand, checked_hand, own_pins
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.line import Move, moved

To = Literal["bowler", "coach"]

_ARRIVED = {
    "out": "misses the head pin",
    "far_light": "comes in far too light",
    "light": "comes in light",
    "pocket": "finds the pocket",
    "high": "comes in high",
    "nose": "goes through the nose",
    "crossover": "crosses over",
}
_TURNED = {
    "early": "turns early",
    "late": "turns late",
    "skid_long": "hardly turns",
    "over_hook": "turns too sharply",
    "roll_out": "turns and dies",
}
_TIMES = {1: "once", 2: "twice", 3: "three times", 4: "four times", 5: "five times"}


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
        Where the ball as meant arrives on the lanes that fit, and what the rule's move is worth there.
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
    chances: str
    look_for: str
    then: str
    cautions: tuple[str, ...]
    notes: tuple[str, ...]
    rule: str
    source: str
    stops: str
    conflict: str
    spare: str
    summary: str
    model: str = ""
    cause: str = ""
    runners_up: tuple[str, ...] = ()
    odd: str = ""
    assumed: str = ""
    general: tuple[str, ...] = ()


_WATCH_ALL = "The same line over the same board: where it crosses, where it turns, and where it comes in."
_AGAIN = "After each ball it is asked again."


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
    voice = advice.rule
    said = Said(
        headline=_headline(advice, hand, to),
        sentence=_sentence(advice, hand, to),
        why=_why(advice, hand),
        chances=chances_text(advice),
        look_for=_look_for(advice, hand),
        then=_then(advice, hand),
        cautions=tuple(_told(one, voice, hand) for one in advice.cautions),
        general=tuple(_told(one, voice, hand) for one in advice.start_cautions),
        notes=tuple(_told(one, voice, hand) for one in advice.notes),
        rule=_rule(advice, hand),
        source=_source(voice),
        stops=_text(voice, "stops", hand),
        conflict=_conflict(voice, hand),
        spare=_spare(advice, hand),
        summary="",
        model=model_text(advice, hand),
        cause=cause_text(advice, hand),
        runners_up=runners_up_texts(advice, hand),
        odd=odd_text(advice, hand),
        assumed=assumed_text(advice),
    )
    return dataclasses.replace(said, summary=_summary(said))


def _headline(advice: Advice, hand: Hand, to: To) -> str:
    if not advice.move.is_stay:
        return move_text(advice.move, hand)
    if advice.reading.last is None:
        return line_text(advice.line)
    if advice.kind == "watch":
        return "One more, same line"
    if advice.cause.verdict == "bowler":
        return "That was you, not the lane" if to == "bowler" else "That was the bowler, not the lane"
    return "Stay"


def _sentence(advice: Advice, hand: Hand, to: To) -> str:
    if advice.reading.last is None:
        return "Mark where it crosses, where it meets the pins and what it leaves."
    seen = _seen(advice, hand)
    new_line = line_text(advice.new_line)
    return f"{new_line}: {seen}." if seen else f"{new_line}."


def _seen(advice: Advice, hand: Hand) -> str:
    """Return what the last ball did in one clause: the miss, the turn, the arrival, how often."""
    facts = advice.reading.facts
    turned_as = _TURNED.get(str(facts.get("motion")), "")
    came_in = _ARRIVED.get(str(facts.get("arrival_class")), "")
    clause = "it " + " and ".join(part for part in (turned_as, came_in) if part)
    if facts.get("is_on_target") is False:
        miss = float(facts["miss_boards"] or 0.0)
        missed = f"crossed {boards_text(miss)} {side_text(miss, hand)} of the target"
        return f"{missed}; {clause}" if clause != "it " else missed
    if advice.reading.is_arrival_from_leave:
        clause = f"{_pins_left(advice, hand)} that {clause}"
    where = "on target" if facts.get("has_crossing") else "its crossing was not noted"
    if clause == "it ":
        return where
    return f"{clause}{_how_often(advice)}, on target" if facts.get("has_crossing") else f"{clause}; {where}"


def _how_often(advice: Advice) -> str:
    """Return how many balls on target came in on this side, named where the class is another word."""
    n_same, side = int(advice.reading.facts.get("n_same") or 0), str(advice.reading.side)
    if n_same < 2:
        return ""
    times = _TIMES.get(n_same, f"{n_same} times")
    return f", {times}" if advice.reading.facts.get("arrival_class") == side else f", {side} {times}"


def _pins_left(advice: Advice, hand: Hand) -> str:
    last = advice.reading.last
    pins = own_pins(last.shot.leave or (), hand) if last else ()
    if not pins:
        return "the strike says"
    listed = "-".join(str(pin) for pin in pins)
    return f"the {listed} left say" if len(pins) > 1 else f"the {listed} left says"


def _text(voice: RuleVoice, field: str, hand: Hand) -> str:
    return turned(getattr(voice.fired[0].rule, field), hand, voice.numbers) if voice.fired else ""


def _why(advice: Advice, hand: Hand) -> str:
    voice = advice.rule
    if not is_of_rule(advice):
        return why_text(advice, hand)
    if voice.forbidden:
        wanted = _lower(move_text(voice.fired[0].moves[0], hand))
        problems = move_problems(advice.session, voice.fired[0].moves[0])
        reasons = problems or tuple(_told(one, voice, hand) for one in voice.forbidden)
        return f"The rule would say {wanted}, but {_lower('; '.join(reasons)).rstrip('.')}."
    if voice.fired and _is_aside(voice.fired[0]):
        return _told(voice.fired[0], voice, hand)
    if _is_said_before(advice):
        title = _sentence_case(turned(voice.fired[0].rule.title, hand, voice.numbers))
        return f"{title} That was said already: give it two balls, and watch what it does."
    if advice.is_small and not advice.move.is_stay:
        return "One small step, about half of a grown-up's. Then throw two good balls."
    return _text(voice, "why", hand) or _why_open(advice)


def _is_aside(one: Fired) -> bool:
    """Return whether a rule that moves answers "watch" here: then its reasons for moving do not hold."""
    return one.kind in ("stay", "watch") and one.rule.kind != one.kind


def _is_said_before(advice: Advice) -> bool:
    """Return whether the answer is to wait for a change of speed or hand that was asked for already."""
    voice = advice.rule
    return (
        advice.kind == "watch"
        and not voice.against
        and voice.fired[:1] != ()
        and voice.fired[0].kind == "move"
    )


def _why_open(advice: Advice) -> str:
    """Return why no rule asks for a move yet, where a ball missed the pocket."""
    facts, patience = advice.reading.facts, advice.rule.numbers["patience"]
    side, n_same = advice.reading.side, int(facts.get("n_same") or 0)
    if advice.reading.last is None:
        return ""
    if side is None:
        unseen = "Where it met the pins was not noted, and these pins do not tell."
        return unseen if facts.get("leave_key") is not None else unseen.split(",")[0] + "."
    if side == "pocket":
        return "It found the pocket, and no rule of thumb asks for a change."
    if facts.get("is_on_target") is False:
        if advice.cause.verdict == "bowler":
            return "The missed target explains it: moving would answer an error that may not come back."
        return "The missed target does not explain it. One such ball can be luck: throw it again."
    if n_same >= patience:
        return f"{side.capitalize()} again and again, and no rule of thumb fits it. Watch where it turns."
    return (
        f"{side.capitalize()} {_TIMES.get(n_same, f'{n_same} times')} without a miss; the line moves after "
        f"{count_text(patience)}."
    )


def _look_for(advice: Advice, hand: Hand) -> str:
    voice, side = advice.rule, advice.reading.side
    if not is_of_rule(advice):
        return look_for_text(advice, hand)
    if voice.forbidden:
        return _WATCH_ALL
    if advice.reading.last is None and not voice.fired:
        return ""
    if voice.fired and not _is_aside(voice.fired[0]):
        return _text(voice, "look", hand)
    if side == "pocket":
        return "Two high or two light over the target would change this."
    return _WATCH_ALL


def _then(advice: Advice, hand: Hand) -> str:
    """Return what follows: the rule's own word, what goes with the move, and how to judge it."""
    voice = advice.rule
    if not is_of_rule(advice):
        return then_text(advice, hand)
    if advice.reading.last is None:
        return " ".join(_told(one, voice, hand) for one in voice.fired)
    if voice.forbidden:
        return "Until that changes: the same line, or another ball, speed or hand."
    if advice.is_small and not advice.move.is_stay:
        return f"Judge it after two balls on target. If they come in {_too_far(advice)}, go back."
    parts = [_told(one, voice, hand) for one in voice.fired[:1] if one.kind in ("stay", "watch") and one.text]
    if voice.fired and _is_aside(voice.fired[0]):
        return _AGAIN
    parts += [turned(one.rule.then, hand, voice.numbers) for one in voice.fired[:1] if one.rule.then]
    parts += [_told(one, voice, hand) for one in voice.fired[1:]]
    if advice.kind == "line" and advice.move.is_feet_and_eyes:
        parts.append("Judge it after two balls on target.")
        if len(parts) == 1:
            parts.append(f"If they come in {_too_far(advice)}, go back half.")
    return " ".join(part for part in parts if part) or _AGAIN


def _too_far(advice: Advice) -> str:
    """Return how the next balls come in if the move was too big."""
    if advice.reading.side in ("high", "light"):
        return "light" if advice.reading.side == "high" else "high"
    return "light" if _shift(advice, advice.move) < 0 else "high"


def _told(one: Fired, voice: RuleVoice, hand: Hand) -> str:
    return turned(one.text or one.rule.why, hand, voice.numbers)


def _shift(advice: Advice, move: Move) -> float:
    bowler = advice.session.bowler
    return line_shift_boards(move, HEAD_PIN_FT, bowler.walk, advice.line.target_ft, bowler.stance_ft)


def _rule(advice: Advice, hand: Hand) -> str:
    """Return the rule in words and its own lever on paper, whatever the answer is."""
    voice = advice.rule
    if not voice.fired:
        return "No rule of thumb asks for a change."
    title = _sentence_case(turned(voice.fired[0].rule.title, hand, voice.numbers))
    return " ".join(part for part in (title, _walkers_size(advice), _lever(advice, hand)) if part)


def _walkers_size(advice: Advice) -> str:
    """Return how the move reads for who walks the line, where the rule's title names another size."""
    move, bowler = advice.rule.move, advice.session.bowler
    size = (abs(move.feet_boards), abs(move.target_boards))
    if bowler.walk != "walk" or size not in WALKERS_MOVES.values():
        return ""
    return f"For who walks the line: {boards_text(size[0])} and {boards_text(size[1])}."


def _lever(advice: Advice, hand: Hand) -> str:
    move = advice.rule.move
    if not move.is_feet_and_eyes:
        return ""
    bowler, shift = advice.session.bowler, _shift(advice, move)
    size = f"{boards_text(shift)} board{'' if abs(shift) <= 1 else 's'}"
    where = f"{size} {side_text(shift, hand)} at the pins" if abs(shift) >= 0.25 else "no change at the pins"
    at_ft = pivot_ft(move, bowler.walk, advice.line.target_ft, bowler.stance_ft)
    if math.isinf(at_ft):
        pivot = "parallel, no pivot"
    else:
        pivot = f"pivot at {at_ft:.0f} ft" if 0 <= at_ft <= HEAD_PIN_FT else "pivot off the lane"
    return f"On paper, as a straight line: {where}, {pivot}."


def _source(voice: RuleVoice) -> str:
    return "; ".join(f"{one.rule.id}, {one.rule.grade}" for one in voice.fired)


def _conflict(voice: RuleVoice, hand: Hand) -> str:
    if not voice.against:
        return ""
    sayings = [
        f"“{turned(one.rule.title, hand, voice.numbers)}” says {_lower(move_text(one.moves[0], hand))}"
        for one in (voice.fired[0], *voice.against)
    ]
    return (
        "Two rules point opposite ways: " + "; ".join(sayings) + ". Throw it again and watch where it turns."
    )


def _spare(advice: Advice, hand: Hand) -> str:
    voice = advice.spare
    if voice is None or not voice.fired:
        return ""
    told = " ".join(_told(one, voice, hand) for one in voice.fired)
    if voice.move.is_stay:
        return told
    line = moved(advice.line, voice.move)
    return f"{move_text(voice.move, hand)}: {_lower(line_text(line))}. {told}"


def _summary(said: Said) -> str:
    look_for = said.look_for and f"Look for: {said.look_for}"
    spare = said.spare and f"For this spare: {said.spare}"
    parts = (
        f"{said.headline}.",
        said.sentence,
        said.why,
        said.cause,
        said.odd,
        said.chances,
        said.conflict,
        look_for,
        said.then,
        spare,
        *said.cautions,
    )
    return " ".join(part for part in parts if part)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _sentence_case(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."
