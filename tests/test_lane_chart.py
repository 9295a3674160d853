"""The printed lane: parts of the chart's own description, never its pixels."""

from types import SimpleNamespace

import pytest

from coachlib.coaching.session import Session, observe
from coachlib.views.lane_chart import lane_chart
from coachlib.views.lane_paper import BOARD_PX, FOOT_PX, Paper, deck_ft
from coachlib.views.scene import lane_scene, lines_scene
from coachlib.views.theme import INK, NOW_DASH, THEN
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

PLAYED, NEXT = Line(22.0, 12.0), Line(24.0, 13.0)


def scene(hand="right", shot=None, next_line=NEXT):
    session = Session(Bowler(hand=hand), PLAYED, pattern=OilPattern("house_41", 41.0))
    session = session if shot is None else observe(session, shot)
    return lane_scene(session, SimpleNamespace(new_line=next_line))


def layers(drawn, *marks):
    """Return the layers of these marks, each with its rows beside it."""
    spec = lane_chart(drawn).to_dict()
    chosen = [layer for layer in spec["layer"] if layer["mark"]["type"] in marks]
    return [{**layer, "rows": spec["datasets"][layer["data"]["name"]]} for layer in chosen]


def places(layer):
    return [(row["x"], row["y"]) for row in layer["rows"]]


def words(drawn):
    return [row["text"] for layer in layers(drawn, "text") for row in layer["rows"]]


def test_now_is_dashed_ink_and_next_is_solid_blue_from_laydown_through_target_to_the_edge():
    near_now, far_now, near_next, far_next = layers(scene(), "line")
    assert (near_now["mark"]["color"], near_now["mark"]["strokeDash"]) == (INK, NOW_DASH)
    assert near_next["mark"]["color"] == THEN
    assert "strokeDash" not in near_next["mark"]
    assert (places(near_now), places(far_now)) == ([(0, 15.5), (15, 12)], [(15, 12), (60, 1.5)])
    assert (places(near_next), places(far_next)) == ([(0, 17.5), (15, 13)], [(15, 13), (56.67, 0.5)])
    assert far_next["mark"]["strokeWidth"] < near_next["mark"]["strokeWidth"]


def test_a_line_alone_is_solid_ink():
    near, far = layers(scene(next_line=PLAYED), "line")
    assert {near["mark"]["color"], far["mark"]["color"]} == {INK}
    assert "strokeDash" not in near["mark"]


@pytest.mark.parametrize(("hand", "top", "bottom"), [("right", 44.5, -10), ("left", -4.5, 50)])
def test_the_page_is_turned_by_the_axis_and_the_numbers_are_the_bowlers_own(hand, top, bottom):
    chart = lane_chart(scene(hand)).to_dict()
    domains = {tuple(layer["encoding"]["y"]["scale"]["domain"]) for layer in chart["layer"]}
    assert domains == {(bottom, top)}
    mirrored = scene("right" if hand == "left" else "left")
    drawn = [places(layer) for layer in layers(scene(hand), "line", "point")]
    assert len(drawn) > 10
    assert drawn == [places(layer) for layer in layers(mirrored, "line", "point")]


def test_words_say_left_and_right_as_seen():
    right, left = words(scene("right")), words(scene("left"))
    assert {"same", "1 right", "2 right", "bowler’s right · board 1"} <= set(right)
    assert {"same", "1 left", "2 left", "bowler’s left · board 1"} <= set(left)
    for text in ("13", "24", "was 22", "target at 15 ft, was 12", "pivot 30 ft", "oil ends 41 ft"):
        assert text in right
    assert any("hook is not drawn" in text for text in right)
    assert "Up to 60 ft a board is drawn 10 times too wide." in right


def test_pins_left_are_filled_and_the_deck_is_in_true_shape():
    drawn = scene(shot=Shot(crossed_board=12.0, arrival=17.5, leave=(4, 9)))
    pins = [layer for layer in layers(drawn, "point") if layer["mark"].get("size") == 675]
    standing = next(layer for layer in pins if layer["mark"]["fill"] == INK)
    assert [row["text"] for row in standing["rows"]] == ["4", "9"]
    # limiting case: 12 in between neighbours, whichever way one measures on the paper
    spots = {
        row["text"]: (row["x"] * FOOT_PX, row["y"] * BOARD_PX) for layer in pins for row in layer["rows"]
    }
    (x2, y2), (x3, y3), (x5, y5) = (spots[pin] for pin in "235")
    across, aslant = abs(y2 - y3), ((x5 - x2) ** 2 + (y5 - y2) ** 2) ** 0.5
    assert x2 == x3
    assert across == pytest.approx(aslant, abs=0.1)


def test_the_last_ball_is_a_ring_and_a_ball_in_true_size():
    drawn = scene(shot=Shot(crossed_board=12.5, arrival="high"))
    rings = [layer for layer in layers(drawn, "point") if layer["mark"].get("strokeWidth") == 1.6]
    assert places(rings[0]) == [(15, 12.5)]
    assert places(rings[1]) == [(deck_ft(-drawn["last"]["before_head_pin_in"]), 18.7)]
    assert {"crossed 12½", "high"} <= set(words(drawn))
    assert not [layer for layer in layers(scene(), "point") if layer["mark"].get("strokeWidth") == 1.6]


def test_one_description_and_no_mark_of_its_own():
    spec = lane_chart(scene(), "Where does it go?", "Two lines.").to_dict()
    assert spec["description"] == scene()["summary"]
    assert spec["title"] == {"text": "Where does it go?", "subtitle": "Two lines."}
    assert len(spec["layer"]) > 20
    assert all(layer["mark"]["aria"] is False for layer in spec["layer"])


def test_a_pivot_on_the_target_has_no_cross_of_its_own():
    drawn = lines_scene(Bowler(), PLAYED, Line(24.0, 12.0))
    assert drawn["pivot"]["at_ft"] == 15.0
    assert not any("pivot" in text for text in words(drawn))


def test_beyond_is_above_for_both_hands():
    assert Paper("right", 34.19).beyond(2.0) == 41.5
    assert Paper("left", 34.19).beyond(2.0) == -1.5
    assert Paper("left", 34.19).beyond(-2.0) == 41.5
