"""Students at the lane side in a browser: two added, turns by one tap, balls under the right one."""

import pytest
from playwright.sync_api import expect

from coachlib.records import Logbook, Students


def _start(root, name):
    root.get_by_role("radio", name="left", exact=True).check()
    root.get_by_label("Feet on board").fill("22")
    root.get_by_label("Target board").fill("12")
    root.get_by_label("Name or alias").fill(name)
    root.get_by_label("Kept under student").select_option("new")
    root.get_by_role("button", name="Start", exact=True).click()


@pytest.mark.browser
@pytest.mark.parametrize("size", ["laptop", "phone"])
def test_two_students_throw_in_turn(open_panel, size):
    panel = open_panel(size)
    root = panel.root
    _start(root, "Ada")
    expect(root.locator(".coach-who")).to_contain_text("Ada")
    root.get_by_role("button", name="Change who, line and lane").click()
    root.get_by_role("button", name="Another bowler takes turns").click()
    expect(root.get_by_label("Name or alias")).to_have_value("")
    _start(root, "Ben")
    expect(root.locator(".coach-who")).to_contain_text("Ben")
    turns = root.locator(".coach-turns")
    expect(turns.get_by_role("button")).to_have_count(2)
    turns.get_by_role("button", name="Ada").focus()
    panel.page.keyboard.press("Enter")
    expect(root.locator(".coach-who")).to_contain_text("Ada")
    expect(turns.get_by_role("button", name="Ada")).to_have_attribute("aria-pressed", "true")
    tab = root.locator(".coach-tabs [data-tab=leave]")  # on a phone the parts of the form stand behind tabs
    if tab.is_visible():
        tab.click()
    root.get_by_role("button", name="all down").click()
    root.get_by_role("button", name="Read this shot").click()
    expect(root.locator(".coach-status").first).to_contain_text("ball 1 logged")
    panel.screenshot(f"turns_{size}")
    listed = Students(Logbook(panel.home / "logbook.sqlite")).listed()
    assert [(one.shown_name, one.n_shots) for one in listed] == [("Ada", 1), ("Ben", 0)]
    assert panel.axe_violations() == []
