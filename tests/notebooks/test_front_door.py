"""From the front page through every door and back: no code, no cell to press, by keyboard, all readable.

Our own promises; no outside source.
"""

from collections.abc import Callable
from pathlib import Path

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Browser, Page, expect

from coachlib import Bowler, Line, Session, Shot
from coachlib.records import Logbook
from coachlib.views.front.doors import DOORS, LANE_SIDE, LESSON_DOORS, LESSONS, WORDS
from tests.notebooks.conftest import SCREENSHOTS, SIZES, Guards
from tests.notebooks.layout import cut_off
from tests.notebooks.test_open import Opener, OpenPage, start_opener  # noqa: F401

pytestmark = pytest.mark.browser
READY_MS = 90_000
Start = Callable[..., Opener]
PAGES = [
    door
    for door in (*DOORS, WORDS, LANE_SIDE._replace(title="Start a session", line=""))
    if door.notebook != LESSONS
]


@pytest.fixture
def home(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """Return the folder of the person's records, for us and for the command."""
    monkeypatch.setenv("COACHLIB_DATA", str(tmp_path / "home"))
    return tmp_path / "home"


def _follow(page: Page, name: str) -> None:
    """Follow a link by keyboard."""
    link = page.get_by_role("link", name=name, exact=True).first
    link.focus()
    page.keyboard.press("Enter")


def _looked_at(page: Page, name: str) -> list[str]:
    """Return what is wrong with a page that was opened: code, words that cannot be read, axe's findings."""
    page.locator("h1:visible").first.wait_for(timeout=READY_MS)
    if "/voila/" in page.url:
        page.locator(".coach:visible, .coach-try:visible, .coach-balls:visible").first.wait_for(
            timeout=READY_MS
        )
    wrong = [
        f"code: {code}" for code in page.locator(".jp-InputArea-editor:visible, .prompt").all_inner_texts()
    ]
    if page.evaluate("document.documentElement.scrollWidth > innerWidth + 1"):
        wrong.append("the page is wider than the screen")
    found = Axe().run(page, context={"include": [["body"]]}).response["violations"]
    wrong += [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]]
    return [f"{name}: {one}" for one in wrong]


def _keep_picture(page: Page, name: str) -> None:
    SCREENSHOTS.mkdir(exist_ok=True)
    page.screenshot(path=SCREENSHOTS / f"page_{name}.png")


@pytest.mark.parametrize(("size", "options"), [("laptop", ()), ("phone", ("--app",))])
def test_through_every_door_and_back(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
    size: str,
    options: tuple[str, ...],
) -> None:
    opener = start_opener(*options)
    page, _ = open_page(size, touch=size != "laptop")
    page.set_default_timeout(READY_MS)
    page.goto(opener.url)
    wrong = _looked_at(page, "front page")
    for door in PAGES:
        _follow(page, f"{door.title} {door.line}".strip())
        page.wait_for_url(f"**/{door.notebook}.ipynb")
        wrong += _looked_at(page, door.title)
        _keep_picture(page, f"{door.notebook}_{size}")
        assert page.get_by_role("link", name="Open as notebook").count() == (not options)
        _follow(page, "Front page")
        page.wait_for_url("**/coach")
    page.get_by_role("link", name="Lessons").click()
    wrong += _looked_at(page, "lessons")
    for door in LESSON_DOORS:
        _follow(page, f"{door.title} {door.line}")
        page.wait_for_url(f"**/{door.notebook}.ipynb")
        wrong += _looked_at(page, door.title)
        _keep_picture(page, f"{door.notebook}_{size}")
        page.go_back()
        page.wait_for_url("**/lessons")
    assert wrong == []


def test_go_on_and_new_session_answer_the_first_question(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
) -> None:
    key = Logbook().start(Session(Bowler(name="Ilta"), Line(25, 14), lane="7"))
    Logbook().append(key, "shot", {"shot": Shot(14, arrival="high")})
    opener = start_opener()
    page, _ = open_page("laptop")
    page.set_default_timeout(READY_MS)
    page.goto(opener.url)
    _follow(page, "Go on with Ilta")
    page.get_by_role("button", name="Read this shot").wait_for()
    expect(page.locator(".coach").first).to_contain_text("Ilta")
    page.goto(opener.url)
    _follow(page, "New session")
    page.get_by_role("button", name="Not now").wait_for()
    page.goto(opener.url)
    page.get_by_role("link", name="Go on").wait_for()


@pytest.mark.parametrize("font", ["packed", "bare"])
def test_the_front_page_can_be_read_at_every_size(
    browser: Browser,
    bare_browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    font: str,
) -> None:
    Logbook().start(Session(Bowler(name="Maximiliane", hand="left"), Line(25.5, 14.5), lane="7"))
    opener = start_opener()
    context = (bare_browser if font == "bare" else browser).new_context()
    page, guards = context.new_page(), Guards()
    if font == "packed":
        guards.watch(page)
    wrong = {}
    for address in (opener.url, opener.url.replace("/coach", "/coach/lessons")):
        for size, (width, height) in SIZES.items():
            page.set_viewport_size({"width": width, "height": height})
            page.goto(address)
            for text_size in (1.0, 1.3):
                if found := cut_off(page, "main", text_size):
                    wrong[f"{address.split('?')[0]}, {size}, {text_size}"] = found
            _keep_picture(page, f"{'lessons' if 'lessons' in address else 'front'}_{size}_{font}")
    context.close()
    guards.check()
    assert wrong == {}


def test_a_page_closed_ends_its_kernel(
    browser: Browser,
    start_opener: Start,  # noqa: F811
    home: Path,
    open_page: OpenPage,
) -> None:
    opener = start_opener()
    page, _ = open_page("laptop")
    page.set_default_timeout(READY_MS)
    page.goto(opener.url)
    _follow(page, f"{DOORS[0].title} {DOORS[0].line}")
    page.locator(".coach").first.wait_for()
    asked = "async () => (await (await fetch('/api/kernels')).json()).length"
    assert page.evaluate(asked) == 1
    _follow(page, "Front page")
    page.wait_for_url("**/coach")
    page.wait_for_function(f"async () => (await ({asked})()) === 0")
