"""The lane-side panel in a browser: by tap, by key, at three sizes, for both hands.

The promises tested are the panel's own: six taps a shot, keyboard alone, nothing lost when the kernel dies.
44 px for a finger: WCAG 2.2, success criterion 2.5.5 "Target size (enhanced)". Accessibility is checked by
axe-core. The bowlers are invented.
"""

import re
from dataclasses import dataclass
from typing import Any

import psutil
import pytest
from playwright.sync_api import Browser, Locator, expect

from coachlib.opener.server import Server
from tests.notebooks.conftest import READY_MS, OpenedPanel, OpenPanel

pytestmark = pytest.mark.browser

N_BOARDS_SHOWN = 9
MOST_TAPS = 6
FINGER_PX = 44
MODEL_MS = 120_000


@dataclass
class Coach:
    """Somebody who uses the panel by tapping and counts the taps."""

    panel: OpenedPanel
    hand: str = "right"
    touch: bool = False
    n_taps: int = 0

    @property
    def root(self) -> Locator:
        return self.panel.root

    def tap(self, target: Locator, **place: Any) -> None:
        self.n_taps += 1
        (target.tap if self.touch else target.click)(**place)

    def button(self, name: str) -> Locator:
        return self.root.get_by_role("button", name=name, exact=True)

    def start(self, name: str = "Maija", lanes: str = "7 8") -> None:
        self.root.get_by_role("radio", name=self.hand, exact=True).check()
        self.root.get_by_label("Feet on board").fill("22")
        self.root.get_by_label("Target board").fill("12")
        self.root.get_by_label("Name or alias").fill(name)
        self.root.get_by_text("Lane, oil and ball").click()
        self.root.get_by_label("Lane, or the two").fill(lanes)
        self.button("Start").click()
        expect(self.button("Read this shot")).to_be_visible()

    def tab(self, name: str) -> None:
        """On a phone the parts of the form stand behind tabs."""
        tab = self.root.locator(f".coach-tabs [data-tab={name}]")
        if tab.is_visible() and tab.get_attribute("aria-pressed") != "true":
            self.tap(tab)

    def cross(self, board: float, target: int = 12) -> None:
        self.tab("crossed")
        strip = self.root.locator(".coach-strip")
        box = strip.bounding_box()
        assert box is not None
        from_left = (target + 4 - board) if self.hand == "right" else board - (target - 4)
        x = (from_left + 0.5) / N_BOARDS_SHOWN * box["width"]
        self.tap(strip, position={"x": x, "y": box["height"] / 3})

    def arrive(self, name: str) -> None:
        self.tab("arrival")
        self.tap(self.root.get_by_role("radio", name=name, exact=True))

    def leave(self, *pins: int) -> None:
        self.tab("leave")
        for pin in pins:
            self.tap(self.root.get_by_role("checkbox", name=f"pin {pin}", exact=True))
        if not pins:
            self.tap(self.button("all down"))

    def read(self, ball: int) -> None:
        self.tap(self.button("Read this shot"))
        expect(self.root.get_by_text(f"Ball {ball} is read.")).to_be_visible()

    def next_ball(self) -> None:
        """No spare was thrown: the next first ball."""
        self.button("Next first ball").click()
        expect(self.root.locator(".coach-spare")).to_be_hidden()

    def fold_open(self, words: str) -> None:
        self.root.locator("summary").get_by_text(words).click()

    def row(self, number: int) -> Locator:
        """Return a row of the list of balls, the newest first."""
        return self.root.locator("tbody tr").nth(number)

    def both_voices(self) -> None:
        """Wait until the model speaks too; how long that takes is the benchmark's business."""
        expect(self.root.locator(".coach-lane .count").first).to_be_visible(timeout=MODEL_MS)

    def headline(self) -> str:
        return self.root.locator(".coach-headline").inner_text()


