"""The handout: all of it on one page, inert, without colour, under the alias, a file for its owner."""

import dataclasses
import re
import stat
import xml.etree.ElementTree as ET

import pytest

from coachlib.errors import DataFileError, InputError
from coachlib.records import Students
from coachlib.review.demo_log import write_demo_log
from coachlib.review.take_home import take_home
from coachlib.views.print import handout as handouts
from coachlib.views.print.handout import day_text, handout, save_handout
from tests.hostile import hostile_texts
from tests.printed_pages import assert_stands_alone, page_of


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


def test_the_alias_stands_everywhere_and_the_name_nowhere(taken):
    text = handout(taken)
    assert "Lane notes, Oskar" in text
    assert "Tamm" not in text


def test_nothing_comes_from_elsewhere_and_nothing_runs(taken):
    text = handout(taken)
    assert {"svg", "table", "h1"} <= {tag for tag, _ in page_of(text).tags}
    assert_stands_alone(text)


def test_the_lane_is_drawn_for_the_hand_and_described(taken):
    text = handout(taken)
    svg = text[text.index("<svg") : text.index("</svg>") + len("</svg>")]
    root = ET.fromstring(svg)
    assert "left-hander" in root.attrib["aria-label"]
    assert "bowler’s left · board 1" in svg


def test_words_and_lines_are_ink_on_paper(taken):
    text = handout(taken)
    style = text[text.index("<style>") : text.index("</style>")]
    assert {colour.lower() for colour in re.findall(r"#[0-9a-fA-F]{3,6}", style)} <= {"#000", "#fff", "#999"}
    svg = text[text.index("<svg") : text.index("</svg>")]
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


def test_no_lines_and_no_moves_are_said(demo, taken):
    bare = dataclasses.replace(taken, start=None, worked=(), moves=(), n_moves=0)
    shown = " ".join(page_of(handout(bare)).texts)
    assert "The line was kept all the time." in shown
    assert "Drawn: the line of the first ball." in shown
    assert "your line" in shown


def test_of_many_moves_the_last_are_told_and_counted(taken):
    many = dataclasses.replace(taken, n_moves=9)
    assert f"the last {len(taken.moves)} of 9" in handout(many)


def test_pain_stands_before_the_next_line(taken):
    hurt = dataclasses.replace(taken.session.bowler, pain="left thumb")
    page = handout(dataclasses.replace(taken, session=dataclasses.replace(taken.session, bowler=hurt)))
    assert page.index("Take care") < page.index("Next time") < handout(taken).index("Take care")


def test_a_file_is_for_its_owner_and_never_in_the_source(taken, tmp_path, repository):
    page = handout(taken)
    path = save_handout(page, tmp_path / "sheet.html")
    assert path.read_text(encoding="utf-8") == page
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    with pytest.raises(DataFileError, match="inside the library's source"):
        save_handout(page, repository / "sheet.html")


@pytest.mark.parametrize("sheet", ["A4", "letter"])
def test_it_fits_one_page_with_a_long_name_and_scores(demo, sheet):
    weasyprint = pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    taken = dataclasses.replace(_taken(demo, "Maija Korpela", with_scores=True), name="Maria " * 12)
    size = weasyprint.CSS(string=f"@page {{ size: {sheet}; }}")
    assert len(weasyprint.HTML(string=handout(taken)).render(stylesheets=[size]).pages) == 1


def test_pdf_is_made_where_it_can_be_and_else_said(taken, tmp_path):
    try:
        import weasyprint  # noqa: F401
    except (ImportError, OSError):
        with pytest.raises(InputError, match=r"the extra pdf \(WeasyPrint\) is not installed"):
            save_handout(handout(taken), tmp_path / "sheet.pdf")
    else:
        assert save_handout(handout(taken), tmp_path / "sheet.pdf").read_bytes().startswith(b"%PDF")
