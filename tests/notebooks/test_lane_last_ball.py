"""The last ball on the live lane picture: a ring where it crossed, no ball at the pins for one that missed.

Our own promises. The bowler is invented.
"""

import json
from collections.abc import Callable
from typing import Any

import pytest

from coachlib import Bowler, Line, Session, Shot, load_pattern, observe
from coachlib.views.lane.scene import lane_scene
from coachlib.views.panels import LanePicture
from coachlib.world.pins import ALL_PINS

pytestmark = pytest.mark.browser

PAGE = """<style>{style}</style><div style="width: {width}px"></div><script type="module">
const kept = {kept}, script = new Blob([{script}], {{type: "text/javascript"}});
const module = await import(URL.createObjectURL(script));
const model = {{get: (name) => kept[name], set() {{}}, save_changes() {{}}, on() {{}}, off() {{}}}};
module.default.render({{model, el: document.querySelector("div")}});
window.drawn = true;
</script>"""
RINGS = """() => [...document.querySelectorAll(".coach-lane .seen, .coach-lane .contact")]
  .filter((node) => node.style.display !== "none" && node.getAttribute("r"))
  .map((node) => Number(node.getAttribute("r")))"""


def _rings(page: Any, shot: Shot, width: int, hand: str) -> list[float]:
    session = Session(Bowler(hand=hand), Line(22, 12), pattern=load_pattern("house_41"))  # type: ignore[arg-type]
    picture, scene = LanePicture(), lane_scene(observe(session, shot))
    kept = {"scene": {**scene, "oil": None}, "oil": None, "view": "whole"}
    script, style = json.dumps(picture._esm), str(picture._css)
    page.evaluate("window.drawn = false")  # the next content is written into the same window
    page.set_content(PAGE.format(style=style, width=width, kept=json.dumps(kept), script=script))
    page.wait_for_function("window.drawn")
    return list(page.evaluate(RINGS))


@pytest.mark.parametrize("hand", ["right", "left"])
@pytest.mark.parametrize("width", [300, 700])
def test_the_crossing_is_a_small_ring_and_the_ball_stands_at_the_pins_only_where_it_met_them(
    open_page: Callable[..., Any], width: int, hand: str
) -> None:
    page, _ = open_page("laptop")
    crossing, ball = _rings(page, Shot(crossed_board=14, arrival="high", leave=(4,)), width, hand)
    assert ball > crossing
    assert _rings(page, Shot(crossed_board=6, arrival="out", leave=ALL_PINS), width, hand) == [crossing]
    assert _rings(page, Shot(crossed_board=20, arrival="past"), width, hand) == [crossing]
    assert _rings(page, Shot(arrival="out"), width, hand) == []
