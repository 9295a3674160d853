"""The printed lane: parts of the chart's own description, never its pixels."""

import pytest

from coachlib.coaching.session.session import Session, observe
from coachlib.views.lane.lane_chart import lane_chart
from coachlib.views.lane.lane_paper import BOARD_PX, FOOT_PX, LanePaper
from coachlib.views.lane.scene import lines_scene, simulated_scene
from coachlib.views.lane.scene_paths import OTHERS_HEAD
from coachlib.views.theme import INK, INK2, NOW_DASH, THEN, WOOD
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern, load_pattern
from coachlib.world.shot import Shot
from tests.views.drawn import assert_described
from tests.views.drawn import layers as layers_of

PLAYED, NEXT = Line(22.0, 12.0), Line(24.0, 13.0)


STRAIGHT = OilPattern("sheet lost", 41.0, kind="other")  # nothing is known of its film: straight lines
HOUSE = load_pattern("house_41")


def scene(hand="right", shot=None, next_line=NEXT, pattern=STRAIGHT):
    session = Session(Bowler(hand=hand), PLAYED, pattern=pattern)
    session = session if shot is None else observe(session, shot)
    seen = session.shots[-1] if session.shots else None
    return simulated_scene(session, PLAYED, next_line, seen=seen)


def layers(drawn, *marks, is_end=False):
    return layers_of(lane_chart(drawn, is_end=is_end).to_dict(), *marks)


def places(layer):
    return [(row["x"], row["y"]) for row in layer["rows"]]


def words(drawn, is_end=False):
    return [row["text"] for layer in layers(drawn, "text", is_end=is_end) for row in layer["rows"]]


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
    assert {"13", "24", "was 22", "target at 15 ft, was 12", "pivot 30 ft", "oil ends 41 ft"} <= set(right)
    assert any("hook is not drawn" in text for text in right)
    assert "Up to 60 ft a board is drawn 11 times too wide." in right


def test_pins_left_are_filled_and_the_deck_is_in_true_shape():
    drawn = scene(shot=Shot(crossed_board=12.0, arrival=17.5, leave=(4, 9)))
    pins = [layer for layer in layers(drawn, "point") if layer["mark"].get("size") == 675]
    (standing,) = (layer["rows"] for layer in pins if layer["mark"]["fill"] == INK)
    assert [row["text"] for row in standing] == ["4", "9"]
    # limiting case: 12 in between neighbours, whichever way one measures on the paper
    rows = [row for layer in pins for row in layer["rows"]]
    spots = {row["text"]: (row["x"] * FOOT_PX, row["y"] * BOARD_PX) for row in rows}
    (x2, y2), (x3, y3), (x5, y5) = (spots[pin] for pin in "235")
    across, aslant = abs(y2 - y3), ((x5 - x2) ** 2 + (y5 - y2) ** 2) ** 0.5
    assert x2 == x3
    assert across == pytest.approx(aslant, abs=0.1)


def test_the_last_ball_is_a_ring_and_a_ball_in_true_size():
    drawn = scene(shot=Shot(crossed_board=12.5, arrival="high"))
    rings = [layer for layer in layers(drawn, "point") if layer["mark"].get("strokeWidth") == 1.6]
    assert places(rings[0]) == [(15, 12.5)]
    assert places(rings[1]) == [(LanePaper(drawn).deck_ft(-drawn["last"]["before_head_pin_in"]), 18.7)]
    assert {"crossed 12½", "high"} <= set(words(drawn))
    assert not [layer for layer in layers(scene(), "point") if layer["mark"].get("strokeWidth") == 1.6]


def test_one_description_and_no_mark_of_its_own():
    spec = lane_chart(scene(), "Where does it go?", "Two lines.").to_dict()
    assert spec["description"] == scene()["summary"]
    assert spec["title"] == {"text": "Where does it go?", "subtitle": "Two lines."}
    assert_described(spec, "The lane from above", least=20)


def test_a_pivot_on_the_target_has_no_words_of_its_own():
    drawn = lines_scene(Bowler(), PLAYED, Line(24.0, 12.0))
    assert drawn["pivot"]["at_ft"] == 15.0
    assert not any("pivot" in text for text in words(drawn))


def test_beyond_is_above_for_both_hands():
    assert LanePaper(scene("right")).beyond(2.0) == 41.5
    assert LanePaper(scene("left")).beyond(2.0) == -1.5
    assert LanePaper(scene("left")).beyond(-2.0) == 41.5


def thin_lines(drawn, is_end=False):
    return [layer for layer in layers(drawn, "line", is_end=is_end) if "detail" in layer["encoding"]]


