"""What the students' panel shows, without a widget: lists, one ball with its advice, figures as a table."""

import dataclasses
from datetime import UTC, datetime

import pytest

import coachlib as cl
from coachlib.coaching.bowler_profile.own_numbers import OwnNumber
from coachlib.coaching.wording.accuracy_words import like_text
from coachlib.records import Students
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.review.demo_log import write_demo_log
from coachlib.review.trends import student_trends
from coachlib.review.work_on import work_on
from coachlib.views.panels.students.students_view import (
    NOBODY,
    TREND_COLUMNS,
    advised_line,
    numbers_view,
    replay_scene,
    replay_view,
    sessions_view,
    students_view,
    trend_rows,
    work_on_view,
)

LINE, NEXT = cl.Line(22, 12), cl.Line(24, 13)
HIGH = cl.Shot(crossed_board=12, arrival="high", leave=(4,))


@pytest.fixture(scope="module")
def demo(tmp_path_factory):
    return write_demo_log(tmp_path_factory.mktemp("demo"))


@pytest.fixture(scope="module")
def trends(demo):
    return student_trends(demo, Students(demo).listed()[1].key)


def _replay(*steps, advice=None, hand="right"):
    session = cl.Session(cl.Bowler(hand=hand), LINE)
    for step in steps:
        session = cl.observe(session, step) if isinstance(step, cl.Shot) else cl.change(session, line=step)
    return Replay(session, advice or {})


SAID = {"headline": "2 and 1 left", "why": "It keeps coming in high.", "new_line": dataclasses.asdict(NEXT)}


def test_students_and_sessions_are_told_by_what_is_shown_of_them(demo):
    choices = students_view(Students(demo).listed(), 1)
    words = [words for _, words in choices]
    assert words == ["Maija, 3 sessions", "Oskar, 3 sessions", "No student, 1 session"]
    assert choices[-1][0] == NOBODY
    assert students_view((), 0) == []
    rows = sessions_view(demo.sessions(choices[0][0]))
    assert [words.split(",")[0] for _, words in rows] == [f"{day} Sep 2026 18:00" for day in (15, 8, 1)]
    assert {words.count(",") for _, words in rows} == {1}


@pytest.mark.parametrize(("name", "words"), [("Ada", "2 balls, Ada"), ("", "2 balls")])
def test_a_session_of_no_student_bears_the_name_that_was_typed(name, words):
    started = datetime(2026, 9, 1, 18, tzinfo=UTC)
    rows = sessions_view([LoggedSession("key", started, started, name, 2)])
    assert rows == [["key", f"{rows[0][1].split(',')[0]}, {words}"]]


def test_a_ball_is_told_with_what_was_said_then_and_what_came_next():
    replay = _replay(HIGH, NEXT, cl.Shot(crossed_board=13, arrival="pocket"), advice={1: SAID})
    look = replay_view(replay, 1)
    assert (look["title"], look["line"]) == ("Ball 1 of 2, lane 1", "Feet 22, target 12")
    assert (look["advice"], look["why"]) == (SAID["headline"], SAID["why"])
    assert look["after"] == "Ball 2, on the line advised: crossed board 13, hit the pocket."
    assert replay_view(replay, 2)["after"] == "No other first ball on this lane."


@pytest.mark.parametrize(
    ("line", "words"), [(None, "on the same line"), (cl.Line(30, 18), "on feet 30, target 18")]
)
def test_what_came_next_says_on_which_line(line, words):
    steps = [HIGH, HIGH] if line is None else [HIGH, line, HIGH]
    assert f"Ball 2, {words}: " in replay_view(_replay(*steps, advice={1: SAID}), 1)["after"]


def test_the_chances_that_were_shown_then_are_counts_of_twenty():
    said = SAID | {"stay_strike_prob": 0.3, "move_strike_prob": 0.45}
    look = replay_view(_replay(HIGH, advice={1: said}), 1)
    assert look["chances"] == "Simulated then: about 6 strikes in 20 if you stay, 9 with the move."
    watched = replay_view(_replay(HIGH, advice={1: said | {"kind": "watch", "move_strike_prob": 0.3}}), 1)
    assert watched["chances"] == "Simulated then: about 6 strikes in 20 on this line."
    assert replay_view(_replay(HIGH, advice={1: SAID}), 1)["chances"] == ""


def test_a_session_without_a_ball_says_so():
    look = replay_view(_replay(), 0)
    assert (look["number"], look["n_balls"]) == (0, 0)
    assert "No ball" in look["title"]


