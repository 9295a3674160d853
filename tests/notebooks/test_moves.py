"""A move tried with sliders, in a browser: the live picture of the two lines.

Checks of our own promises; accessibility by axe-core against WCAG 2.
"""

import re
from collections.abc import Callable

import pytest
from playwright.sync_api import expect

from tests.notebooks.conftest import OpenedPanel, OpenPanel, ScratchNotebook

pytestmark = pytest.mark.browser
LANE = ".coach-lane svg"
SLIDERS = """import coachlib as cl
from coachlib.views import TryMove
TryMove(cl.Bowler(name="Oskar", hand="right", walk="slide"), cl.Line(22, 12))
"""
# A slider's change and the new words in the picture, seen by the page itself; bench_lane times it.
CHANGE_ONCE = """async ([value]) => {
  const slider = document.querySelector('.coach-try input[type=range]');
  const picture = document.querySelector('.coach-lane svg');
  const drawn = new Promise((done) => new MutationObserver((_, watch) => { watch.disconnect(); done(); })
    .observe(picture, {attributes: true, attributeFilter: ['aria-label']}));
  slider.value = value;
  slider.dispatchEvent(new Event('input', {bubbles: true}));
  await drawn;
}"""
IS_UPRIGHT = """(wanted) => {
  const {width, height} = document.querySelector('.coach-lane svg').getBoundingClientRect();
  return height > width === wanted;
}"""
WORDS_CUT_OFF = """() => {
  const frame = document.querySelector('.coach-lane svg').getBoundingClientRect();
  const words = [...document.querySelectorAll('.coach-lane svg text')].filter((text) => text.textContent);
  const is_cut = ({width, left, right}) => width > 0 && (left < frame.left - 1 || right > frame.right + 1);
  return words.filter((text) => is_cut(text.getBoundingClientRect())).map((text) => text.textContent);
}"""


@pytest.fixture
def open_moves(open_panel: OpenPanel, scratch_notebook: ScratchNotebook) -> Callable[..., OpenedPanel]:
    """Return a function that opens a notebook with the sliders."""

    def open_one(size: str = "laptop", **options: bool) -> OpenedPanel:
        panel = open_panel(size, notebook=scratch_notebook("moves", [SLIDERS]), wait=LANE, **options)
        panel.page.locator(LANE).scroll_into_view_if_needed()
        expect(panel.page.locator(".coach-lane p")).to_contain_text("too wide")  # drawn: the width is known
        return panel

    return open_one


def test_keys_on_a_slider_draw_the_move_and_leave_the_notebook_alone(
    open_moves: Callable[..., OpenedPanel],
) -> None:
    panel = open_moves()
    page, picture = panel.page, panel.page.locator(LANE)
    expect(picture).to_have_attribute("aria-label", re.compile("2 right at 60 ft"))
    expect(page.locator(".jp-Cell")).to_have_count(1)
    feet = page.get_by_role("slider", name="Feet")
    feet.focus()
    page.keyboard.press("ArrowLeft")  # a right-hander's left is inside: 2 becomes 2½
    expect(page.locator(".try-answer")).to_contain_text("3½ right at 60 ft")
    expect(feet).to_have_attribute("aria-valuetext", "2½ left")
    for key in ("b", "d", "d", "a"):
        page.keyboard.press(key)
    expect(page.locator(".jp-Cell")).to_have_count(1)
    page.get_by_role("radio", name="toward the target").check()
    expect(page.locator(".try-answer")).to_contain_text("1¼ right at 60 ft")
    panel.screenshot("moves_laptop")


def test_the_picture_follows_a_slider_and_never_grows_and_nothing_is_cut(
    open_moves: Callable[..., OpenedPanel],
) -> None:
    panel = open_moves()
    page = panel.page
    nodes = "() => document.querySelectorAll('.coach-lane *').length"
    before = page.evaluate(nodes)
    for value in (-1, 1, -3, 2, 5) * 10:
        page.evaluate(CHANGE_ONCE, [value])
    assert page.evaluate(nodes) == before
    look_at_the_lane(panel, "laptop", is_upright=False)
    assert panel.axe_violations(".coach-try") == []
    assert panel.axe_violations(".coach-lane") == []


def test_it_is_upright_on_a_phone_and_nothing_is_cut(open_moves: Callable[..., OpenedPanel]) -> None:
    look_at_the_lane(open_moves("phone", touch=True), "phone", is_upright=True)


def look_at_the_lane(panel: OpenedPanel, size: str, is_upright: bool) -> None:
    """Expect the lane across or upright, and all its words on it, also with 24½, which is wider than 24."""
    panel.page.wait_for_function(IS_UPRIGHT, arg=is_upright)
    panel.page.get_by_role("slider", name="Feet").fill("-2.5")
    expect(panel.page.locator(LANE)).to_have_attribute("aria-label", re.compile("feet 24½"))
    assert panel.page.evaluate(WORDS_CUT_OFF) == []
    assert panel.cut_off(".coach-try, .coach-lane") == []
    panel.screenshot(f"moves_{size}_lane")
