"""The look of all pages: a room, light and dark, kept from page to page; nothing of it in print.

Outside: 44 px for a finger (WCAG 2.2, success criterion 2.5.5). That a room reads words of 18 px and a
headline of 40 px on a projector of 1280 × 720 is our own promise, as is the rest.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from coachlib import Bowler, Line, Session, Shot
from coachlib.records import Logbook
from coachlib.world.hand import Hand
from tests.notebooks.conftest import SCREENSHOTS, SIZES, Guards
from tests.notebooks.test_open import Opener, OpenPage, start_opener  # noqa: F401

pytestmark = pytest.mark.browser
READY_MS, LEAST_PX, HEADLINE_PX, FINGER_PX = 90_000, 18.0, 40.0, 44.0
PROJECTOR = {"width": 1280, "height": 720}
PAPER = {"light": "rgb(253, 251, 247)", "dark": "rgb(20, 19, 17)"}
LANE_SIDE, LESSON = "coach/page/10_lane_side.ipynb", "coach/page/30b_what_a_2_and_1_does.ipynb"
STORED = "coach/page/60_where_the_numbers_come_from.ipynb"
PAGES = ("coach", "coach/lessons", STORED, LESSON, LANE_SIDE)
Start = Callable[..., Opener]

SMALL_WORDS = """(least) => {
  const found = [], walk = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  for (let node = walk.nextNode(); node; node = walk.nextNode()) {
    const box = node.parentElement, isRead = !box.closest('script, style, option, .coach-spoken');
    if (!node.data.trim() || !isRead || !box.checkVisibility()) continue;
    const scale = box.getScreenCTM ? box.getScreenCTM().a : 1;
    const px = scale * parseFloat(getComputedStyle(box).fontSize);
    if (px < least - .01) found.push(`${px.toFixed(1)} px: ${node.data.trim().slice(0, 40)}`);
  }
  return found;
}"""
HEADLINE = """() => Math.max(...[...document.querySelectorAll('h1, .coach-headline')]
  .filter((node) => node.checkVisibility()).map((node) => parseFloat(getComputedStyle(node).fontSize)))"""
SMALL_CONTROLS = """(least) =>
  [...document.querySelectorAll('button, select, [type=text], summary, .page-top a')]
  .filter((node) => node.checkVisibility()).map((node) => [node.getBoundingClientRect().height, node])
  .filter(([height]) => height < least - .5)
  .map(([height, node]) => `${height} px: ${node.outerHTML.slice(0, 80)}`)"""
KEEPS_NOTHING = """Object.defineProperty(window, 'localStorage', {
  get() { throw new DOMException('', 'SecurityError'); } })"""


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of the person's records, for us and for the command."""
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "home"))
    return tmp_path / "home"


def _begin(hand: Hand) -> None:
    """Log a session of three balls that came in high; the bowler is invented."""
    logbook = Logbook()
    key = logbook.start(Session(Bowler(name="Ilta", hand=hand), Line(25, 14), lane="7"))
    for crossed in (14, 14.5, 14):
        logbook.append(key, "shot", {"shot": Shot(crossed, arrival="high", leave=())})


def _address(opener: Opener, path: str, more: str = "") -> str:
    return opener.url.replace("/coach?", f"/{path}?") + more


def _go_on(page: Page, opener: Opener, more: str = "") -> None:
    """Open the lane side as the front page's button does."""
    page.goto(_address(opener, LANE_SIDE, f"{more}#go-on"))
    page.locator(".coach-headline").wait_for()
    page.get_by_role("button", name="Read this shot").wait_for()


def _open(page: Page, opener: Opener, path: str) -> None:
    """Open a page and wait for what it shows."""
    if path == LANE_SIDE:
        _go_on(page, opener)
        return
    page.goto(_address(opener, path))
    if path == LESSON:
        page.locator(".coach-lesson-prompt:visible").wait_for()


def _look(page: Page) -> tuple[bool, str]:
    """Return whether a page is shown for a room, and its ground."""
    is_room = page.evaluate("document.documentElement.hasAttribute('data-room')")
    return is_room, page.evaluate("getComputedStyle(document.body).backgroundColor")


def _wrong(page: Page, name: str) -> list[str]:
    """Return what is wrong with a page in any look: too wide, or what axe finds."""
    wrong = ["wider than the screen"] if _is_too_wide(page) else []
    found = Axe().run(page, context={"include": [["body"]]}).response["violations"]
    wrong += [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]]
    return [f"{name}: {one}" for one in wrong]


def _is_too_wide(page: Page) -> bool:
    return bool(page.evaluate("document.documentElement.scrollWidth > innerWidth + 1"))


def _wrong_in_a_room(page: Page, name: str) -> list[str]:
    wrong = page.evaluate(SMALL_WORDS, LEAST_PX) + page.evaluate(SMALL_CONTROLS, FINGER_PX)
    if page.evaluate(HEADLINE) < HEADLINE_PX:
        wrong.append(f"no headline of {HEADLINE_PX} px")
    return [f"{name}: {one}" for one in wrong] + _wrong(page, name)


def _keep_picture(page: Page, name: str) -> None:
    SCREENSHOTS.mkdir(exist_ok=True)
    page.screenshot(path=SCREENSHOTS / f"look_{name}.png")