@pytest.mark.parametrize(
    ("size", "hand", "pin"),
    [("laptop", "right", 4), ("tablet", "left", 6), ("phone", "right", 4), ("phone", "left", 6)],
)
def test_three_shots_undo_nonsense_and_the_move(
    browser: Browser, open_panel: OpenPanel, size: str, hand: str, pin: int
) -> None:
    panel = open_panel(size, touch=size != "laptop")
    coach = Coach(panel, hand, touch=size != "laptop")
    coach.start()
    coach.both_voices()
    panel.screenshot(f"lane_side-{size}-{hand}-before")
    for ball, board in enumerate((12.0, 12.5, 12.0), start=1):
        coach.n_taps = 0
        coach.cross(board)
        coach.arrive("nose")
        coach.leave(pin, 10 if hand == "right" else 7)
        coach.read(ball)
        assert coach.n_taps <= MOST_TAPS
        if ball < 3:
            coach.next_ball()
    inside = "left" if hand == "right" else "right"
    assert inside in coach.headline()
    expect(coach.root.locator(".coach-spoken").first).to_contain_text(coach.headline())
    expect(coach.row(0)).to_contain_text("12 · nose")
    _check_both_voices(coach)
    assert panel.axe_violations() == []
    panel.screenshot(f"lane_side-{size}-{hand}-read")

    coach.button("Undo").click()
    expect(coach.root.locator(".coach-entry").get_by_text("Ball 3, lane 7", exact=True)).to_be_visible()
    expect(coach.root.get_by_label("Crossing, board number")).to_have_value("12")
    coach.tab("leave")
    coach.root.get_by_label("Pins left, typed").fill("4 11")
    coach.button("Read this shot").click()
    told = coach.root.get_by_text("11 is no pin from 1 to 10.")
    expect(told).to_be_visible()
    expect(coach.root.get_by_label("Pins left, typed")).to_have_value("4 11")
    expect(coach.root.get_by_label("Pins left, typed")).to_have_attribute("aria-invalid", "true")
    panel.screenshot(f"lane_side-{size}-{hand}-error")
    assert panel.axe_violations() == []
    coach.root.get_by_label("Pins left, typed").fill(f"{pin}")
    coach.read(3)
    expect(told).to_be_hidden()

    coach.root.get_by_role("button", name="Move: feet").click()
    expect(coach.root.get_by_text("Lane 7, ready for ball 4")).to_be_visible()
    expect(coach.row(0)).to_contain_text("Changed: Feet")
    coach.button("Lane 8").click()
    expect(coach.root.locator(".coach-headline")).to_have_text(coach.headline())
    expect(coach.button("Lane 8")).to_have_attribute("aria-pressed", "true")
    is_too_wide = (
        "() => { const p = document.querySelector('.coach'); return p.scrollWidth > p.clientWidth + 1; }"
    )
    assert not panel.page.evaluate(is_too_wide)


def _check_both_voices(coach: Coach) -> None:
    """Check what is drawn of an answer that moves: now and then, the bracket, the trend, and their words."""
    counts = coach.root.locator(".coach-lane .count:visible")
    expect(counts.first).to_contain_text("now")
    expect(counts.last).to_contain_text("next")
    for name, words in (("now", counts.first.text_content()), ("then", counts.last.text_content())):
        dots = coach.root.locator(f".coach-lane .dots-{name}")
        n_hollow, n_filled = (dots.nth(i).get_attribute("d").count("M") for i in (0, 1))
        assert n_filled == int(words.split()[1])
        assert n_hollow + n_filled == 20
    expect(coach.root.locator(".coach-gain")).to_contain_text(str(n_filled))
    coach.fold_open("Other moves and why")
    expect(coach.root.get_by_role("img", name="Bowler or lane: ")).to_be_visible()
    expect(coach.root.get_by_role("img", name="Hits on lane 7, oldest first: ball 1")).to_be_visible()
    expect(coach.root.get_by_text("Other moves", exact=True)).to_be_visible()
    coach.fold_open("Other moves and why")


