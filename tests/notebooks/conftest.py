"""A notebook server and a system Chromium for the browser tests, with guards on every page.

A test asks for `open_panel` and gets a page on which the notebook already runs::

    def test_something(open_panel):
        panel = open_panel("laptop")
        panel.page.get_by_role("button", name="pin 7", exact=True).click()

At the end of the test each page must have asked for nothing outside this machine, thrown nothing, and
written no error to the console.
"""

import copy
import json
import shutil
import uuid
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

import nbformat
import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import (
    Browser,
    BrowserType,
    ConsoleMessage,
    Locator,
    Page,
    Request,
    expect,
    sync_playwright,
)

from coachlib.opener import folder as folders
from coachlib.opener import server as servers
from coachlib.opener.run import run_notebook
from coachlib.opener.server import Server
from tests.notebooks import layout
from tests.notebooks.chromium import NO_CHROMIUM, find_chromium

SIZES = {"laptop": (1280, 800), "tablet": (820, 1180), "phone": (390, 844)}
SCREENSHOTS = Path(__file__).parent / "screenshots"
NOTEBOOKS = Path(__file__).parents[2] / "notebooks"
READY_MS = 30_000
OVER_THE_NET = ("http", "https", "ws", "wss", "ftp")
PANEL_CELLS = {
    "10_lane_side": "LaneSide()",
    "20_students": "StudentsPanel()",
    "41_practice_lane": "PracticePanel()",
    "50_clinic": "Clinic()",
}
"""What the cell holds that shows a notebook's panel."""


@dataclass
class Guards:
    """What a page must not do: ask outside this machine, throw, or write errors to the console."""

    outside: list[str] = field(default_factory=list)
    errors: list[str] = field(default_factory=list)

    def watch(self, page: Page) -> None:
        """Record from now on; the browser itself refuses other machines, see :func:`_launch`."""
        page.context.on("request", self._request)
        page.on("pageerror", lambda error: self.errors.append(f"thrown: {error}"))
        page.on("console", self._console)

    def check(self) -> None:
        """Fail if anything was recorded."""
        assert self.outside == [], "the page asked for something outside this machine"
        assert self.errors == [], "the page had errors"

    def _request(self, request: Request) -> None:
        address = urlsplit(request.url)
        if address.scheme in OVER_THE_NET and address.hostname not in ("127.0.0.1", "localhost"):
            self.outside.append(request.url)

    def _console(self, message: ConsoleMessage) -> None:
        if message.type == "error":
            self.errors.append(f"{message.text} ({message.location.get('url', '')})")


@dataclass
class OpenedPanel:
    """A page on which a notebook runs live."""

    page: Page
    guards: Guards
    name: str
    home: Path

    @property
    def root(self) -> Locator:
        """Return the panel itself, without the notebook around it."""
        return self.page.locator(".coach").first

    def screenshot(self, name: str) -> Path:
        """Keep a picture of the page as build output and return where it is."""
        SCREENSHOTS.mkdir(exist_ok=True)
        path = SCREENSHOTS / f"{name}.png"
        self.page.screenshot(path=path)
        return path

    def axe_violations(self, selector: str = ".coach") -> list[str]:
        """Return what the accessibility checker finds inside `selector`: rule, how bad, where."""
        found = Axe().run(self.page, context={"include": [[selector]]}).response["violations"]
        return [f"{v['id']} ({v['impact']}): {node['target']}" for v in found for node in v["nodes"]]

    def cut_off(self, selector: str = ".coach") -> list[str]:
        """Return what of the words inside `selector` cannot be read, at the page's size and text size."""
        return layout.cut_off(self.page, selector)

    def expect_all_cells(self) -> None:
        """Wait for every cell of one of our notebooks: a key that it took would make or cut some."""
        stored = NOTEBOOKS / f"{self.name.rsplit('-', 1)[0]}.ipynb"
        cells = json.loads(stored.read_text(encoding="utf-8"))["cells"]
        expect(self.page.locator(".jp-Cell")).to_have_count(len(cells), timeout=READY_MS)

    def n_nodes(self) -> int:
        """Return how many elements the panel has, once two readings agree: it may still be drawing."""
        before, now = -1, self._n_nodes_now()
        while now != before:
            self.page.wait_for_timeout(200)
            before, now = now, self._n_nodes_now()
        return now

    def _n_nodes_now(self) -> int:
        return int(self.page.evaluate("() => document.querySelectorAll('.coach, .coach *').length"))


OpenPanel = Callable[..., OpenedPanel]
ScratchNotebook = Callable[[str, list[str]], str]


@pytest.fixture(scope="session")
def chromium_type() -> Iterator[BrowserType]:
    """Return what starts a Chromium; one for the whole run, since it may be started once only."""
    with sync_playwright() as playwright:
        yield playwright.chromium


@pytest.fixture(scope="session")
def browser(chromium_type: BrowserType) -> Iterator[Browser]:
    """Return the system's Chromium, or skip with the reason."""
    chromium = _launch(chromium_type)
    yield chromium
    chromium.close()


@pytest.fixture(scope="session")
def bare_browser(chromium_type: BrowserType, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Browser]:
    """Return a Chromium as on a bare machine: no font of a page is taken, and the system has one family."""
    files = layout.fallback_files()
    if not files:
        pytest.skip(layout.NO_FALLBACK)
    seen = layout.one_family(tmp_path_factory.mktemp("bare"), files)
    chromium = _launch(chromium_type, *layout.BARE_ARGUMENTS, env=seen)
    yield chromium
    chromium.close()


