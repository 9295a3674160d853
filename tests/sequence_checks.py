"""The words in which `sequences/lane_side.toml` says what an answer must and must not be, each as a check."""

import dataclasses
import re
from collections.abc import Callable, Mapping
from typing import Any

from coachlib import Advice
from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.world.hand import inside_side, outside_side, own_pins
from tests.sequence_geometry import reaches, straight_shift, way_of_feet
from tests.sequence_play import OF_THE_BALL, Answer

NUMBER = r"[−-]?(?:\d+[¼½¾]?(?:\.\d+)?|[¼½¾])"
COUNTS = re.compile(r"\b\d+ (?:strikes? )?(?:of|in) 20\b", re.IGNORECASE)
SPARE_LINE = re.compile(
    rf"feet (?:on )?(?:board )?({NUMBER}),?(?: and)?(?: eyes on| over)?(?: target)? (?:board )?({NUMBER})",
    re.IGNORECASE,
)
_QUARTERS = {"¼": 0.25, "½": 0.5, "¾": 0.75}

Check = Callable[[Answer, Any], list[bool]]


def faults(sequence: Mapping[str, Any], answer: Answer) -> list[str]:
    """Return every word of `must` that does not hold and every one of `must_not` that does."""
    must, must_not = sequence["must"], sequence["must_not"]
    if answer.advice is None and "refused" not in must.get("kind", ()):
        return [f"the entry was refused: {answer.refused}"]
    broken = [
        f"must: {word} = {wanted}, but {shown(answer, word)}"
        for word, wanted in must.items()
        if not all(CHECKS[word](answer, wanted))
    ]
    return broken + [
        f"must not: {word} = {wanted}, but {shown(answer, word)}"
        for word, wanted in must_not.items()
        if any(CHECKS[word](answer, wanted))
    ]


def shown(answer: Answer, word: str) -> str:
    """Return what a check looked at, for the message."""
    if answer.advice is None:
        return f"the entry was refused: {answer.refused}"
    if word.startswith("spare"):
        return f"the spare says: {answer.part('spare')!r}"
    if word in ("quotes", "calls"):
        return f"it quotes {sorted(quoted(answer))}: {_headline(answer)!r}"
    if word in ("says", "tells", "headline", "headline_starts", "has", "counts"):
        return f"it says: {_headline(answer)!r} | " + " | ".join(one for one in answer.texts()[1:] if one)
    return f"it is {answer.advice.kind}, {answer.advice.move}, {answer.advice.cause.verdict}: " + (
        f"{_headline(answer)!r}"
    )


def holds(phrase: str, text: str, hand: str) -> bool:
    """Return whether a phrase stands in a text, see the head of the file."""
    return re.search(rf"(?<!\w)(?:{pattern(phrase, hand)})(?!\w)", text, re.IGNORECASE) is not None


def pattern(phrase: str, hand: str) -> str:
    """Return a phrase as a regular expression, its sides and pins as this bowler sees them."""
    pins = {str(pin): str(own_pins((pin,), hand)[0]) for pin in range(1, 11)}
    names = {"inside": inside_side(hand), "outside": outside_side(hand)} | pins
    turned = re.sub(r"\{(\w+)\}", lambda found: names[found[1]], phrase)
    escaped = re.escape(turned).replace(r"\|", "|").replace(r"\*", r"\w*").replace(r"\ ", r"\s+")
    return re.sub(r"\\s\+…\\s\+", r"[^.!?]*?\\b", escaped)


def board(text: str) -> float:
    """Return a board as it is written: ``12``, ``12½``, ``−1.5``."""
    sign = -1.0 if text[:1] in "−-" else 1.0
    digits = text.lstrip("−-")
    whole = digits.rstrip("¼½¾")
    return sign * (float(whole or 0) + _QUARTERS.get(digits[-1], 0.0))


def spare_line(answer: Answer) -> tuple[float, float] | None:
    """Return feet and target as told for the pins left; None where no numbers are told."""
    lines = SPARE_LINE.findall(answer.part("spare"))
    return (board(lines[-1][0]), board(lines[-1][1])) if lines else None


def _headline(answer: Answer) -> str:
    return answer.part("headline")


def _hand(answer: Answer) -> str:
    return "right" if answer.advice is None else answer.advice.session.bowler.hand