def test_the_lane_shows_the_line_played_and_the_line_advised_then():
    replay = _replay(HIGH, NEXT, HIGH, advice={1: SAID})
    scene = replay_scene(replay, 1)
    assert scene["played"]["feet_board"] == LINE.feet_board
    assert scene["advised"]["feet_board"] == NEXT.feet_board
    assert scene["last"]["number"] == 1
    assert replay_scene(replay, 2)["advised"] is None


def test_a_spare_ball_is_told_with_the_pins_before_it_and_no_ball_is_drawn(demo):
    session = demo.story(demo.sessions()[0].key).session
    known = cl.change(_replay(HIGH).session, pattern=session.pattern, ball=session.ball)
    missed = cl.observe(cl.observe(known, HIGH), cl.Shot(leave=(), is_spare=True))
    replay = Replay(missed, {})
    assert replay_view(replay, 3)["seen"].startswith("A spare ball: pin 4 stood before it. All down.")
    scene = replay_scene(replay, 3)
    assert "A spare ball: pin 4 stood before it. No ball is drawn" in scene["note"]
    assert scene["note"] in scene["summary"]
    assert (scene["played"]["path"], scene["advised"], scene["deck"]) == (None, None, [])
    first = replay_scene(replay, 2)  # a ball of the past: lines and what was seen, no count made now
    assert (first["source"], first["played"]["path"], first["deck"]) == ("lines", None, [])
    assert first["last"]["arrival_text"] == "high"


def test_all_that_was_seen_is_told_not_only_what_fits_a_table():
    shot = cl.Shot(crossed_board=12, arrival="high", leave=(4,), speed_mph=15.2, motion="early")
    look = replay_view(_replay(shot, shot), 1)
    assert look["seen"] == "Crossed board 12, came in high, pin 4 left, turned early, 15.2 mph at the hand."
    assert "15.2 mph" in look["after"]


@pytest.mark.parametrize("kept", [None, "24, 13", {"feet_board": 900.0, "target_board": 13.0}, {"feet": 1}])
def test_an_advised_line_that_cannot_be_read_is_none(kept):
    assert advised_line({"new_line": kept}) is None


def test_the_table_has_a_cell_a_column_newest_first(trends):
    rows = trend_rows(trends)
    assert [row[0] for row in rows] == ["15 Sep 2026", "8 Sep 2026", "1 Sep 2026"]
    assert {len(row) for row in rows} == {len(TREND_COLUMNS)}
    newest = trends[-1]
    assert f"± {newest.arrow_miss_boards.sd:.1f}, {like_text(newest.accuracy_class)}" == rows[0][2]
    assert rows[0][5] == f"{newest.single_pin_spares.n_made} of {newest.single_pin_spares.n_tried}"
    assert "lane 7 +" in rows[0][4] or "lane 7 −" in rows[0][4]


def test_moves_that_were_followed_are_told_in_plain_words(trends):
    trend = trends[0]
    followed = trend.advice._replace(n_given=5, n_followed=5, err_before_boards=4.31, err_after_boards=4.46)
    assert trend_rows([trend._replace(advice=followed)])[0][7] == (
        "5 of 5. Before the move the ball hit 4.3 boards from the pocket, after it 4.5"
    )


def test_what_was_not_noted_is_a_dash(trends):
    trend = trends[0]
    nothing = trend._replace(
        arrow_miss_boards=None,
        accuracy_class=None,
        speed_mph=None,
        arrival_err_boards={},
        single_pin_spares=trend.single_pin_spares._replace(n_tried=0),
        advice=trend.advice._replace(n_given=0),
    )
    assert trend_rows([nothing])[0][2:6] == ["–"] * 4
    assert trend_rows([nothing])[0][7] == "–"


def test_the_drill_comes_with_its_grade():
    look = work_on_view(work_on([]))
    assert look["headline"] == "Nothing stands out"
    assert "How sure: " in look["takes"]
    assert look["do"]


def test_only_numbers_that_are_offered_say_what_is_kept():
    numbers = [
        OwnNumber("speed_mph", None, 15.0, 20, "Speed: 15 mph.", True),
        OwnNumber("walk", "slide", "walk", 20, "Walk: toward the target.", True),
        OwnNumber("drift_boards", 1.0, 1.0, 20, "Drift: 1 board.", False),
    ]
    kept = ["Saved now: nothing yet.", "Saved now: slide.", ""]
    assert [one["kept"] for one in numbers_view(numbers)] == kept
