"""The teacher's panel in a browser: by keyboard alone, on three sizes, with clear messages.

Checks of our own promises; accessibility by axe-core against WCAG 2.
"""

import re

import pytest
from playwright.sync_api import expect

from tests.notebooks.conftest import SIZES, OpenedPanel, OpenPanel

pytestmark = pytest.mark.browser
FORM = ".clinic-form"
WIDER_THAN_THE_FRAME = (
    "(nodes) => nodes.filter((node) => node.getBoundingClientRect().right > innerWidth).length"
)


def open_clinic(open_panel: OpenPanel, size: str = "laptop", **options: bool) -> OpenedPanel:
    panel = open_panel(size, notebook="50_clinic", wait=FORM, **options)
    panel.page.locator(FORM).scroll_into_view_if_needed()
    expect(panel.page.frame_locator(".clinic-page").locator("h1").first).to_have_text("Clinic, paper 1")
    return panel


def test_papers_are_made_by_keyboard_alone(open_panel: OpenPanel) -> None:
    panel = open_clinic(open_panel)
    page = panel.page
    panel.expect_all_cells()
    page.get_by_role("combobox", name="Level").focus()
    page.keyboard.press("ArrowDown")
    shown = page.frame_locator(".clinic-page").locator(".who").first
    expect(shown).to_contain_text("Two things at once")
    names = []
    for _ in range(5):
        page.keyboard.press("Tab")
        names.append(page.evaluate("document.activeElement.name"))
    assert names == ["hand", "title", "n_papers", "seed", "form"]
    for name, typed in (("Number of papers", "500"), ("Number of the first paper", "Saturday")):
        page.get_by_role("textbox", name=name).focus()
        page.keyboard.press("Control+a")
        page.keyboard.type(typed)
    page.keyboard.press("Enter")
    wrong = page.locator(".coach-error:not(:empty)")
    expect(wrong).to_have_count(2)
    expect(wrong.first).to_contain_text("type a whole number, 1 to 60, not “500”.")
    expect(wrong.last).to_contain_text("not “Saturday”")
    panel.screenshot("clinic_errors")
    for name, typed in (("Number of papers", "2"), ("Number of the first paper", "4")):
        page.get_by_role("textbox", name=name).fill(typed)
    page.keyboard.press("Enter")
    expect(page.locator(".clinic-status")).to_contain_text(
        "Saved 2 papers, the answers and lane paper: 3 files"
    )
    saved = sorted(path.name for path in (panel.home / "clinic").iterdir())
    assert saved == [
        "lanes_right.html",
        "second_right_4_to_5_answers.html",
        "second_right_4_to_5_papers.html",
    ]
    expect(page.locator(".clinic-links a")).to_have_count(3)
    expect(wrong).to_have_count(0)
    with page.context.expect_page() as opened:
        page.get_by_role("link", name="Open to print: Papers 4 to 5, for the students").press("Enter")
    expect(opened.value.locator("article.sheet")).to_have_count(4)
    panel.expect_all_cells()
    panel.screenshot("clinic_saved")


def test_nothing_is_cut_and_axe_finds_nothing(open_panel: OpenPanel) -> None:
    panel = open_clinic(open_panel, "phone", touch=True)
    for size, (width, height) in SIZES.items():
        panel.page.set_viewport_size({"width": width, "height": height})
        panel.page.locator(FORM).scroll_into_view_if_needed()
        panel.screenshot(f"clinic_{size}")
        panel.page.locator(".clinic-page").scroll_into_view_if_needed()
        panel.screenshot(f"clinic_{size}_page")
        assert panel.cut_off() == [], size
        inside = panel.page.frame_locator(".clinic-page").locator("table, p, svg")
        assert inside.count() > 20
        assert inside.evaluate_all(WIDER_THAN_THE_FRAME) == 0, size
        assert panel.axe_violations(".clinic-grid") == [], size


def test_answers_and_lanes_can_be_looked_at(open_panel: OpenPanel) -> None:
    panel = open_clinic(open_panel)
    part, shown = panel.page.get_by_role("combobox", name="Look at"), panel.page.frame_locator(".clinic-page")
    part.select_option("answers")
    expect(shown.locator("h1").first).to_have_text("Clinic, answers to paper 1")
    part.select_option("lanes")
    expect(shown.locator("h1").first).to_have_text(re.compile("lane paper"))
