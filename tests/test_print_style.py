"""What printed pages share: inert text, both sheets, and PDF by the extra.

Sheet sizes: A4 is 210 × 297 mm (ISO 216), letter 8½ × 11 in (ANSI Y14.1), both from memory.
"""

import contextlib
import re
import sys
import zlib

import pytest

import coachlib as cl
from coachlib.views.print_style import PRINT_STYLE, joined, page_pdf, printed_page, safe

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


def test_a_title_is_data_and_never_markup():
    page = printed_page("Tuesday </title><script>", [f"<p>{safe('<b>5 > 4</b>')}</p>", ""])
    assert "<script>" not in page
    assert "<title>Tuesday &lt;/title&gt;&lt;script&gt;</title>" in page
    assert "<p>&lt;b&gt;5 &gt; 4&lt;/b&gt;</p>\n</body>" in page


def test_empty_parts_leave_no_line():
    assert joined(["a", "", "b"]) == "a\nb"


def test_the_text_fits_the_narrower_sheet_and_is_black_on_white():
    width_mm = float(re.search(r"max-width: (\d+)mm", PRINT_STYLE)[1])
    margin_mm = float(re.search(r"@page \{ margin: \d+mm (\d+)mm; \}", PRINT_STYLE)[1])
    assert width_mm + 2 * margin_mm <= min(A4_MM[0], LETTER_MM[0])
    assert set(re.findall(r"#[0-9a-fA-F]{3,6}", PRINT_STYLE)) <= {"#000", "#fff", "#999"}


def test_an_unknown_sheet_is_refused():
    with pytest.raises(cl.InputError, match="sheet is 'A5'; expected one of 'A4', 'letter'"):
        page_pdf(printed_page("x", []), "A5")


def test_without_the_extra_the_message_says_what_to_do(monkeypatch):
    monkeypatch.setitem(sys.modules, "weasyprint", None)
    with pytest.raises(
        cl.InputError, match=r"the extra pdf \(WeasyPrint\) is not installed\. Save the page instead"
    ):
        page_pdf(printed_page("x", []))


@pytest.mark.parametrize(("sheet", "size_mm"), SHEETS)
def test_each_sheet_is_a_page_of_that_size(sheet, size_mm):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    page = printed_page("x", ['<div class="sheet">one</div>', '<div class="sheet">two</div>'])
    boxes = pdf_boxes(page_pdf(page, sheet))
    assert len(boxes) == 2
    assert boxes[0] == pytest.approx(size_mm, abs=0.5)


def test_nothing_is_fetched(tmp_path):
    pytest.importorskip("weasyprint", reason="the extra pdf is not installed")
    style = tmp_path / "long.css"
    style.write_text(".two { break-before: page; }", encoding="utf-8")
    asked = f'<link rel="stylesheet" href="{style.as_uri()}">'
    body = ['<p>one</p><p class="two">two</p>']
    assert len(pdf_boxes(page_pdf(printed_page("x", [asked, *body])))) == 1
    own = printed_page("x", body, style.read_text(encoding="utf-8"))
    assert len(pdf_boxes(page_pdf(own))) == 2