def test_back_to_the_last_line_that_worked(browser: Browser, open_panel: OpenPanel) -> None:
    coach = Coach(open_panel())
    coach.start()
    coach.both_voices()
    coach.arrive("pocket")
    coach.leave()
    coach.read(1)
    back = coach.root.get_by_role("button", name="Back to the last line that worked")
    expect(back).to_be_hidden()
    coach.root.get_by_role("button", name="Change who").click()
    coach.root.get_by_label("Feet on board").fill("25")
    coach.button("Save").click()
    expect(back).to_have_text("Back to the last line that worked: feet 22, target 12")
    back.focus()
    coach.panel.page.keyboard.press("Enter")
    expect(coach.root.locator(".coach-headline")).to_have_text("Feet 22, target 12")
    expect(back).to_be_hidden()
    expect(coach.root.locator(".coach-strip")).to_be_focused()
    expect(coach.row(0)).to_contain_text("Changed: Feet 22, target 12")


def test_what_does_not_fit_is_named_and_its_ball_opens_to_be_corrected(
    browser: Browser, open_panel: OpenPanel
) -> None:
    coach = Coach(open_panel())
    coach.start()
    coach.both_voices()
    coach.root.get_by_label("Crossing, board number").fill("5")  # seven boards outside, and yet the nose
    coach.arrive("nose")
    coach.leave(10)
    coach.read(1)
    note = coach.root.locator(".coach-odd")
    expect(note).to_contain_text("One thing does not fit the other balls: where it crossed (board 5)")
    assert coach.panel.axe_violations() == []
    note.get_by_role("button", name="Correct ball 1").click()
    expect(coach.root.get_by_text("Correct ball 1, lane 7")).to_be_visible()
    expect(coach.root.get_by_label("Crossing, board number")).to_have_value("5")


def test_the_ball_read_stays_until_the_first_tap_for_the_next_one(
    browser: Browser, open_panel: OpenPanel
) -> None:
    coach = Coach(open_panel())
    coach.start()
    coach.cross(13)
    coach.arrive("high")
    coach.leave(4)
    marked = coach.root.locator(".coach-pin").filter(has=coach.panel.page.get_by_label("pin 4"))
    expect(marked.locator("span")).to_have_css("border-style", "solid")
    coach.read(1)
    coach.next_ball()
    expect(marked.locator("span")).to_have_css("border-style", "dashed")  # read: no longer what will be sent
    crossing = coach.root.get_by_label("Crossing, board number")
    expect(crossing).to_have_value("13")
    coach.button("Read this shot").click()
    expect(coach.root.get_by_text("Ball 1 is read already")).to_be_visible()
    coach.leave(4)
    expect(crossing).to_have_value("")
    expect(coach.root.get_by_role("checkbox", name="pin 4", exact=True)).to_be_checked()
    expect(coach.root.get_by_role("radio", name="high", exact=True)).not_to_be_checked()
    coach.read(2)
    coach.fold_open("Balls so far")
    coach.root.get_by_role("button", name="Correct ball 1").click()
    expect(crossing).to_have_value("13")
    coach.arrive("nose")
    coach.button("Save ball 1").click()
    expect(coach.row(1)).to_contain_text("13 · nose · pins 4")


@pytest.mark.parametrize("size", ["laptop", "tablet", "phone"])
def test_start_shows_answer_and_form(browser: Browser, open_panel: OpenPanel, size: str) -> None:
    coach = Coach(open_panel(size))
    for drawer in ("How they throw", "Health and who we speak to"):
        coach.root.get_by_text(drawer).click()
    coach.start()
    expect(coach.root.locator(".coach-headline")).to_be_in_viewport(ratio=1)
    expect(coach.root.locator(".coach-strip")).to_be_in_viewport(ratio=1)
    expect(coach.root.locator(".coach-strip")).to_be_focused()
    coach.root.get_by_role("button", name="Change who").click()
    coach.root.get_by_text("How they throw").scroll_into_view_if_needed()
    coach.button("Save").click()
    expect(coach.root.locator(".coach-headline")).to_be_in_viewport(ratio=1)
    expect(coach.root.locator(".coach-strip")).to_be_in_viewport(ratio=1)


