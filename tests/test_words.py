"""What a person reads holds no word of our workshop: a list of banned words against every shown text.

Our own promises (a style guide for words); no outside source. Shown are the strings of the rooms that speak,
those of the panels' scripts, the rules, the drills, what errors say, the pages made of the notebooks, the
README. What the panels and answers say is held to more: to no habit that makes a sentence be read twice.
"""

import ast
import json
import re
import tomllib
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest

ROOT = Path(__file__).parents[1]
ROOMS = (
    "coaching/wording",
    "coaching/rules",
    "coaching/equipment",
    "review",
    "study/game",
    "study/questions",
    "views",
)
BANNED = (
    "lanes that fit",
    "as meant",
    "far light",
    "own frame",
    "particle",
    "particles",
    "oracle",
    "yardstick",
    "laydown offset",
    "sheet's oil",
    "it is told",
    "is asked again",
    "stand behind it",
    "does not hold if",
    "the big one",
    "in the model",
    "these stand",
    "kernel",
    "not known, taken as usual",
)
SPEAKING = ("coaching/wording", "coaching/rules", "review", "study/game", "views/panels", "views/lane")
"""What stands on the screen at the lane, and comes from there: held to the habits too."""
HABITS = {
    "a semicolon chain": r"; (?!expected)[a-z“{]",
    "or not": r"\bor not\b",
    "who walks": r"\bwho walks\b",
    "one that": r"\bone that\b",
    "told": r"\btold\b",
    "worth": r"\bworth\b",
    "arrival": r"(?<!-)\barriv(?:es|ed|als?)\b",
    "lever": r"\blevers?\b",
    "the model": r"\bthe model\b",
    "the own": r"\bthe own\b",
    "are weighed": r"\bweighed\b",
    "an exponent": r"\d[eE]\+\d",
}
_HABITS = {name: re.compile(pattern) for name, pattern in HABITS.items()}
FOR_RULE_WRITERS = ("vocabulary.py", "rule_file.py", "conditions.py")
"""Speak to who writes a rule file."""
_QUOTED = re.compile(r'"((?:[^"\\\n]|\\.)*)"|`((?:[^`\\]|\\.)*)`')
_IN_ERRORS = ("InputError", "DataFileError", "ModelError", "raise_input_errors", "_refuse", "Limits")
_ERROR_NAMES = ("message", "problem", "fix", "expected", "allowed")
_BANNED = re.compile(r"(?<!\w)(?:" + "|".join(re.escape(word) for word in BANNED) + r")(?!\w)", re.IGNORECASE)
_CODE_NAME = re.compile(r"\b[a-z]+(?:_[a-z]+)*_(?:\d{2,4}|right|left|polished|spare)\b")


