"""Printed pages in a browser: nothing is cut off at the edge of a sheet or of a picture, whatever the font.

Sizes: A4 210 × 297 mm (ISO 216), letter 8½ × 11 in (ANSI Y14.1), both from memory; margins as in the style.
"""

import dataclasses
import functools
import re
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page

from coachlib.records import Students
from coachlib.review.demo_log import demo_log
from coachlib.review.parents_page import Better, ParentsPage, parents_page
from coachlib.review.session_end import session_end
from coachlib.review.take_home import take_home
from coachlib.review.trends import student_trends
from coachlib.review.work_on import work_on
from coachlib.study.lessons.lesson import LESSONS, load_lesson
from coachlib.study.questions.worksheets import worksheets
from coachlib.views.print import worksheet_page
from coachlib.views.print.handout import handout
from coachlib.views.print.lesson_handout import lesson_handout
from coachlib.views.print.parents_letter import MOST_LETTERS, parents_letter
from coachlib.views.print.plan_card import plan_card
from coachlib.views.print.session_end_page import session_end_page
from tests.planned import plan_of

pytestmark = pytest.mark.browser
SHEETS = {"A4": (210.0, 297.0), "letter": (215.9, 279.4)}
MARGINS_MM = (15.0, 12.0)
PX_A_MM = 96 / 25.4
LONG_NAME = "Maria-Magdalena von Hohenstein-Rautenberg"
WORDS = "It rolled over my arrow and then all of them fell down at once. " * 9


def _sessions(name: str = "Oskar"):
    logbook = demo_log()
    students = Students(logbook)
    key = next(one.key for one in students.listed() if one.shown_name == name)
    rows = students.sessions(key)
    return rows, [logbook.story(row.key) for row in rows], work_on(student_trends(logbook, key))


def _letter(**changed: object) -> ParentsPage:
    rows, stories, worth = _sessions()
    page = parents_page(rows[0], stories[0], list(zip(rows[1:], stories[1:], strict=True))[::-1], worth)
    return dataclasses.replace(page, **changed)


def _fullest_letter() -> str:
    better = Better(30, 8, 17, datetime(2026, 9, 1, tzinfo=UTC))
    page = _letter(name=LONG_NAME, better=better, pain="the left wrist, since the second game")
    return parents_letter(
        page, coach=LONG_NAME, own_words=WORDS[:MOST_LETTERS], next_time="We try the 10-pin."
    )


def _notes(name: str) -> str:
    rows, stories, _ = _sessions(name)
    return handout(take_home(rows[0], stories[0], with_scores=True), coach="R. Aalto", place="Harbour Lanes")


def _end() -> str:
    rows, stories, _ = _sessions()
    return session_end_page(session_end(stories[0].session), stories[0].session.bowler.hand, rows[0].started)


def _lesson(name: str) -> str:
    return lesson_handout(load_lesson(name), "left")


PAPERS: dict[str, tuple[Callable[[], str], int]] = {
    "lane notes": (lambda: _notes("Maija"), 1),
    "lane notes, left": (lambda: _notes("Oskar"), 1),
    "letter": (lambda: parents_letter(_letter(), coach="Aino"), 1),
    "fullest letter": (_fullest_letter, 1),
    "session": (_end, 1),
    "plan": (lambda: plan_card(plan_of()), 1),
    "clinic papers": (lambda: worksheet_page.worksheet_pages(worksheets("third", 1)), 2),
    "clinic answers": (lambda: worksheet_page.answer_pages(worksheets("third", 1, hand="left")), 1),
    "lanes": (lambda: worksheet_page.lane_pages("right", 1), 1),
    **{f"lesson, {name}": (functools.partial(_lesson, name), 2) for name in LESSONS},
}

CUT_OFF = """() => {
  const told = [];
  for (const svg of document.querySelectorAll("svg")) {
    const room = svg.getBoundingClientRect();
    for (const text of svg.querySelectorAll("text")) {
      const box = text.getBoundingClientRect();
      const across = Math.max(box.right - room.right, room.left - box.left);
      if (Math.max(across, box.bottom - room.bottom, room.top - box.top) > 1)
        told.push(`${text.textContent.slice(0, 60)}: ${Math.round(across)} px`);
    }
  }
  const page = document.body.getBoundingClientRect();
  for (const node of document.body.querySelectorAll("*")) {
    const box = node.getBoundingClientRect();
    if (node.closest("svg") || box.right <= page.right + 1) continue;
    told.push(`${node.tagName} ${node.textContent.slice(0, 40)}`);
  }
  return told; }"""


@pytest.fixture(scope="module")
def printed() -> dict[str, str]:
    """Return each paper as HTML, made once."""
    return {name: make() for name, (make, _) in PAPERS.items()}


@pytest.fixture
def sheet_page(browser: Browser) -> Iterator[Callable[[str], Page]]:
    """Return a function that gives a page as wide as the text on a sheet, as it is printed."""
    opened: list[Page] = []

    def open_one(sheet: str) -> Page:
        width_mm, height_mm = SHEETS[sheet]
        width, height = (width_mm - 2 * MARGINS_MM[0]) * PX_A_MM, (height_mm - 2 * MARGINS_MM[1]) * PX_A_MM
        opened.append(browser.new_page(viewport={"width": round(width), "height": round(height)}))
        opened[-1].emulate_media(media="print")
        return opened[-1]

    yield open_one
    for page in opened:
        page.close()


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize("name", PAPERS)
def test_nothing_is_cut_off_and_the_pages_are_as_many_as_meant(
    sheet_page: Callable[[str], Page], printed: dict[str, str], name: str, sheet: str, tmp_path: Path
) -> None:
    page = sheet_page(sheet)
    page.set_content(printed[name])
    assert page.locator("svg, table, p").count() > 0
    assert page.evaluate(CUT_OFF) == []
    pdf = page.pdf(format="Letter" if sheet == "letter" else "A4", prefer_css_page_size=True)
    assert len(re.findall(rb"/Type\s*/Page\b(?!s)", pdf)) == PAPERS[name][1]


def test_the_check_sees_a_caption_that_is_cut_off(sheet_page: Callable[[str], Page]) -> None:
    page = sheet_page("A4")
    page.set_content(
        '<svg width="200" height="30"><text x="150" y="20">much longer than the room</text></svg>'
    )
    assert page.evaluate(CUT_OFF) != []
