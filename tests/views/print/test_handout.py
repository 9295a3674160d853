"""The handout: all of it on one page, inert, without colour, under the alias."""

import dataclasses
import re
import xml.etree.ElementTree as ET

import pytest

from coachlib.records import Students
from coachlib.review.demo_log import write_demo_log
from coachlib.review.take_home import take_home
from coachlib.views.print import handout as handouts
from coachlib.views.print.handout import day_text, handout
from tests.hostile import hostile_texts
from tests.printed_pages import assert_black_on_white, assert_stands_alone, lane_of, page_of


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    return write_demo_log(tmp_path_factory.mktemp("demo"))


def _taken(demo, name="Oskar", **asked):
    key = next(one.key for one in Students(demo).listed() if one.shown_name == name)
    listed = demo.sessions(key)[0]
    return take_home(listed, demo.story(listed.key), **asked)


@pytest.fixture(scope="module")
def taken(demo):
    return _taken(demo)


def test_all_that_is_taken_home_stands_on_the_page(demo):
    taken = _taken(demo, with_scores=True)
    shown = " ".join(page_of(handout(taken, coach="R. Aalto", place="Harbour Lanes")).texts)
    texts = [taken.start_why, *taken.cautions, *taken.scores, taken.drill.do, taken.drill.marked_by]
    texts += [text for move in taken.moves for text in (move.words, move.why)]
    texts += [day_text(taken.started), "R. Aalto", "Harbour Lanes", "Next time: feet"]
    assert len(texts) > 12
    assert [text for text in texts if text not in shown] == []


def test_a_parents_sheet_tells_no_scores(taken):
    shown = " ".join(page_of(handout(taken)).texts).lower()
    assert "hit the pocket on target" in shown
    assert not re.search(r"strike|single pin|in numbers|average", shown)


def test_the_alias_stands_everywhere_and_the_name_nowhere(tmp_path):
    demo = write_demo_log(tmp_path)
    students = Students(demo)
    key = next(one.key for one in students.listed() if one.shown_name == "Oskar")
    students.change(key, lambda one: dataclasses.replace(one, alias="Number 7"))
    text = handout(_taken(demo, "Number 7"))
    assert "Lane notes, Number 7" in text
    assert "Oskar" not in text


def test_nothing_comes_from_elsewhere_and_nothing_runs(taken):
    text = handout(taken)
    assert {"svg", "table", "h1"} <= {tag for tag, _ in page_of(text).tags}
    assert_stands_alone(text)
    assert_black_on_white(text)


def test_the_lane_is_drawn_for_the_hand_in_ink_and_described(taken):
    svg = lane_of(handout(taken))
    assert "left-hander" in ET.fromstring(svg).attrib["aria-label"]
    assert "bowler’s left · board 1" in svg
    inks = set(re.findall(r'<text[^>]*fill="(#[0-9A-Fa-f]{6})"', svg))
    assert inks
    assert inks <= {"#1D1B18", "#FBF5E8"}  # ink, and the halo of lane colour around words on the lane


def test_hostile_texts_are_shown_as_they_are_and_never_run(taken, monkeypatch):
    monkeypatch.setattr(handouts, "_lane", lambda _: "")  # it holds no person's text
    texts = hostile_texts(1000)
    assert len(texts) == 1000
    calm = {tag for tag, _ in page_of(handout(taken)).tags}
    for text in texts:
        nasty = dataclasses.replace(
            taken, name=text, cautions=(text,), moves=(taken.moves[0]._replace(why=text, lane=text),)
        )
        page = page_of(handout(nasty, title=text, coach=text, place=text))
        assert {tag for tag, _ in page.tags} <= calm
        assert not [name for _, attrs in page.tags for name in attrs if name.startswith("on")]


def test_no_lines_and_no_moves_are_said(taken):
    bare = dataclasses.replace(taken, start=None, worked=(), moves=(), n_moves=0)
    shown = " ".join(page_of(handout(bare)).texts)
    assert "You stayed on one line all the time." in shown
    assert "The picture shows the line of the first ball." in shown
    assert "your line" in shown


def test_of_many_moves_the_last_are_told_and_counted(taken):
    many = dataclasses.replace(taken, n_moves=9)
    assert f"the last {len(taken.moves)} of 9" in handout(many)


def test_pain_stands_before_the_next_line(taken):
    hurt = dataclasses.replace(taken.session.bowler, pain="left thumb")
    page = handout(dataclasses.replace(taken, session=dataclasses.replace(taken.session, bowler=hurt)))
    assert page.index("Take care") < page.index("Next time") < handout(taken).index("Take care")


@pytest.mark.parametrize("sheet", ["A4", "letter"])
def test_it_fits_one_page_with_a_long_name_and_scores(demo, sheet):
    weasyprint = pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    taken = dataclasses.replace(_taken(demo, "Maija", with_scores=True), name="Maria " * 12)
    size = weasyprint.CSS(string=f"@page {{ size: {sheet}; }}")
    assert len(weasyprint.HTML(string=handout(taken)).render(stylesheets=[size]).pages) == 1
