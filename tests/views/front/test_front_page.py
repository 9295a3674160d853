"""The front page: which session it offers, how the lane is drawn for both hands, where its doors lead.

Our own promises; no outside source.
"""

import re
from pathlib import Path

import pytest

from coachlib import Bowler, Line, Session, Shot
from coachlib.records import Logbook
from coachlib.views.front.doors import DOORS, LANE_SIDE, LESSON_DOORS, LESSONS, WORDS
from coachlib.views.front.front_page import LaneDrawing, front_page, lessons_page
from coachlib.views.look import shared
from coachlib.world.hand import Hand

PAGES = "coach/page/"


@pytest.fixture
def logbook(tmp_path: Path) -> Logbook:
    """Return an empty log."""
    return Logbook(tmp_path / "log.sqlite")


def _session(name: str = "Ilta", hand: Hand = "right") -> Session:
    return Session(Bowler(name=name, hand=hand), Line(25, 14), lane="7")


def test_without_a_session_one_is_begun(logbook: Logbook) -> None:
    page = front_page(logbook, PAGES)
    assert "Start a session" in page
    assert "Go on" not in page


def test_the_session_not_ended_is_offered_with_its_line_and_its_balls(logbook: Logbook) -> None:
    key = logbook.start(_session())
    logbook.append(key, "shot", {"shot": Shot(14, arrival="high")})
    page = " ".join(front_page(logbook, PAGES).split())
    assert "Ilta is on lane 7. Ball 1 is saved." in page
    assert "feet 25, target 14" in page
    assert f'href="{PAGES}{LANE_SIDE.notebook}.ipynb#go-on">Go on with Ilta' in page
    logbook.close(key)
    assert "Start a session" in front_page(logbook, PAGES)


def test_half_boards_are_written_as_on_the_panel(logbook: Logbook) -> None:
    logbook.start(Session(Bowler(), Line(25.5, 14.5)))
    page = front_page(logbook, PAGES)
    assert "feet 25½, target 14½" in page
    assert "25.5" not in page.split("</style>")[1].split("<svg")[0]


def test_a_name_is_text_and_no_name_is_no_riddle(logbook: Logbook) -> None:
    logbook.start(_session("<script>alert"))
    page = front_page(logbook, PAGES)
    assert "<script>alert" not in page
    assert "&lt;script&gt;alert" in page
    logbook.start(_session(""))
    assert "A bowler without a name is on lane 7" in front_page(logbook, PAGES)


def test_a_log_that_cannot_be_read_is_said_and_every_door_stays(tmp_path: Path) -> None:
    damaged = tmp_path / "log.sqlite"
    damaged.write_text("no database", encoding="utf-8")
    page = front_page(Logbook(damaged), PAGES)
    assert "Your log cannot be read" in page
    assert all(door.title in page for door in DOORS)


@pytest.mark.parametrize(("hand", "pin_on_top"), [("right", 7), ("left", 7)])
def test_the_lane_is_drawn_as_seen_left_is_up(hand: Hand, pin_on_top: int) -> None:
    """Pins are numbered alike for both hands: the 7-pin stands on the left."""
    lane = LaneDrawing(_session(hand=hand))
    assert min(lane.pins, key=lambda pin: pin[2])[0] == pin_on_top
    feet_from_top, middle = lane.feet_px, lane.lane_px / 2
    assert (feet_from_top < middle) is (hand == "right"), (
        "board 25 lies left of the middle for a right-hander"
    )


def test_the_other_hand_is_the_mirror_image() -> None:
    right, left = LaneDrawing(_session(hand="right")), LaneDrawing(_session(hand="left"))
    for (x, y), (other_x, other_y) in zip(right.line, left.line, strict=True):
        assert x == other_x
        assert y == pytest.approx(right.lane_px - other_y, abs=0.6)


def test_every_door_leads_to_a_shipped_notebook(repository: Path) -> None:
    named = [door.notebook for door in (LANE_SIDE, WORDS, *DOORS, *LESSON_DOORS) if door.notebook != LESSONS]
    shipped = {path.stem for path in (repository / "notebooks").glob("*.ipynb")}
    assert sorted(named) == sorted(shipped)


def test_the_pages_fetch_nothing_and_hold_no_program_but_the_switches_of_their_look(logbook: Logbook) -> None:
    for page in (front_page(logbook, PAGES), lessons_page("page/")):
        for part in ("page_look.html", "page_switches.html"):
            assert page.count(shared(part)) == 1
            page = page.replace(shared(part), "")
        assert re.findall(r"<script|https?://", page) == []


def test_the_look_is_chosen_before_anything_is_drawn(logbook: Logbook) -> None:
    for page in (front_page(logbook, PAGES), lessons_page("page/")):
        assert page.index(shared("page_look.html")) < page.index("<style>") < page.index("<body>")
