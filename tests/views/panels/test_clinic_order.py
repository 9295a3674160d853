"""The clinic's form: bad input is told field by field, and what is asked for is what is made and saved.

Checks of our own promises, no outside source.
"""

import sys
from pathlib import Path

import pytest

import coachlib as cl
from coachlib.views.panels.clinic.clinic_order import (
    BLANK,
    FORMS,
    PARTS,
    ClinicOrder,
    clinic_pages,
    folder_of,
    order_from,
    page_preview,
    save_pages,
)

ORDER = ClinicOrder("first", "left", 2, 5, "Saturday")


def test_the_blank_form_is_an_order():
    assert order_from(BLANK) == ClinicOrder("first", "right", 20, 1, "Clinic")


def test_a_filled_form_is_what_was_typed():
    typed = {**BLANK, "level": "third", "hand": "left", "n_papers": " 7 ", "seed": "12", "form": "letter"}
    assert order_from(typed) == ClinicOrder("third", "left", 7, 12, "Clinic", "letter")
    assert {order_from({**BLANK, "form": form}).sheet for form in FORMS} == {None, "A4", "letter"}


@pytest.mark.parametrize(
    ("typed", "message"),
    [
        ({"n_papers": "0"}, "Number of papers: type a whole number, 1 to 60, not “0”. For a larger class"),
        ({"n_papers": "500"}, "Number of papers: type a whole number, 1 to 60, not “500”."),
        ({"n_papers": ""}, "Number of papers: type a whole number, 1 to 60, the field is empty."),
        ({"n_papers": "2½"}, "Number of papers: type a whole number, 1 to 60, not “2½”."),
        (
            {"seed": "Saturday"},
            "Number of the first paper: type a whole number, 0 to 99,980, not “Saturday”. Type",
        ),
        ({"seed": "-3"}, "Number of the first paper: type a whole number, 0 to 99,980, not “-3”."),
        ({"seed": "9" * 500}, "Number of the first paper: type a whole number, 0 to 99,980, not “99999"),
        ({"level": "hard"}, "Level: choose one of first, second, third, not “hard”"),
        ({"hand": "both"}, "Hand of the class: choose one of right, left, not “both”"),
        ({"form": "exe"}, "Save as: choose one of html, A4, letter, not “exe”"),
        ({"title": "x" * 61}, "Title: use fewer letters, it has 61, at most 60 fit."),
    ],
)
def test_bad_input_gets_a_clear_message(typed, message):
    (field,) = typed
    with pytest.raises(cl.InputError) as refused:
        order_from({**BLANK, **typed})
    assert list(refused.value.fields) == [field]
    assert refused.value.fields[field].startswith(message)


def test_all_wrong_fields_are_told_at_once():
    with pytest.raises(cl.InputError) as refused:
        order_from({**BLANK, "n_papers": "0", "seed": "text"})
    assert set(refused.value.fields) == {"n_papers", "seed"}


def test_each_part_can_be_looked_at():
    shown = {part: page_preview(ORDER, part) for part in PARTS}
    assert "Saturday, paper 5" in shown["papers"]
    assert "Saturday, answers to paper 5" in shown["answers"]
    assert "Saturday: lane paper" in shown["lanes"]
    assert all("left-handed" in page for page in shown.values())


def test_papers_answers_and_lanes_are_made_and_saved(tmp_path):
    pages = clinic_pages(ORDER)
    assert list(pages) == ["first_left_5_to_6_papers", "first_left_5_to_6_answers", "lanes_left"]
    files = save_pages(pages, tmp_path / "clinic")
    assert [file.name for file in files] == [f"{name}.html" for name in pages]
    assert [file.read_text(encoding="utf-8") for file in files] == list(pages.values())
    assert pages["first_left_5_to_6_papers"].count('class="sheet"') == 4


def test_pdf_files_stand_beside_where_the_extra_is_installed(tmp_path):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    files = save_pages(clinic_pages(ORDER), tmp_path, "letter")
    assert sorted({file.suffix for file in files}) == [".html", ".pdf"]
    assert len(files) == 6


def test_without_the_extra_nothing_is_written(tmp_path, monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(cl.InputError, match="A PDF cannot be made here"):
        save_pages(clinic_pages(ORDER), tmp_path / "clinic", "A4")
    assert not (tmp_path / "clinic").exists()


def test_papers_never_go_into_the_librarys_source():
    inside = Path(cl.__file__).resolve().parents[1] / "papers"
    with pytest.raises(cl.DataFileError, match="source"):
        save_pages({"x": "x"}, inside)
    assert not inside.exists()


def test_an_empty_folder_is_the_one_beside_the_log(tmp_path, monkeypatch):
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path))
    assert folder_of(BLANK) == tmp_path / "clinic"
    assert folder_of({"folder": str(tmp_path / "own")}) == tmp_path / "own"
    monkeypatch.chdir(tmp_path)
    assert folder_of({"folder": "own"}) == tmp_path / "own"


@pytest.mark.parametrize("typed", ["../own", "own/../../other", "own<1>", "a|b", "what?"])
def test_a_folder_that_leads_elsewhere_or_that_other_systems_refuse_is_not_taken(
    typed, tmp_path, monkeypatch
):
    (tmp_path / "own").mkdir()
    monkeypatch.chdir(tmp_path / "own")
    with pytest.raises(cl.InputError, match=r"a folder that exists.*without \.\. and < > \| \? \*"):
        folder_of({"folder": typed})
