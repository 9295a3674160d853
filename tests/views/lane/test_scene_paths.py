"""Simulated balls in a scene: numbers as they are, words as people say them, none where nothing is known."""

import json

import numpy as np
import pytest

from coachlib.coaching.session.session import Session, change, observe, undo
from coachlib.coaching.simulation.leave_forecast import likely_leaves, standing_text
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.views.lane.scene import lane_scene, simulated_scene
from coachlib.views.lane.scene_paths import OTHERS_HEAD, drawn_path, simulated_shift_text, thrown_on
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.shot import Shot

PLAYED, NEXT = Line(20.0, 9.0), Line(22.0, 10.0)
KNOWN = {"speed_mph": 18.0, "rev_rate_rpm": 300.0, "axis_rotation_deg": 45.0, "axis_tilt_deg": 13.0}


def session(hand="right", known=KNOWN, **fields):
    given = {"ball": load_ball("hybrid_2000"), "pattern": load_pattern("house_41"), **fields}
    return Session(Bowler(hand=hand, **known), PLAYED, **given)


def test_both_lines_get_their_balls_and_the_scene_stays_json():
    scene = simulated_scene(session(), PLAYED, NEXT)
    assert json.loads(json.dumps(scene, allow_nan=False)) == scene
    for name, line in (("played", PLAYED), ("advised", NEXT)):
        paths, path = line_paths(session(), line), scene[name]["path"]
        assert path["meant_board"] == pytest.approx(paths.meant_board, abs=0.00501)
        assert np.array(path["balls_board"]) == pytest.approx(paths.balls_board.T, abs=0.00501)
        assert path["contact"][0] == pytest.approx(paths.arrival_board, abs=0.00501)
        assert path["arrival_text"] == f"at {half_text(paths.arrival_board)}"
        assert path["n_lost"] == 0


def test_the_ball_of_each_line_comes_with_its_times_and_phases():
    scene = simulated_scene(session(), PLAYED, NEXT)
    for name, line in (("played", PLAYED), ("advised", NEXT)):
        path, ball = line_paths(session(), line).path, scene[name]["path"]["rolling"]
        assert ball["time_s"] == pytest.approx(path.path_time_s[:, 0], abs=0.000501)
        assert len(ball["time_s"]) == len(scene[name]["path"]["meant_board"]) == 61
        assert (np.diff(ball["time_s"]) > 0).all()
        assert ball["hook_ft"] == pytest.approx(path.hook_ft[0], abs=0.00501)
        assert ball["roll_ft"] == pytest.approx(path.roll_ft[0], abs=0.00501)
        assert 0 < ball["hook_ft"] < ball["roll_ft"] < ball["end_ft"] < 60
        assert (60 - ball["end_ft"]) * 12 == pytest.approx(scene[name]["path"]["contact"][1], abs=0.13)


def test_a_ball_without_a_hook_has_no_such_phase_and_one_in_the_gutter_no_times():
    no_revs = session(known=KNOWN | {"rev_rate_rpm": 0.0})
    ball = simulated_scene(no_revs, Line(25.0, 20.0))["played"]["path"]["rolling"]
    assert ball["hook_ft"] is None
    assert ball["time_s"][-1] > 2.0
    assert simulated_scene(no_revs, Line(25.0, 9.0))["played"]["path"]["rolling"] is None


def test_a_ball_that_misses_the_head_pin_runs_to_its_row():
    wide = simulated_scene(session(), Line(28.0, 20.0))["played"]["path"]
    assert wide["contact"] is None
    assert wide["rolling"]["end_ft"] == 60.0


def test_a_left_hander_gets_the_same_numbers_and_the_other_words():
    # house_41 is the same from both sides of the lane
    right, left = (simulated_scene(session(hand), PLAYED, NEXT) for hand in ("right", "left"))
    for name in ("played", "advised", "oil"):
        assert left[name] == right[name]
    assert "right" in right["simulated_text"]
    assert left["simulated_text"] == right["simulated_text"].replace("right", "left")


def test_dots_stand_in_rows_around_the_pocket_filled_where_the_ball_strikes():
    paths = line_paths(session(), PLAYED)
    path, arrivals = drawn_path(paths), sorted(paths.arrivals_board)
    assert len(path["dots"]) == len({tuple(dot[:2]) for dot in path["dots"]}) == 20
    assert [board for board, *_ in path["dots"]] == pytest.approx(arrivals, abs=0.701)
    assert all(
        (board - 17.5) / 1.4 == pytest.approx(round((board - 17.5) / 1.4)) for board, *_ in path["dots"]
    )
    assert sum(struck for *_, struck in path["dots"]) == path["n_strikes"] == paths.n_strikes
    places = {(board, rank): struck for board, rank, struck in path["dots"]}
    for (board, rank), struck in places.items():
        assert rank == 0 or places[board, rank - 1] >= struck  # no gap in a row, strikes first


def test_the_simulated_shift_is_the_difference_of_the_two_strong_lines_to_half_a_board():
    thrown = [line_paths(session(), line) for line in (PLAYED, NEXT)]
    shift = thrown[1].arrival_board - thrown[0].arrival_board
    text = simulated_shift_text(thrown, "right")
    assert shift < -0.5
    assert text == f"{half_text(-shift)} right"
    assert simulated_shift_text(thrown[::-1], "right") == f"{half_text(-shift)} left"
    assert simulated_shift_text(thrown[:1] * 2, "right") == "same"
    assert simulated_shift_text(thrown[:1], "right") == ""
    lost = line_paths(session(known=KNOWN | {"rev_rate_rpm": 0.0}), Line(25.0, 9.0))
    assert np.isnan(lost.arrival_board)
    assert simulated_shift_text([thrown[0], lost], "right") == ""


