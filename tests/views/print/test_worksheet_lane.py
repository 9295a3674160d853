"""The lane to draw on: boards and feet where they belong, turned for the hand, nothing beyond its edge.

Sixty feet and 39 boards of 41.5 / 39 in: USBC lane specification as quoted by retailers.
"""

import xml.etree.ElementTree as ET

import pytest

import coachlib as cl
from coachlib.views.print.worksheet_lane import HEIGHT_PX, STRETCH, WIDTH_PX, across_px, along_px, lane_svg
from tests.printed_pages import assert_grey

SVG = "{http://www.w3.org/2000/svg}"
LETTER_PX = 5.0  # mean width of a letter of 9 px


def words_of(svg):
    return [
        (text.text, float(text.get("x")), float(text.get("y")), text.get("text-anchor"))
        for text in ET.fromstring(svg).iter(f"{SVG}text")
    ]


def test_the_bowlers_left_is_on_top_for_both_hands():
    assert across_px(39, "right") < across_px(1, "right")
    assert across_px(1, "left") < across_px(39, "left")
    assert across_px(20, "left") == across_px(20, "right")
    for hand, board in (("right", 39), ("left", 1)):
        assert f"bowler's left · board {board}" in [word[0] for word in words_of(lane_svg(hand, "x"))]


@pytest.mark.parametrize("hand", ["right", "left"])
def test_every_board_has_a_line_and_every_fifth_its_number_at_both_ends(hand):
    root = ET.fromstring(lane_svg(hand, "x"))
    heights = {float(line.get("y1")) for line in root.iter(f"{SVG}line") if line.get("y1") == line.get("y2")}
    assert {across_px(board, hand) for board in range(1, 40)} <= heights
    numbers = [word for word in words_of(lane_svg(hand, "x")) if word[0].isdigit()]
    assert sorted(int(word[0]) for word in numbers) == sorted([5, 10, 15, 20, 25, 30, 35] * 2)
    assert all(abs(word[2] - 3 - across_px(int(word[0]), hand)) < 0.01 for word in numbers)


def test_distances_are_named_where_they_are():
    named = {word[0]: word[1] for word in words_of(lane_svg("right", "x")) if word[0].endswith(" ft")}
    assert named == {f"{at_ft} ft": along_px(at_ft) for at_ft in (15, 30, 45, 60)}


def test_the_stretch_is_what_the_picture_shows():
    board_in, foot_in = 41.5 / 39, 12.0
    drawn = (across_px(1, "right") - across_px(2, "right")) / (along_px(2) - along_px(1))
    assert drawn / (board_in / foot_in) == pytest.approx(STRETCH)
    assert 4.5 < STRETCH < 5.5


@pytest.mark.parametrize("hand", ["right", "left"])
def test_no_word_is_cut(hand):
    words = words_of(lane_svg(hand, "x"))
    assert len(words) > 15
    for text, x, y, anchor in words:
        width = len(text) * LETTER_PX
        left = {"start": x, "middle": x - width / 2, "end": x - width}[anchor]
        assert left >= 0, text
        assert left + width <= WIDTH_PX, text
        assert 8 <= y <= HEIGHT_PX, text


def test_lines_are_drawn_dashed_and_solid():
    svg = lane_svg("right", "x", [("dashed", [(0, 15), (60, 7)]), ("solid", [(0, 17), (60, 5)])])
    dashed, solid = ET.fromstring(svg).iter(f"{SVG}polyline")
    assert dashed.get("stroke-dasharray")
    assert solid.get("stroke-dasharray") is None
    places = [tuple(map(float, place.split(","))) for place in solid.get("points").split()]
    assert places == [(along_px(0), across_px(17, "right")), (along_px(60), across_px(5, "right"))]


def test_it_is_black_white_and_grey_and_its_name_is_data():
    svg = lane_svg("right", 'x" onload="y <b>')
    assert ET.fromstring(svg).get("aria-label") == 'x" onload="y <b>'
    assert_grey(svg)


def test_an_unknown_hand_is_refused():
    with pytest.raises(cl.InputError, match="hand is 'both'"):
        lane_svg("both", "x")
