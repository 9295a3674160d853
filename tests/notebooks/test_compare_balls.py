"""The panel of two balls in a browser: keys, what is read out, and a picture that fits a phone.

Checks of our own promises; accessibility by axe-core against WCAG 2.
"""

import pytest
from playwright.sync_api import expect

from tests.notebooks.conftest import SIZES, OpenedPanel, OpenPanel, ScratchNotebook

pytestmark = pytest.mark.browser
PANEL = ".coach-balls"
CELLS = [
    "import coachlib as cl\nfrom coachlib.views.panels.compare_balls.compare_balls import CompareBalls",
    "bowler, ball = cl.load_bowler('club_left'), cl.load_ball('hybrid_2000')\n"
    "line, pattern = cl.Line(29, 16), cl.load_pattern('house_41')\n"
    "CompareBalls(cl.Session(bowler=bowler, line=line, ball=ball, pattern=pattern))",
]
IS_FITTED = """() => {
  const [panel, picture] = ['', ' figure svg'].map((part) => document.querySelector(`.coach-balls${part}`));
  return picture && Number(picture.getAttribute('width')) <= panel.clientWidth + 1;
}"""


def open_balls(open_panel: OpenPanel, scratch: ScratchNotebook) -> OpenedPanel:
    panel = open_panel("laptop", notebook=scratch("balls", CELLS), wait=f"{PANEL} figure svg")
    panel.page.locator(PANEL).scroll_into_view_if_needed()
    return panel


def test_keys_choose_a_ball_and_leave_the_notebook_alone(
    open_panel: OpenPanel, scratch_notebook: ScratchNotebook
) -> None:
    panel = open_balls(open_panel, scratch_notebook)
    page, words = panel.page, panel.page.locator(f"{PANEL} [aria-live=polite]")
    n_cells = page.locator(".jp-Cell").count()
    second = page.get_by_label("Second ball")
    second.focus()
    for key in ("b", "d", "d", "a"):
        page.keyboard.press(key)
    second.select_option(label="solid, 1000 grit")
    expect(words).to_contain_text("solid 1000 against hybrid 2000: earlier")
    expect(words).to_contain_text("2 and 1 right")  # a left-hander's inside
    page.keyboard.press("ArrowDown")
    expect(words).to_contain_text("pearl polished against hybrid 2000: longer")
    expect(words).to_contain_text("2 and 1 left")
    grit = page.get_by_label("Or a grit number")
    grit.fill("730")
    grit.press("Enter")
    expect(words).to_contain_text("Second ball: coarse, 730 grit.")
    expect(page.get_by_label("Surface of the second")).to_have_value("coarse")
    grit.fill("50")
    grit.press("Enter")
    expect(page.locator(f"{PANEL} [role=alert]")).to_contain_text("Grit: type 180 to 6000 grit, not 50.")
    grit.fill("")
    grit.press("Enter")
    expect(page.locator(f"{PANEL} [role=alert]")).to_have_count(0)
    assert page.locator(".jp-Cell").count() == n_cells
    assert panel.axe_violations(PANEL) == []
    panel.screenshot("balls_laptop")
    width, height = SIZES["phone"]
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_function(IS_FITTED)  # that nothing is cut off is looked at in test_text_fits
    panel.screenshot("balls_phone")
