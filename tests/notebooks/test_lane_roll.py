"""The ball played on the lane picture: in the scene's own time, stopped, slowed, stepped, still.

Our own promises, on a clock of the test's: a frame comes when the test lets time pass. Accessibility by
axe-core against WCAG 2. The bowlers are invented.
"""

import json
import re
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any

import numpy as np
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import Locator, Page, expect

from coachlib import Bowler, Line, Session, load_pattern
from coachlib.views.lane.scene import lines_scene, simulated_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.panels import LanePicture
from tests.notebooks import layout
from tests.notebooks.conftest import OpenPanel, ScratchNotebook
from tests.notebooks.test_lane_balls import SLIDERS

pytestmark = pytest.mark.browser

PLAYED, NEXT = Line(22.0, 12.0), Line(24.0, 13.0)
HOLD_S = 0.6
PAGE = """<!doctype html><html lang="en"><title>A lane</title><style>{style}</style>
<main style="width: {width}px"></main><script type="module">
const kept = {kept}, script = new Blob([{script}], {{type: "text/javascript"}}), told = [];
const module = await import(URL.createObjectURL(script));
const model = {{get: (name) => kept[name], save_changes() {{}}, off() {{}}, on: (_, f) => told.push(f),
  set(name, value) {{ kept[name] = value; told.forEach((f) => f()); }}}};
const forget = module.default.render({{model, el: document.querySelector("main")}});
Object.assign(window, {{model, forget, drawn: true}});
</script></html>"""
PLACE = """() => {
  const ball = document.querySelector(".coach-lane .rolling");
  return ball.style.transform.match(/-?[0-9.]+/g).map(Number);
}"""


def _scene(hand: str = "right", has_next: bool = True) -> LaneScene:
    bowler = Bowler(hand=hand, speed_mph=18.0, rev_rate_rpm=300.0)  # type: ignore[arg-type]
    session = Session(bowler, PLAYED, pattern=load_pattern("house_41"))
    return simulated_scene(session, PLAYED, NEXT if has_next else None)


@dataclass
class Lane:
    """A picture on a page whose time the test lets pass."""

    page: Page
    scene: LaneScene

    def button(self, name: str) -> Locator:
        return self.page.get_by_role("group", name="Play the ball").get_by_role(
            "button", name=name, exact=True
        )

    @property
    def words(self) -> str:
        return self.page.locator(".coach-phase").inner_text().strip()

    @property
    def spoken(self) -> str:
        return self.page.locator(".coach-play [role=status]").text_content() or ""

    @property
    def which(self) -> str | None:
        return self.page.locator(".coach-lane svg").get_attribute("data-rolling")

    def place(self) -> list[float]:
        return list(self.page.evaluate(PLACE))

    def wait(self, time_s: float) -> None:
        self.page.clock.run_for(round(1000 * time_s))

    def feet(self, which: str, time_s: float) -> float:
        """Return where the scene's ball is at some time."""
        return float(np.interp(time_s, self.scene[which]["path"]["rolling"]["time_s"], np.arange(61)))  # type: ignore[literal-required]

    def ends_s(self, which: str) -> float:
        ball = self.scene[which]["path"]["rolling"]  # type: ignore[literal-required]
        return float(np.interp(ball["end_ft"], np.arange(61), ball["time_s"]))


OpenLane = Callable[..., Lane]


@pytest.fixture
def open_lane(open_page: Callable[..., Any]) -> OpenLane:
    """Return a function that draws a scene on an empty page: ``open_lane(scene, width=760)``."""

    def open_one(
        scene: LaneScene | None = None,
        width: int = 760,
        view: str = "whole",
        size: str = "laptop",
        less_motion: bool = False,
        **traits: Any,
    ) -> Lane:
        page, _ = open_page(size)
        page.clock.install(time=0)
        page.emulate_media(reduced_motion="reduce" if less_motion else "no-preference")
        picture, scene = LanePicture(), scene or _scene()
        kept = {"scene": {**scene, "oil": None}, "oil": scene["oil"], "view": view, **traits}
        script, style = json.dumps(picture._esm), str(picture._css)
        page.set_content(PAGE.format(style=style, width=width, kept=json.dumps(kept), script=script))
        page.wait_for_function("window.drawn")
        page.clock.pause_at(1000)
        expect(page.locator(".coach-lane p")).to_contain_text("too wide")
        return Lane(page, scene)

    return open_one


def _feet_in(words: str) -> int:
    found = re.search(r"(\d+) ft", words)
    assert found, words
    return int(found[1])


