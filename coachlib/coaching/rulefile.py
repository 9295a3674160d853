"""How a rule is written down, and the reading of rule files with clear errors.

One file holds ``[settings]`` (numbers that limits may name), ``[sources]`` (code = where a rule comes from)
and one ``[[rules]]`` table a rule. Everything wrong in a file is told at once: file, rule, field, what is
allowed and what to do. What a condition may say is told in :mod:`coachlib.coaching.conditions`.
"""

import dataclasses
import re
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any, Literal, get_args

from coachlib.coaching.conditions import Condition, condition_problems
from coachlib.coaching.facts import FACTS
from coachlib.errors import DataFileError, InputError, choice_message, shown
from coachlib.files import read_toml
from coachlib.world.line import Move

Kind = Literal["stay", "watch", "pass", "move", "add", "reject", "start", "note", "caution"]
"""What a rule answers.

``stay`` and ``watch`` change nothing; ``pass`` is a gate that hands on to the arrival moves; ``move``
offers moves, best first; ``add`` goes with the move under consideration; ``reject`` forbids that move;
``start`` says where to begin; ``note`` is worth saying beside the answer; ``caution`` is a line of its own.
"""

GRADES = ("in print", "common practice", "derived", "in print, size derived")
PLACEHOLDERS = ("inside", "outside", "patience", "exit_board", *(f"pin_{pin}" for pin in range(1, 11)))


@dataclasses.dataclass(frozen=True)
class Section:
    """A letter of the rulebook: what it is about, its rank among rules that fire, and for which ball."""

    title: str
    rank: int
    tasks: tuple[str, ...] = ("first",)


SECTIONS = {
    "J": Section("people and cautions", 0, ("first", "spare")),
    "A": Section("bowler or lane?", 1),
    "C": Section("the lane is changing", 2),
    "D": Section("how the ball reacts", 3),
    "B": Section("arrival moves", 4),
    "E": Section("carry", 5),
    "F": Section("where to start", 6),
    "G": Section("speed, hand, loft", 7),
    "H": Section("surface and ball", 8),
    "I": Section("spares", 9, ("spare",)),
}
"""The sections in order of precedence."""


@dataclasses.dataclass(frozen=True)
class SizedMove:
    """A move as a rule states it; ``by = "err_sign"``: stated for a high ball, turned for a light one."""

    move: Move
    by: Literal["", "err_sign"] = ""


@dataclasses.dataclass(frozen=True)
class Case:
    """One of several answers of a rule: the first whose condition holds is given."""

    when: Condition
    kind: Kind
    moves: tuple[SizedMove, ...] = ()
    do: str = ""


@dataclasses.dataclass(frozen=True)
class Rule:
    """One rule of thumb; texts are for a person and hold placeholders such as ``{inside}``.

    Parameters
    ----------
    id, section, title : str
        Name, letter of the section, and a short plain title.
    when : mapping
        The condition.
    why, look, stops, then : str
        The reason, what to look for next, when the rule stops being true, and what then.
    grade, src : str, tuple of str
        How well it is founded, and the codes of its sources.
    kind : str or None
        The answer; None where only the cases answer.
    moves : tuple of SizedMove
        Best first, feet and eyes before the rest.
    do : str
        What to do, where a move does not say it.
    cases : tuple of Case
        Answers that depend on more; they come before the rule's own.
    """

    id: str
    section: str
    title: str
    when: Condition
    why: str
    grade: str
    src: tuple[str, ...]
    kind: Kind | None = None
    moves: tuple[SizedMove, ...] = ()
    do: str = ""
    look: str = ""
    stops: str = ""
    then: str = ""
    cases: tuple[Case, ...] = ()


@dataclasses.dataclass(frozen=True)
class RuleFile:
    """What one file holds."""

    rules: tuple[Rule, ...]
    settings: Mapping[str, float]
    sources: Mapping[str, str]


_TEXTS = ("title", "why", "look", "stops", "then", "do")
_RULE_FIELDS = tuple(field.name for field in dataclasses.fields(Rule))
_CASE_FIELDS = tuple(field.name for field in dataclasses.fields(Case))
_MOVE_FIELDS = (*(field.name for field in dataclasses.fields(Move)), "by")


