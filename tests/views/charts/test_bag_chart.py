"""A bag as bars: sorted, in proportion, named, and readable without colour on a phone."""

import dataclasses
import re

import pytest

from coachlib.views.charts.bag_chart import BAR_PX, SECOND_PX, bag_chart
from coachlib.views.theme import picture_svg
from coachlib.world.lane import HEAD_PIN_FT
from tests.coaching.equipment.test_bag import made_up
from tests.views.drawn import assert_described, layers

BAG = made_up([[0.40, 0.20], [0.20, 0.40], [0.45, 0.45]])  # 30, 35, 40 ft and 20, 19, 18 boards
PHONE_PX = 390


def bars(spec, column):
    """Return the bars of one column, the uppermost first: height on the page, length, fill."""
    found = [(layer["rows"][0], layer["mark"]["fill"]) for layer in layers(spec, "rect")]
    left = (0, SECOND_PX)[column]
    return sorted((row["y"], row["x2"] - row["x"], fill) for row, fill in found if row["x"] == left)


def words(spec):
    return [layer["rows"][0]["text"] for layer in layers(spec, "text")]


def test_the_ball_that_turns_soonest_stands_on_top_and_bars_are_in_proportion():
    spec = bag_chart(BAG).to_dict()
    feet, boards = (bars(spec, column) for column in (0, 1))
    assert [length for _, length, _ in feet] == pytest.approx(
        [BAR_PX * ft / 40 for ft in (30, 35, 40)], abs=0.01
    )
    assert [length for _, length, _ in boards] == pytest.approx(
        [BAR_PX * covered / 20 for covered in (20, 19, 18)], abs=0.01
    )
    assert [top for top, _, _ in feet] == [top for top, _, _ in boards]


def test_every_bar_has_its_number_and_every_column_its_words():
    assert words(bag_chart(BAG).to_dict()) == [
        *("feet before it turns", "boards it covers"),
        *("ball 0", "30 ft", "20", "ball 1", "35 ft", "19", "ball 2", "40 ft", "18"),
    ]


def test_what_is_enough_is_filled_and_says_so_in_words():
    spec = bag_chart(BAG, BAG.balls[1:]).to_dict()
    fills = [fill for _, _, fill in bars(spec, 0)]
    assert fills[0] != fills[1] == fills[2]
    assert fills == [fill for _, _, fill in bars(spec, 1)]
    assert words(spec)[5] == "ball 1 (one of the 2 you need)"
    assert words(bag_chart(BAG, BAG.balls[:1]).to_dict())[2] == "ball 0 (the one you need)"


def test_a_ball_that_goes_straight_says_so_and_its_bar_does_not_go_backwards():
    straight = dataclasses.replace(BAG.places[2], skid_ft=HEAD_PIN_FT, covered_boards=-0.4)
    spec = bag_chart(dataclasses.replace(BAG, places=(*BAG.places[:2], straight))).to_dict()
    assert words(spec)[-2:] == ["no turn", "0"]
    assert bars(spec, 1)[-1][1] == 0
    assert "ball 2 does not turn and covers 0 boards" in spec["description"]


def test_it_is_described_and_its_marks_are_silent():
    start = "Which? ball 0 turns after 30 ft and covers 20 boards; ball 1"
    assert_described(bag_chart(BAG, title="Which?").to_dict(), start, least=8)


def test_it_fits_a_phone_with_letters_of_full_size():
    drawn = picture_svg(bag_chart(BAG, title="Which?", subtitle="Whose").to_dict())
    assert float(re.search(r'<svg[^>]* width="([\d.]+)"', drawn)[1]) < PHONE_PX - 16
