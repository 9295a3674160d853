"""The score sheet in a browser: by keyboard and tap, in the log at once, nothing too wide for a phone."""

import pytest
from playwright.sync_api import expect

from coachlib.records import Logbook

CELLS = [
    "import coachlib as cl\nfrom coachlib.records import Logbook",
    "from coachlib.views.panels import ScoreSheet",
    "key = Logbook().start(cl.Session(cl.Bowler(name='Ada', hand='left'), cl.Line(22, 12)))\nScoreSheet()",
]


@pytest.mark.browser
@pytest.mark.parametrize("size", ["laptop", "phone"])
def test_a_sheet_is_filled_by_taps_and_keys(open_panel, scratch_notebook, size):
    panel = open_panel(size, notebook=scratch_notebook("score", CELLS), wait=".coach-score")
    page, root = panel.page, panel.page.locator(".coach-score")
    root.get_by_role("button", name="Strike").focus()
    page.keyboard.press("Enter")
    expect(root.get_by_role("cell", name="X", exact=True)).to_be_visible()
    root.get_by_role("button", name="pin 7", exact=True).focus()
    page.keyboard.press("7")
    expect(root.get_by_role("button", name="pin 7", exact=True)).to_have_attribute("aria-pressed", "true")
    root.get_by_role("button", name="Enter these pins").focus()
    page.keyboard.press("Enter")
    expect(root.locator(".coach-ball-title")).to_contain_text("Frame 2, ball 2")
    root.get_by_role("button", name="Spare").click()
    expect(root.get_by_role("cell", name="9/", exact=True)).to_be_visible()
    panel.screenshot(f"scoresheet_{size}")
    logbook = Logbook(panel.home / "logbook.sqlite")
    shots = logbook.replay(logbook.latest_open()).shots
    assert [(seen.shot.leave, seen.shot.is_spare) for seen in shots] == [
        ((), False),
        ((10,), False),
        ((), True),
    ]
    assert not root.evaluate("node => node.scrollWidth > node.clientWidth + 1")
    assert panel.axe_violations(".coach-score") == []