def _whole(node: ast.expr) -> str | None:
    """Return a string as it is read: a formatted one in one piece, braces where values come in."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        return node.value
    if isinstance(node, ast.JoinedStr):
        return "".join(part.value if isinstance(part, ast.Constant) else "{}" for part in node.values)
    return None


def _texts_in(tree: ast.AST, skipped: set[int]) -> Iterator[str]:
    """Yield the strings of a tree that have several words, pieces of a formatted one together."""
    if id(tree) in skipped:
        return
    text = _whole(tree) if isinstance(tree, ast.expr) else None
    if text is not None:
        if " " in text:
            yield text
        return
    for child in ast.iter_child_nodes(tree):
        yield from _texts_in(child, skipped)


def _strings(source: str) -> Iterator[str]:
    """Return the strings of a module that have several words, but for its docstrings."""
    tree = ast.parse(source)
    bare = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    calls = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr)
        if not isinstance(node.value, ast.Constant)
    }
    yield from _texts_in(tree, bare - calls)


def _script_strings(source: str) -> Iterator[str]:
    """Return the strings of a script that have several words, but for its comments."""
    code = re.sub(r"(?m)(?:^|\s)//.*$", "", source)
    for found in _QUOTED.finditer(code):
        text = found[1] if found[1] is not None else found[2]
        if " " in text.strip():
            yield text


def _error_strings(source: str) -> Iterator[str]:
    """Return what the errors of a module say: strings in them, or named as a message or a part of one."""
    tree = ast.parse(source)
    found = dict.fromkeys(text for text in _strings(source) if "expected" in text)
    for node in ast.walk(tree):
        if isinstance(node, ast.Call):
            name = getattr(node.func, "id", getattr(node.func, "attr", ""))
            parts = node.args if name in _IN_ERRORS or name.startswith("checked_") else []
        elif isinstance(node, ast.Assign):
            names = {getattr(target, "id", "") for target in node.targets}
            parts = [node.value] if names & set(_ERROR_NAMES) else []
        else:
            parts = [node.value] if isinstance(node, ast.keyword) and node.arg == "fix" else []
        found |= dict.fromkeys(text for part in parts for text in _texts_in(part, set()))
    yield from found


def _values(table: Any) -> Iterator[str]:
    if isinstance(table, str):
        yield table
    for value in table.values() if isinstance(table, dict) else table if isinstance(table, list) else ():
        yield from _values(value)


def _page_texts(path: Path) -> Iterator[str]:
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        if cell["cell_type"] == "markdown" and "notebook-only" not in cell["metadata"].get("tags", ()):
            yield "".join(cell["source"])


def _sources(rooms: Iterable[str], ending: str = "py") -> Iterator[tuple[str, str]]:
    for room in rooms:
        for path in sorted((ROOT / "coachlib" / room).rglob(f"*.{ending}")):
            if path.name not in FOR_RULE_WRITERS:
                yield str(path.relative_to(ROOT)), path.read_text(encoding="utf-8")


def _code_texts() -> Iterator[tuple[str, str]]:
    yield from ((name, text) for name, source in _sources(ROOMS) for text in _strings(source))
    for path in sorted((ROOT / "coachlib").rglob("*.html")):
        yield path.name, path.read_text(encoding="utf-8")


def _script_texts() -> Iterator[tuple[str, str]]:
    yield from (
        (name, text) for name, source in _sources(["views"], "js") for text in _script_strings(source)
    )


def _error_texts() -> Iterator[tuple[str, str]]:
    yield from ((name, text) for name, source in _sources(["."]) for text in _error_strings(source))


def _spoken_texts() -> Iterator[tuple[str, str]]:
    """Yield what is held to the habits: the rooms that speak at the lane, their scripts, the rules."""
    errors = {text for _, text in _error_texts()}
    for name, source in _sources(SPEAKING):
        yield from ((name, text) for text in _strings(source) if text not in errors)
    yield from _script_texts()
    yield from (
        (name, text) for name, text in _data_texts() if name == "rules.toml" and text not in _sources_of()
    )


def _sources_of() -> set[str]:
    """Return where the rules were read: names of books and pages, as they are."""
    rules = tomllib.loads((ROOT / "data" / "rules.toml").read_text(encoding="utf-8"))
    return set(rules["sources"].values())


def _data_texts() -> Iterator[tuple[str, str]]:
    for name in ("rules.toml", "drills.toml"):
        table = tomllib.loads((ROOT / "data" / name).read_text(encoding="utf-8"))
        yield from ((name, text) for text in _values(table) if " " in text)


def _read_texts() -> Iterator[tuple[str, str]]:
    for path in sorted((ROOT / "notebooks").glob("*.ipynb")):
        yield from ((path.name, text) for text in _page_texts(path))
    yield "README.md", (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize(
    ("texts", "fewest"),
    [(_code_texts, 1400), (_data_texts, 700), (_read_texts, 100), (_script_texts, 300), (_error_texts, 250)],
)
def test_no_banned_word_is_shown(texts: Any, fewest: int) -> None:
    found = list(texts())
    assert len(found) >= fewest, "so many strings are read"
    assert [(where, hit.group()) for where, text in found for hit in _BANNED.finditer(text)] == []


def test_no_habit_makes_a_sentence_be_read_twice() -> None:
    found = list(_spoken_texts())
    assert len(found) >= 1800, "so many strings are read"
    assert [
        (where, name, text) for where, text in found for name, habit in _HABITS.items() if habit.search(text)
    ] == []


def test_pages_name_invented_things_as_a_person_would() -> None:
    found = [
        (where, hit)
        for where, text in _read_texts()
        if where.endswith("ipynb")
        for hit in _CODE_NAME.findall(text)
    ]
    assert found == []


def test_what_looks_for_words_finds_them() -> None:
    assert _BANNED.findall("Six of ten lanes that fit; the Oracle, in the model.") == [
        "lanes that fit",
        "Oracle",
        "in the model",
    ]
    assert _BANNED.findall("particleboard, kernels") == []
    assert _CODE_NAME.findall("house_41 and club_right, own_pins, 2_000") == ["house_41", "club_right"]
    assert list(_strings('"""A doc string."""\nx = "two words"\n')) == ["two words"]
    assert list(_strings('f"{n} balls of {m} struck"')) == ["{} balls of {} struck"]


def test_what_reads_scripts_and_errors_finds_their_strings() -> None:
    script = 'make("p", {text: "Tap the pins left"});  // "not a word"\nnote = `Ball ${n}, lane ${m}`;'
    assert list(_script_strings(script)) == ["Tap the pins left", "Ball ${n}, lane ${m}"]
    source = 'message = f"line {n} is wrong; expected one"\nraise InputError("no game is running")\nx = "a b"'
    assert sorted(_error_strings(source)) == ["line {} is wrong; expected one", "no game is running"]
    caught = {
        name for name, habit in _HABITS.items() if habit.search("Told as meant; the lever arrives, or not.")
    }
    assert caught == {"a semicolon chain", "or not", "lever", "arrival"}