def test_simulated_balls_are_twenty_thin_lines_and_twenty_dots_a_line():
    drawn = scene(pattern=HOUSE)
    paths = [drawn[line]["path"] for line in ("played", "advised")]
    assert [thin["mark"]["color"] for thin in thin_lines(drawn)] == [INK2, THEN]
    for thin, path in zip(thin_lines(drawn), paths, strict=True):
        for ball, boards in enumerate(path["balls_board"]):
            mine = [(row["x"], row["y"]) for row in thin["rows"] if row["ball"] == ball]
            assert mine == list(enumerate(boards))[::2]
        assert {row["ball"] for row in thin["rows"]} == set(range(20))
    dots = [layer for layer in layers(drawn, "point") if layer["mark"].get("strokeWidth") == 1]
    ends = []
    for color, path in zip((INK, THEN), paths, strict=True):
        column = {layer["mark"]["fill"]: layer["rows"] for layer in dots if layer["mark"]["stroke"] == color}
        assert len(column[color]) == path["n_strikes"]  # filled: a strike
        assert len(column[color]) + len(column[WOOD]) == 20 - path["n_lost"]
        ends.append([row["x"] for rows in column.values() for row in rows])
    assert max(ends[0]) < min(ends[1])
    assert {*(path["count_text"] for path in paths), "simulated:", drawn["simulated_text"]} <= set(
        words(drawn)
    )
    assert [path["count_text"].split()[0] for path in paths] == ["now", "next"]


def test_the_strong_line_is_the_ball_and_the_aim_is_dotted_to_the_pivot():
    drawn = scene(pattern=HOUSE)
    meant_now, aim_now, meant_next, aim_next = [
        layer for layer in layers(drawn, "line") if "detail" not in layer["encoding"]
    ]
    assert places(meant_now) == list(enumerate(drawn["played"]["path"]["meant_board"]))
    assert meant_now["mark"]["strokeDash"] == NOW_DASH
    assert places(meant_next) == list(enumerate(drawn["advised"]["path"]["meant_board"]))
    assert aim_now["mark"]["strokeDash"] == aim_next["mark"]["strokeDash"] == [2, 3]
    # limiting case: the straight lines 15.5 over 12 and 17.5 over 13 meet on board 8.5 at 30 ft
    assert places(aim_now) == [(0, 15.5), (30.0, 8.5)]
    assert places(aim_next) == [(0, 17.5), (30.0, 8.5)]
    marks = [layer for layer in layers(drawn, "point") if layer["mark"].get("size") in (36, 56)]
    assert [layer["rows"] for layer in marks] == [[], []]


def test_the_breakpoint_is_a_ring_of_the_line_to_play():
    drawn = scene(pattern=HOUSE, next_line=PLAYED)
    (ring,) = [layer for layer in layers(drawn, "point") if layer["mark"].get("size") == 80]
    turn = drawn["played"]["path"]["breakpoint"]
    assert (ring["mark"]["stroke"], places(ring)) == (INK, [(turn["at_ft"], turn["board"])])
    assert turn["text"] in words(drawn)


@pytest.mark.parametrize(("hand", "left_edge"), [("right", 39.5), ("left", 0.5)])
def test_the_oil_lies_with_its_left_edge_on_the_left(hand, left_edge):
    (tint,) = layers(scene(hand, pattern=HOUSE), "image")
    (row,) = tint["rows"]
    assert (row["x"], row["y"]) == (0, left_edge)
    assert row["url"].startswith("data:image/png;base64,")
    length_ft = len(HOUSE.film_um) * HOUSE.step_ft
    assert tint["mark"]["width"] == pytest.approx(length_ft * FOOT_PX)
    assert tint["mark"]["height"] == pytest.approx(39 * BOARD_PX)
    assert layers(scene(hand), "image") == []


def test_the_last_20_ft_show_nothing_from_before_but_the_words_beside():
    drawn = scene(pattern=HOUSE, shot=Shot(crossed_board=12.0, arrival="high"))
    paper = LanePaper(drawn, is_end=True)
    shown = [row for layer in layers(drawn, "point", is_end=True) for row in layer["rows"]]
    assert len(shown) > 40
    assert min(row["x"] for row in shown) >= paper.left_ft
    for layer in thin_lines(drawn, is_end=True):
        assert {row["x"] for row in layer["rows"]} == set(range(40, 61))
    texts = words(drawn, is_end=True)
    assert {"40 ft", "55 ft", "on paper:", "1 right", "2 right", "10"} <= set(texts)
    assert {drawn[line]["path"]["count_text"] for line in ("played", "advised")} <= set(texts)
    assert not {"15 ft", "foul line", "24", "13", "was 22", "crossed 12", "same"} & set(texts)
    assert "From 40 to 60 ft a board is drawn 4 times too wide" in " ".join(texts)


def test_what_is_likely_to_stay_stands_below_the_deck_one_row_a_line():
    drawn = scene(pattern=HOUSE)
    now, following = (line["text"] for line in drawn["deck"])
    expected = {f"{OTHERS_HEAD} now {now}": INK2, f"next {following}": THEN}
    rows = [
        (row, layer["mark"])
        for layer in layers(drawn, "text")
        for row in layer["rows"]
        if row["text"] in expected
    ]
    assert {row["text"]: mark["color"] for row, mark in rows} == expected
    assert {(row["x"], mark["align"]) for row, mark in rows} == {(LanePaper(drawn).end_ft, "right")}
    assert len({row["y"] for row, _ in rows}) == 2
    assert not any(OTHERS_HEAD in text for text in words(scene()))  # straight lines: nothing thrown
