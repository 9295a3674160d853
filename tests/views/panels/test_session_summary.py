"""Leaving a session: a calm summary first, all of it from the log; nothing ends before it is said so.

What stands in it is the panel's own contract; counts are checked by hand. Bowlers are invented.
"""

import base64
import re

import pytest

from coachlib.review.session_end import PAIN_WORDS, session_end, session_end_words
from coachlib.views.panels.lane_side.session_summary import summary_page, summary_view
from tests.views.panels.conftest import START

HIGH = {"crossed": "12", "arrival": "high", "leave": "4", "motion": "early"}
WIDE = {"crossed": "15", "arrival": "nose", "leave": "4 9"}
POCKET = {"crossed": "13", "arrival": "pocket", "leave": "10"}
STRIKE = {"crossed": "13", "arrival": "pocket", "leave": "all down"}


def _summary(log):
    return summary_view(log, log.latest_open())


def _move(panel):
    """Move 2 and 1 in the form, which opens with what holds."""
    panel.open_form()
    panel.set_up(panel.who.typed | {"feet": "24", "target": "13"})


def _evening(panel):
    """Three high, one wide of the target, a move, then three good balls: spares made, missed and made."""
    for shot in (HIGH, HIGH, HIGH, WIDE):
        panel.read(shot)
    panel.spare(5, "made")
    _move(panel)
    for shot, answer in ((STRIKE, None), (POCKET, "missed_right"), (POCKET, "made")):
        panel.read(shot)
        if answer:
            panel.spare(len(panel.session.shots) + 1, answer)


def test_it_says_what_was_thrown_and_whether_the_move_worked(panel, log):
    _evening(panel)
    look = _summary(log)
    assert look["title"].startswith("Maija, ")
    assert "7 first balls, 1 strike" in look["about"]
    start, moved = look["lines"]
    assert (start["head"], start["line"]) == ("start", "Feet 22, target 12")
    assert start["count"] == "0 of 4 in the pocket"
    assert start["verdict"] == "It did not find the pocket."
    assert (moved["head"], moved["line"]) == ("2 and 1 left", "Feet 24, target 13")
    assert moved["count"] == "3 of 3 in the pocket"
    assert (
        moved["verdict"] == "The move worked: 0 of 4 over the target and in the pocket before, 3 of 3 after."
    )
    assert look["worked"].startswith("What worked: moving 2 and 1 left, before ball ")
    assert look["spares"] == [["the 7 or the 10", 1, 2], ["splits", 1, 1]]
    verdicts = [log.story(log.latest_open()).advice[ball]["verdict"] for ball in (1, 2, 3, 4)]
    assert verdicts == ["too early", "direction known", "lane", "bowler"]
    assert look["causes"]["counts"] == [
        *(["you", 1], ["the lane", 1], ["you and the lane", 0], ["too early to say", 2])
    ]
    assert look["causes"]["words"] == "4 balls missed the pocket."
    assert len(look["trend"]["balls"]) == 7
    assert [move["before"] for move in look["trend"]["moves"]] == [4]
    assert look["one_thing"]
    assert look["next_start"][0] == "Feet 24, target 13"


def test_it_is_calm(panel, log):
    _evening(panel)
    look = _summary(log)
    words = " ".join(re.findall(r"[\w%]+", str({k: v for k, v in look.items() if k != "trend"}))).lower()
    assert not re.search(r"%|\b(score|average|percent|rank|better than|worse)\b", words)


NO_POCKET, OFF_TARGET = "It did not find the pocket.", "It found the pocket, but not over the target."


@pytest.mark.parametrize(
    ("balls", "worked", "verdict"),
    [
        ([HIGH] * 3, "What worked: your aim. You hit your target 3 of 3 times.", NO_POCKET),
        ([WIDE] * 3, "No line was steady yet. Your notes are a start for next time.", ""),
        ([STRIKE | {"crossed": "16"}] * 3, "", OFF_TARGET),
        ([STRIKE | {"crossed": "12"}] * 2, "", "Too few balls to tell."),
    ],
)
def test_what_did_not_work_is_said_kindly(panel, log, balls, worked, verdict):
    for ball in balls:
        panel.read(ball)
    look = _summary(log)
    assert look["worked"] == worked or not worked
    assert look["lines"][0]["verdict"] == verdict or not verdict
    if balls[0] == HIGH:
        assert (look["next_start"][0], bool(look["next_start"][1])) == ("", True)
    if verdict == OFF_TARGET:
        assert look["lines"][0]["count"] == "3 of 3 in the pocket, but off target"