def test_of_tile_and_board_of_arrival_the_last_one_said_holds(
    browser: Browser, open_panel: OpenPanel
) -> None:
    coach = Coach(open_panel())
    coach.start()
    tile, board = (
        coach.root.get_by_role("radio", name="high", exact=True),
        coach.root.get_by_label("Or type the board"),
    )
    coach.root.get_by_text("More: turn, speed").click()
    board.fill("17")
    coach.arrive("high")
    expect(board).to_have_value("")
    expect(tile).to_be_checked()
    board.fill("16")
    board.press("Tab")
    expect(tile).not_to_be_checked()
    coach.read(1)
    expect(coach.row(0)).to_contain_text("16")


@pytest.mark.parametrize("hand", ["right", "left"])
def test_by_keyboard_alone(browser: Browser, open_panel: OpenPanel, hand: str) -> None:
    panel = open_panel()
    page, root = panel.page, panel.root
    panel.expect_all_cells()
    root.get_by_role("radio", name="right", exact=True).focus()
    page.keyboard.press("ArrowLeft" if hand == "left" else "Space")
    page.keyboard.press("Tab")
    page.keyboard.type("22")
    page.keyboard.press("Tab")
    page.keyboard.type("12")
    page.keyboard.press("Enter")
    expect(root.get_by_role("button", name="Read this shot")).to_be_visible()
    strip = root.get_by_role("slider", name="Tap where it crossed, 15 ft")
    expect(strip).to_be_focused()
    page.keyboard.press("b")  # the notebook's key for a new cell, d d for deleting the panel
    page.keyboard.press("d")
    page.keyboard.press("d")
    page.keyboard.press("ArrowLeft")
    board = "12½" if hand == "right" else "11½"
    expect(strip).to_have_attribute("aria-valuetext", f"{board}, ½ left of target")
    for _ in range(4):
        page.keyboard.press("Tab")
    first = "past the head pin" if hand == "right" else "gutter ball, all ten stand"
    page.keyboard.press("Space")
    expect(root.get_by_role("radio", name=first, exact=True)).to_be_checked()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    page.keyboard.press("Tab")
    expect(root.get_by_role("checkbox", name="pin 7", exact=True)).to_be_focused()
    page.keyboard.press("4")
    page.keyboard.press("0")
    expect(root.get_by_label("Pins left, typed")).to_have_value("4 10")
    page.keyboard.press("Enter")
    expect(root.get_by_text("Ball 1 is read.")).to_be_visible()
    arrival = "high" if hand == "right" else "light"
    expect(root.locator("tbody tr").first).to_contain_text(f"{board} · {arrival} · pins 4 10")
    made = root.get_by_role("button", name="made", exact=True)
    expect(made).to_be_focused()  # the spare is asked for
    page.keyboard.press("ArrowRight")
    expect(root.get_by_role("button", name="missed right", exact=True)).to_be_focused()
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("Enter")
    expect(root.locator("tbody tr").first).to_contain_text("spare ball · all down")
    expect(strip).to_be_focused()  # where the next ball begins, by its number
    page.keyboard.type("13.5")
    page.keyboard.press("Enter")
    expect(root.locator("tbody tr").first).to_contain_text("13½")
    panel.expect_all_cells()
    assert root.is_visible()


def test_the_spare_asks_for_the_pins_of_the_ball_as_it_stands(
    browser: Browser, open_panel: OpenPanel
) -> None:
    coach = Coach(open_panel())
    coach.start()
    coach.arrive("light")
    coach.leave(2, 4, 5)
    coach.read(1)
    marks = coach.root.locator(".coach-spare input")
    expect(marks).to_have_count(3)
    coach.fold_open("Balls so far")
    coach.root.get_by_role("button", name="Correct ball 1").click()
    coach.leave(8)
    coach.button("Save ball 1").click()
    expect(marks).to_have_count(4)
    coach.button("Undo").click()
    expect(marks).to_have_count(3)
    coach.button("missed left").click()
    expect(coach.root.locator("tbody tr").first).to_contain_text("spare ball")


