"""The lane side on one screen: what is seen together at two sizes, and a form that never moves on a phone.

The sizes are usual ones of a laptop, a tablet and a phone, held as their makers hold them (our choice). The
page for a tablet is measured, since it has no menus around it; the bowlers are invented.
"""

from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import Browser, Locator, Page, expect

from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from tests.notebooks.conftest import SIZES, Guards, OpenedPanel
from tests.notebooks.test_lane_side import Coach

pytestmark = pytest.mark.browser
OpenPage = Callable[..., tuple[Page, Guards]]
OpenApp = Callable[..., OpenedPanel]


@pytest.fixture
def open_app(browser: Browser, tmp_path: Path, open_page: OpenPage, monkeypatch: Any) -> Iterator[OpenApp]:
    """Return a function that opens the page for a tablet: ``open_app("phone", touch=True)``."""
    folder, home = tmp_path / "app", tmp_path / "home"
    folders.copy_notebooks(folders.shipped_notebooks(), folder)
    monkeypatch.setenv("COACHLIB_DATA", str(home))
    port = servers.any_port("127.0.0.1")
    server = servers.start_app(folder, "127.0.0.1", port, "a-token-for-tests")

    def open_one(size: str, touch: bool = False) -> OpenedPanel:
        page, guards = open_page(size, touch)
        page.set_default_timeout(90_000)
        page.goto(server.url("voila/render/10_lane_side.ipynb"))
        page.locator(".coach").first.wait_for(state="visible")
        return OpenedPanel(page, guards, "10_lane_side", home)

    try:
        servers.wait_for_server(server)
        yield open_one
    finally:
        for context in browser.contexts:  # a page left open would tell of the refused connection
            context.close()
        servers.stop(server)


def _box(node: Locator) -> dict[str, float]:
    box = node.bounding_box()
    assert box is not None, "it is not drawn"
    return {name: float(value) for name, value in box.items()}


def _lies_within(node: Locator, size: str) -> bool:
    box, (width, height) = _box(node), SIZES[size]
    return (
        box["x"] >= 0
        and box["y"] >= 0
        and box["x"] + box["width"] <= width
        and box["y"] + box["height"] <= height
    )


@pytest.mark.parametrize(("size", "hand"), [("laptop", "right"), ("tablet", "left")])
def test_headline_lane_form_and_buttons_are_seen_together(open_app: OpenApp, size: str, hand: str) -> None:
    coach = Coach(open_app(size), hand)
    coach.start()
    coach.both_voices()
    for ball in (1, 2, 3):
        coach.cross(12)
        coach.arrive("nose")
        coach.leave(4 if hand == "right" else 6)
        coach.read(ball)
        coach.next_ball()
    move = coach.root.locator(".coach-choices button.coach-then")
    expect(move).to_be_visible()
    coach.panel.screenshot(f"one_screen-{size}-{hand}")
    seen = {
        "headline": coach.root.locator(".coach-headline"),
        "move": move,
        "stay": coach.root.locator(".coach-choices button").nth(1),
        "lane": coach.root.locator(".coach-lane svg"),
        "crossing": coach.root.locator(".coach-strip"),
        "hit": coach.root.locator(".coach-arrivals"),
        "pins": coach.root.locator(".coach-deck"),
        "read": coach.button("Read this shot"),
        "undo": coach.button("Undo"),
    }
    assert [name for name, node in seen.items() if not _lies_within(node, size)] == []
    filled = coach.root.locator("button:is(.coach-then, .coach-main):visible")
    expect(filled).to_have_count(1)


@pytest.mark.parametrize("hand", ["right", "left"])
def test_on_a_phone_the_form_does_not_move_when_the_lanes_get_ready(open_app: OpenApp, hand: str) -> None:
    coach = Coach(open_app("phone", touch=True), hand, touch=True)
    coach.start()
    dock = coach.root.locator(".coach-entry")
    expect(dock).to_be_visible()
    early = _box(dock)
    assert not coach.root.locator(".coach-gain").is_visible(), (
        "ready before it was measured: nothing is shown"
    )
    coach.both_voices()
    ready = _box(dock)
    coach.cross(12)
    coach.arrive("nose")
    coach.leave(10 if hand == "right" else 7)
    marked = _box(dock)
    coach.read(1)
    asked = _box(dock)
    coach.panel.screenshot(f"dock-{hand}-spare")
    coach.button("made").click()
    expect(coach.root.locator(".coach-spare")).to_be_hidden()
    assert [early, ready, marked, asked] == [_box(dock)] * 4
    assert _lies_within(dock, "phone")
    strip = _box(coach.root.locator(".coach-strip"))
    assert early["y"] <= strip["y"]
    assert strip["y"] + strip["height"] <= early["y"] + early["height"]


def test_a_tap_on_the_chosen_hand_keeps_it_and_on_a_chosen_hit_takes_it_back(open_app: OpenApp) -> None:
    coach = Coach(open_app("laptop"))
    hand = coach.root.get_by_role("radio", name="right", exact=True)
    for _ in range(2):
        hand.click()
        expect(hand).to_be_checked()
    coach.start()
    nose = coach.root.get_by_role("radio", name="nose", exact=True)
    nose.click()
    expect(nose).to_be_checked()
    nose.click()
    expect(nose).not_to_be_checked()
