"""Every lesson as a page: played by keyboard to its end, readable at two sizes, and dragged with a finger.

Our own promises; accessibility by axe-core against WCAG 2.
"""

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Locator, Page, expect

from coachlib.opener.folder import shipped_notebooks
from coachlib.study.lessons.lesson import LESSONS, load_lesson
from tests.notebooks.conftest import SCREENSHOTS
from tests.notebooks.layout import cut_off
from tests.notebooks.test_open import Opener, OpenPage, start_opener  # noqa: F401

pytestmark = pytest.mark.browser
READY_MS = 90_000
Start = Callable[..., Opener]
NOTEBOOKS = {
    name: path.stem
    for path in sorted(shipped_notebooks().glob("3*.ipynb"))
    for name in LESSONS
    if f'LessonPanel(\\"{name}\\")' in path.read_text(encoding="utf-8")
}


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of the person's records, for the command."""
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "home"))
    return tmp_path / "home"


def _opened(page: Page, url: str, name: str) -> Locator:
    """Open a lesson's page and return its panel."""
    base, _, token = url.partition("/coach")
    page.goto(f"{base}/coach/page/{NOTEBOOKS[name]}.ipynb{token}")
    page.locator(".coach-lesson-prompt:visible").wait_for(timeout=READY_MS)
    return page.locator(".coach.coach-lesson")


def _bet(page: Page, root: Locator) -> None:
    """Answer the question that stands there by keyboard, some way or other."""
    bets = ".coach-lesson-value:visible, .coach-lesson-choices button:enabled:visible"
    root.locator(bets).first.wait_for()  # the head of the panel is drawn before its controls
    slider = root.locator(".coach-lesson-value:visible")
    if slider.count():
        slider.focus()
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("ArrowLeft")
        page.keyboard.press("Enter")
    else:
        root.locator(".coach-lesson-choices button:enabled").nth(1).focus()
        page.keyboard.press("Enter")
    expect(root.locator(".coach-lesson-answer")).to_be_visible()


def _go_on(page: Page, root: Locator) -> None:
    """Press what stands filled: the focus is there already after a bet."""
    following = root.locator(".coach-lesson-after .coach-main")
    expect(following).to_be_focused()
    page.keyboard.press("Enter")
    expect(root.locator(".coach-lesson-answer")).to_be_hidden()


def _wrong(page: Page, where: str) -> list[str]:
    found = Axe().run(page, context={"include": [[".coach"]]}).response["violations"]
    wrong = [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]]
    wrong += cut_off(page, ".coach")
    if page.evaluate("document.documentElement.scrollWidth > innerWidth + 1"):
        wrong.append("wider than the screen")
    return [f"{where}: {one}" for one in wrong]


def test_every_lesson_has_a_page() -> None:
    assert list(NOTEBOOKS) == list(LESSONS), "in the order in which a newcomer takes them"


@pytest.mark.parametrize("size", ["laptop", "phone"])
def test_every_lesson_is_played_by_keyboard_to_its_end(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
    size: str,
) -> None:
    opener = start_opener()
    page, _ = open_page(size, touch=size == "phone")
    SCREENSHOTS.mkdir(exist_ok=True)
    wrong = []
    for name in LESSONS:
        root = _opened(page, opener.url, name)
        for number in range(len(load_lesson(name).steps)):
            if number == 2:
                wrong += _wrong(page, f"{name}, question 3")
                page.screenshot(path=SCREENSHOTS / f"lesson_{name}_{size}_asked.png")
            _bet(page, root)
            expect(root.locator(".coach-lesson-found .coach-told p").last).not_to_be_empty()
            if number == 2:
                wrong += _wrong(page, f"{name}, answer 3")
                page.screenshot(path=SCREENSHOTS / f"lesson_{name}_{size}_answered.png")
            _go_on(page, root)
        expect(root.get_by_role("heading", name="What you can say now")).to_be_visible()
        wrong += _wrong(page, f"{name}, end")
        page.screenshot(path=SCREENSHOTS / f"lesson_{name}_{size}_end.png")
    assert wrong == []


def test_a_bet_is_dragged_on_the_lane_and_the_lane_changed_by_hand(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
) -> None:
    opener = start_opener("--app")
    page, _ = open_page("tablet")
    root = _opened(page, opener.url, "two_and_one")
    for _ in range(2):
        _bet(page, root)
        _go_on(page, root)
    value, ring = root.locator(".coach-lesson-value"), root.locator(".bet-ring")
    before = value.inner_text()
    box = ring.bounding_box()
    assert box
    middle = box["x"] + box["width"] / 2, box["y"] + box["height"] / 2
    page.mouse.move(*middle)
    page.mouse.down()
    page.mouse.move(middle[0] + (0 if box["x"] > 500 else 40), middle[1] + 40, steps=5)
    page.mouse.up()
    expect(value).not_to_have_text(before)
    dragged = value.inner_text()
    expect(root.locator(".bet-words").first).to_have_text(f"your bet {dragged}")
    root.get_by_role("button", name=f"Bet on {dragged}").click()
    expect(root.locator(".coach-lesson-bet")).to_contain_text(f"You bet {dragged}:")
    root.get_by_text("Change it yourself").click()
    drawn = root.locator(".path.then").last.get_attribute("d")
    root.get_by_role("button", name="Speed faster").click()
    expect(root.locator(".coach-try-answer")).to_contain_text(re.compile("Your ball"))
    expect(root.locator(".path.then").last).not_to_have_attribute("d", drawn or "")
    root.get_by_role("button", name="Back to the question").click()
    expect(root.locator(".answer-ball")).to_be_visible()