def _launch(chromium_type: BrowserType, *arguments: str, env: dict[str, str] | None = None) -> Browser:
    executable = find_chromium()
    if executable is None:
        pytest.skip(NO_CHROMIUM)
    offline = ["--no-sandbox", "--host-resolver-rules=MAP * ~NOTFOUND, EXCLUDE 127.0.0.1"]
    return chromium_type.launch(executable_path=executable, args=[*offline, *arguments], env=env)


@pytest.fixture(scope="session")
def lab_folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Return a working folder with a copy of the notebooks."""
    folder = tmp_path_factory.mktemp("lab")
    folders.copy_notebooks(folders.shipped_notebooks(), folder)
    return folder


@pytest.fixture(scope="session")
def lab_server(lab_folder: Path) -> Iterator[Server]:
    """Return a notebook server as `python -m coachlib` starts it."""
    port = servers.any_port("127.0.0.1")
    server = servers.start_lab(lab_folder, "127.0.0.1", port, "a-token-for-tests", n_warm=0)
    try:
        servers.wait_for_server(server)
        yield server
    finally:
        servers.stop(server)


@pytest.fixture
def open_page(browser: Browser) -> Iterator[Callable[..., tuple[Page, Guards]]]:
    """Return a function that gives a guarded, empty page: ``open_page(size="laptop", touch=False)``."""
    opened: list[tuple[Page, Guards]] = []

    def open_one(size: str = "laptop", touch: bool = False) -> tuple[Page, Guards]:
        width, height = SIZES[size]
        context = browser.new_context(viewport={"width": width, "height": height}, has_touch=touch)
        page, guards = context.new_page(), Guards()
        guards.watch(page)
        page.set_default_timeout(READY_MS)
        opened.append((page, guards))
        return page, guards

    yield open_one
    for page, _ in opened:
        page.context.close()
    for _, guards in opened:
        guards.check()


@pytest.fixture
def open_panel(
    lab_server: Server, lab_folder: Path, open_page: Callable[..., tuple[Page, Guards]], tmp_path: Path
) -> Iterator[OpenPanel]:
    """Return a function that runs a notebook in a fresh kernel and opens it.

    ``open_panel(size="laptop", touch=False, notebook="10_lane_side", home=None, wait=".coach")``; `home` is
    the folder that holds the person's records, empty unless an earlier panel's `home` is given. One of ours
    is run as far as its panel, the cells after it show what they stored: nbval runs them all.
    """
    opened: list[OpenedPanel] = []

    def open_one(
        size: str = "laptop",
        touch: bool = False,
        notebook: str = "10_lane_side",
        home: Path | None = None,
        wait: str = ".coach",
    ) -> OpenedPanel:
        home = home or tmp_path / f"home{len(opened)}"
        name = _copy_for_one_test(lab_folder, notebook)
        _point_kernels_to(lab_folder, home)
        problem = _run(lab_server, lab_folder, name, PANEL_CELLS.get(notebook, ""))
        assert problem is None, f"a cell of {notebook} failed: {problem}"
        page, guards = open_page(size, touch)
        page.goto(lab_server.url(f"doc/tree/{name}"))
        page.locator(wait).first.wait_for(state="visible")
        opened.append(OpenedPanel(page, guards, name, home))
        return opened[-1]

    yield open_one
    for panel in opened:
        end_kernels(lab_server, panel.name)


def end_kernels(server: Server, name: str) -> None:
    """Stop the kernel that runs the notebook `name`, as if it had been killed."""
    for session in server.call("GET", "api/sessions"):
        if session["path"] == name:
            server.call("DELETE", f"api/sessions/{session['id']}")


def _run(server: Server, folder: Path, name: str, until: str) -> str | None:
    """Run a notebook up to the cell that holds `until`, or whole; return what went wrong."""
    whole = nbformat.read(folder / name, as_version=4)
    n_run = next((n for n, cell in enumerate(whole.cells, 1) if until and until in cell.source), 0)
    if not n_run:
        assert not until, f"no cell of {name} holds {until!r}"
        return run_notebook(server, folder, name)
    part = copy.copy(whole)
    part.cells = whole.cells[:n_run]
    nbformat.write(part, folder / name)
    problem = run_notebook(server, folder, name)
    whole.cells[:n_run] = nbformat.read(folder / name, as_version=4).cells
    nbformat.write(whole, folder / name)
    folders.sign_notebook(folder, whole)
    return problem


def _copy_for_one_test(folder: Path, notebook: str) -> str:
    """Copy a notebook under a name of its own, so that each test has its own kernel and outputs."""
    name = f"{notebook}-{uuid.uuid4().hex[:8]}.ipynb"
    shutil.copyfile(folder / f"{notebook}.ipynb", folder / name)
    return name


def _point_kernels_to(folder: Path, home: Path) -> None:
    """Make the next kernel keep the person's records under `home`."""
    path = folder / ".jupyter" / "kernels" / "python3" / "kernel.json"
    spec: dict[str, Any] = json.loads(path.read_text(encoding="utf-8"))
    spec["env"] |= {"COACHLIB_DATA": str(home)}
    path.write_text(json.dumps(spec), encoding="utf-8")


@pytest.fixture
def scratch_notebook(lab_folder: Path) -> ScratchNotebook:
    """Return a function that writes a notebook of given cells beside the others and returns its name."""

    def write(name: str, cells: list[str]) -> str:
        code = [nbformat.v4.new_code_cell(source) for source in cells]
        nbformat.write(nbformat.v4.new_notebook(cells=code), lab_folder / f"{name}.ipynb")
        return name

    return write