def test_a_move_that_did_not_help_is_not_called_one_that_did(panel, log):
    for _ in range(3):
        panel.read(STRIKE | {"crossed": "12"})
    _move(panel)
    for _ in range(3):
        panel.read(HIGH | {"crossed": "13"})
    look = _summary(log)
    assert look["lines"][1]["verdict"] == (
        "The move did not help: 3 of 3 over the target and in the pocket before, 0 of 3 after."
    )
    assert look["worked"] == "What worked: feet 22, target 12. 3 of 3 over the target and in the pocket."


@pytest.mark.parametrize(("noted", "told"), [("left thumb", PAIN_WORDS), ("none", ""), ("-", "")])
def test_pain_comes_first_and_none_is_no_pain(panel, log, noted, told):
    panel.set_up(START | {"pain": noted})
    panel.read(HIGH)
    assert _summary(log)["pain"] == told


def test_where_it_hurt_stands_on_screen_and_paper(panel, log):
    panel.read(HIGH)
    panel.set_up(START | {"pain": "right <knee>"})
    noted = "Noted: right <knee>. Stopped for it."
    assert _summary(log)["pain_noted"] == noted
    page = summary_page(log, log.latest_open()).text
    assert "Noted: right &lt;knee&gt;. Stopped for it." in page
    panel.set_up(START | {"pain": "none"})
    assert _summary(log)["pain_noted"] == noted


def test_no_pain_leaves_no_line(panel, log):
    panel.read(HIGH)
    assert _summary(log)["pain_noted"] == ""
    assert "Stopped for it" not in summary_page(log, log.latest_open()).text


def test_after_a_correction_the_count_is_that_of_the_ball_as_it_is_now(panel, log):
    panel.read(WIDE)
    assert ["you", 1] in _summary(log)["causes"]["counts"]
    panel.correct(1)
    panel.save(1, HIGH)
    assert ["too early to say", 1] in _summary(log)["causes"]["counts"]


def test_panel_and_page_say_what_the_session_end_says(panel, log):
    _evening(panel)
    key, session = log.latest_open(), panel.session
    look, words = summary_view(log, key), " ".join(session_end_words(session_end(session), "right"))
    assert look["worked"] in words
    assert all(one["count"] in words for one in look["lines"])
    panel.end()
    assert panel.summary.file == {}
    panel.print_page()
    file = panel.summary.file
    page = base64.b64decode(file["content"]).decode()
    assert (file["number"], file["mime"]) == (1, "text/html")
    assert re.fullmatch(r"session Maija \d{4}-\d\d-\d\d\.html", file["name"])
    assert file["name"] in file["told"]
    assert look["worked"] in page
    assert all(one["count"] in page for one in look["lines"])
    assert log.latest_open() == key
    panel.print_page()
    assert panel.summary.file["number"] == 2


def test_ending_shows_it_first_and_ends_nothing(panel, log):
    _evening(panel)
    before = panel.session
    panel.end()
    assert "coach-ending" in panel.box._dom_classes
    assert panel.summary.look["title"].startswith("Maija, ")
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


def test_a_new_session_shows_the_old_one_s_summary_and_may_still_go_on(panel, log, new_panel):
    _evening(panel)
    again = new_panel()
    again.start_new()
    assert again.summary.look["title"].startswith("Maija, ")
    assert again.summary.look["choices"][1]["words"] == "Not now"
    again.keep_going()
    assert again.who.look["offer"] is not None
    assert log.latest_open() is not None
    again.start_new()
    again.close_session()
    assert log.latest_open() is None
    assert again.who.look["offer"] is None
    assert again.session is None
