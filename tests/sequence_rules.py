"""Reads `sequences/rulebook.toml`: each rule, the balls that call for it, and near misses that must not."""

import tomllib
from collections.abc import Iterator
from functools import cache
from pathlib import Path
from typing import Any

from coachlib.world.hand import Hand
from tests.sequence_checks import faults
from tests.sequence_play import BEGINNING, Answer, played

FILE = Path(__file__).parent / "sequences" / "rulebook.toml"
MOTIONS = ("early", "even", "late", "skid_long", "over_hook", "roll_out")
HITS = ("flat", "ringing")
SHORT = {"games": "games_on_lane", "stuck": "feet_stuck", "scoring": "scoring_started"}
BETWEEN = ("move", "lane", "pain", "go_on")
ANYWHERE = "… "


def rows() -> dict[str, dict[str, list[str]]]:
    """Return by rule what is said after which balls; ``behind`` and ``not`` as in the head of the file."""
    return tomllib.loads(FILE.read_text(encoding="utf-8"))


def broken(rule_id: str, said: str, balls: str, hand: Hand) -> list[str]:
    """Return what does not hold of the answer to a sequence."""
    answer = _answer_to(balls, hand)
    if said in ("behind", "not"):
        must = {"must" if said == "behind" else "must_not": {"calls": [rule_id]}}
        return faults({"must": {}, "must_not": {}, **must}, answer)
    where = "says" if said.startswith(ANYWHERE) else "headline_starts"
    must = {"quotes": [rule_id], where: [said.removeprefix(ANYWHERE)]}
    return faults({"must": must, "must_not": {}}, answer)


@cache
def _answer_to(balls: str, hand: Hand) -> Answer:
    sequence = sequence_of(balls)
    return played(sequence, sequence["hand"] or hand)


def sequence_of(balls: str) -> dict[str, Any]:
    """Return a sequence as `sequence_play` plays it, see the head of the file for the words."""
    sequence: dict[str, Any] = {**BEGINNING, "model": False, "hand": None, "steps": []}
    for words in filter(None, (part.split() for part in balls.split(";"))):
        name = SHORT.get(words[0], words[0])
        if name in sequence:
            sequence[name] = _beginning(name, words[1:])
        elif name in BETWEEN:
            sequence["steps"].append(_between(words))
        else:
            sequence["steps"] += _balls(words)
    return sequence


def _beginning(name: str, values: list[str]) -> Any:
    if not values:
        return True
    if name == "bowler" and "=" in values[0]:
        return {word: _value(value) for word, value in (one.split("=") for one in values)}
    known = [_value(value) for value in values]
    return known if len(known) > 1 else known[0]


def _between(words: list[str]) -> dict[str, Any]:
    name, *values = words
    if name == "lane":
        return {"lane": values[0], "line": [float(value) for value in values[1:]]}
    if name == "move":
        return {"move": [float(value) for value in values]}
    return {name: values[0] if values else True}


def _balls(words: list[str]) -> list[dict[str, Any]]:
    times = int(words[0]) if words[0].isdigit() else 1
    ball = {"cross": 0.0} | dict(_seen(iter(words[words[0].isdigit() :])))
    return [{word: value for word, value in ball.items() if value is not None}] * times


def _seen(words: Iterator[str]) -> Iterator[tuple[str, Any]]:
    """Yield what was seen of a ball, word by word."""
    for word in words:
        if word in ("at", "stance", "slide"):
            yield {"at": "arrival"}.get(word, word), float(next(words))
        elif word == "turned":
            yield word, (float(next(words)), float(next(words)))
        elif word in ("left", "strike"):
            yield "leave", [int(pin) for pin in next(words).split("-")] if word == "left" else []
        elif word.endswith("mph"):
            yield "speed", float(word.removesuffix("mph"))
        elif word[0] in "+-?":
            yield "cross", None if word == "?" else float(word)
        else:
            yield "motion" if word in MOTIONS else "hit" if word in HITS else "arrival", word


def _value(word: str) -> Any:
    words = {"unknown": "", "true": True, "no": False}
    return words[word] if word in words else float(word) if word[0].isdigit() else word
