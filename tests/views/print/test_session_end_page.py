"""The page of a session's end: all text stays text, counts are dots in fives, black on white."""

import dataclasses
from datetime import UTC, datetime

import pytest

import coachlib as cl
from coachlib.review.evening import SpareCount
from coachlib.review.session_end import PAIN_WORDS, SessionEnd, session_end, session_end_words
from coachlib.views.print.session_end_page import MOST_LINES, session_end_page
from tests.hostile import hostile_texts, without_line_ends
from tests.printed_pages import assert_black_on_white, page_of

STARTED = datetime(2026, 9, 15, 16, tzinfo=UTC)
HIGH = cl.Shot(crossed_board=12, arrival="high", leave=(4,))
GOOD = cl.Shot(crossed_board=14, arrival="pocket", leave=())


def _end(name: str = "Ilta", lane: str = "7", n_lines: int = 2, pain: str = "") -> SessionEnd:
    session = cl.Session(cl.Bowler(name=name, pain=pain), cl.Line(22, 12), lane=lane)
    for number in range(n_lines):
        session = cl.change(session, line=cl.Line(22 + number, 12))
        session = cl.observe(cl.observe(session, HIGH), GOOD)
    return session_end(session)


def _shown(end: SessionEnd, title: str = "") -> str:
    return " ".join(page_of(session_end_page(end, "right", STARTED, title)).texts)


def test_what_worked_the_one_thing_and_the_next_start_stand_on_the_page():
    end = _end()
    shown = _shown(end)
    assert_black_on_white(session_end_page(end, "right", STARTED))
    assert "Ilta, Tuesday 15 September 2026" in shown
    assert session_end_words(end, "right")[0] in shown
    assert end.one_thing.drill.do in shown
    assert end.start_why in shown
    assert PAIN_WORDS not in shown
    assert _shown(_end(pain="thumb")).index(PAIN_WORDS) < shown.index("Each line")


def test_only_the_last_lines_are_told_and_all_are_counted():
    n_lines = MOST_LINES + 3
    page = session_end_page(_end(n_lines=n_lines), "right", STARTED)
    assert f"The last {MOST_LINES} of {n_lines} lines" in page
    assert page.count("<tr>") == MOST_LINES


def test_counts_are_dots_in_fives_the_first_ones_filled():
    end = dataclasses.replace(_end(), spares=(SpareCount("one pin", 3, 7),))
    page = session_end_page(end, "right", STARTED)
    assert '<span>one pin, 3</span><span class="dots">●●●○○ ○○</span>' in page


@pytest.mark.parametrize("n_lines", [0, 1])
def test_what_there_is_nothing_to_say_of_is_left_out(n_lines):
    page = page_of(session_end_page(_end(n_lines=n_lines), "right", STARTED))
    assert ("table" in {tag for tag, _ in page.tags}) == bool(n_lines)
    assert "Spares" not in page.texts


def test_hostile_texts_are_shown_as_they_are_and_never_run():
    texts = hostile_texts(300)
    assert len(texts) == 300
    calm = {tag for tag, _ in page_of(session_end_page(_end(pain="thumb"), "right", STARTED)).tags}
    for text in texts:
        end = _end(name=text[:60], lane=f"x{text[:19]}", pain=f"x{text[:59]}")
        page = page_of(session_end_page(end, "right", STARTED, text))
        assert without_line_ends(text) in without_line_ends(" ".join(page.texts))
        assert {tag for tag, _ in page.tags} <= calm
        assert not [name for _, attrs in page.tags for name in attrs if name.startswith("on")]
