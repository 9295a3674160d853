"""The students' panel in a browser: replay by keyboard, own numbers, the page to take home, on two sizes."""

import pytest
from playwright.sync_api import expect


@pytest.fixture(autouse=True)
def patient():
    """Wait longer for an answer while other programs run beside the tests."""
    expect.set_options(timeout=30_000)
    yield
    expect.set_options(timeout=5_000)


@pytest.mark.browser
@pytest.mark.parametrize("size", ["laptop", "phone"])
def test_students_are_read_back_by_keyboard(open_panel, size):
    panel = open_panel(size, notebook="20_students", wait=".coach-replay")
    page, root = panel.page, panel.root
    expect(root.locator(".coach-note")).to_contain_text("These students are invented")
    title = root.locator(".coach-ball-title")
    expect(title).to_contain_text("Ball 1 of")

    root.get_by_role("button", name="Next", exact=True).focus()
    page.keyboard.press("Enter")
    expect(title).to_contain_text("Ball 2 of")
    slider = root.get_by_role("slider", name="Ball of the session")
    slider.focus()
    page.keyboard.press("ArrowRight")
    expect(title).to_contain_text("Ball 3 of")
    expect(root.locator("svg").first).to_be_visible()
    panel.screenshot(f"students_{size}_replay")

    root.get_by_label("Student", exact=True).select_option(label="Oskar, 3 sessions")
    expect(root.locator(".coach-work")).to_contain_text("Hitting the target")
    root.locator(".coach-work").scroll_into_view_if_needed()
    panel.screenshot(f"students_{size}_report")
    chart = root.locator("img.coach-chart:visible")
    expect(chart).to_have_count(1)
    assert chart.evaluate("node => node.parentElement.scrollWidth <= node.parentElement.clientWidth + 1")
    cut = "nodes => nodes.filter((n) => n.scrollWidth > n.clientWidth + 1).map((n) => n.value)"
    assert root.locator(".coach-desk select").evaluate_all(cut) == []
    ask = root.get_by_role("button", name="Work out the numbers")
    ask.focus()
    page.keyboard.press("Enter")
    drift = root.get_by_label("Drift", exact=False)
    drift.focus()
    page.keyboard.press("Space")
    use = root.get_by_role("button", name="Use these")
    use.focus()
    page.keyboard.press("Enter")
    expect(root.locator(".coach-report")).to_contain_text("1 number saved")
    panel.screenshot(f"students_{size}_numbers")

    root.get_by_role("button", name="Show the page").focus()
    page.keyboard.press("Enter")
    frame = page.frame_locator(".coach-page")
    expect(frame.locator("h1").first).to_contain_text("Lane notes, Oskar")
    root.locator(".coach-page").scroll_into_view_if_needed()
    panel.screenshot(f"students_{size}_page")

    root.get_by_role("radio", name="the parents: a letter").check(force=True)
    expect(root.get_by_label("Place", exact=False)).to_be_hidden()
    root.get_by_label("What the child said").fill("I did it!")
    root.get_by_role("button", name="Show the page").click()
    expect(frame.locator("h1").first).to_contain_text("Oskar’s Tuesday", timeout=30_000)
    expect(frame.locator("main")).to_contain_text("“I did it!”")
    root.locator(".coach-page").scroll_into_view_if_needed()
    panel.screenshot(f"students_{size}_letter")
    root.get_by_role("radio", name="the student: lane notes").check(force=True)
    expect(root.get_by_label("What the child said")).to_be_hidden()
    with page.expect_download() as saved:
        root.get_by_role("button", name="Save as page").focus()
        page.keyboard.press("Enter")
    assert saved.value.suggested_filename == "lane notes Oskar 2026-09-15.html"
    expect(root.get_by_role("status").filter(has_text="saved in your browser’s downloads")).to_contain_text(
        "“lane notes Oskar 2026-09-15.html”"
    )

    root.get_by_text("Alias, consent, everything kept").click()
    root.get_by_label("To erase everything kept").fill("Oskar")
    root.get_by_role("button", name="Erase everything").focus()
    page.keyboard.press("Enter")
    expect(root.locator(".coach-erased")).to_contain_text("3 sessions with")
    root.locator(".coach-erased").scroll_into_view_if_needed()
    panel.screenshot(f"students_{size}_erased")

    is_too_wide = root.evaluate("node => node.scrollWidth > node.clientWidth + 1")
    assert not is_too_wide
    assert panel.axe_violations() == []
