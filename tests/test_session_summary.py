"""Leaving a session: a calm summary first, all of it from the log; nothing ends before it is said so.

What stands in it is the panel's own contract; counts are checked by hand. Bowlers are invented.
"""

import re

import pytest

from coachlib.records import Logbook
from coachlib.views.panels import LaneSide
from coachlib.views.panels.session_summary import NOTHING_YET, summary_look

START = {"name": "Ilta", "hand": "right", "feet": "22", "target": "12", "lanes": "7 8"}
HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
WIDE = {"crossed": "15", "arrival": "nose", "leave": "4 9"}
POCKET = {"crossed": "13", "arrival": "pocket", "leave": "10"}
STRIKE = {"crossed": "13", "arrival": "pocket", "leave": "all down"}


@pytest.fixture
def log(tmp_path):
    return Logbook(tmp_path / "log.sqlite")


@pytest.fixture
def panel(log):
    panel = LaneSide(log, model_on=False, is_strict=True)
    panel.set_up(START)
    return panel


def _evening(panel):
    """Three high, one wide of the target, a move, then three good balls: spares made, missed and made."""
    for shot in (HIGH, HIGH, HIGH, WIDE):
        panel.read(shot)
    panel.spare(5, "made")
    panel.set_up(START | {"feet": "24", "target": "13"})
    for shot, answer in ((STRIKE, None), (POCKET, "missed_right"), (POCKET, "made")):
        panel.read(shot)
        if answer:
            panel.spare(len(panel.session.shots) + 1, answer)


def test_it_says_what_was_thrown_and_whether_the_move_worked(panel, log):
    _evening(panel)
    look = summary_look(log, log.latest_open())
    assert look["title"].startswith("Ilta, ")
    assert "7 first balls, 1 strike" in look["about"]
    start, moved = look["lines"]
    assert (start["line"], start["count"]) == ("Feet 22, target 12", "0 of 4 in the pocket or a strike")
    assert (moved["head"], moved["line"]) == ("2 and 1 left", "Feet 24, target 13")
    assert moved["count"] == "3 of 3 in the pocket or a strike"
    assert moved["verdict"] == "The move helped: 0 of 4 before the move."
    assert look["worked"].startswith("What worked: 2 and 1 left")
    assert look["spares"] == [["one pin", 1, 2], ["two or more", 1, 1]]
    assert dict(look["causes"]["counts"]) == {
        "target missed": 1,
        "on target: the lane": 3,
        "crossing not noted": 0,
    }
    assert look["causes"]["words"] == "4 balls missed the pocket."
    assert len(look["trend"]["balls"]) == 7
    assert [move["before"] for move in look["trend"]["moves"]] == [4]
    assert all(look["one_thing"])
    assert look["next_start"][0] == "Feet 24, target 13"


def test_it_is_calm(panel, log):
    _evening(panel)
    look = summary_look(log, log.latest_open())
    words = " ".join(re.findall(r"[\w%]+", str({k: v for k, v in look.items() if k != "trend"}))).lower()
    assert not re.search(r"%|\b(score|average|percent|rank|better than|worse)\b", words)


def test_a_session_where_nothing_worked_says_so_kindly(panel, log):
    for _ in range(3):
        panel.read(HIGH)
    look = summary_look(log, log.latest_open())
    assert look["worked"] == f"{NOTHING_YET}."
    assert look["next_start"][0] == ""
    assert look["next_start"][1]


def test_a_move_that_did_not_help_is_not_called_one_that_did(panel, log):
    for _ in range(2):
        panel.read(STRIKE | {"crossed": "12"})
    panel.set_up(START | {"feet": "24", "target": "13"})
    for _ in range(2):
        panel.read(HIGH | {"crossed": "13"})
    look = summary_look(log, log.latest_open())
    assert look["lines"][1]["verdict"] == "The move did not help: 2 of 2 before the move."
    assert look["worked"] == "What worked: feet 22, target 12."


def test_ending_shows_it_first_and_ends_nothing(panel, log):
    _evening(panel)
    before = panel.session
    panel.end()
    assert "coach-ending" in panel.box._dom_classes
    assert panel.summary.look["title"].startswith("Ilta, ")
    assert (panel.session, log.latest_open()) == (before, panel.running.key)
    panel.keep_going()
    assert "coach-ending" not in panel.box._dom_classes
    assert panel.summary.look == {}
    panel.read(STRIKE)
    panel.end()
    panel.close_session()
    assert (panel.session, log.latest_open(), panel.summary.look) == (None, None, {})
    assert "coach-ending" not in panel.box._dom_classes


def test_a_session_without_a_ball_ends_at_once(panel, log):
    panel.end()
    assert (panel.session, log.latest_open()) == (None, None)


def test_a_new_session_shows_the_old_one_s_summary_and_may_still_go_on(panel, log):
    _evening(panel)
    again = LaneSide(log, model_on=False, is_strict=True)
    again.start_new()
    assert again.summary.look["title"].startswith("Ilta, ")
    assert again.summary.look["choices"][1]["words"] == "Not now"
    again.keep_going()
    assert again.who.look["offer"] is not None
    assert log.latest_open() is not None
    again.start_new()
    again.close_session()
    assert log.latest_open() is None
    assert again.who.look["offer"] is None
    assert again.session is None