def test_a_finger_finds_every_control(browser: Browser, open_panel: OpenPanel) -> None:
    panel = open_panel("phone", touch=True)
    coach = Coach(panel, touch=True)
    coach.start()
    small = panel.page.evaluate(
        """(least) => [...document.querySelectorAll(
             '.coach :is(button, a, .coach-tile, .coach-pin, summary, select, .coach-strip, [type=text])')]
           .filter((node) => node.getClientRects().length)
           .map((node) => [node.textContent || node.name, node.getBoundingClientRect()])
           .filter(([, box]) => box.width < least - .5 || box.height < least - .5)
           .map(([name, box]) => `${name}: ${box.width} x ${box.height}`)""",
        FINGER_PX,
    )
    assert small == []


def test_dark_theme_is_readable(browser: Browser, open_panel: OpenPanel, lab_server: Server) -> None:
    setting = "lab/api/settings/@jupyterlab/apputils-extension:themes"
    lab_server.call("PUT", setting, {"raw": '{"theme": "JupyterLab Dark"}'})
    try:
        panel = open_panel("tablet")
        coach = Coach(panel, "left")
        coach.start(name="Oskar")
        coach.both_voices()
        coach.cross(14)
        coach.arrive("nose")
        coach.leave(4, 6, 7, 10)
        coach.read(1)
        panel.screenshot("lane_side-tablet-left-dark")
        assert panel.page.evaluate("document.body.dataset.jpThemeLight") == "false"
        assert panel.axe_violations() == []
    finally:
        lab_server.call("PUT", setting, {"raw": "{}"})


def test_what_a_person_typed_is_shown_as_text(browser: Browser, open_panel: OpenPanel) -> None:
    coach = Coach(open_panel())
    name = "<img src=x onerror=alert(1)>"
    coach.start(name=name)
    expect(coach.root.locator(".coach-who")).to_contain_text(name)
    coach.root.get_by_text("More: turn, speed").click()
    coach.root.get_by_label("Note").fill(name)
    coach.leave()
    coach.read(1)
    expect(coach.row(0)).to_contain_text(name)
    assert coach.root.locator("img").count() == 0


def _kill_kernel(server: Server, name: str) -> None:
    """Kill the process of the kernel that runs a notebook, without a chance to tidy up."""
    ids = [ses["kernel"]["id"] for ses in server.call("GET", "api/sessions") if ses["path"] == name]
    assert len(ids) == 1
    processes = [
        one for one in psutil.process_iter(["cmdline"]) if ids[0] in " ".join(one.info["cmdline"] or ())
    ]
    assert len(processes) == 1
    processes[0].kill()


def test_a_killed_kernel_loses_nothing(browser: Browser, open_panel: OpenPanel, lab_server: Server) -> None:
    panel = open_panel()
    coach = Coach(panel)
    coach.start()
    for ball in (1, 2):
        coach.cross(12)
        coach.arrive("light")
        coach.read(ball)
    expect(coach.root.get_by_text("ball 2 logged")).to_be_visible()
    _kill_kernel(lab_server, panel.name)
    dead = coach.root.and_(panel.page.locator(".jupyter-widgets-disconnected"))
    expect(dead).to_be_visible()
    told = "(node) => getComputedStyle(node, '::before').content"
    notice = coach.root.locator(".coach-entry .coach-send").evaluate(told)
    assert "Not connected: this ball will not be read. In the menu “Run” choose “Run All Cells”" in notice
    panel.page.get_by_role("button", name="Ok", exact=True).click()
    panel.page.get_by_role("menuitem", name="Run", exact=True).click()
    panel.page.get_by_role("menuitem", name="Run All Cells", exact=True).click()
    expect(coach.button("Go on")).to_be_visible(timeout=READY_MS)  # a new kernel starts

    again = Coach(open_panel(home=panel.home))
    expect(again.root.get_by_text("The last session was not ended: Maija, ball 2, lane 7")).to_be_visible()
    assert again.panel.axe_violations() == []
    again.button("Go on").click()
    expect(again.root.locator("tbody tr")).to_have_count(2)
    expect(again.root.get_by_text("Ball 2, lane 7")).to_be_visible()
    again.cross(12)
    again.arrive("light")
    again.read(3)
    again.button("End session").click()
    expect(again.root.get_by_role("heading", name="Maija, ")).to_be_focused()
    assert again.panel.axe_violations() == []
    again.button("Back to the lane").click()
    expect(again.root.locator(".coach-strip")).to_be_focused()
    again.button("End session").click()
    again.button("Done: end this session").click()
    expect(again.button("Start")).to_be_visible()