def read_rule_file(path: Path, settings: Mapping[str, float], sources: Mapping[str, str]) -> RuleFile:
    """Return the rules, settings and sources of one file.

    Parameters
    ----------
    path : Path
        The TOML file.
    settings, sources : mapping
        Those of the files read before; this file may use and replace them.

    Raises
    ------
    DataFileError
        Naming the file and everything wrong in it.
    """
    data = read_toml(path)
    settings = {**settings, **_table(data.get("settings"))}
    sources = {**sources, **_table(data.get("sources"))}
    problems = [*_head_problems(data), *_all_rule_problems(data.get("rules", []), settings, sources)]
    if problems:
        raise DataFileError("\n".join(f"{path.name}, {problem}" for problem in problems))
    return RuleFile(tuple(_rule(rule) for rule in data.get("rules", [])), settings, sources)


def _table(value: object) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _head_problems(data: Mapping[str, Any]) -> Iterator[str]:
    for name, value in data.items():
        if name not in ("settings", "sources", "rules"):
            yield choice_message(
                "top level", name, ("settings", "sources", "rules"), "Move it, or check the spelling."
            )
        elif name != "rules" and not isinstance(value, dict):
            yield f"{name} is {shown(value)}; expected a table. Write [{name}] on a line of its own."
    for name, value in _table(data.get("settings")).items():
        if not isinstance(value, int | float) or isinstance(value, bool) or not 0 < value < 1000:
            yield f"settings, {name} is {shown(value)}; expected a number above 0 and below 1000. Change it."
        if name in FACTS:
            yield f"settings, {name} is the name of a fact; expected another name. Rename it everywhere."
    for name, value in _table(data.get("sources")).items():
        if not isinstance(value, str) or not value:
            yield f"sources, {name} is {shown(value)}; expected a text. Say where the rule was read."


def _all_rule_problems(rules: object, settings: Collection[str], sources: Collection[str]) -> Iterator[str]:
    if not isinstance(rules, list) or not all(isinstance(rule, dict) for rule in rules):
        yield f"rules is {shown(rules)}; expected tables. Write [[rules]] above each rule."
        return
    seen: set[object] = set()
    for number, rule in enumerate(rules, start=1):
        name = rule.get("id")
        where = f"rule {name!r}" if isinstance(name, str) and name else f"rule number {number}"
        if not isinstance(name, str) or not re.fullmatch(r"[a-z0-9_]+", name):
            yield f"{where}, id is {shown(name)}; expected small letters, digits and _. Give it a name."
        if str(name) in seen:
            yield f"{where}, id is {name!r} a second time; expected each id once in a file. Rename one."
        seen.add(str(name))
        yield from (f"{where}, {problem}" for problem in _rule_problems(rule, settings, sources))


def _rule_problems(
    rule: Mapping[str, Any], settings: Collection[str], sources: Collection[str]
) -> Iterator[str]:
    yield from _unknown_fields(rule, _RULE_FIELDS)
    if rule.get("section") not in tuple(SECTIONS):
        yield choice_message("section", rule.get("section"), SECTIONS)
    if rule.get("grade") not in GRADES:
        yield choice_message("grade", rule.get("grade"), GRADES)
    yield from _text_problems(rule)
    yield from _source_problems(rule.get("src"), sources)
    yield from _answer_problems(rule, settings, needs_answer="cases" not in rule)
    cases = rule.get("cases", [])
    if not isinstance(cases, list) or not all(isinstance(case, dict) for case in cases):
        yield f"cases is {shown(cases)}; expected a list of tables. Write cases = [{{ when = …, kind = … }}]."
        return
    for number, case in enumerate(cases, start=1):
        yield from (f"case {number}, {problem}" for problem in _unknown_fields(case, _CASE_FIELDS))
        answer = {"do": rule.get("do", ""), **case}
        yield from (f"case {number}, {problem}" for problem in _answer_problems(answer, settings))


