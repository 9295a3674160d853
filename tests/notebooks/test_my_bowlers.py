"""From the lane side to the students by one link: live within a few seconds, in the notebook and as a page.

Our own promises; no outside source.
"""

import json
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from playwright.sync_api import Browser, Page, expect

from tests.notebooks.conftest import Guards
from tests.notebooks.test_open import Opener, OpenPage, start_opener  # noqa: F401

pytestmark = pytest.mark.browser
BESIDE = "20_students.ipynb"
A_FEW_S = 60.0
"""Four to six seconds on a free laptop; a machine that runs other tests beside it takes ten times as long."""


def _students_from(page: Page, guards: list[Guards]) -> Page:
    """Follow the link of the lane side and return the page with the students."""
    link = page.get_by_role("link", name="My bowlers")
    link.wait_for()
    with page.context.expect_page() as opened:
        link.click()
    students = opened.value
    students.set_default_timeout(A_FEW_S * 1000)
    guards.append(Guards())
    guards[-1].watch(students)
    return students


@pytest.mark.parametrize(
    "options",
    [("--notebook", "10_lane_side"), ("--app", "--notebook", "10_lane_side")],
    ids=["notebook", "page"],
)
def test_the_link_brings_the_live_students(
    browser: Browser,
    start_opener: Callable[..., Opener],  # noqa: F811
    open_page: OpenPage,
    options: tuple[str, ...],
) -> None:
    opener = start_opener(*options)
    page, _ = open_page("laptop")
    page.goto(opener.url)
    guards: list[Guards] = []
    began_s = time.monotonic()
    students = _students_from(page, guards)
    title = students.locator(".coach-ball-title").first
    title.wait_for()
    assert time.monotonic() - began_s < A_FEW_S
    assert students.get_by_text("Error displaying widget").count() == 0
    students.get_by_role("button", name="Next", exact=True).click()
    expect(title).to_contain_text("Ball 2 of", timeout=A_FEW_S * 1000)
    expect(students.locator("img.coach-chart:visible")).to_have_count(1, timeout=A_FEW_S * 1000)
    assert students.get_by_role("link", name="My bowlers").count() == 0, "no link from a page to itself"
    guards[0].check()


def _address(path: str, repository: Path) -> str:
    """Return where the link leads from a page at `path`, asked of the script itself by Chromium's engine."""
    script = (repository / "coachlib/views/panels/lane_side/my_bowlers.js").read_text(encoding="utf-8")
    return script.split("export default")[0] + f"\nbowlersAddress({{pathname: {json.dumps(path)}}})"


@pytest.mark.parametrize(
    ("path", "address"),
    [
        ("/doc/tree/10_lane_side.ipynb", f"/doc/tree/{BESIDE}"),
        ("/lab/tree/10_lane_side.ipynb", f"/doc/tree/{BESIDE}"),
        ("/lab/workspaces/two/tree/10_lane_side.ipynb", f"/doc/tree/{BESIDE}"),
        ("/doc/workspaces/auto-v/tree/10_lane_side.ipynb", f"/doc/tree/{BESIDE}"),
        ("/user/ada/doc/tree/10_lane_side.ipynb", f"/user/ada/doc/tree/{BESIDE}"),
        ("/voila/render/10_lane_side.ipynb", f"/voila/render/{BESIDE}"),
        ("/", ""),
        ("/notebook.html", ""),
    ],
)
def test_where_the_link_leads_from_each_kind_of_page(
    browser: Browser, path: str, address: str, repository: Path
) -> None:
    page = browser.new_page()
    try:
        assert page.evaluate(_address(path, repository)) == address
    finally:
        page.close()