def test_the_summary_of_a_session_is_saved_as_a_page_to_print(
    browser: Browser, open_panel: OpenPanel
) -> None:
    coach = Coach(panel := open_panel())
    coach.start()
    coach.cross(12)
    coach.arrive("light")
    coach.read(1)
    coach.button("End session").click()
    with panel.page.expect_download() as saved:
        coach.button("Print this page").click()
    assert re.fullmatch(r"session Maija [\d-]{10}\.html", saved.value.suggested_filename)
    assert "<h2>Next start</h2>" in saved.value.path().read_text("utf-8")
    expect(coach.root.get_by_text(f"Saved as “{saved.value.suggested_filename}”")).to_be_visible()
    assert panel.axe_violations() == []
    panel.screenshot("session_end")
    coach.button("Back to the lane").click()
    expect(coach.root.locator(".coach-strip")).to_be_focused()


def test_a_new_session_puts_the_focus_on_the_first_field(browser: Browser, open_panel: OpenPanel) -> None:
    coach = Coach(panel := open_panel())
    coach.start()
    again = Coach(open_panel(home=panel.home))
    again.button("New session").focus()
    again.panel.page.keyboard.press("Enter")
    first = again.root.get_by_role("radio", name="left", exact=True)
    expect(first).to_be_focused()
    again.start()
    again.button("End session").click()  # no ball, no summary
    expect(first).to_be_focused()


def test_lanes_that_cannot_be_are_marked(browser: Browser, open_panel: OpenPanel) -> None:
    coach = Coach(open_panel())
    coach.root.get_by_text("Lane, oil and ball").click()
    lanes = coach.root.get_by_label("Lane, or the two")
    lanes.fill("7 8 9")
    coach.button("Start").click()
    expect(lanes).to_have_attribute("aria-invalid", "true")
    expect(coach.root.get_by_text("Type one lane, or the two of a pair, such as 7 8")).to_be_visible()


def test_sanding_is_folded_before_the_first_ball(browser: Browser, open_panel: OpenPanel) -> None:
    coach = Coach(open_panel())
    coach.root.get_by_text("Lane, oil and ball").click()
    coach.root.get_by_label("Oil pattern").select_option("long_44")
    coach.root.get_by_text("Lane, oil and ball").click()
    coach.start()
    mask = coach.root.locator("details").get_by_text("mask")
    expect(mask).to_be_hidden()
    expect(coach.root.locator(".coach-cautions").get_by_text("Never step past")).to_be_visible()
    coach.root.get_by_text("More cautions").click()
    expect(mask).to_be_visible()
    assert coach.panel.axe_violations() == []
    coach.panel.screenshot("folded_cautions")


def test_fifty_shots_leave_the_page_no_heavier_but_for_their_rows(
    browser: Browser, open_panel: OpenPanel
) -> None:
    panel = open_panel()
    coach = Coach(panel)
    coach.start()
    coach.both_voices()
    counts = []
    for round_ in range(25):
        coach.leave(4)
        coach.read(1)
        coach.button("Undo").click()
        expect(coach.root.locator("tbody tr")).to_have_count(0)
        coach.leave(4)  # taken back, so that the form is empty again
        if round_ in (0, 24):
            counts.append(panel.n_nodes())
    assert counts[0] == counts[1]
