"""Every panel can be read in the packed font and on a machine with one fallback font, also with larger text.

Checks of our own promises: nothing is cut off at 1280 × 800, 820 × 1180 and 390 × 844, with text at 100 % and
at 130 %, neither in the packed font nor, where it cannot load, in DejaVu Sans, the widest of the usual ones;
and in a room, with its larger type, at 1280 × 720.
"""

from collections.abc import Callable
from dataclasses import dataclass

import pytest
from playwright.sync_api import Browser, Page, expect

from coachlib.opener.server import Server
from tests.notebooks.conftest import SIZES, OpenPanel, ScratchNotebook
from tests.notebooks.layout import cut_off, cut_off_anywhere

pytestmark = pytest.mark.browser

LANE_SIDE = """import coachlib as cl
from coachlib.views.panels import LaneSide
bowler = cl.Bowler(name="Maximiliane", hand={hand!r}, speed_mph=18.0, rev_rate_rpm=300.0)
session = cl.Session(bowler, cl.Line(22.5, 12.5), pattern=cl.load_pattern("house_41"), lane="7")
for crossed in (12.5, 13.0, 12.5):
    session = cl.observe(session, cl.Shot(crossed, arrival="high", leave=(4,)))
LaneSide(session=session)
"""
MOVES = """import coachlib as cl
from coachlib.views.panels.try_move.try_move import TryMove
TryMove(cl.Bowler(hand={hand!r}), cl.Line(24.5, 12.5), {pattern})
"""
COMPARE = """import coachlib as cl
from coachlib.views.panels.compare_balls.compare_balls import CompareBalls
bowler, ball = cl.load_bowler("club_left"), cl.load_ball("hybrid_2000")
CompareBalls(cl.Session(bowler=bowler, line=cl.Line(29, 16), ball=ball, pattern=cl.load_pattern("house_41")))
"""
SCORE = """import coachlib as cl
from coachlib.records import Logbook
from coachlib.views.panels import ScoreSheet
key = Logbook().start(cl.Session(cl.Bowler(name="Ada", hand="left"), cl.Line(22, 12)))
ScoreSheet()
"""


@dataclass(frozen=True)
class Panel:
    """A panel to look at: its notebook or the cell that shows it, and what is done in it, look by look."""

    root: str
    notebook: str = ""
    cell: str = ""
    steps: tuple[Callable[[Page], None], ...] = ()


def _open_all(page: Page) -> None:
    page.evaluate(
        "() => document.querySelectorAll('.coach details').forEach((part) => { part.open = true; })"
    )


def _in_a_room(page: Page, root: str) -> list[str]:
    """Return what cannot be read in a room, on a projector."""
    page.set_viewport_size({"width": 1280, "height": 720})
    page.evaluate("() => document.documentElement.toggleAttribute('data-room', true)")
    found = cut_off(page, root)
    page.evaluate("() => document.documentElement.toggleAttribute('data-room', false)")
    return found


def _start_practice(page: Page) -> None:
    page.get_by_label("Lane number").press("Enter")
    page.get_by_role("button", name="the rest of practice").press("Enter")
    page.get_by_role("button", name="Throw ten").press("Enter")
    expect(page.locator(".coach-thrown tbody tr")).to_have_count(14)


def _look_at_oskar(page: Page) -> None:
    page.get_by_label("Student", exact=True).select_option(label="Oskar, 3 sessions")
    expect(page.locator(".coach-work")).to_contain_text("Hitting the target")


def _look_at_the_end(page: Page) -> None:
    page.get_by_role("button", name="Last 20 ft").click()
    expect(page.locator(".coach-lane svg").get_by_text("40 ft", exact=True)).to_be_visible()


def _bowl_strikes(page: Page) -> None:
    for n in range(1, 4):
        page.get_by_role("button", name="Strike").click()
        expect(page.get_by_role("cell", name="X", exact=True)).to_have_count(n)


PANELS = {
    "lane side, before": Panel(".coach", "10_lane_side", steps=(_open_all,)),
    "lane side, right": Panel(".coach", cell=LANE_SIDE.format(hand="right"), steps=(_open_all,)),
    "lane side, left": Panel(".coach", cell=LANE_SIDE.format(hand="left"), steps=(_look_at_the_end,)),
    "practice": Panel(".coach", "41_practice_lane", steps=(_start_practice,)),
    "students": Panel(".coach", "20_students", steps=(_look_at_oskar, _open_all)),
    "clinic": Panel(".coach", "50_clinic"),
    "two balls": Panel(".coach-balls", cell=COMPARE),
    "moves on paper": Panel(".coach-try, .coach-lane", cell=MOVES.format(hand="right", pattern="")),
    "moves, simulated": Panel(
        ".coach-try, .coach-lane",
        cell=MOVES.format(hand="left", pattern="pattern=cl.load_pattern('house_41')"),
    ),
    "score sheet": Panel(".coach-score", cell=SCORE, steps=(_bowl_strikes,)),
}


@pytest.mark.parametrize("name", PANELS)
def test_nothing_is_cut_off_in_either_font(
    open_panel: OpenPanel,
    bare_browser: Browser,
    lab_server: Server,
    scratch_notebook: ScratchNotebook,
    name: str,
) -> None:
    panel = PANELS[name]
    notebook = panel.notebook or scratch_notebook(f"fits_{list(PANELS).index(name)}", [panel.cell])
    opened = open_panel("laptop", notebook=notebook, wait=panel.root)
    context = bare_browser.new_context(viewport={"width": 1280, "height": 800})
    bare = context.new_page()
    bare.goto(lab_server.url(f"doc/tree/{opened.name}"))
    bare.locator(panel.root).first.wait_for(state="visible")
    found = {}
    for n, step in enumerate((None, *panel.steps)):
        if step is _open_all:
            _open_all(bare)
        if step is not None:
            step(opened.page)
        for font, page in (("packed", opened.page), ("bare", bare)):
            page.locator(panel.root).first.scroll_into_view_if_needed()
            here = cut_off_anywhere(page, panel.root, SIZES)
            if in_a_room := _in_a_room(page, panel.root):
                here["room"] = in_a_room
            found |= {f"look {n}, {font} font, {where}": what for where, what in here.items()}
    context.close()
    assert found == {}
