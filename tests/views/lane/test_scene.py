"""The scene: what is drawn, as numbers."""

import json
from types import SimpleNamespace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.session import Session, change, observe
from coachlib.views.lane.scene import board_text, lane_scene, lines_scene
from coachlib.views.lane.scene_paths import shift_text, thrown_on
from coachlib.world.bowler import Bowler
from coachlib.world.levers import board_at, line_shift_boards, move_between
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

PLAYED, NEXT = Line(22.0, 12.0), Line(24.0, 13.0)
PATTERN = OilPattern("sheet lost", 41.0, kind="other")  # nothing is known of its film: straight lines


def session(hand="right", **fields):
    return Session(Bowler(hand=hand), PLAYED, pattern=PATTERN, **fields)


def move_to(line):
    return SimpleNamespace(new_line=line, model=None, is_counted=True)


def test_without_a_model_no_ball_is_drawn_and_none_counted_though_the_oil_is_known():
    oiled = observe(change(session(), pattern=load_pattern("house_41")), Shot(12.0, arrival="high"))
    for scene in (lane_scene(oiled), lane_scene(oiled, advise(oiled, model_on=False))):
        assert scene["source"] == "lines"
        assert scene["played"]["path"] is None
        assert (scene["deck"], scene["simulated_text"], scene["sheet_text"]) == ([], "", "")
        assert scene["note"].startswith("Aiming lines, as on paper: thick to the target, thin beyond")
        assert " of 20" not in scene["summary"]
        assert scene["oil"] is not None


def test_without_a_move_only_the_line_played_is_drawn():
    scene = lane_scene(session(), move_to(PLAYED))
    assert scene["advised"] is None
    assert (scene["shifts"], scene["pivot"], scene["last"]) == ([], None, None)
    assert scene["played"]["laydown_board"] == 15.5
    assert not scene["pins_seen"]
    assert scene["oil_end_ft"] == 41.0


def test_a_two_and_one_pivots_at_30_ft_and_lies_2_outside_at_the_pins():
    # limiting case: similar triangles, laydown 15.5 over 12 against 17.5 over 13 at 15 ft
    scene = lane_scene(session(), move_to(NEXT))
    assert [shift["shift_boards"] for shift in scene["shifts"]] == [0.0, -1.0, -2.0]
    assert [shift["text"] for shift in scene["shifts"]] == ["same", "1 right", "2 right"]
    assert scene["pivot"] == {"at_ft": 30.0, "board": 8.5, "text": "pivot 30 ft", "is_apart": True}


def test_a_walker_keeps_more_of_the_line():
    scene = lines_scene(Bowler(walk="walk"), PLAYED, NEXT)
    assert [shift["text"] for shift in scene["shifts"]] == ["½ left", "same", "½ right"]
    assert scene["pivot"]["at_ft"] == 45.0


def test_a_left_hander_gets_the_same_numbers_and_the_other_words():
    right, left = (lane_scene(session(hand), move_to(NEXT)) for hand in ("right", "left"))
    for key in ("played", "advised", "pivot", "arrows", "dots", "pocket_board"):
        assert left[key] == right[key]
    assert [shift["shift_boards"] for shift in left["shifts"]] == [0.0, -1.0, -2.0]
    assert [shift["text"] for shift in left["shifts"]] == ["same", "1 left", "2 left"]
    for scene, edges in ((right, (39, 1)), (left, (1, 39))):
        expected = [
            f"bowler’s {side} · board {edge}" for side, edge in zip(("left", "right"), edges, strict=True)
        ]
        assert [scene["left_gutter_text"], scene["right_gutter_text"]] == expected


def test_pins_keep_the_numbers_on_the_lane():
    shot = Shot(leave=(4, 9))  # own frame: a left-hander's 6 and 8
    left = lane_scene(observe(session("left"), shot))
    assert sorted(pin["number"] for pin in left["pins"] if pin["is_left"]) == [6, 8]
    assert "Pins left: 6, 8" in left["summary"]
    own_corner = next(pin for pin in left["pins"] if pin["number"] == 7)
    assert own_corner["board"] == pytest.approx(3.08)  # FACTS: 18 in from the centre, 1.0641 in a board


