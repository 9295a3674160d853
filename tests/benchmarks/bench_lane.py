"""What the simulated balls cost: from a changed line to its scene, and from a slider to the new picture.

The second part needs the system's Chromium; without one it is left out and says so.
"""

import dataclasses
import itertools
import json
import statistics
import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

from playwright.sync_api import Page

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.session import Session, change, observe
from coachlib.coaching.simulation.paths import get_ready
from coachlib.views.lane.scene import lane_scene, simulated_scene
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern
from coachlib.world.shot import Shot
from tests.benchmarks.bench_panel import notebook_page
from tests.benchmarks.figures import Figure
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

N_LINES, N_ANSWERS = 40, 12
CELL = """import coachlib as cl
from coachlib.views.panels.try_move.try_move import TryMove
TryMove(cl.Bowler(), cl.Line(22.0, 12.0), pattern=cl.load_pattern("house_41"))
"""
# Move the slider, wait until the thin lines are others, then for the frame that shows them.
SLIDE = """async (value) => {
  const slider = document.querySelector('.coach-try input[type=range]');
  const lines = document.querySelector('.coach-lane .balls.then'), before = lines.getAttribute('d');
  const start = performance.now();
  slider.value = value;
  slider.dispatchEvent(new Event('input', {bubbles: true}));
  while (lines.getAttribute('d') === before) {
    if (performance.now() - start > 10000) throw new Error(`no new picture for ${value} after 10 s`);
    await new Promise(requestAnimationFrame);
  }
  await new Promise(requestAnimationFrame);
  return performance.now() - start;
}"""


def figures() -> Iterator[Figure]:
    """Yield the time of a scene and of a picture, and how large the scene is."""
    waits_ms, size_kb = _scene_ms()
    how = f"a line not thrown before: 21 balls and their scene, median of {N_LINES}"
    yield "lane_scene", statistics.median(waits_ms), "ms", how
    waits_ms = _answer_ms()
    how = "after a ball: the balls of two lines drawn from the belief, and their scene"
    yield "answer_picture", statistics.median(waits_ms), "ms", f"{how}, median of {len(waits_ms)}"
    yield "answer_picture_max", max(waits_ms), "ms", f"{how}, the slowest of {len(waits_ms)}"
    yield "lane_scene_size", size_kb, "kB", "two lines of 21 balls as JSON, oil apart"
    executable = find_chromium()
    if executable is None:
        print(f"# lane picture skipped: {NO_CHROMIUM}")
        return
    waits_ms = _slide_ms(executable)
    how = "slider to new picture drawn, two lines of 21 balls"
    yield "lane_picture", statistics.median(waits_ms), "ms", f"{how}, median of {N_LINES}"
    yield "lane_picture_max", max(waits_ms), "ms", f"{how}, the slowest of {N_LINES}"


def _scene_ms() -> tuple[list[float], float]:
    """Return how long each of a row of new lines takes, and the size of the last scene."""
    played, waits_ms, scene = Line(22.0, 12.0), [], {}
    session = Session(Bowler(), played, pattern=load_pattern("house_41"))
    get_ready()
    simulated_scene(session, played)
    for number in range(N_LINES):
        start_s = time.perf_counter()
        scene = simulated_scene(session, played, Line(22.25 + number / 4, 12.0))
        waits_ms.append(1000 * (time.perf_counter() - start_s))
    return waits_ms, len(json.dumps({**scene, "oil": None})) / 1000


def _answer_ms() -> list[float]:
    """Return how long the picture beside an answer takes once the answer is there, ball by ball."""
    bowler, pattern = Bowler(speed_mph=17.0, rev_rate_rpm=300.0), load_pattern("house_41")
    session, waits_ms = Session(bowler, Line(22.0, 12.0), pattern=pattern), []
    lane_scene(session, None, advise(session))  # tables and carry are got ready before the first ball
    for number in range(N_ANSWERS):
        session = observe(
            session, Shot(crossed_board=11.5 + (number % 3) / 2, arrival=19.0 + (number % 2) / 2)
        )
        voice = advise(session)
        following = dataclasses.replace(session.line, feet_board=session.line.feet_board + 2.0)
        start_s = time.perf_counter()
        scene = lane_scene(change(session, line=following), None, voice)
        waits_ms.append(1000 * (time.perf_counter() - start_s))
        if scene["source"] != "believed":
            raise RuntimeError(f"no ball was drawn after ball {number + 1}; the figure would be too good")
    return waits_ms


def _slide_ms(executable: str) -> list[float]:
    """Return how long each of a row of slider positions takes, none of them shown before."""
    with (
        tempfile.TemporaryDirectory() as folder,
        notebook_page(executable, Path(folder), CELL) as (page, url),
    ):
        page.goto(url)
        page.locator(".coach-lane .balls.then").wait_for(state="attached")
        page.wait_for_timeout(2000)
        return list(_slides_ms(page))


def _slides_ms(page: Page) -> Iterator[float]:
    """Slide feet over all halves from 6 out to 6 in, for one eye position after the other."""
    feet = [half / 2 for half in range(-12, 13) if half not in (0, 4)]
    eyes = page.get_by_role("slider", name="Eyes")
    for number, (at_eyes, at_feet) in enumerate(itertools.product((0.5, -0.5), feet)):
        if number == N_LINES:
            return
        if at_feet == feet[0]:
            eyes.evaluate(
                "(node, value) => { node.value = value; node.dispatchEvent(new Event('input')); }", at_eyes
            )
            page.wait_for_timeout(500)
        yield float(page.evaluate(SLIDE, at_feet))
