"""How a rule is written down, and the reading of rule files with clear errors.

One file holds ``[settings]`` (numbers that limits may name), ``[sources]`` (code = where a rule comes from)
and one ``[[rules]]`` table a rule. Everything wrong in a file is told at once: file, rule, field, what is
allowed and what to do. What a condition may say is told in :mod:`coachlib.coaching.rules.conditions`.
"""

import dataclasses
import re
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any, get_args

from coachlib.coaching.rules.conditions import condition_problems
from coachlib.coaching.rules.rule import GRADES, PLACEHOLDERS, SECTIONS, Case, Rule, RuleKind, SizedMove
from coachlib.coaching.rules.vocabulary import FACTS
from coachlib.errors import DataFileError, InputError, checked_thing, choice_message, shown
from coachlib.files import read_toml
from coachlib.world.line import Move


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


def read_rule_file(path: Path | str, settings: Mapping[str, float], sources: Mapping[str, str]) -> RuleFile:
    """Return the rules, settings and sources of one TOML file.

    `settings` and `sources` are those of the files read before; this file may use and replace them.

    Raises
    ------
    DataFileError
        Naming the file and everything wrong in it.
    InputError
        If `path` is no path.
    """
    path = checked_thing("club file", Path(path) if isinstance(path, str) else path, Path)
    data = read_toml(path)
    unheard = _unheard_settings(data, settings)
    settings = {**settings, **_table(data.get("settings"))}
    sources = {**sources, **_table(data.get("sources"))}
    rules = data.get("rules", [])
    if problems := [*_head_problems(data), *_all_rule_problems(rules, settings, sources), *unheard]:
        raise DataFileError("\n".join(f"{path.name}, {problem}" for problem in problems))
    return RuleFile(tuple(map(_rule, rules)), settings, sources)


def _table(value: object) -> dict[str, Any]:
    return value if isinstance(value, dict) else {}


def _are_tables(value: object) -> bool:
    return isinstance(value, list) and all(isinstance(part, dict) for part in value)


def _cases(rule: Mapping[str, Any]) -> list[dict[str, Any]]:
    cases = rule.get("cases")
    return [case for case in cases if isinstance(case, dict)] if isinstance(cases, list) else []


def _unheard_settings(data: Mapping[str, Any], known: Collection[str]) -> list[str]:
    """Return the new settings that no limit of a rule in the same file names, most often misspelt ones."""
    heard = {*known, *_texts_in(data.get("rules", []))}
    fix = "Check the spelling, or name it in a rule of this file."
    unheard = [name for name in _table(data.get("settings")) if name not in heard]
    return [choice_message("settings, name", name, sorted(known), fix) for name in unheard]


def _texts_in(value: object) -> Iterator[str]:
    """Yield every text in nested tables and lists."""
    if isinstance(value, str):
        yield value
    elif isinstance(value, dict | list):
        for part in value.values() if isinstance(value, dict) else value:
            yield from _texts_in(part)


def _head_problems(data: Mapping[str, Any]) -> Iterator[str]:
    heads = ("settings", "sources", "rules")
    for name, value in data.items():
        if name not in heads:
            yield choice_message("top level", name, heads, "Move it, or check the spelling.")
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


def _all_rule_problems(rules: Any, settings: Collection[str], sources: Collection[str]) -> Iterator[str]:
    if not _are_tables(rules):
        yield f"rules is {shown(rules)}; expected tables. Write [[rules]] above each rule."
        return
    names: list[str] = []
    for number, rule in enumerate(rules, start=1):
        name = rule.get("id")
        where = f"rule {name!r}" if isinstance(name, str) and name else f"rule number {number}"
        if not isinstance(name, str) or not re.fullmatch(r"[a-z0-9_]+", name):
            yield f"{where}, id is {shown(name)}; expected small letters, digits and _. Give it a name."
        if str(name) in names:
            yield f"{where}, id is {name!r} a second time; expected each id once in a file. Rename one."
        names.append(str(name))
        yield from (f"{where}, {problem}" for problem in _rule_problems(rule, settings, sources))


def _rule_problems(
    rule: Mapping[str, Any], settings: Collection[str], sources: Collection[str]
) -> Iterator[str]:
    yield from _unknown_fields(rule, _RULE_FIELDS)
    for name, allowed in (("section", tuple(SECTIONS)), ("grade", GRADES)):
        if rule.get(name) not in allowed:
            yield choice_message(name, rule.get(name), allowed)
    yield from _text_problems(rule)
    yield from _exit_board_problems(rule)
    yield from _section_problems(rule)
    yield from _source_problems(rule.get("src"), sources)
    yield from _answer_problems(rule, settings, needs_answer="cases" not in rule)
    cases = rule.get("cases", [])
    if not _are_tables(cases):
        yield f"cases is {shown(cases)}; expected a list of tables. Write cases = [{{ when = …, kind = … }}]."
        return
    for number, case in enumerate(cases, start=1):
        answer = {"do": rule.get("do", ""), **case}
        problems = (*_unknown_fields(case, _CASE_FIELDS), *_answer_problems(answer, settings))
        yield from (f"case {number}, {problem}" for problem in problems)


def _unknown_fields(table: Mapping[str, Any], known: tuple[str, ...]) -> list[str]:
    unknown = [name for name in table if name not in known]
    return [choice_message("field", name, known, "Check the spelling.") for name in unknown]