def test_a_strike_is_told_apart_from_pins_not_seen():
    assert "Pins left: none" in lane_scene(observe(session(), Shot(leave=())))["summary"]
    unseen = lane_scene(observe(session(), Shot(crossed_board=12.0)))
    assert not unseen["pins_seen"]
    assert "Pins" not in unseen["summary"]


def test_the_last_ball_is_where_it_was_seen():
    last = lane_scene(observe(session(), Shot(crossed_board=12.5, arrival="far_light")))["last"]
    assert (last["crossed_board"], last["crossed_text"]) == (12.5, "crossed 12½")
    assert (last["arrival_board"], last["arrival_text"]) == (14.4, "very light")
    # published by arithmetic: board 17.5 touches the head pin 6.1 in before the spot (DESIGN, PINS)
    last = lane_scene(observe(session(), Shot(arrival=17.5)))["last"]
    assert last["before_head_pin_in"] == pytest.approx(6.13, abs=0.01)
    assert last["arrival_text"] == "17½"


@pytest.mark.parametrize(
    ("shot", "words"),
    [
        (Shot(crossed_board=6.0, arrival="out"), "Ball 1 crossed 6, missed the head pin"),
        (Shot(crossed_board=6.0, arrival=3.0), "Ball 1 crossed 6, missed the head pin"),
        (Shot(crossed_board=20.0, arrival="past"), "Ball 1 crossed 20, went past the head pin"),
        (Shot(crossed_board=6.0, arrival="out", leave=ALL_PINS), "Ball 1 crossed 6, ended in the gutter"),
        (Shot(arrival="out", leave=ALL_PINS), "Ball 1 ended in the gutter"),
    ],
)
def test_a_ball_that_misses_the_head_pin_is_not_drawn_at_the_pins(shot, words):
    scene = lane_scene(observe(session(), shot))
    assert (scene["last"]["arrival_board"], scene["last"]["arrival_text"]) == (None, "")
    assert scene["last"]["crossed_board"] == shot.crossed_board
    assert f"{words}." in scene["summary"]


def test_no_simulated_ball_stands_at_the_pins_beside_one_that_missed_the_head_pin():
    thrown = observe(Session(Bowler(), PLAYED, pattern=load_pattern("house_41")), Shot(leave=(4,)))
    wide = observe(thrown, Shot(crossed_board=4.0, arrival="out", leave=ALL_PINS))
    for seen, has_ball in ((thrown, True), (wide, False)):
        paths, problem = thrown_on(seen, [PLAYED])
        assert not problem
        scene = lines_scene(seen.bowler, PLAYED, seen=seen.shots[-1], thrown=paths, is_plain=True)
        assert (scene["played"]["path"]["contact"] is not None) == has_ball


def test_a_spare_ball_is_not_drawn_as_a_ball_at_the_line():
    last = lane_scene(observe(session(), Shot(crossed_board=5.0, arrival=9.0, is_spare=True)))["last"]
    assert (last["crossed_board"], last["arrival_board"]) == (None, None)


def test_only_the_ball_of_this_lane_counts():
    away = change(observe(session(), Shot(crossed_board=12.5)), lane="2")
    assert lane_scene(away)["last"] is None


def test_a_line_changed_since_the_last_ball_stays_visible_beside_the_new_one():
    moved = change(observe(session(), Shot(crossed_board=12.0, arrival="high")), line=NEXT)
    scene = lane_scene(moved, move_to(NEXT))
    assert (scene["played"]["target_board"], scene["advised"]["target_board"]) == (12.0, 13.0)
    thrown = observe(moved, Shot(crossed_board=13.0, arrival="pocket"))
    assert lane_scene(thrown)["advised"] is None