def test_the_note_says_what_is_drawn_what_is_taken_for_what_and_what_is_lost():
    note = simulated_scene(session(), PLAYED)["note"]
    assert note == (
        "Simulated on the oil sheet, not on balls you threw. Each thin line and each dot is one ball, 20 a "
        "line at 18 mph. The thick line is a good shot, the dotted one its aim."
    )
    revs = simulated_scene(session(known=KNOWN | {"rev_rate_rpm": None}), PLAYED)["note"]
    assert revs == f"{note} Revs not entered, so we drew 340 rpm."
    nothing = simulated_scene(session(known={}, ball=None, games_on_lane=1.0), PLAYED)["note"]
    assert nothing == (
        f"{note.replace(' at 18 mph', '')} Speed, revs, rotation, tilt, ball and wear of the oil not "
        "entered, so we drew 17 mph, 300 rpm, 45°, 13°, a hybrid at 2000 grit and oil as laid."
    )
    wild = session(known=KNOWN | {"arrow_sd_boards": 6.0})
    scene = simulated_scene(wild, Line(12.0, 3.0), Line(14.0, 4.0))
    paths = [scene[name]["path"] for name in ("played", "advised")]
    lost = [path["n_lost"] for path in paths]
    assert all(lost)
    assert [len(path["dots"]) for path in paths] == [20 - n for n in lost]
    assert scene["note"].endswith(
        f"Into the gutter: {lost[0]} of 20 on the line played, {lost[1]} on the next."
    )
    alone = simulated_scene(wild, Line(12.0, 3.0))
    assert alone["note"].endswith(f"Into the gutter: {alone['played']['path']['n_lost']} of 20.")


def test_the_summary_says_where_the_balls_go():
    summary = simulated_scene(session(), PLAYED, NEXT)["summary"]
    turn = drawn_path(line_paths(session(), PLAYED))["breakpoint"]
    assert f"Simulated, {turn['text']} at {turn['at_ft']:.0f} ft, hits at" in summary
    assert "Simulated, it hits 2½ right at 60 ft" in summary
    assert "hook is not drawn" not in summary
    for word in ("chance", "%"):
        assert word not in summary
    straight = simulated_scene(session(known=KNOWN | {"rev_rate_rpm": 0.0}), Line(25.0, 9.0))
    assert "ends in the gutter" not in summary
    assert "Simulated, ends in the gutter, 0 of 20 strike" in straight["summary"]


def test_the_deck_says_what_the_drawn_balls_leave_and_counts_no_strike_again():
    scene = simulated_scene(session(), PLAYED, NEXT)
    now, following = (
        standing_text(likely_leaves(line_paths(session(), line)), "right") for line in (PLAYED, NEXT)
    )
    first, second = (
        {"head": OTHERS_HEAD, "name": "now", "text": now},
        {"head": "", "name": "next", "text": following},
    )
    assert scene["deck"] == [first, second]
    assert "strike" not in now + following
    assert f"{OTHERS_HEAD} now {now}" in scene["summary"]
    assert f"Next {following}" in scene["summary"]
    assert simulated_scene(session(), PLAYED)["deck"] == [first | {"name": ""}]
    left = simulated_scene(session("left"), PLAYED)["deck"]
    assert left[0]["text"] == standing_text(likely_leaves(line_paths(session("left"), PLAYED)), "left")


def test_a_count_told_beside_the_picture_is_the_number_of_filled_dots():
    scene = simulated_scene(session(), PLAYED, NEXT, n_told=[3, 11])
    paths = [scene[name]["path"] for name in ("played", "advised")]
    assert [path["n_strikes"] for path in paths] == [3, 11]
    assert [path["count_text"] for path in paths] == ["now 3", "next 11 of 20"]


@pytest.mark.parametrize("pattern", [None, OilPattern("sheet lost", 41.0, kind="other")])
def test_without_a_film_the_lines_are_straight_as_on_paper(pattern):
    scene = simulated_scene(session(pattern=pattern), PLAYED, NEXT)
    assert scene["played"]["path"] is scene["advised"]["path"] is scene["oil"] is None
    assert scene["simulated_text"] == ""
    assert scene["deck"] == []
    assert "rack" not in scene["summary"]
    assert scene["note"].startswith("Aiming lines, as on paper")
    assert ("No ball is simulated: kind is 'other'" in scene["note"]) == (pattern is not None)
    assert scene["note"] in scene["summary"]


def test_a_ball_beside_the_lane_leaves_both_lines_straight_and_says_why():
    scene = simulated_scene(session(), Line(5.0, 5.0), NEXT)
    assert scene["played"]["path"] is scene["advised"]["path"] is None
    assert "No ball is simulated: laydown_board is -1.5; expected 1 to 39 boards." in scene["note"]
    assert scene["oil"] is not None
    assert thrown_on(session(), [PLAYED, Line(5.0, 5.0)])[0] == []


def test_undo_shows_the_same_picture_again():
    first = session()
    moved = change(observe(first, Shot(crossed_board=9.0, arrival="high")), line=NEXT)
    scene = lane_scene(moved)
    assert (scene["played"]["target_board"], scene["advised"]["target_board"]) == (9.0, 10.0)
    assert scene["source"] == "lines"
    assert lane_scene(undo(undo(moved))) == lane_scene(first)