def test_nothing_moves_unless_asked(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.wait(5)
    assert lane.which is None
    assert lane.words == lane.spoken == ""
    expect(lane.page.locator(".coach-lane .rolling")).to_be_hidden()


def test_line_now_then_line_next_each_in_its_own_time(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("Play").click()
    lane.wait(1.5)
    assert (lane.which, lane.spoken) == ("now", "")
    assert _feet_in(lane.words) == pytest.approx(lane.feet("played", 1.5), abs=1.6)
    lane.wait(lane.ends_s("played") - 1.5 + HOLD_S / 2)
    assert lane.words == f"Line now: at the pins after {lane.ends_s('played'):.1f} s"
    lane.wait(HOLD_S / 2 + 1.5)
    assert lane.which == "then"
    assert _feet_in(lane.words) == pytest.approx(lane.feet("advised", 1.5), abs=2.6)
    expect(lane.button("Pause")).to_be_visible()
    lane.wait(2)
    expect(lane.button("Play")).to_be_visible()
    assert lane.words == lane.spoken == f"Line next: at the pins after {lane.ends_s('advised'):.1f} s"
    at_pins = lane.place()
    lane.wait(2)
    assert lane.place() == at_pins
    lane.button("Play").click()
    lane.wait(0.5)
    assert lane.which == "now"


def test_a_line_alone_is_played_once(open_lane: OpenLane) -> None:
    lane = open_lane(_scene(has_next=False))
    lane.button("Play").click()
    lane.wait(lane.ends_s("played") + 0.1)
    assert (lane.which, lane.words) == ("now", f"At the pins after {lane.ends_s('played'):.1f} s")
    expect(lane.button("Play")).to_be_visible()


def test_it_pauses_where_it_is_and_goes_on_from_there(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("Play").click()
    lane.wait(1)
    lane.button("Pause").click()
    place, words = lane.place(), lane.words
    assert lane.spoken == words
    lane.wait(3)
    assert (lane.place(), lane.words) == (place, words)
    lane.button("Play").click()
    lane.wait(0.5)
    assert lane.place()[0] > place[0]
    assert _feet_in(lane.words) == pytest.approx(lane.feet("played", 1.5), abs=2.6)


def test_a_quarter_of_the_speed_takes_four_times_as_long(open_lane: OpenLane) -> None:
    whole, slow = open_lane(), open_lane()
    slow.button("Quarter speed").click()
    expect(slow.button("Quarter speed")).to_have_attribute("aria-pressed", "true")
    for lane, time_s in ((whole, 1.0), (slow, 4.0)):
        lane.button("Play").click()
        lane.wait(time_s)
    foot_px = whole.place()[0] / _feet_in(whole.words)
    assert slow.place() == pytest.approx(whole.place(), abs=2 * foot_px)
    assert slow.place()[0] > 200


def test_steps_go_to_whole_feet_and_over_to_the_next_line(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("Play").click()
    lane.wait(1)
    lane.button("1 ft on").click()  # it stops the ball
    at_ft = _feet_in(lane.words)
    lane.button("1 ft on").click()
    assert lane.words == lane.spoken == f"Line now: skidding, {at_ft + 1} ft"
    lane.button("1 ft back").click()
    lane.button("1 ft on").click(modifiers=["Shift"])
    assert lane.words == f"Line now: skidding, {at_ft - 1} ft"
    lane.button("Quarter speed").focus()
    for key, words in (
        ("ArrowRight", f"Line now: skidding, {at_ft} ft"),
        ("ArrowLeft", f"Line now: skidding, {at_ft - 1} ft"),
        ("Home", "Line now: skidding, 0 ft"),
        ("ArrowUp", "Line now: skidding, 1 ft"),
        ("ArrowDown", "Line now: skidding, 0 ft"),
        ("ArrowDown", "Line now: skidding, 0 ft"),
        ("End", f"Line next: at the pins after {lane.ends_s('advised'):.1f} s"),
        ("ArrowRight", f"Line next: at the pins after {lane.ends_s('advised'):.1f} s"),
        ("ArrowLeft", "Line next: rolling, 59 ft"),
    ):
        lane.page.keyboard.press(key)
        assert lane.words == words, key
    lane.page.keyboard.press("Home")
    for _ in range(60):
        lane.page.keyboard.press("ArrowRight")
    assert lane.words == f"Line now: at the pins after {lane.ends_s('played'):.1f} s"
    lane.page.keyboard.press("ArrowRight")
    assert (lane.which, lane.words) == ("then", "Line next: skidding, 0 ft")


def test_the_space_bar_plays_and_pauses(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("Play").focus()
    lane.page.keyboard.press("Space")
    lane.wait(0.5)
    assert lane.which == "now"
    lane.page.keyboard.press("Space")
    expect(lane.button("Play")).to_be_focused()


def test_each_phase_has_its_words_and_its_kind_of_line(open_lane: OpenLane) -> None:
    lane = open_lane(_scene(has_next=False))
    ball = lane.scene["played"]["path"]["rolling"]  # type: ignore[index]
    lane.button("1 ft on").click()
    seen = {"Skidding": 0}
    for _ in range(60):
        lane.page.keyboard.press("ArrowRight")
        word, *at_ft = lane.words.split(",")
        seen.setdefault(word, _feet_in(lane.words) if at_ft else 60)
    assert seen == {
        "Skidding": 0,
        "Hooking": int(np.ceil(ball["hook_ft"])),  # type: ignore[index]
        "Rolling": int(np.ceil(ball["roll_ft"])),  # type: ignore[index]
        lane.words: 60,
    }
    trail = lane.page.locator(".coach-lane .trail path")
    dashes = [trail.nth(i).evaluate("(node) => getComputedStyle(node).strokeDasharray") for i in range(3)]
    assert dashes[0].startswith("0")  # dots
    assert dashes[2] == "none"
    assert len(set(dashes)) == 3
    ends = [re.findall(r"[ML](\S+)", trail.nth(i).get_attribute("d") or "") for i in range(3)]
    assert (ends[0][-1], ends[1][-1]) == (ends[1][0], ends[2][0])  # one path in three kinds of line


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("width", [164, 370, 760])
def test_the_ball_lies_on_its_path_and_ends_in_the_ring_at_the_head_pin(
    open_lane: OpenLane, width: int, hand: str
) -> None:
    lane = open_lane({**_scene(hand), "is_plain": True}, width=width)
    ring = lane.page.locator(".coach-lane .contact-now")
    x, y, r = (float(ring.get_attribute(name) or "nan") for name in ("cx", "cy", "r"))
    path = lane.page.locator(".coach-lane .path.now:not(.balls):not(.far)").get_attribute("d") or ""
    drawn = [tuple(map(float, place.split())) for place in re.findall(r"[ML]([-0-9.]+ [-0-9.]+)", path)]
    assert len(drawn) == 61
    lane.button("1 ft on").click()
    for at_ft in range(1, 31):
        lane.page.keyboard.press("ArrowRight")
        assert lane.place() == pytest.approx(drawn[at_ft], abs=0.02)
    for _ in range(30):
        lane.page.keyboard.press("ArrowRight")
    assert lane.place() == pytest.approx([x, y], abs=r / 4)
    assert float(lane.page.locator(".coach-lane .rolling").get_attribute("r") or 0) == pytest.approx(r)


def test_the_last_20_ft_begin_at_40_ft(open_lane: OpenLane) -> None:
    lane = open_lane(view="end")
    lane.button("Play").click()
    lane.wait(0.05)
    assert _feet_in(lane.words) in (40, 41)
    lane.wait(lane.ends_s("played") - lane.scene["played"]["path"]["rolling"]["time_s"][40])  # type: ignore[index]
    assert "Line now: at the pins" in lane.words


def test_the_ball_can_be_dragged_along_the_lane(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("1 ft on").click()
    ball, frame = (
        lane.page.locator(".coach-lane .rolling"),
        lane.page.locator(".coach-lane svg").bounding_box(),
    )
    box = ball.bounding_box()
    assert box
    assert frame
    lane.page.mouse.move(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    lane.page.mouse.down()
    lane.page.mouse.move(frame["x"] + 250, frame["y"] + 20, steps=5)
    lane.page.mouse.up()
    assert lane.place()[0] == pytest.approx(250, abs=0.1)
    lane.page.mouse.move(frame["x"] + 300, frame["y"] + 20)
    assert lane.place()[0] == pytest.approx(250, abs=0.1)


def test_with_less_motion_the_ball_stands_at_three_places(open_lane: OpenLane) -> None:
    lane = open_lane(less_motion=True)
    expect(lane.button("Quarter speed")).to_be_hidden()
    stills = lane.page.locator(".coach-lane .still:visible")
    lane.button("Show the ball at three places").click()
    expect(stills).to_have_count(3)
    ball = lane.scene["played"]["path"]["rolling"]  # type: ignore[index]
    words = f"hook at {ball['hook_ft']:.0f} ft, rolls from {ball['roll_ft']:.0f} ft, at the pins after"  # type: ignore[index]
    assert words in lane.words
    assert lane.words == lane.spoken
    places = [(node.get_attribute("cx"), node.get_attribute("cy")) for node in stills.all()]
    lane.wait(5)
    assert [(node.get_attribute("cx"), node.get_attribute("cy")) for node in stills.all()] == places
    assert lane.which == "now"
    lane.button("Show it on the next line").click()
    assert lane.which == "then"
    expect(stills).to_have_count(3)
    lane.button("1 ft on").click()
    expect(stills).to_have_count(0)
    assert lane.words == "Line now: skidding, 0 ft"
    lane.button("Show the ball at three places").click()
    lane.button("Show it on the next line").click()
    lane.button("Put the ball away").click()
    expect(stills).to_have_count(0)
    assert lane.which is None


def test_asking_for_less_motion_stops_a_ball_that_rolls(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("Play").click()
    lane.wait(0.5)
    lane.page.emulate_media(reduced_motion="reduce")
    expect(lane.button("Show the ball at three places")).to_be_visible()
    lane.wait(1)
    assert lane.which is None


def test_a_new_scene_stops_the_ball_and_leaves_no_trace(open_lane: OpenLane) -> None:
    lane, other = open_lane(), _scene("left")
    n_nodes = lane.page.locator(".coach-lane *").count()
    lane.button("Play").click()
    lane.wait(1)
    lane.page.evaluate("(scene) => model.set('scene', scene)", {**other, "oil": None})
    assert lane.which is None
    assert lane.words == ""
    lane.wait(3)
    expect(lane.page.locator(".coach-lane .rolling")).to_be_hidden()
    expect(lane.button("Play")).to_be_visible()
    assert lane.page.locator(".coach-lane *").count() == n_nodes


def test_another_width_moves_the_ball_with_its_lane(open_lane: OpenLane) -> None:
    lane = open_lane()
    lane.button("1 ft on").click()
    lane.page.keyboard.press("ArrowRight")
    before, words = lane.place(), lane.words
    lane.page.evaluate("document.querySelector('main').style.width = '370px'")
    lane.page.wait_for_function("document.querySelector('.coach-lane-upright')")
    assert lane.words == words
    assert lane.place()[1] > before[1] + 100  # upright: near the foul line, which is below


def test_where_no_ball_is_simulated_or_it_is_switched_off_there_is_nothing_to_play(
    open_lane: OpenLane,
) -> None:
    straight = open_lane(lines_scene(Bowler(), PLAYED, NEXT))
    expect(straight.page.get_by_role("group", name="Play the ball")).to_have_count(0)
    lane_side = open_lane(lines_scene(Bowler(), PLAYED, NEXT, is_plain=True))
    expect(lane_side.page.get_by_role("group", name="Play the ball")).to_have_count(0)
    off = open_lane(is_playable=False)
    expect(off.page.get_by_role("group", name="Play the ball")).to_have_count(0)
    off.page.evaluate("model.set('is_playable', true)")
    expect(off.button("Play")).to_be_visible()


@pytest.mark.parametrize("less_motion", [False, True])
@pytest.mark.parametrize(
    ("size", "width"), [("laptop", 760), ("tablet", 390), ("phone", 164), ("phone", 358)]
)
def test_the_row_is_read_and_touched_at_every_size(
    open_lane: OpenLane, size: str, width: int, less_motion: bool
) -> None:
    lane = open_lane(width=width, size=size, less_motion=less_motion)
    lane.button("Show the ball at three places" if less_motion else "Play").click()
    lane.wait(0.5)
    for button in lane.page.locator(".coach-play button:visible").all():
        box = button.bounding_box()
        assert box
        assert min(box["width"], box["height"]) >= 44
    if not less_motion:
        lane.button("Pause").click()
    lane.page.clock.resume()  # the checkers wait for frames of their own
    found = Axe().run(lane.page, context={"include": [[".coach-lane"]]}).response["violations"]
    assert [f"{one['id']}: {node['target']}" for one in found for node in one["nodes"]] == []
    for text_size in layout.TEXT_SIZES:
        assert layout.cut_off(lane.page, ".coach-lane", text_size) == []


def test_in_a_notebook_its_keys_reach_the_ball_alone(
    open_panel: OpenPanel, scratch_notebook: ScratchNotebook
) -> None:
    panel = open_panel("laptop", notebook=scratch_notebook("roll", [SLIDERS]), wait=".coach-lane svg")
    page = panel.page
    page.get_by_role("button", name="1 ft on").press("ArrowRight")
    for key in ("b", "d", "d", "a"):
        page.keyboard.press(key)
    expect(page.locator(".jp-Cell")).to_have_count(1)
    expect(page.locator(".coach-phase")).to_contain_text("Line now: skidding, 0 ft")
    page.keyboard.press("ArrowRight")
    expect(page.locator(".coach-phase")).to_contain_text("Line now: skidding, 1 ft")
    page.get_by_role("button", name="Play", exact=True).press("Space")
    expect(page.locator(".coach-phase")).to_contain_text("Line next: at the pins", timeout=30_000)
    page.get_by_role("slider", name="Feet").press("ArrowLeft")
    expect(page.locator(".coach-phase")).to_have_text("")
