"""Simulated balls in a scene: numbers as they are, words as people say them, none where nothing is known."""

import json
from types import SimpleNamespace

import numpy as np
import pytest

from coachlib.coaching.deck import deck_words, likely_leaves
from coachlib.coaching.paths import line_paths
from coachlib.coaching.session import Session, change, observe
from coachlib.views.scene import lane_scene, simulated_scene
from coachlib.views.scene_paths import drawn_path, half_text, simulated_shift_text, thrown_on
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


def move_to(line):
    return SimpleNamespace(new_line=line)


def test_both_lines_get_their_balls_and_the_scene_stays_json():
    scene = lane_scene(session(), move_to(NEXT))
    assert json.loads(json.dumps(scene, allow_nan=False)) == scene
    for name, line in (("played", PLAYED), ("advised", NEXT)):
        paths, path = line_paths(session(), line), scene[name]["path"]
        assert path["meant_board"] == pytest.approx(paths.meant_board, abs=0.00501)
        assert np.array(path["balls_board"]) == pytest.approx(paths.balls_board.T, abs=0.00501)
        assert path["arrival_board"] == pytest.approx(paths.arrival_board, abs=0.00501)
        assert path["n_lost"] == 0


def test_a_left_hander_gets_the_same_numbers_and_the_other_words():
    # house_41 is the same from both sides of the lane
    right, left = (lane_scene(session(hand), move_to(NEXT)) for hand in ("right", "left"))
    for name in ("played", "advised", "oil"):
        assert left[name] == right[name]
    assert "right" in right["simulated_text"]
    assert left["simulated_text"] == right["simulated_text"].replace("right", "left")


def test_dots_stand_where_the_balls_arrive_and_never_on_each_other():
    path = drawn_path(line_paths(session(), PLAYED))
    arrivals = sorted(line_paths(session(), PLAYED).arrivals_board)
    assert len(path["dots"]) == len({tuple(dot) for dot in path["dots"]}) == 20
    assert [board for board, _ in path["dots"]] == pytest.approx(arrivals, abs=0.301)
    for board, rank in path["dots"]:
        assert rank == 0 or [board, rank - 1] in path["dots"]


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
    note = lane_scene(session())["note"]
    assert note == (
        "Simulated, not measured: each thin line and each dot is one ball, 20 a line at 18 mph; the thick "
        "line is the ball as meant, the dotted one its aim."
    )
    revs = lane_scene(session(known=KNOWN | {"rev_rate_rpm": None}))["note"]
    assert revs == f"{note} Revs unknown: drawn for 300 rpm."
    nothing = lane_scene(session(known={}, ball=None, games_on_lane=1.0))["note"]
    assert nothing == (
        f"{note.replace(' at 18 mph', '')} Speed, revs, rotation, tilt, ball and wear of the oil unknown: "
        "drawn for 17 mph, 300 rpm, 45°, 13°, a hybrid at 2000 grit and oil as laid."
    )
    wild = KNOWN | {"arrow_sd_boards": 6.0}
    scene = simulated_scene(session(known=wild), Line(12.0, 3.0), Line(14.0, 4.0))
    lost = [scene[name]["path"]["n_lost"] for name in ("played", "advised")]
    assert all(lost)
    told = f"Into the gutter: {lost[0]} of 20 on the line played, {lost[1]} on the next."
    assert scene["note"].endswith(told)
    assert all(
        len(scene[name]["path"]["dots"]) == 20 - n
        for name, n in zip(("played", "advised"), lost, strict=True)
    )


def test_the_summary_says_where_the_balls_go():
    summary = lane_scene(session(), move_to(NEXT))["summary"]
    turn = drawn_path(line_paths(session(), PLAYED))["breakpoint"]
    assert f"simulated, {turn['text']} at {turn['at_ft']:.0f} ft, arrives at" in summary
    assert "Simulated, it arrives 2½ right at 60 ft" in summary
    assert "hook is not drawn" not in summary
    for word in ("chance", "%"):
        assert word not in summary
    straight = simulated_scene(session(known=KNOWN | {"rev_rate_rpm": 0.0}), Line(25.0, 9.0))
    assert "ends in the gutter" not in summary
    assert "simulated, ends in the gutter" in straight["summary"]


def test_the_deck_says_what_is_likely_to_stay_as_the_simulated_racks_and_in_balls():
    scene = lane_scene(session(), move_to(NEXT))
    played, advised = (line_paths(session(), line) for line in (PLAYED, NEXT))
    assert scene["deck"] == [
        {
            "head": "Simulated rack, of 20 such balls:",
            "name": "now",
            "text": deck_words(likely_leaves(played), "right"),
        },
        {"head": "", "name": "then", "text": deck_words(likely_leaves(advised), "right")},
    ]
    assert f"Simulated rack, of 20 such balls: now {scene['deck'][0]['text']}" in scene["summary"]
    assert f"Then {scene['deck'][1]['text']}" in scene["summary"]
    alone = lane_scene(session())["deck"]
    assert [(line["head"], line["name"]) for line in alone] == [("Simulated rack, of 20 such balls:", "")]
    assert alone[0]["text"] == scene["deck"][0]["text"]
    left = lane_scene(session("left"))["deck"]
    assert left[0]["text"] == deck_words(likely_leaves(line_paths(session("left"), PLAYED)), "left")


@pytest.mark.parametrize("pattern", [None, OilPattern("sheet lost", 41.0, kind="other")])
def test_without_a_film_the_lines_are_straight_as_on_paper(pattern):
    scene = lane_scene(session(pattern=pattern), move_to(NEXT))
    assert scene["played"]["path"] is scene["advised"]["path"] is scene["oil"] is None
    assert scene["simulated_text"] == ""
    assert scene["deck"] == []
    assert "rack" not in scene["summary"]
    assert scene["note"].startswith("Straight lines, as on paper")
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
    assert scene["played"]["path"] == lane_scene(first)["played"]["path"]
