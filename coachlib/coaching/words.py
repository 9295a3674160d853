"""Every sentence a person reads, made from an advice; left and right are said here and nowhere before.

Order of an advice: move, why in one clause, chance before and after (once the model speaks), what to look
for, what then; cautions on lines of their own. Nothing is computed here but the wording.
"""

import dataclasses
import math
from collections.abc import Mapping
from typing import Literal

from coachlib.coaching.advice import Advice, RuleVoice, move_problems
from coachlib.coaching.levers import line_shift_boards, pivot_ft
from coachlib.coaching.rulebook import Fired
from coachlib.errors import checked_choice
from coachlib.world.hand import Hand, checked_hand, inside_side, outside_side, own_pins
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.line import Line, Move

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
_QUARTERS = ("", "¼", "½", "¾")
_COUNTS: dict[float, str] = {1: "one", 2: "two", 3: "three", 4: "four", 5: "five"}
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
        Empty until the model speaks.
    cautions : tuple of str
        Each on a line of its own.
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
    hand = checked_hand(hand or advice.session.bowler.hand)
    checked_choice("to", to, ("bowler", "coach"))
    voice = advice.rule
    said = Said(
        headline=_headline(advice, hand, to),
        sentence=_sentence(advice, hand, to),
        why=_why(advice, hand),
        chances="",
        look_for=_look_for(advice, hand),
        then=_then(advice, hand),
        cautions=tuple(_told(one, voice, hand) for one in advice.cautions),
        notes=tuple(_told(one, voice, hand) for one in advice.notes),
        rule=_rule(advice, hand),
        source=_source(voice),
        stops=_text(voice, "stops", hand),
        conflict=_conflict(voice, hand),
        spare=_spare(advice, hand),
        summary="",
    )
    return dataclasses.replace(said, summary=_summary(said))


def board_text(board: float) -> str:
    """Return a board, or a number of boards, as people write it: ``12``, ``12½``, ``¼``, ``1.3``, ``−1½``."""
    size = abs(board)
    quarters = round(size * 4)
    if abs(quarters / 4 - size) < 0.005:
        whole, text = quarters // 4, _QUARTERS[quarters % 4]
        written = f"{whole or ''}{text}" if text else str(whole)
    else:
        written = f"{size:.1f}"
    return f"−{written}" if board < 0 and float(f"{size:.2f}") else written


def boards_text(boards: float) -> str:
    """Return a number of boards without its sign: ``"1½"``."""
    return board_text(abs(boards))


def move_text(move: Move, hand: Hand) -> str:
    """Return a move as the bowler sees it, e.g. ``"2 and 1 left"``."""
    parts = [f"{move.ball} ball"] * bool(move.ball)
    parts += [_feet_and_eyes(move, hand)] * move.is_feet_and_eyes
    if move.target_ft:
        parts.append(f"look {abs(move.target_ft):g} ft {'farther' if move.target_ft > 0 else 'closer'}")
    if move.speed_mph:
        parts.append(_speed(move.speed_mph))
    if move.rotation_deg:
        parts.append(f"{'more' if move.rotation_deg > 0 else 'less'} rotation")
    parts += [f"{move.surface} surface"] * bool(move.surface)
    parts += [move.note] * bool(move.note)
    text = ", ".join(parts) or "stay"
    return text[0].upper() + text[1:]


def line_text(line: Line) -> str:
    """Return a line as it is called out, e.g. ``"Feet 24, target 13"``."""
    at = "" if line.target_ft == 15 else f" at {line.target_ft:g} ft"
    return f"Feet {board_text(line.feet_board)}, target {board_text(line.target_board)}{at}"


def side_text(boards: float, hand: Hand) -> str:
    """Return the side a difference of boards points to: left or right as seen from behind the bowler."""
    return inside_side(hand) if boards > 0 else outside_side(hand)


def turned(template: str, hand: Hand, numbers: Mapping[str, float]) -> str:
    """Return a rule's text with its sides and pins as this bowler sees them."""
    pins = {f"pin_{pin}": str(own_pins((pin,), hand)[0]) for pin in range(1, 11)}
    sides = {"inside": inside_side(hand), "outside": outside_side(hand)}
    counted = {
        name: _count(value) if name == "patience" else board_text(value) for name, value in numbers.items()
    }
    return template.format_map(pins | sides | counted)


def _count(value: float) -> str:
    return _COUNTS.get(value) or boards_text(value)


def _feet_and_eyes(move: Move, hand: Hand) -> str:
    feet, eyes = move.feet_boards, move.target_boards
    if feet * eyes > 0:
        return f"{boards_text(feet)} and {boards_text(eyes)} {side_text(feet, hand)}"
    feet_part = f"feet {boards_text(feet)} {side_text(feet, hand)}" if feet else "feet stay"
    eyes_part = f"eyes {boards_text(eyes)} {side_text(eyes, hand)}" if eyes else "eyes stay"
    return f"{feet_part}, {eyes_part}"


