"""What a page costs: from the click to usable and to complete with a kernel waiting warm, and its memory.

Needs the system's Chromium; without one it yields nothing and says so.
"""

import tempfile
import time
from collections.abc import Iterator
from pathlib import Path

import psutil
from playwright.sync_api import Page, sync_playwright

from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from coachlib.views.front.doors import DOORS, LANE_SIDE, LESSON_DOORS, LESSONS
from tests.benchmarks.figures import Figure, elapsed_s
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

WARM_S, READY_MS = 12.0, 120_000
PANEL = ".coach:visible, .coach-try:visible, .coach-balls:visible, .stored"


def figures() -> Iterator[Figure]:
    """Yield the times of the front page and of every page, and the memory of those that run."""
    executable = find_chromium()
    if executable is None:
        print(f"# pages skipped: {NO_CHROMIUM}")
        return
    with tempfile.TemporaryDirectory() as name, sync_playwright() as playwright:
        folder = Path(name)
        folders.copy_notebooks(folders.shipped_notebooks(), folder)
        server = servers.start_lab(
            folder, "127.0.0.1", servers.any_port("127.0.0.1"), "a-token-for-benchmarks"
        )
        chromium = playwright.chromium.launch(executable_path=executable, args=["--no-sandbox"])
        try:
            servers.wait_for_server(server)
            yield from _pages(chromium.new_page(), server)
        finally:
            chromium.close()
            servers.stop(server)


def _pages(page: Page, server: servers.Server) -> Iterator[Figure]:
    page.set_default_timeout(READY_MS)
    yield "front_page", elapsed_s(page.goto, server.url(servers.FRONT)), "s", "from the address to loaded"
    for door in (LANE_SIDE, *DOORS, *LESSON_DOORS):
        if door.notebook == LESSONS:
            continue
        time.sleep(WARM_S)  # the next kernel warms
        start_s = time.perf_counter()
        page.goto(f"{server.base_url}/coach/page/{door.notebook}.ipynb")
        page.locator(PANEL).first.wait_for()
        usable_s = time.perf_counter() - start_s
        page.wait_for_load_state("networkidle")
        how = f"from the click to its panel or text; complete after {time.perf_counter() - start_s:.1f} s"
        yield f"page_{door.notebook}", usable_s, "s", how
        if "/voila/" in page.url:
            using = max(kernel.memory_info().rss for kernel in _kernels(server))
            yield f"page_{door.notebook}_memory", using / 2**20, "MiB", "of its kernel, at most 12 run"


def _kernels(server: servers.Server) -> list[psutil.Process]:
    children = psutil.Process(server.process.pid).children(recursive=True)
    return [child for child in children if "ipykernel_launcher" in " ".join(child.cmdline())]
