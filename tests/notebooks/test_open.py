"""`python -m coachlib` brings a live panel with no cell to press, and the page for a tablet needs its token.

All checks are about our own promises (README, "two commands"); no outside source.
"""

import signal
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from urllib.parse import urlsplit

import psutil
import pytest
from playwright.sync_api import Browser, Page

from tests.notebooks.conftest import Guards

# `browser` comes first in a test, so that it skips before a server starts; `open_page` last, so that its
# pages close before their server stops.
pytestmark = pytest.mark.browser
OpenPage = Callable[..., tuple[Page, Guards]]


@dataclass
class Opener:
    """A running `python -m coachlib`."""

    process: subprocess.Popen[str]
    url: str
    said: str


def _start(folder: Path, *options: str) -> Opener:
    """Start the command and wait for the line with the address."""
    command = [sys.executable, "-m", "coachlib", "--no-browser", "--folder", str(folder), *options]
    process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True)
    too_late = threading.Timer(90, process.kill)
    too_late.start()
    said = ""
    for line in process.stdout or ():
        said += line
        if "Stop:" in line:
            break
    too_late.cancel()
    urls = [word for word in said.split() if word.startswith("http://127.0.0.1")]
    assert urls, f"no address was printed: {said}"
    return Opener(process, urls[0], said)


@pytest.fixture
def start_opener(tmp_path: Path) -> Iterator[Callable[..., Opener]]:
    """Return a function that starts the command; it is stopped after the test, as by Ctrl-C."""
    started: list[Opener] = []

    def start_one(*options: str) -> Opener:
        started.append(_start(tmp_path / "live", *options))
        return started[-1]

    yield start_one
    for opener in started:
        opener.process.send_signal(signal.SIGINT)
    for opener in started:
        opener.process.communicate(timeout=30)


def test_one_command_brings_the_live_panel_and_stops_clean(
    browser: Browser, start_opener: Callable[..., Opener], open_page: OpenPage
) -> None:
    """The panel is there without Run, also after a reload and in a second window; Ctrl-C ends it all."""
    opener = start_opener("--notebook", "10_lane_side")
    page, _ = open_page("laptop")
    page.goto(opener.url)
    page.locator(".coach").first.wait_for()
    page.reload()
    page.locator(".coach").first.wait_for()
    second, _ = open_page("tablet", touch=True)
    second.goto(opener.url)
    second.locator(".coach").first.wait_for()
    assert second.locator(".jupyter-widgets-disconnected").count() == 0
    below = psutil.Process(opener.process.pid).children(recursive=True)
    assert len(below) >= 2, "a server and a kernel were expected"
    page.context.close()  # a page left open would tell of the refused connection
    second.context.close()
    opener.process.send_signal(signal.SIGINT)
    assert opener.process.wait(timeout=30) == 0
    _, alive = psutil.wait_procs(below, timeout=10)
    assert alive == []


def test_a_second_start_takes_another_port_and_folder(
    start_opener: Callable[..., Opener], tmp_path: Path
) -> None:
    first, second = start_opener(), start_opener()
    assert urlsplit(first.url).port != urlsplit(second.url).port
    assert (tmp_path / "live-2" / "10_lane_side.ipynb").is_file()


def test_the_page_for_a_tablet_opens_with_its_token_only(
    browser: Browser, start_opener: Callable[..., Opener], open_page: OpenPage
) -> None:
    opener = start_opener("--app", "--notebook", "10_lane_side")
    assert "Careful" not in opener.said
    page, _ = open_page("tablet", touch=True)
    for refused in ("", "?token=wrong"):
        page.goto(opener.url.split("?")[0] + refused)
        assert "/login" in page.url
        assert page.locator(".coach").count() == 0
    page.goto(opener.url)
    page.locator(".coach").first.wait_for()


def test_more_than_this_machine_is_said_in_plain_words(start_opener: Callable[..., Opener]) -> None:
    opener = start_opener("--app", "--host", "0.0.0.0")
    assert "every device in this network can reach port" in opener.said
    assert "not encrypted" in opener.said
