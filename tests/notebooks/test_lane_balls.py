"""Simulated balls on the live lane picture: twenty thin lines, the oil, the last 20 ft, never growing.

Checks of our own promises; accessibility by axe-core against WCAG 2. The bowler is invented.
"""

import re

import pytest
from playwright.sync_api import Locator, expect

from tests.notebooks.conftest import SIZES, OpenedPanel, OpenPanel, ScratchNotebook
from tests.notebooks.test_moves import CHANGE_ONCE, IS_UPRIGHT, LANE, WORDS_CUT_OFF

pytestmark = pytest.mark.browser

PANEL = """import coachlib as cl
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels import LaneSide
bowler = cl.Bowler(hand={hand!r}, speed_mph=18.0, rev_rate_rpm=300.0)
session = cl.Session(bowler, cl.Line(22.0, 12.0), pattern=cl.load_pattern("house_41"), lane="7")
for crossed in (12.0, 12.5, 12.0):
    session = cl.observe(session, cl.Shot(crossed, arrival="high", leave=(4,)))
LaneSide(session=session)
"""
SIZES_CELL = """import coachlib as cl, ipywidgets
from coachlib.coaching.advice.advice import advise
from coachlib.views.panels import LanePicture
from coachlib.views.lane.scene import lane_scene
bowler, house = cl.Bowler(speed_mph=18.0, rev_rate_rpm=300.0), cl.load_pattern("house_41")
session = cl.Session(bowler, cl.Line(22.0, 12.0), pattern=house)
for _ in range(3):
    session = cl.observe(session, cl.Shot(12.0, arrival="high", leave=(4,)))
pictures = [LanePicture(), LanePicture()]
answer = advise(session)
pictures[0].show(lane_scene(session, answer, advise(session, model_on=False)))
pictures[1].show(lane_scene(session, answer))
ipywidgets.VBox(pictures)
"""
SLIDERS = """import coachlib as cl
from coachlib.views.panels.try_move.try_move import TryMove
TryMove(cl.Bowler(), cl.Line(22.0, 12.0), pattern=cl.load_pattern("house_41"))
"""
WORDS_ON_WORDS = """() => {
  const words = [...document.querySelectorAll('.coach-lane svg text')].filter((text) =>
    text.textContent && text.getClientRects().length && !text.classList.contains('pin-number'));
  const boxes = words.map((text) => [text.textContent, text.getBoundingClientRect()]);
  const overlap = (a, b) => Math.min(a.right, b.right) - Math.max(a.left, b.left) > 1
    && Math.min(a.bottom, b.bottom) - Math.max(a.top, b.top) > 9;  // boxes of letters hold air
  return boxes.flatMap(([word, box], i) => boxes.slice(i + 1).filter(([, other]) => overlap(box, other))
    .map(([other]) => `${word} / ${other}`));
}"""
LIKELY_OVER_PICTURE = """() => {
  const box = (name) => document.querySelector(name).getBoundingClientRect();
  const words = box('.coach-lane .coach-likely'), svg = box('.coach-lane svg'), all = box('.coach-lane');
  const is_apart = words.bottom <= svg.top + 1 || words.top >= svg.bottom - 1;
  return !is_apart || words.left < all.left - 1 || words.right > all.right + 1;
}"""
OTHERS = re.compile(r"^Balls that do not strike, simulated: now \d+ leaves? .* next \d+ leaves? ")
N_FILLED = """(which) => {
  const [, filled] = document.querySelectorAll(`.coach-lane .dots-${which}`);
  return (filled.getAttribute('d').match(/M/g) || []).length;
}"""
SET_WIDTH = """(width) => document.querySelectorAll('.coach-lane').forEach((box) => {
  box.parentElement.style.width = `${width}px`;
})"""
IMAGE_CORNERS = """() => {
  const image = document.querySelector('.coach-lane mask image'), turn = image.transform.baseVal[0].matrix;
  const corner = (x, y) => new DOMPoint(x, y).matrixTransform(turn);
  return [corner(0, 0), corner(0, 39), corner(41, 0)].map(({x, y}) => [Math.round(x), Math.round(y)]);
}"""


@pytest.fixture
def open_side(open_panel: OpenPanel, scratch_notebook: ScratchNotebook):
    """Return a function that opens the panel with a running session of three high balls."""

    def open_one(size: str = "laptop", hand: str = "right") -> OpenedPanel:
        name = scratch_notebook(f"balls_{hand}", [PANEL.format(hand=hand)])
        panel = open_panel(size, notebook=name, wait=LANE, touch=size == "phone")
        panel.page.locator(LANE).scroll_into_view_if_needed()
        expect(panel.page.locator(".coach-lane p")).to_contain_text("too wide")
        return panel

    return open_one


MODEL_MS = 60_000
"""So long a busy machine may take to get the lanes ready."""


def lines_drawn(panel: OpenedPanel, which: str) -> int:
    """Return how many thin lines one path element holds."""
    return (panel.page.locator(f".coach-lane .balls.{which}").get_attribute("d") or "").count("M")


def view(panel: OpenedPanel, name: str) -> Locator:
    return panel.page.get_by_role("group", name="View of the lane").get_by_role("button", name=name)