def _text_problems(rule: Mapping[str, Any]) -> Iterator[str]:
    needed = ["title", "why"] + ["look"] * (rule.get("kind") in ("stay", "watch", "move", "start"))
    for name in _TEXTS:
        text = rule.get(name)
        if name in needed and (text is None or text == ""):
            yield f'{name} is missing; expected a plain text. Add {name} = "…".'
        elif text is not None:
            yield from _placeholder_problems(name, text)


def _placeholder_problems(name: str, text: object) -> list[str]:
    if not isinstance(text, str):
        return [f"{name} is {shown(text)}; expected a text. Put it in quotes."]
    allowed = [f"{{{word}}}" for word in PLACEHOLDERS]
    rest = re.sub("|".join(map(re.escape, allowed)), "", text)
    expected = f"expected no placeholder but {', '.join(allowed)}. Change it."
    return [f"{name} holds {wrong}; {expected}" for wrong in re.findall(r"\{[^{}]*\}?|\}", rest)]


def _exit_board_problems(rule: Mapping[str, Any]) -> list[str]:
    """Return where a text names the exit board though the length of the oil need not be known."""
    asks = "oil_length_ft" in _table(rule.get("when"))
    texts = [(name, rule.get(name), asks) for name in _TEXTS]
    for number, case in enumerate(_cases(rule), start=1):
        case_asks = asks or "oil_length_ft" in _table(case.get("when"))
        texts.append((f"case {number}, do", case.get("do"), case_asks))
    return [
        f"{name} holds {{exit_board}}; expected it only where when asks oil_length_ft. "
        "Add oil_length_ft = { above = 31 } to when."
        for name, text, is_asked in texts
        if isinstance(text, str) and "{exit_board}" in text and not is_asked
    ]


def _section_problems(rule: Mapping[str, Any]) -> Iterator[str]:
    """Yield the answers and balls of a rule that its section never gives a hearing."""
    letter = rule.get("section")
    if not isinstance(letter, str) or letter not in SECTIONS:
        return
    section, fix = SECTIONS[letter], "Or use another section."
    for part in (rule, *_cases(rule)):
        kind, task = part.get("kind"), _table(part.get("when")).get("task")
        if kind in get_args(RuleKind) and kind not in section.kinds:
            yield choice_message(f"kind in section {letter}", kind, section.kinds, fix)
        if task in ("first", "spare") and task not in section.tasks:
            yield choice_message(f"task in section {letter}", task, section.tasks, fix)


def _source_problems(codes: object, sources: Collection[str]) -> list[str]:
    if not isinstance(codes, list):
        return [f'src is {shown(codes)}; expected a list of source codes. Write src = ["…"], or [].']
    wrong = [code for code in codes if code not in tuple(sources)]
    return [choice_message("src", code, sources, "Add it under [sources].") for code in wrong]


def _answer_problems(
    table: Mapping[str, Any], settings: Collection[str], needs_answer: bool = True
) -> Iterator[str]:
    """Yield what is wrong with the parts that a rule and a case share: when, kind, moves, do."""
    kind, moves, do = table.get("kind"), table.get("moves", []), table.get("do")
    is_kind = kind in get_args(RuleKind)
    yield from (f"when: {problem}" for problem in condition_problems(table.get("when"), settings))
    if (kind is not None or needs_answer) and not is_kind:
        yield choice_message("kind", kind, get_args(RuleKind))
    if not _are_tables(moves):
        yield f"moves is {shown(moves)}; expected a list of tables. Write moves = [{{ feet_boards = 2 }}]."
        return
    if kind in ("move", "add") and not moves:
        yield f"moves is missing; kind {kind!r} expects at least one. Add moves = [{{ feet_boards = 2 }}]."
    if is_kind and kind not in ("move", "add") and (moves or not do):
        yield f'do is {shown(do)}; kind {kind!r} expects a text and no moves. Write do = "…".'
    yield from _placeholder_problems("do", table.get("do", ""))
    for number, move in enumerate(moves, start=1):
        yield from (f"move {number}, {problem}" for problem in _move_problems(move))


def _move_problems(move: Mapping[str, Any]) -> Iterator[str]:
    yield from _unknown_fields(move, _MOVE_FIELDS)
    if move.get("by", "") not in ("", "err_sign", "half_back"):
        yield choice_message("by", move["by"], ("err_sign", "half_back"))
    try:
        made = _sized(move).move
    except InputError as error:
        yield from error.fields.values()
        return
    if made.is_stay and move.get("by") != "half_back":
        yield 'all is 0; expected a move that changes something. Use kind = "stay" for no move.'


def _sized(move: Mapping[str, Any]) -> SizedMove:
    known = {name: value for name, value in move.items() if name in _MOVE_FIELDS and name != "by"}
    return SizedMove(Move(**known), move.get("by", ""))


def _rule(table: Mapping[str, Any]) -> Rule:
    def with_moves(part: Mapping[str, Any]) -> dict[str, Any]:
        return {**part, "moves": tuple(map(_sized, part.get("moves", [])))}

    cases = tuple(Case(**with_moves(case)) for case in table.get("cases", []))
    return Rule(**{**with_moves(table), "cases": cases, "src": tuple(table["src"])})
