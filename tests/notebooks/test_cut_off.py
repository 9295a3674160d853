"""What looks for words that cannot be read finds them and nothing else."""

import pytest
from playwright.sync_api import Browser

from tests.notebooks.layout import CUT_OFF, cut_off

pytestmark = pytest.mark.browser

BAD = {
    "beyond button": "<button style='width:40px;white-space:nowrap'>Start over</button>",
    "beyond div": "<div style='height:10px;overflow:hidden;font-size:30px'>Start</div>",
    "list too narrow": "<select style='width:60px'><option>a long choice</option></select>",
    "field too narrow": "<input type='text' style='width:40px' placeholder='a long hint'>",
    "beyond the picture": "<svg width='90' height='40'><text x='60' y='20'>breakpoint</text></svg>",
    "/ over /": "<p style='position:relative'>first words<b style='position:absolute;left:0'>other</b></p>",
}
GOOD = """<p>words</p><button>Start</button><select><option>a choice</option></select>
<input type='text' value='12'>
<svg width='200' height='40'><text x='60' y='20'>breakpoint</text></svg>
<div style='overflow-x:auto;width:80px'><p style='width:300px'>a wide table may be scrolled</p></div>
<div style='overflow-y:auto;height:20px'><p style='margin:0;height:26px'>first</p>below</div>
<p style='margin:0'>after</p>
<details><summary>More</summary><p style='width:5px'>not shown</p></details>"""


@pytest.mark.parametrize("what", BAD)
def test_words_that_cannot_be_read_are_found(browser: Browser, what: str) -> None:
    page = browser.new_page()
    page.set_content(f"<main style='width:500px;font:16px sans-serif'>{BAD[what]}</main>")
    assert any(what in line for line in cut_off(page, "main"))
    page.close()


def test_what_can_be_read_is_not_found_and_larger_text_is_larger(browser: Browser) -> None:
    page = browser.new_page()
    page.set_content(f"<main style='width:500px;font:16px sans-serif'>{GOOD}</main>")
    assert cut_off(page, "main") == []
    page.set_content(
        "<main style='width:500px'><p style='width:90px;font:16px sans-serif'>measured</p></main>"
    )
    assert cut_off(page, "main") == []
    assert cut_off(page, "main", 1.3) != []
    assert cut_off(page, "main") == [], "the text is as large as before"
    page.close()


def test_what_the_page_scrolls_under_is_not_covered_and_a_box_over_words_is(browser: Browser) -> None:
    page = browser.new_page(viewport={"width": 400, "height": 300})
    docked = (
        "<body style='margin:0'><main style='font:16px/20px sans-serif'>"
        "<p style='margin:0;padding-top:280px'>under it</p>"
        "<p style='height:400px'>more</p><div id='dock' style='position:{};bottom:0'>the dock</div></main>"
    )
    page.set_content(docked.format("sticky"))
    assert cut_off(page, "main") == []
    assert page.evaluate("() => getComputedStyle(document.querySelector('#dock')).position") == "sticky"
    page.set_content(docked.format("fixed"))
    assert any("/ over /" in line for line in cut_off(page, "main"))
    page.close()


def test_nothing_to_look_at_is_no_pass(browser: Browser) -> None:
    page = browser.new_page()
    page.set_content("<p>words</p>")
    assert page.evaluate(CUT_OFF, ".coach") == ["nothing of .coach is on the page"]
    page.close()