@pytest.mark.parametrize(
    ("size", "hand"), [("laptop", "right"), ("tablet", "left"), ("phone", "right"), ("phone", "left")]
)
def test_both_lines_are_thrown_and_the_last_20_ft_are_a_tap_away(open_side, size: str, hand: str) -> None:
    panel = open_side(size, hand)
    page, picture = panel.page, panel.page.locator(LANE)
    expect(page.locator(".coach-lane .count:visible")).to_have_count(2, timeout=MODEL_MS)
    expect(picture).to_have_attribute(
        "aria-label", re.compile("Rotation, tilt and ball not entered, so we drew 45°")
    )
    assert (lines_drawn(panel, "now"), lines_drawn(panel, "then")) == (20, 20)
    now, following = page.locator(".coach-lane .count:visible").all_text_contents()
    assert [page.evaluate(N_FILLED, which) for which in ("now", "then")] == [
        int(words.split()[1]) for words in (now, following)
    ]
    assert page.locator(".coach-lane .pin:visible").count() == 10
    assert page.locator(".coach-lane .pin.left:visible").count() == 1
    panel.screenshot(f"balls-{size}-{hand}-whole")
    assert page.evaluate(WORDS_CUT_OFF) == []
    assert page.evaluate(WORDS_ON_WORDS) == []
    expect(page.locator(".coach-lane .coach-likely")).to_have_text(OTHERS)
    assert page.evaluate(LIKELY_OVER_PICTURE) is False
    view(panel, "Last 20 ft").click()
    expect(picture.get_by_text("40 ft", exact=True)).to_be_visible()
    expect(view(panel, "Last 20 ft")).to_have_attribute("aria-pressed", "true")
    expect(picture.get_by_text("15 ft", exact=True)).to_be_hidden()
    panel.screenshot(f"balls-{size}-{hand}-end")
    assert page.evaluate(WORDS_CUT_OFF) == []
    assert page.evaluate(WORDS_ON_WORDS) == []
    assert panel.axe_violations() == []


def test_the_view_is_remembered(open_side) -> None:
    panel = open_side()
    view(panel, "Last 20 ft").click()
    assert panel.page.evaluate("() => localStorage.getItem('coach-lane-view')") == "end"
    panel.page.reload()
    panel.page.locator(LANE).wait_for()
    expect(view(panel, "Last 20 ft")).to_have_attribute("aria-pressed", "true")


@pytest.mark.parametrize("hand", ["right", "left"])
def test_the_oil_lies_with_the_lanes_left_edge_on_the_left(open_side, hand: str) -> None:
    page = open_side("laptop", hand).page
    (x0, y0), (x1, y1), (x2, y2) = page.evaluate(IMAGE_CORNERS)
    assert x0 == x1 < x2
    assert y0 == y2 < y1  # left is up
    width, height = SIZES["phone"]
    page.set_viewport_size({"width": width, "height": height})
    page.wait_for_function(IS_UPRIGHT, arg=True)
    (x0, y0), (x1, y1), (x2, y2) = page.evaluate(IMAGE_CORNERS)
    assert x0 == x2 < x1  # left is left
    assert y0 == y1 > y2


def test_getting_the_lanes_ready_changes_no_size(
    open_panel: OpenPanel, scratch_notebook: ScratchNotebook
) -> None:
    # the same scene without and with its balls, as the panel shows one after the other
    panel = open_panel("laptop", notebook=scratch_notebook("sizes", [SIZES_CELL]), wait=LANE)
    boxes = panel.page.locator(".coach-lane")
    expect(boxes).to_have_count(2)
    expect(boxes.nth(1).locator("p")).to_contain_text("too wide")
    for width in (868, 396, 180):
        panel.page.evaluate(SET_WIDTH, width)
        panel.page.wait_for_timeout(300)
        bare, full = (box.bounding_box() for box in boxes.all())
        assert (bare["width"], bare["height"]) == (full["width"], full["height"])
        bare, full = (box.locator("svg").bounding_box() for box in boxes.all())
        assert bare["height"] == full["height"]


def test_a_new_ball_and_its_undo_leave_the_picture_as_heavy_as_it_was(open_side) -> None:
    panel = open_side()
    root, n_nodes = panel.root, panel.n_nodes()
    drawn = panel.page.locator(".coach-lane .balls.then").get_attribute("d")
    for _ in range(25):
        root.get_by_role("button", name="Move: feet").click()
        expect(root.get_by_text("Lane 7, ready for ball 4")).to_be_visible()
        root.get_by_role("button", name="Undo", exact=True).click()
        expect(root.get_by_text("Ball 3, lane 7", exact=True)).to_be_visible()
    assert panel.n_nodes() == n_nodes
    assert panel.page.locator(".coach-lane .balls.then").get_attribute("d") == drawn


def test_a_slider_draws_forty_new_balls_at_once(
    open_panel: OpenPanel, scratch_notebook: ScratchNotebook
) -> None:
    panel = open_panel("laptop", notebook=scratch_notebook("sliders", [SLIDERS]), wait=LANE)
    page = panel.page
    expect(page.locator(".coach-lane p")).to_contain_text("too wide")
    n_nodes = page.evaluate("() => document.querySelectorAll('.coach-lane *').length")
    for value in (-1, 1, -3, 2, 5) * 10:
        page.evaluate(CHANGE_ONCE, [value])
    assert (lines_drawn(panel, "now"), lines_drawn(panel, "then")) == (20, 20)
    assert page.evaluate("() => document.querySelectorAll('.coach-lane *').length") == n_nodes
    assert panel.axe_violations(".coach-lane") == []