def test_a_line_is_cut_where_it_leaves_the_lane_and_a_laydown_beside_it_is_not_drawn():
    # limiting case: laydown 23.5 over 15 at 15 ft falls 17/30 board a foot: 23 boards in 40.59 ft
    line = lines_scene(Bowler(), Line(30.0, 15.0))["played"]
    assert line["leaves_ft"] == line["end_ft"] == pytest.approx(40.59, abs=0.005)
    assert line["end_board"] == pytest.approx(0.5)
    assert lines_scene(Bowler(), Line(18.5, 12.0))["played"]["leaves_ft"] is None
    leaving = Line(30.0, 15.0)
    cut = lines_scene(Bowler(), leaving, is_plain=True)["played"]
    assert (cut["end_ft"], cut["leaves_ft"]) == (leaving.target_ft + 10.0, line["leaves_ft"])
    assert cut["end_board"] == pytest.approx(board_at(leaving, Bowler(), cut["end_ft"]), abs=0.006)
    whole = lines_scene(Bowler(), Line(18.5, 12.0), is_plain=True)["played"]
    assert whole["end_ft"] == 60.0, "a line that reaches the pins is drawn whole"
    line = lines_scene(Bowler(), Line(5.0, 5.0))["played"]
    assert line["laydown_board"] == -1.5
    assert line["start_board"] == pytest.approx(0.5)
    assert line["start_ft"] > 0


def test_a_shift_is_told_even_where_the_lines_are_off_the_lane():
    scene = lines_scene(Bowler(), Line(30.0, 15.0), Line(32.0, 16.0))
    assert scene["shifts"][2]["played_board"] is None
    assert scene["shifts"][2]["text"] == "2 right"
    assert "leaves the lane at 39 ft" in scene["note"]


@pytest.mark.parametrize("next_line", [Line(23.0, 13.0), Line(26.0, 15.0), Line(22.0, 12.0, 40.0)])
def test_no_pivot_for_parallel_lines_beyond_the_pins_or_another_distance(next_line):
    # 1 and 1 has none; 4 and 3 meets at 60 ft, the head pin itself
    assert lines_scene(Bowler(), PLAYED, next_line)["pivot"] is None


def test_the_summary_says_what_the_picture_shows():
    seen = observe(session("left"), Shot(crossed_board=12.0, arrival="high", leave=(4,)))
    summary = lane_scene(seen, move_to(NEXT))["summary"]
    lesson = lines_scene(seen.bowler, PLAYED, NEXT)["summary"]
    for words in ("2 left at 60 ft", "cross at 30 ft"):
        assert words in lesson
        assert words not in summary  # what only a lesson names
    ball = ("Ball 1 crossed 12, hit high", "Pins left: 6", "hook is not drawn")
    for words in ("left-hander", "feet 22, target 12 at 15 ft", "feet 24, target 13 at 15 ft", *ball):
        assert words in summary


def test_numbers_are_written_as_people_write_them():
    boards = (12.0, 12.5, 0.5, -1.5, 1.25, 0.75, 1.3333, 0.96, -0.001, 0.0)
    assert [board_text(board) for board in boards] == "12 12½ ½ −1½ 1¼ ¾ 1.3 1.0 0 0".split()
    assert shift_text(-0.04, "left") == "same"
    assert shift_text(2.0, "left") == "2 right"


boards = st.integers(0, 80).map(lambda half: half / 2)


@given(
    feet=st.tuples(boards, boards),
    target=st.tuples(st.integers(1, 39), st.integers(1, 39)),
    walk=st.sampled_from(["slide", "walk"]),
    hand=st.sampled_from(["right", "left"]),
)
def test_a_scene_is_json_and_agrees_with_the_levers(feet, target, walk, hand):
    old, new = (Line(f, float(t)) for f, t in zip(feet, target, strict=True))
    bowler = Bowler(walk=walk, hand=hand)
    scene = lines_scene(bowler, old, new)
    assert json.loads(json.dumps(scene, allow_nan=False)) == scene
    for shift in scene["shifts"]:
        expected = line_shift_boards(move_between(old, new), shift["at_ft"], walk)
        assert shift["shift_boards"] == pytest.approx(expected, abs=0.0051)
    for line in filter(None, (scene["played"], scene["advised"])):
        assert 0.5 <= line["start_board"] <= 39.5
        assert 0.5 <= line["end_board"] <= 39.5
        assert line["start_ft"] <= line["target_ft"] <= line["end_ft"]
