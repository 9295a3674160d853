"""The practice game in a browser, by keyboard alone, at three sizes.

Checks of our own promises; accessibility by axe-core against WCAG 2.
"""

import re

import pytest
from playwright.sync_api import expect

from tests.notebooks.conftest import OpenPanel

pytestmark = pytest.mark.browser
SIDEWAYS = """() => {
  const panel = document.querySelector('.coach').getBoundingClientRect();
  const inside = (box) => box.width === 0 || (box.left >= panel.left - 1 && box.right <= panel.right + 1);
  const names = 'button, input, select, p, td, li, span, strong, svg';
  const parts = [...document.querySelectorAll(`.coach :is(${names})`)];
  return parts.filter((part) => !part.closest('.coach-spoken') && !inside(part.getBoundingClientRect()))
    .map((part) => part.outerHTML.slice(0, 80));
}"""


@pytest.mark.parametrize("size", ["laptop", "phone"])
def test_a_game_is_played_by_keyboard_alone(open_panel: OpenPanel, size: str) -> None:
    panel = open_panel(size, notebook="41_practice_lane")
    page, root = panel.page, panel.root
    panel.expect_all_cells()
    root.scroll_into_view_if_needed()
    root.get_by_label("Balls that count, after 4 practice balls").select_option("12")
    panel.screenshot(f"practice_{size}_start")
    root.get_by_label("Lane number").press("Enter")
    feet, said = root.get_by_label("Feet on board"), root.locator(".coach-headline")
    expect(feet).to_be_focused()
    expect(said).to_have_text("Feet 27, target 13")
    expect(said).to_be_in_viewport()
    expect(feet).to_be_in_viewport()
    page.keyboard.press("ArrowUp")
    expect(root.locator(".coach-lane svg").first).to_have_attribute(
        "aria-label", re.compile("Line played: feet 28, target 13")
    )
    page.keyboard.press("Enter")
    expect(root.locator(".coach-throw .coach-legend")).to_have_text("Practice ball 2 of 4")
    many = root.get_by_role("button", name="Throw 3, the rest of practice")
    many.press("Enter")
    expect(root.locator(".coach-big")).to_contain_text("your biggest one")
    panel.screenshot(f"practice_{size}_after_practice")
    root.get_by_role("button", name="Undo").press("Enter")
    expect(root.locator(".coach-throw [role=alert]")).to_contain_text("Since ball 4 there was no change")
    root.get_by_role("button", name="Throw ten").press("Enter")
    expect(root.locator(".coach-thrown tbody tr")).to_have_count(14)
    panel.screenshot(f"practice_{size}_ten")
    root.get_by_role("button", name="Throw the last 2").press("Enter")
    expect(root.get_by_text("Balls played again")).to_be_visible()
    expect(said).to_contain_text("strikes in 12", timeout=30_000)
    expect(root.locator(".coach-ways li")).to_have_count(5)
    expect(root.locator(".coach-practice-seen")).to_be_focused()
    root.scroll_into_view_if_needed()
    panel.screenshot(f"practice_{size}_end")
    assert page.evaluate(SIDEWAYS) == []
    assert panel.cut_off() == []
    panel.expect_all_cells()
    if size == "laptop":
        assert panel.axe_violations() == []


def test_what_is_typed_is_never_written_over_and_is_what_is_thrown(open_panel: OpenPanel) -> None:
    panel = open_panel("laptop", notebook="41_practice_lane")
    page, root = panel.page, panel.root
    root.get_by_label("Lane number").press("Enter")
    feet, target = root.get_by_label("Feet on board"), root.get_by_label("Target board")
    lane = root.locator(".coach-lane svg").first
    expect(feet).to_be_focused()
    feet.fill("25")
    page.keyboard.press("Tab")
    expect(target).to_be_focused()
    page.keyboard.type("1")
    expect(lane).to_have_attribute("aria-label", re.compile("feet 25, target 13"))  # the answer to the feet
    page.wait_for_timeout(500)  # and whatever comes after it
    page.keyboard.type("8")
    expect(target).to_have_value("18")
    page.keyboard.press("Enter")
    expect(root.locator(".coach-thrown td[data-title=Line]")).to_have_text("25, 18")
    expect(target).to_have_value("18")
    page.keyboard.press("Tab")
    expect(root.locator(".coach-throw select[name=ball]")).to_be_focused()

    feet.fill("x")  # a wrong field does not take the focus from the one that is typed in
    page.keyboard.press("Tab")
    page.keyboard.type("1")
    expect(root.locator("[data-field=feet] .coach-error")).to_contain_text(
        "Feet: type a number such as 12 or 12½"
    )
    page.keyboard.type("7")
    expect(target).to_have_value("17")
    root.get_by_role("button", name="Undo").press("Enter")
    expect(feet).to_have_value("25")
    expect(target).to_have_value("18")
