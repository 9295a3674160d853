"""What the panel costs in a browser: from "Read this shot" to the new answer, and what the page loads.

Needs the system's Chromium; without one it yields nothing and says so.
"""

import contextlib
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
from coachlib.records.log.logbook import Logbook
from tests.benchmarks.figures import Figure
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

N_BALLS = 20
NAME = "bench.ipynb"
LOG = "log.sqlite"
CELL = """import coachlib as cl
from coachlib.records.log.logbook import Logbook
from coachlib.views.panels import LaneSide
bowler, line = cl.Bowler(hand="right"), cl.Line(feet_board=22, target_board=11)
LaneSide(Logbook({log!r}), cl.Session(bowler=bowler, line=line))
"""
# Mark an arrival, let the page settle, press the button, wait for the frame that shows this ball's answer.
READ_SHOT = """async ([arrival, number]) => {
  const form = document.querySelector("form.coach-entry");
  const answer = document.querySelector('section[aria-label="Answer"]');
  const isAnswered = () => answer.textContent.includes(`Ball ${number}, lane`);
  form.querySelector(`[data-field=arrival] input[value=${arrival}]`).click();
  await new Promise((done) => setTimeout(done, 300));
  if (isAnswered()) throw new Error(`ball ${number} is answered before it was read`);
  const start = performance.now();
  form.requestSubmit();
  while (!isAnswered()) {
    if (performance.now() - start > 10000) throw new Error(`no answer to ball ${number} after 10 s`);
    await new Promise(requestAnimationFrame);
  }
  await new Promise(requestAnimationFrame);
  return performance.now() - start;
}"""


def figures() -> Iterator[Figure]:
    """Yield the time of an update and the bytes that the page loads, in the notebook and as a page."""
    executable = find_chromium()
    if executable is None:
        print(f"# panel skipped: {NO_CHROMIUM}")
        return
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        cell = CELL.format(log=str(folder / LOG))
        with notebook_page(executable, folder, cell) as (page, url):
            loaded = _count_bytes(page)
            page.goto(url)
            page.locator("form.coach-entry").wait_for()
            page.wait_for_timeout(2000)
            page.locator('section[aria-label="Answer"]').wait_for(timeout=120_000)
            yield "page_loads", sum(loaded) / 1e6, "MB", "all that the notebook's page asks for, cold cache"
            waits_ms = [_read_shot_ms(page, number) for number in range(N_BALLS)]
            _check_log(folder / LOG)
            how = f"shot read to answer of both voices drawn, median of {N_BALLS}"
            yield "panel_update", statistics.median(waits_ms), "ms", how
            yield "panel_update_max", max(waits_ms), "ms", f"the slowest of {N_BALLS}"


@contextlib.contextmanager
def notebook_page(executable: str, folder: Path, source: str) -> Iterator[tuple[Page, str]]:
    """Yield an empty page, and the address of a notebook of one cell that runs on a server of its own."""
    with sync_playwright() as playwright:
        chromium = playwright.chromium.launch(executable_path=executable, args=["--no-sandbox"])
        server = _start_notebook(folder, source)
        try:
            yield chromium.new_page(viewport={"width": 1280, "height": 800}), server.url(f"doc/tree/{NAME}")
        finally:
            servers.stop(server)
            chromium.close()


def _start_notebook(folder: Path, source: str) -> Server:
    cell = nbformat.v4.new_code_cell(source)
    port = servers.any_port("127.0.0.1")
    server = servers.start_lab(folder, "127.0.0.1", port, "a-token-for-benchmarks", n_warm=0)
    nbformat.write(nbformat.v4.new_notebook(cells=[cell]), folder / NAME)
    servers.wait_for_server(server)
    problem = run_notebook(server, folder, NAME)
    if problem:
        servers.stop(server)
        sys.exit(problem)
    return server


def _read_shot_ms(page: Page, number: int) -> float:
    arrival = ("high", "pocket", "light")[number % 3]
    return float(page.evaluate(READ_SHOT, [arrival, number + 1]))


def _check_log(path: Path) -> None:
    """Stop if the log does not hold every ball: then something else was measured."""
    n_shots = Logbook(path).sessions()[0].n_shots
    if n_shots != N_BALLS:
        sys.exit(f"the log holds {n_shots} balls; expected {N_BALLS}, so the times are not of balls read")


def _count_bytes(page: Page) -> list[float]:
    """Return a list that grows by the bytes on the wire of each answer."""
    sizes: list[float] = []
    wire = page.context.new_cdp_session(page)
    wire.send("Network.enable")
    wire.on("Network.loadingFinished", lambda event: sizes.append(event["encodedDataLength"]))
    return sizes
