"""Pain, a gutter ball and a ball past the head pin at the lane side, by tap, on laptop and phone.

44 px for a finger: WCAG 2.2, success criterion 2.5.5 "Target size (enhanced)". The rest is the panel's own
contract. The bowlers are invented.
"""

import pytest
from playwright.sync_api import Browser, expect

from tests.notebooks.conftest import OpenPanel
from tests.notebooks.test_lane_side import FINGER_PX, Coach

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(("size", "hand"), [("laptop", "left"), ("phone", "right")])
def test_pain_stops_and_one_button_goes_on(
    browser: Browser, open_panel: OpenPanel, size: str, hand: str
) -> None:
    panel = open_panel(size)
    coach = Coach(panel, hand)
    coach.root.get_by_text("Health and who we speak to").click()
    coach.root.get_by_label("Pain or numbness").fill("thumb")
    coach.start()
    headline = coach.root.locator(".coach-headline")
    expect(headline).to_have_text("Stop: rest, and have it looked at")
    expect(coach.root.locator(".coach-chances")).to_be_hidden()
    assert panel.axe_violations() == []
    panel.screenshot(f"care-{size}-{hand}-stopped")
    coach.button("Go on").click()
    expect(headline).to_have_text("Feet 22, target 12")
    coach.button("Undo").click()
    expect(headline).to_have_text("Stop: rest, and have it looked at")


@pytest.mark.parametrize(("size", "hand"), [("laptop", "left"), ("phone", "right")])
def test_a_full_rack_asks_gutter_or_missed(
    browser: Browser, open_panel: OpenPanel, size: str, hand: str
) -> None:
    panel = open_panel(size)
    coach = Coach(panel, hand)
    coach.start()
    coach.tab("arrival")
    tiles = coach.root.locator(".coach-arrivals label")
    expect(tiles).to_have_count(9)
    for number in range(9):
        box = tiles.nth(number).bounding_box()
        assert box is not None
        assert min(box["width"], box["height"]) >= FINGER_PX
    coach.tab("leave")
    coach.root.get_by_label("Pins left, typed").fill("1 2 3 4 5 6 7 8 9 10")
    coach.button("Read this shot").click()
    expect(coach.root.get_by_text("all ten pins stand, and how it missed them is empty")).to_be_visible()
    panel.screenshot(f"care-{size}-{hand}-asked")
    coach.arrive("gutter ball, all ten stand")
    coach.read(1)
    expect(coach.row(0)).to_contain_text("gutter · all ten stand")
    coach.next_ball()
    coach.cross(12)
    coach.arrive("past the head pin")
    coach.read(2)
    expect(coach.row(0)).to_contain_text("past")
