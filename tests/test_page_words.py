"""What notebooks store, what templates print and what commands say hold no word of our workshop either.

Our own promises (a style guide for words); no outside source. The list of words is that of `test_words`.
"""

import html
import json
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest

from coachlib.records import Students
from coachlib.review.demo_log import write_demo_log
from tests.test_words import _BANNED, ROOT, _strings

NOTEBOOKS = sorted((ROOT / "notebooks").glob("*.ipynb"))
TEMPLATES = sorted((ROOT / "coachlib" / "views" / "print" / "templates").glob("*.html"))
_TAG = re.compile(r"<[^>]*>")
_JINJA = re.compile(r"{#.*?#}|{%.*?%}|{{.*?}}|<style.*?</style>|<script.*?</script>", re.DOTALL)
_LABEL = re.compile(r'\b(?:aria-label|alt|title)="([^"]*)"')
_SAYS = re.compile(r"^\t*@?(?:echo|.*\|\| \{)(.*)$|## (.*)$", re.MULTILINE)
_NAMED = re.compile(r'\bname="([^"]*)"')


def words_of_markup(markup: str) -> str:
    """Return what a person reads or hears of HTML or SVG: its texts and its labels."""
    return html.unescape(" ".join([*_LABEL.findall(markup), _TAG.sub(" ", markup)]))


def _output_texts(output: Any) -> Iterator[str]:
    yield "".join(output.get("text", ""))
    for kind, stored in output.get("data", {}).items():
        if kind in ("text/html", "image/svg+xml"):
            yield words_of_markup("".join(stored))
        elif kind == "text/plain" and "application/vnd.jupyter.widget-view+json" not in output["data"]:
            yield "".join(stored)


def _stored_texts() -> Iterator[tuple[str, str]]:
    for path in NOTEBOOKS:
        for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]:
            if cell["cell_type"] == "markdown":
                yield path.name, words_of_markup("".join(cell["source"]))
            for output in cell.get("outputs", ()):
                yield from ((path.name, text) for text in _output_texts(output) if text)


def _template_texts() -> Iterator[tuple[str, str]]:
    for path in TEMPLATES:
        markup = path.read_text(encoding="utf-8")
        yield path.name, words_of_markup(_JINJA.sub(" ", markup))
        yield from ((path.name, text) for text in re.findall(r'"([^"<>]* [^"<>]*)"', markup))


def _command_texts() -> Iterator[tuple[str, str]]:
    for name in ("Makefile", ".ci/run"):
        for said, help_text in _SAYS.findall((ROOT / name).read_text(encoding="utf-8")):
            yield name, said or help_text
    for path in (ROOT / "coachlib" / "__main__.py", *sorted((ROOT / "coachlib" / "opener").glob("*.py"))):
        for text in _strings(path.read_text(encoding="utf-8")):
            yield path.name, text


@pytest.mark.parametrize(
    ("texts", "least"), [(_stored_texts, 300), (_template_texts, 60), (_command_texts, 60)]
)
def test_no_banned_word_is_stored_printed_or_said(texts: Any, least: int) -> None:
    found = list(texts())
    assert len(found) > least, "there is something to look at"
    assert [(where, hit.group()) for where, text in found for hit in _BANNED.finditer(text)] == []


def test_invented_people_have_a_first_name_alone(tmp_path: Path) -> None:
    named = {
        name
        for path in NOTEBOOKS
        for cell in json.loads(path.read_text(encoding="utf-8"))["cells"]
        for name in _NAMED.findall("".join(cell["source"]))
    }
    assert {"Ilta", "Oskar"} <= named
    shown = {one.shown_name for one in Students(write_demo_log(tmp_path)).listed()}
    assert [name for name in named | shown if " " in name] == []


def test_what_looks_for_words_sees_texts_and_labels() -> None:
    seen = words_of_markup('<svg aria-label="an oracle"><text x="1">in the&nbsp;model</text></svg>')
    assert "an oracle" in seen
    assert "in the\xa0model" in seen
    assert "x=" not in seen
    assert _BANNED.search(words_of_markup("<b>The</b> <i>oracle</i>"))
    assert _SAYS.findall('\t@echo "hello"\nname: x ## help') == [(' "hello"', ""), ("", "help")]
