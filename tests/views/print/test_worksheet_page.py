"""Clinic papers as pages: all that is told stands there, nothing is fetched, as many pages as asked.

The PDF checks run where the extra `pdf` is installed. Sheet sizes: see test_page.py.
"""

import pytest

import coachlib as cl
from coachlib.study.questions.worksheet_tasks import MoveTask, PredictTask, ReadTask
from coachlib.views.print import worksheet_words as words
from coachlib.views.print.page import page_pdf
from coachlib.views.print.worksheet_page import answer_pages, lane_pages, worksheet_pages
from tests.clinic_papers import NAMES, papers
from tests.hostile import PARTS, without_line_ends
from tests.printed_pages import assert_grey, assert_stands_alone, page_of
from tests.views.print.test_page import SHEETS, pdf_boxes


def text_of(page):
    return " ".join(page_of(page).texts)


@pytest.mark.parametrize("level", NAMES)
def test_all_that_is_told_stands_on_the_paper_and_no_answer(level):
    made = papers(level)[:3]
    shown = text_of(worksheet_pages(made))
    for paper in made:
        for task in paper.tasks:
            asked = (
                words.predict_texts(task)
                if isinstance(task, PredictTask)
                else (words.setting_text(task.session), *sum(words.ball_rows(task.session)[1], ()))
            )
            assert [text for text in asked if text not in shown] == []
        for task in paper.of(PredictTask):
            assert words.predict_why(task) not in shown
        for task in paper.of(ReadTask):
            assert words.read_answer(task).why not in shown
    assert "Rule:" not in shown


@pytest.mark.parametrize("level", NAMES)
def test_all_answers_stand_on_the_answer_sheet(level):
    made = papers(level)[:3]
    shown = text_of(answer_pages(made))
    for paper in made:
        assert f"answers to paper {paper.seed}" in shown
        for number, task in enumerate(paper.tasks, start=1):
            if isinstance(task, PredictTask):
                wanted = [words.predict_why(task), words.hook_text(task)]
                wanted += [cell for row in words.predict_rows(task) for cell in row]
            else:
                told = words.move_answer(task) if isinstance(task, MoveTask) else words.read_answer(task)
                wanted = [f"{number}. {told.short}.", told.also, told.why, told.source]
            assert [text for text in wanted if text not in shown] == []


def test_two_pages_a_paper_one_an_answer_sheet():
    made = papers("first")
    assert worksheet_pages(made).count('<article class="sheet">') == 2 * len(made)
    assert answer_pages(made).count('<article class="sheet">') == len(made)
    assert lane_pages("left", 3).count('<article class="sheet">') == 3


def test_there_is_a_lane_to_draw_on_for_every_move_to_predict():
    paper = papers("second")[0]
    page = worksheet_pages([paper])
    assert page.count("<svg") == 3
    assert "<polyline" not in page
    assert answer_pages([paper]).count("<polyline") == 6
    assert lane_pages("right", 2).count("<svg") == 8


def test_the_paper_says_whose_boards_it_counts():
    assert "left-handed" in text_of(worksheet_pages(papers("first", "left", 2)))
    assert "right-handed" not in text_of(answer_pages(papers("first", "left", 2)))


@pytest.mark.parametrize("make", [worksheet_pages, answer_pages])
def test_nothing_comes_from_elsewhere_and_nothing_runs(make):
    assert_stands_alone(make(papers("third")[:2]))


def _lanes(_, title="Clinic"):
    return lane_pages(title=title)


@pytest.mark.parametrize("make", [worksheet_pages, answer_pages, _lanes])
def test_a_title_is_data_and_never_markup(make):
    first = papers("first")[:1]
    calm = page_of(make(first)).tags
    for text in PARTS:
        made = page_of(make(first, text))
        assert made.tags == calm
        assert without_line_ends(text) in without_line_ends(" ".join(made.texts))


def test_it_is_readable_without_colour():
    for page in (worksheet_pages(papers("first")[:1]), answer_pages(papers("first")[:1]), lane_pages()):
        assert_grey(page)


@pytest.mark.parametrize("wrong", [[], (), 3, None, papers("first")[0]])
def test_no_papers_are_refused(wrong):
    with pytest.raises(
        cl.InputError, match=r"papers is .*; expected a list of papers. Make one with worksheets"
    ):
        worksheet_pages(wrong)


def test_something_else_among_the_papers_is_refused():
    with pytest.raises(cl.InputError, match=r"paper is 3; expected a Worksheet. Make papers with worksheets"):
        answer_pages([papers("first")[0], 3])


@pytest.mark.parametrize("n_pages", [0, 500, "two", True, 1.5])
def test_no_lanes_are_refused(n_pages):
    with pytest.raises(cl.InputError, match=r"expected 1 to 60 pages. Give a whole number"):
        lane_pages("right", n_pages)


@pytest.mark.parametrize(("sheet", "size_mm"), SHEETS)
@pytest.mark.parametrize("level", NAMES)
def test_as_many_pages_of_pdf_as_asked_for(level, sheet, size_mm):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    made = papers(level)[:4]
    for page, n_pages in ((worksheet_pages(made), 8), (answer_pages(made), 4), (lane_pages("left", 2), 2)):
        boxes = pdf_boxes(page_pdf(page, sheet))
        assert len(boxes) == n_pages
        assert boxes[0] == pytest.approx(size_mm, abs=0.5)
