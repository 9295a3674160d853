"""Templates: all text stays text, no fact is missing. Printed pages: both sheets, and PDF by the extra.

Sheet sizes: A4 is 210 × 297 mm (ISO 216), letter 8½ × 11 in (ANSI Y14.1), both from memory.
"""

import contextlib
import re
import sys
import zlib

import pytest
from jinja2 import UndefinedError

import coachlib as cl
from coachlib.errors import DataFileError
from coachlib.views.print.page import TEMPLATES, filled, own_markup, page_pdf
from tests.printed_pages import assert_black_on_white

A4_MM, LETTER_MM = (210.0, 297.0), (215.9, 279.4)
POINTS_A_MM = 72 / 25.4
SHEETS = [("A4", A4_MM), ("letter", LETTER_MM)]


def pdf_boxes(pdf):
    """Return width and height of each page of a PDF, its packed parts unpacked [mm]."""
    whole = pdf
    for packed in re.findall(rb"stream\r?\n(.*?)\r?\nendstream", pdf, re.DOTALL):
        with contextlib.suppress(zlib.error):
            whole += zlib.decompress(packed)
    boxes = re.findall(rb"/MediaBox\s*\[\s*0\s+0\s+([\d.]+)\s+([\d.]+)\s*\]", whole)
    return [(float(width) / POINTS_A_MM, float(height) / POINTS_A_MM) for width, height in boxes]


def page_with(*parts, style=""):
    """Return a page with some HTML as its body."""
    page = filled("printed.html", title="x")
    assert page.count("<body>") == page.count("</style>") == 1
    return page.replace("</style>", f"{style}</style>").replace("<body>", "\n".join(["<body>", *parts]))


def test_a_title_is_data_and_never_markup():
    page = filled("printed.html", title="Tuesday </title><script>")
    assert "<script>" not in page
    assert "<title>Tuesday &lt;/title&gt;&lt;script&gt;</title>" in page


def test_only_what_our_own_writers_drew_is_markup():
    facts = {"title": "x", "hand": "right", "n_pages": 1, "lanes_a_page": 1, "stretch": 5.0}
    drawn = "<svg><title>a lane</title></svg>"
    assert drawn in filled("lanes_to_draw_on.html", lane=own_markup(drawn), **facts)
    assert "<svg" not in filled("lanes_to_draw_on.html", lane=drawn, **facts)


def test_no_template_switches_the_escaping_off():
    templates = list(TEMPLATES.iterdir())
    assert {path.suffix for path in templates} == {".html"}
    assert len(templates) > 5
    for path in templates:
        assert not re.search(r"\|\s*safe\b|autoescape|Markup", path.read_text(encoding="utf-8")), path.name


def test_a_fact_that_is_missing_is_an_error_and_no_gap_on_the_page():
    with pytest.raises(UndefinedError, match="'title' is undefined"):
        filled("printed.html")


def test_a_template_that_is_not_there_says_what_to_do():
    with pytest.raises(DataFileError, match=r"nothing\.html could not be opened .*Install coachlib again"):
        filled("nothing.html")


def test_the_text_fits_the_narrower_sheet_and_is_black_on_white():
    page = page_with()
    style = page[page.index("@page") : page.index("</style>")]  # behind the font
    width_mm = float(re.search(r"max-width: (\d+)mm", style)[1])
    margin_mm = float(re.search(r"@page \{ margin: \d+mm (\d+)mm; \}", style)[1])
    assert width_mm + 2 * margin_mm <= min(A4_MM[0], LETTER_MM[0])
    assert_black_on_white(page)


def test_an_unknown_sheet_is_refused():
    with pytest.raises(cl.InputError, match="sheet is 'A5'; expected one of 'A4', 'letter'"):
        page_pdf(page_with(), "A5")


def test_without_the_extra_the_message_says_what_to_do(monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(
        cl.InputError, match=r"^Save the page, .* the extra pdf \(WeasyPrint\) is not installed\."
    ):
        page_pdf(page_with())


@pytest.mark.parametrize(("sheet", "size_mm"), SHEETS)
def test_each_sheet_is_a_page_of_that_size(sheet, size_mm):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    page = page_with('<div class="sheet">one</div>', '<div class="sheet">two</div>')
    boxes = pdf_boxes(page_pdf(page, sheet))
    assert len(boxes) == 2
    assert boxes[0] == pytest.approx(size_mm, abs=0.5)


def test_nothing_is_fetched(tmp_path):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    style = tmp_path / "long.css"
    style.write_text(".two { break-before: page; }", encoding="utf-8")
    asked = f'<link rel="stylesheet" href="{style.as_uri()}">'
    body = ['<p>one</p><p class="two">two</p>']
    assert len(pdf_boxes(page_pdf(page_with(asked, *body)))) == 1
    own = page_with(*body, style=style.read_text(encoding="utf-8"))
    assert len(pdf_boxes(page_pdf(own))) == 2
