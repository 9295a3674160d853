"""What a person reads holds no word of our workshop: a list of banned words against every shown text.

Our own promises (a style guide for words); no outside source. Shown are the strings of the rooms that speak,
the rules, the drills, the pages made of the notebooks, the README.
"""

import ast
import json
import re
import tomllib
from collections.abc import Iterator
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
_BANNED = re.compile(r"(?<!\w)(?:" + "|".join(re.escape(word) for word in BANNED) + r")(?!\w)", re.IGNORECASE)
_CODE_NAME = re.compile(r"\b[a-z]+(?:_[a-z]+)*_(?:\d{2,4}|right|left|polished|spare)\b")


def _strings(source: str) -> Iterator[str]:
    """Return the strings of a module that have several words, but for its docstrings."""
    tree = ast.parse(source)
    bare = {id(node.value) for node in ast.walk(tree) if isinstance(node, ast.Expr)}
    for node in ast.walk(tree):
        if isinstance(node, ast.Constant) and isinstance(node.value, str) and id(node) not in bare:
            if " " in node.value:
                yield node.value


def _values(table: Any) -> Iterator[str]:
    if isinstance(table, str):
        yield table
    for value in table.values() if isinstance(table, dict) else table if isinstance(table, list) else ():
        yield from _values(value)


def _page_texts(path: Path) -> Iterator[str]:
    for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
        if cell["cell_type"] == "markdown" and "notebook-only" not in cell["metadata"].get("tags", ()):
            yield "".join(cell["source"])


def _code_texts() -> Iterator[tuple[str, str]]:
    for room in ROOMS:
        for path in sorted((ROOT / "coachlib" / room).rglob("*.py")):
            if path.name != "vocabulary.py":  # speaks to who writes a rule file
                yield from (
                    (str(path.relative_to(ROOT)), text) for text in _strings(path.read_text(encoding="utf-8"))
                )
    for path in sorted((ROOT / "coachlib").rglob("*.html")):
        yield path.name, path.read_text(encoding="utf-8")


def _data_texts() -> Iterator[tuple[str, str]]:
    for name in ("rules.toml", "drills.toml"):
        table = tomllib.loads((ROOT / "data" / name).read_text(encoding="utf-8"))
        yield from ((name, text) for text in _values(table) if " " in text)


def _read_texts() -> Iterator[tuple[str, str]]:
    for path in sorted((ROOT / "notebooks").glob("*.ipynb")):
        yield from ((path.name, text) for text in _page_texts(path))
    yield "README.md", (ROOT / "README.md").read_text(encoding="utf-8")


@pytest.mark.parametrize("texts", [_code_texts, _data_texts, _read_texts])
def test_no_banned_word_is_shown(texts: Any) -> None:
    found = list(texts())
    assert len(found) > 40, "there is something to look at"
    assert [(where, hit.group()) for where, text in found for hit in _BANNED.finditer(text)] == []


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