def _unknown_fields(table: Mapping[str, Any], known: tuple[str, ...]) -> Iterator[str]:
    for name in table:
        if name not in known:
            yield choice_message("field", name, known, "Check the spelling.")


def _text_problems(rule: Mapping[str, Any]) -> Iterator[str]:
    needs_look = rule.get("kind") in ("stay", "watch", "move", "start")
    for name in _TEXTS:
        text = rule.get(name)
        is_needed = name in ("title", "why") or (name == "look" and needs_look)
        if is_needed and (text is None or text == ""):
            yield f'{name} is missing; expected a plain text. Add {name} = "…".'
        elif text is not None:
            yield from _placeholder_problems(name, text)


def _placeholder_problems(name: str, text: object) -> Iterator[str]:
    if not isinstance(text, str):
        yield f"{name} is {shown(text)}; expected a text. Put it in quotes."
        return
    allowed = ", ".join(f"{{{word}}}" for word in PLACEHOLDERS)
    rest = re.sub("|".join(re.escape(f"{{{word}}}") for word in PLACEHOLDERS), "", text)
    for wrong in re.findall(r"\{[^{}]*\}?|\}", rest):
        yield f"{name} holds {wrong}; expected no placeholder but {allowed}. Change it."


def _source_problems(codes: object, sources: Collection[str]) -> Iterator[str]:
    if not isinstance(codes, list):
        yield f'src is {shown(codes)}; expected a list of source codes. Write src = ["…"], or [].'
        return
    for code in codes:
        if code not in tuple(sources):
            yield choice_message("src", code, sources, "Add it under [sources].")


def _answer_problems(
    table: Mapping[str, Any], settings: Collection[str], needs_answer: bool = True
) -> Iterator[str]:
    """Yield what is wrong with the parts that a rule and a case share: when, kind, moves, do."""
    kind, moves = table.get("kind"), table.get("moves", [])
    yield from (f"when: {problem}" for problem in condition_problems(table.get("when"), settings))
    if (kind is not None or needs_answer) and kind not in get_args(Kind):
        yield choice_message("kind", kind, get_args(Kind))
    if not isinstance(moves, list) or not all(isinstance(move, dict) for move in moves):
        yield f"moves is {shown(moves)}; expected a list of tables. Write moves = [{{ feet_boards = 2 }}]."
        return
    if kind in ("move", "add") and not moves:
        yield f"moves is missing; kind {kind!r} expects at least one. Add moves = [{{ feet_boards = 2 }}]."
    if kind in get_args(Kind) and kind not in ("move", "add") and (moves or not table.get("do")):
        yield f'do is {shown(table.get("do"))}; kind {kind!r} expects a text and no moves. Write do = "…".'
    yield from _placeholder_problems("do", table.get("do", ""))
    for number, move in enumerate(moves, start=1):
        yield from (f"move {number}, {problem}" for problem in _move_problems(move))


def _move_problems(move: Mapping[str, Any]) -> Iterator[str]:
    yield from _unknown_fields(move, _MOVE_FIELDS)
    if move.get("by", "") not in ("", "err_sign"):
        yield choice_message("by", move["by"], ("err_sign",))
    try:
        made = _sized(move).move
    except InputError as error:
        yield from error.fields.values()
        return
    if made.is_stay:
        yield 'all is 0; expected a move that changes something. Use kind = "stay" for no move.'


def _sized(move: Mapping[str, Any]) -> SizedMove:
    known = {name: value for name, value in move.items() if name in _MOVE_FIELDS and name != "by"}
    return SizedMove(Move(**known), move.get("by", ""))


def _rule(table: Mapping[str, Any]) -> Rule:
    cases = tuple(Case(**{**case, "moves": _moves(case)}) for case in table.get("cases", []))
    return Rule(**{**table, "moves": _moves(table), "cases": cases, "src": tuple(table["src"])})


def _moves(table: Mapping[str, Any]) -> tuple[SizedMove, ...]:
    return tuple(_sized(move) for move in table.get("moves", []))