def _phrases(text_of: Callable[[Answer], str]) -> Check:
    return lambda answer, wanted: [holds(phrase, text_of(answer), _hand(answer)) for phrase in wanted]


def _one_of(value_of: Callable[[Answer], Any]) -> Check:
    return lambda answer, wanted: [value_of(answer) in wanted]


def _within(value_of: Callable[[Answer], float | None]) -> Check:
    def check(answer: Answer, limits: list[float]) -> list[bool]:
        value = value_of(answer)
        return [value is not None and limits[0] - 1e-9 <= value <= limits[1] + 1e-9]

    return check


def _advised(value_of: Callable[[Advice], Any], without: Any = None) -> Callable[[Answer], Any]:
    return lambda answer: without if answer.advice is None else value_of(answer.advice)


def _of_move(name: str) -> Callable[[Answer], Any]:
    return _advised(lambda advice: getattr(advice.move, name))


def _spare_number(number: int) -> Callable[[Answer], float | None]:
    return lambda answer: line[number] if (line := spare_line(answer)) else None


def _starts(answer: Answer, wanted: list[str]) -> list[bool]:
    found = [pattern(phrase, _hand(answer)) for phrase in wanted]
    return [re.match(rf"(?:{one})(?!\w)", _headline(answer), re.IGNORECASE) is not None for one in found]


def _reaches(answer: Answer, pin: int) -> list[bool]:
    line = spare_line(answer)
    return [line is not None and answer.advice is not None and reaches(answer.advice.session, line, pin)]


def quoted(answer: Answer) -> set[str]:
    """Return the ids of the rules behind an answer, and of those said beside it."""
    advice = answer.advice
    if advice is None:
        return set()
    of_rule, of_spare = advice.rule, () if advice.spare is None else advice.spare.fired
    beside = (*advice.notes, *advice.cautions, *advice.start_cautions, *of_spare)
    fired = (*of_rule.fired, *of_rule.against, *of_rule.forbidden, *beside)
    return {one.rule.id for one in fired}


def _calls(answer: Answer, wanted: list[str]) -> list[bool]:
    """Return whether rules are quoted, or hold for the last ball and stand behind the one that is."""
    book, facts = load_rulebook(), {} if answer.advice is None else answer.advice.reading.facts
    alone = [dataclasses.replace(book, rules=(book.rule(rule_id),)) for rule_id in wanted]
    behind = [bool(facts) and bool(fired_rules(one, facts)) for one in alone]
    return [is_behind or rule_id in quoted(answer) for rule_id, is_behind in zip(wanted, behind, strict=True)]


CHECKS: dict[str, Check] = {
    "kind": _one_of(_advised(lambda advice: advice.kind, "refused")),
    "way": _one_of(_advised(lambda advice: way_of_feet(advice.move), "none")),
    "move": _one_of(_advised(lambda advice: [advice.move.feet_boards, advice.move.target_boards])),
    "verdict": _one_of(_advised(lambda advice: advice.cause.verdict, "too early")),
    "ball": _one_of(_of_move("ball")),
    "surface": _one_of(_of_move("surface")),
    "feet": _within(_of_move("feet_boards")),
    "eyes": _within(_of_move("target_boards")),
    "speed": _within(_of_move("speed_mph")),
    "shift": _within(_advised(lambda advice: straight_shift(advice.move, advice.session.bowler))),
    "headline": _phrases(_headline),
    "headline_starts": _starts,
    "says": _phrases(lambda answer: "\n".join(answer.texts())),
    "tells": _phrases(lambda answer: "\n".join(answer.part(name) for name in OF_THE_BALL)),
    "has": lambda answer, wanted: [bool(answer.part(name)) for name in wanted],
    "quotes": lambda answer, wanted: [rule_id in quoted(answer) for rule_id in wanted],
    "calls": _calls,
    "counts": lambda answer, wanted: [bool(COUNTS.search(answer.part("chances"))) is wanted],
    "first_move": lambda answer, wanted: [answer.advice is not None and answer.advice.is_big is wanted],
    "spare_says": _phrases(lambda answer: answer.part("spare")),
    "spare_feet": _within(_spare_number(0)),
    "spare_target": _within(_spare_number(1)),
    "spare_reaches": _reaches,
}
