"""What the panel costs in a browser: from "Read this shot" to the new answer, and what the page loads.

Needs the system's Chromium; without one it yields nothing and says so.
"""

import statistics
import sys
import tempfile
from collections.abc import Iterator
from pathlib import Path

import nbformat
from playwright.sync_api import Page, sync_playwright

from coachlib.opener import server as servers
from coachlib.opener.run import run_notebook
from coachlib.opener.server import Server
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

N_BALLS = 20
NAME = "bench.ipynb"
CELL = """import coachlib as cl
from coachlib.records.logbook import Logbook
from coachlib.views.panels import LaneSide
bowler, line = cl.Bowler(hand="right"), cl.Line(feet_board=22, target_board=11)
LaneSide(Logbook({log!r}), cl.Session(bowler=bowler, line=line))
"""
# Mark an arrival, let the page settle, press the button, and wait until the answer has changed and is drawn.
READ_SHOT = """async (arrival) => {
  const form = document.querySelector("form.coach-entry");
  form.querySelector(`[data-field=arrival] input[value=${arrival}]`).click();
  await new Promise((done) => setTimeout(done, 300));
  const answer = document.querySelector(".coach-answer-block");
  const changed = new Promise((done) => new MutationObserver((_, seen) => { seen.disconnect(); done(); })
    .observe(answer, {childList: true, subtree: true, characterData: true, attributes: true}));
  const start = performance.now();
  form.requestSubmit();
  await changed;
  await new Promise(requestAnimationFrame);
  return performance.now() - start;
}"""


def figures() -> Iterator[tuple[str, float, str, str]]:
    """Yield the time of an update and the bytes that the page loads, in the notebook and as a page."""
    executable = find_chromium()
    if executable is None:
        print(f"# panel skipped: {NO_CHROMIUM}")
        return
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=executable, args=["--no-sandbox"])
        server = _started(Path(folder))
        try:
            page = chromium.new_page(viewport={"width": 1280, "height": 800})
            loaded = _count_bytes(page)
            page.goto(server.url(f"doc/tree/{NAME}"))
            page.locator("form.coach-entry").wait_for()
            page.wait_for_timeout(2000)
            yield "page_loads", sum(loaded) / 1e6, "MB", "all that the notebook's page asks for, cold cache"
            waits_ms = [_read_shot_ms(page, number) for number in range(N_BALLS)]
            page.get_by_text(f"{N_BALLS} balls logged").wait_for()  # otherwise something else was measured
            yield (
                "panel_update",
                statistics.median(waits_ms),
                "ms",
                f"shot read to answer drawn, median of {N_BALLS}",
            )
            yield "panel_update_max", max(waits_ms), "ms", f"the slowest of {N_BALLS}"
        finally:
            servers.stop(server)
            chromium.close()


def _started(folder: Path) -> Server:
    """Start a server on `folder` and run a notebook with a running session in it."""
    cell = nbformat.v4.new_code_cell(CELL.format(log=str(folder / "log.sqlite")))
    server = servers.start_lab(
        folder, NAME, "127.0.0.1", servers.any_port("127.0.0.1"), "a-token-for-benchmarks"
    )
    nbformat.write(nbformat.v4.new_notebook(cells=[cell]), folder / NAME)
    servers.wait_until_ready(server)
    problem = run_notebook(server, folder, NAME)
    if problem:
        servers.stop(server)
        sys.exit(problem)
    return server


def _read_shot_ms(page: Page, number: int) -> float:
    return float(page.evaluate(READ_SHOT, ("high", "pocket", "light")[number % 3]))


def _count_bytes(page: Page) -> list[float]:
    """Return a list that grows by the bytes on the wire of each answer."""
    sizes: list[float] = []
    wire = page.context.new_cdp_session(page)
    wire.send("Network.enable")
    wire.on("Network.loadingFinished", lambda event: sizes.append(event["encodedDataLength"]))
    return sizes
