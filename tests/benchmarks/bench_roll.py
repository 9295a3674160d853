"""How smoothly the ball rolls: the time from frame to frame while both lines are played in a notebook.

Needs the system's Chromium; without one it yields nothing and says so. The page is 1280 by 800.
"""

import statistics
import tempfile
from collections.abc import Iterator
from pathlib import Path

from tests.benchmarks.bench_lane import CELL
from tests.benchmarks.bench_panel import notebook_page
from tests.benchmarks.figures import Figure
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

N_PLAYED = 5
MISSED_MS = 25.0
"""Longer than this from frame to frame: one of sixty a second was left out."""

PLAY = """async () => {
  const button = document.querySelector(".coach-play button"), waits = [];
  const frame = () => new Promise(requestAnimationFrame);
  button.click();
  await frame();
  for (let before = await frame(); button.textContent === "Pause";) {
    const now = await frame();
    waits.push(now - before);
    before = now;
  }
  return waits;
}"""


def figures() -> Iterator[Figure]:
    """Yield frames a second, the usual and the worst wait for one, and how many were left out."""
    executable = find_chromium()
    if executable is None:
        print(f"# roll skipped: {NO_CHROMIUM}")
        return
    waits_ms = _waits_ms(executable)
    how = f"two lines of 21 balls played {N_PLAYED} times in a notebook, {len(waits_ms)} frames"
    yield "roll_frames", 1000 * len(waits_ms) / sum(waits_ms), "frames/s", how
    yield "roll_frame", statistics.median(waits_ms), "ms", f"{how}, median from one to the next"
    yield "roll_frame_max", max(waits_ms), "ms", f"{how}, the longest"
    missed_pct = 100 * sum(wait > MISSED_MS for wait in waits_ms) / len(waits_ms)
    yield "roll_frames_missed", missed_pct, "%", f"{how}, later than {MISSED_MS:g} ms"


def _waits_ms(executable: str) -> list[float]:
    with (
        tempfile.TemporaryDirectory() as folder,
        notebook_page(executable, Path(folder), CELL) as (page, url),
    ):
        page.goto(url)
        page.get_by_role("button", name="Play", exact=True).wait_for()
        page.wait_for_timeout(2000)
        return [float(wait) for _ in range(N_PLAYED) for wait in page.evaluate(PLAY)]