def _speed(speed_mph: float) -> str:
    size = "half a mph" if abs(speed_mph) == 0.5 else f"{abs(speed_mph):g} mph"
    return f"{size} {'faster' if speed_mph > 0 else 'slower'}"


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
    where = "on target" if facts.get("has_crossing") else "with no crossing noted"
    n_same = int(facts.get("n_same") or 0)
    return f"{clause}, {_TIMES.get(n_same, f'{n_same} times')} {where}" if clause != "it " else where


def _text(voice: RuleVoice, field: str, hand: Hand) -> str:
    return turned(getattr(voice.fired[0].rule, field), hand, voice.numbers) if voice.fired else ""


def _why(advice: Advice, hand: Hand) -> str:
    voice = advice.rule
    if voice.forbidden:
        wanted = _lower(move_text(voice.fired[0].moves[0], hand))
        problems = move_problems(advice.session, voice.fired[0].moves[0])
        reasons = problems or tuple(_told(one, voice, hand) for one in voice.forbidden)
        return f"The rule would say {wanted}, but {_lower('; '.join(reasons)).rstrip('.')}."
    return _text(voice, "why", hand) or _why_open(advice)


def _why_open(advice: Advice) -> str:
    """Return why no rule asks for a move yet, where a ball missed the pocket."""
    facts, patience = advice.reading.facts, advice.rule.numbers["patience"]
    side, n_same = advice.reading.side, int(facts.get("n_same") or 0)
    if advice.reading.last is None:
        return ""
    if side is None:
        return "Where it met the pins was not noted, so there is nothing to judge the line by."
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
        f"{_count(patience)}."
    )


def _look_for(advice: Advice, hand: Hand) -> str:
    voice, side = advice.rule, advice.reading.side
    if voice.forbidden or (advice.reading.last is None and not voice.fired):
        return ""
    if voice.fired:
        return _text(voice, "look", hand)
    if side == "pocket":
        return "Two high or two light over the target would change this."
    return "The same line over the same board: where it crosses, where it turns, and where it comes in."


def _then(advice: Advice, hand: Hand) -> str:
    """Return what follows: the rule's own word, what goes with the move, and how to judge it."""
    voice = advice.rule
    if advice.reading.last is None:
        return " ".join(_told(one, voice, hand) for one in voice.fired)
    if voice.forbidden:
        return ""
    parts = [turned(one.rule.then, hand, voice.numbers) for one in voice.fired[:1] if one.rule.then]
    parts += [_told(one, voice, hand) for one in voice.fired[1:]]
    if advice.kind == "line" and advice.move.is_feet_and_eyes:
        parts.append("Judge it after two balls on target.")
        if not parts[0] or parts[0].startswith("Judge"):
            parts.append(f"If they come in {_too_far(advice)}, go back half.")
    return " ".join(part for part in parts if part)


def _too_far(advice: Advice) -> str:
    """Return how the next balls come in if the move was too big."""
    if advice.reading.side in ("high", "light"):
        return "light" if advice.reading.side == "high" else "high"
    return "light" if _shift(advice) < 0 else "high"


def _told(one: Fired, voice: RuleVoice, hand: Hand) -> str:
    return turned(one.text or one.rule.why, hand, voice.numbers)


def _shift(advice: Advice) -> float:
    bowler = advice.session.bowler
    return line_shift_boards(advice.move, HEAD_PIN_FT, bowler.walk, advice.line.target_ft, bowler.stance_ft)


def _rule(advice: Advice, hand: Hand) -> str:
    """Return the rule in words and its lever on paper."""
    voice = advice.rule
    if not voice.fired:
        return "No rule of thumb asks for a change."
    title = _sentence_case(turned(voice.fired[0].rule.title, hand, voice.numbers))
    return f"{title} {_lever(advice, hand)}".strip()


def _lever(advice: Advice, hand: Hand) -> str:
    if not advice.move.is_feet_and_eyes:
        return ""
    bowler, shift = advice.session.bowler, _shift(advice)
    size = f"{boards_text(shift)} board{'' if abs(shift) <= 1 else 's'}"
    where = f"{size} {side_text(shift, hand)} at the pins" if abs(shift) >= 0.25 else "no change at the pins"
    at_ft = pivot_ft(advice.move, bowler.walk, advice.line.target_ft, bowler.stance_ft)
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
    how = move_text(voice.move, hand) if not voice.move.is_stay else ""
    told = turned(voice.fired[0].text, hand, voice.numbers)
    parts = [part.rstrip(".") for part in (how, told) if part]
    return f"{'. '.join(parts)}." if parts else ""


def _summary(said: Said) -> str:
    look_for = said.look_for and f"Look for: {said.look_for}"
    spare = said.spare and f"For this spare: {said.spare}"
    parts = (f"{said.headline}.", said.sentence, said.conflict, look_for, said.then, spare, *said.cautions)
    return " ".join(part for part in parts if part)


def _lower(text: str) -> str:
    return text[:1].lower() + text[1:]


def _sentence_case(text: str) -> str:
    text = text[:1].upper() + text[1:]
    return text if text.endswith((".", "!", "?")) else f"{text}."
