"""The packed font in a browser: shown in panels, figures of one width; stored pictures readable in any font.

Checks of our own promises.
"""

import json
from pathlib import Path

import pytest
from playwright.sync_api import Browser

from coachlib.opener.server import Server
from coachlib.records import Students
from coachlib.review.demo_log import write_demo_log
from coachlib.review.take_home import take_home
from coachlib.views.font import font_face
from coachlib.views.print.handout import handout
from coachlib.views.print.plan_card import plan_card
from coachlib.views.print.worksheet_page import answer_pages, lane_pages, worksheet_pages
from tests.clinic_papers import NAMES, papers
from tests.notebooks.conftest import OpenPanel
from tests.notebooks.layout import PACKED, cut_off
from tests.planned import CASES, plan_of

pytestmark = pytest.mark.browser

# Widths of three rows of figures, and the signs that look the same, dot by dot, in the font behind ours.
FIGURES = """(root) => {
  const box = document.querySelector(root), style = getComputedStyle(box);
  const span = document.createElement('span');
  box.append(span);
  span.style.cssText = 'position:absolute;white-space:pre';
  const width = (text, family) => {
    span.style.fontFamily = family;
    span.textContent = text;
    return span.getBoundingClientRect().width;
  };
  const rows = ['1111111111', '0000000000', '4747474747'].map((row) => width(row, style.fontFamily));
  const canvas = document.createElement('canvas'), ink = canvas.getContext('2d', {willReadFrequently: true});
  canvas.width = canvas.height = 300;
  const dots = (sign, family) => {
    ink.clearRect(0, 0, 300, 300);
    ink.font = `200px ${family}`;
    ink.fillText(sign, 20, 220);
    return ink.getImageData(0, 0, 300, 300).data.join();
  };
  const signs = [...'½¼¾−°·×“”’…–→'].filter((sign) => dots(sign, style.fontFamily) ===
    dots(sign, style.fontFamily.replace(/[^,]+,/, '')));
  span.remove();
  return {rows, signs};
}"""
LOADED = """async () => {
  await document.fonts.ready;
  return [...document.fonts].filter((font) => font.status === 'loaded')
    .map((font) => font.family.replaceAll('"', ''));
}"""


def test_the_packed_font_is_shown_with_figures_of_one_width(
    open_panel: OpenPanel, bare_browser: Browser, lab_server: Server
) -> None:
    opened = open_panel("laptop", notebook="10_lane_side")
    assert PACKED in opened.page.evaluate(LOADED)
    seen = opened.page.evaluate(FIGURES, ".coach")
    assert seen["rows"][0] == seen["rows"][1] == seen["rows"][2] > 0
    assert seen["signs"] == [], "these come from another font"
    bare = bare_browser.new_page()
    bare.goto(lab_server.url(f"doc/tree/{opened.name}"))
    bare.locator(".coach").first.wait_for(state="visible")
    assert PACKED not in bare.evaluate(LOADED)
    bare.close()


def stored_pictures(notebook: Path) -> list[str]:
    """Return the drawings stored in a notebook."""
    cells = json.loads(notebook.read_text(encoding="utf-8"))["cells"]
    bundles = [out.get("data", {}) for cell in cells for out in cell.get("outputs", ())]
    return ["".join(bundle["image/svg+xml"]) for bundle in bundles if "image/svg+xml" in bundle]


@pytest.mark.parametrize("font", ["packed", "bare"])
def test_stored_pictures_lose_no_word(
    browser: Browser, bare_browser: Browser, repository: Path, font: str
) -> None:
    """Outside a panel a notebook shows them as images: in the machine's font, whichever that is."""
    page = (bare_browser if font == "bare" else browser).new_page()
    rules = font_face() if font == "packed" else ""
    wide = "width:max-content;min-width:700px"
    found, n_pictures = {}, 0
    for path in sorted((repository / "notebooks").glob("*.ipynb")):
        stored = stored_pictures(path)
        n_pictures += len(stored)
        for n, svg in enumerate(stored):
            page.set_content(f"<style>{rules}</style><main style='{wide}'>{svg}</main>")
            if here := cut_off(page, "main"):
                found[f"{path.stem}, picture {n}"] = here
    page.close()
    assert n_pictures > 20
    assert found == {}


def printed_pages(folder: Path) -> dict[str, str]:
    """Return one printed page of each kind."""
    log = write_demo_log(folder)
    key = next(one.key for one in Students(log).listed() if one.shown_name == "Oskar")
    listed = log.sessions(key)[0]
    some = papers(NAMES[-1], "left", 2)
    return {
        "handout": handout(take_home(listed, log.story(listed.key)), coach="R. Aalto", place="Harbour Lanes"),
        "plan": plan_card(plan_of(*CASES[0])),
        "papers": worksheet_pages(some),
        "answers": answer_pages(some),
        "lanes": lane_pages("left"),
    }


def test_printed_pages_lose_no_word_in_either_font(
    browser: Browser, bare_browser: Browser, tmp_path: Path
) -> None:
    pages, found = printed_pages(tmp_path), {}
    for font, chromium in (("packed", browser), ("bare", bare_browser)):
        page = chromium.new_page(viewport={"width": 794, "height": 1123})  # A4 at 96 px an inch
        page.emulate_media(media="print")
        for kind, text in pages.items():
            page.set_content(text)
            assert (PACKED in page.evaluate(LOADED)) is (font == "packed")
            if here := cut_off(page, "body"):
                found[f"{kind}, {font}"] = here
        page.close()
    assert found == {}