def test_room_and_dark_are_chosen_by_keyboard_and_kept_from_page_to_page(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
) -> None:
    _begin("left")
    opener = start_opener()
    page, _ = open_page("laptop")
    page.set_default_timeout(READY_MS)
    page.set_viewport_size(PROJECTOR)
    page.goto(opener.url)
    assert _look(page) == (False, PAPER["light"])
    room, theme = page.get_by_role("button", name="Room"), page.get_by_label("Light or dark")
    room.focus()
    page.keyboard.press("Space")
    expect(room).to_have_attribute("aria-pressed", "true")
    page.keyboard.press("Tab")
    expect(theme).to_be_focused()
    page.keyboard.press("d")
    expect(theme).to_have_value("dark")
    wrong = []
    for path in PAGES:
        _open(page, opener, path)
        assert _look(page) == (True, PAPER["dark"]), path
        expect(page.get_by_role("button", name="Room")).to_have_attribute("aria-pressed", "true")
        wrong += _wrong_in_a_room(page, path)
        _keep_picture(page, f"room_dark_{Path(path).stem}")
    lane = page.locator(".coach-lane").bounding_box()
    assert lane is not None
    assert lane["width"] > 0.9 * PROJECTOR["width"]
    page.emulate_media(media="print")
    assert _look(page)[1] == PAPER["light"]
    assert page.evaluate("getComputedStyle(document.documentElement).fontSize") == "16px"
    assert page.evaluate("getComputedStyle(document.querySelector('.coach')).color") == "rgb(29, 27, 24)"
    page.emulate_media(media="screen")
    page.get_by_role("button", name="Room").click()
    page.get_by_label("Light or dark").select_option(label="As this device")
    page.goto(opener.url)
    assert _look(page) == (False, PAPER["light"])
    assert wrong == [], "\n".join(wrong)


@pytest.mark.parametrize("size", SIZES)
def test_every_look_fits_every_screen_and_axe_finds_nothing(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
    size: str,
) -> None:
    _begin("right")
    opener = start_opener()
    page, _ = open_page(size, touch=size != "laptop")
    page.set_default_timeout(READY_MS)
    wrong = []
    for path in PAGES:
        _open(page, opener, path)
        for theme in ("dark", "light"):
            page.get_by_label("Light or dark").select_option(value=theme)
            wrong += _wrong(page, f"{path}, {theme}")
            assert _look(page)[1] == PAPER[theme]
            _keep_picture(page, f"{theme}_{Path(path).stem}_{size}")
        page.get_by_role("button", name="Room").click()
        wrong += _wrong(page, f"{path}, room")
        _keep_picture(page, f"room_{Path(path).stem}_{size}")
        page.get_by_role("button", name="Room").click()
    assert wrong == [], "\n".join(wrong)


def test_an_address_may_ask_for_a_room_and_the_device_for_dark(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
) -> None:
    _begin("right")
    opener = start_opener()
    context = browser.new_context(viewport=PROJECTOR, color_scheme="dark")
    page, guards = context.new_page(), Guards()
    guards.watch(page)
    page.set_default_timeout(READY_MS)
    _go_on(page, opener, "&room=1")
    assert _look(page) == (True, PAPER["dark"])
    page.emulate_media(color_scheme="light")
    expect(page.locator("html")).to_have_attribute("data-theme", "light")
    assert _look(page) == (True, PAPER["light"])
    page.get_by_role("button", name="Room").click()
    assert "room=" not in page.url
    page.reload()
    assert _look(page)[0] is False
    context.close()
    guards.check()


def test_a_browser_that_keeps_nothing_still_switches(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
) -> None:
    opener = start_opener()
    page, _ = open_page("phone")
    page.add_init_script(KEEPS_NOTHING)
    page.goto(opener.url)
    page.get_by_role("button", name="Room").click()
    page.get_by_label("Light or dark").select_option(value="dark")
    assert _look(page) == (True, PAPER["dark"])


@pytest.mark.parametrize("hand", ["right", "left"])
def test_on_a_phone_one_goes_on_at_the_answer_and_an_error_leaves_the_lane_free(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
    hand: Hand,
) -> None:
    _begin(hand)
    opener = start_opener("--app")
    page, _ = open_page("phone", touch=True)
    page.set_default_timeout(READY_MS)
    page.goto(opener.url)
    page.get_by_role("link", name="Go on with Ilta").click()
    page.get_by_role("button", name="Read this shot").wait_for()
    headline = page.locator(".coach-headline")
    page.wait_for_function("document.querySelector('.coach').getBoundingClientRect().top < 2")
    shown = headline.bounding_box()
    assert shown is not None
    assert shown["y"] < SIZES["phone"][1] / 4
    expect(page.get_by_role("heading", name="At the lane")).to_be_attached()
    read, lane, dock = (
        page.get_by_role("button", name="Read this shot"),
        page.locator(".coach-lane svg"),
        page.locator(".coach-entry"),
    )
    before = dock.bounding_box(), read.bounding_box()
    read.click()
    error = page.locator(".coach-form-error")
    expect(error).to_contain_text("at least one of the three")
    _keep_picture(page, f"phone_error_{hand}")
    inside, over = error.bounding_box(), lane.bounding_box()
    assert inside is not None
    assert over is not None
    assert (dock.bounding_box(), read.bounding_box()) == before, "nothing slides under a finger"
    assert before[0] is not None
    assert inside["y"] >= before[0]["y"]
    assert inside["y"] + inside["height"] <= before[0]["y"] + before[0]["height"]
    page.get_by_role("button", name="How it hit").click()
    expect(error).to_be_empty()
