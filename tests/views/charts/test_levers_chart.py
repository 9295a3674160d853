"""Moves as levers, drawn and as a table."""

import math

import pytest

from coachlib.views.charts.levers_chart import levers_chart, levers_table
from coachlib.world.line import Move
from tests.views.drawn import layers

MOVES = [Move(feet_boards=f, target_boards=e) for f, e in ((1.0, 1.0), (2.0, 1.0), (3.0, 2.0), (4.0, 2.0))]


def cells(moves=MOVES, **options):
    """Return the small pictures, each as its layers by their mark, with their rows."""
    spec = levers_chart(moves, **options).to_dict()
    marks = ("line", "point", "text")
    return [{mark: layers(spec, mark, part=cell) for mark in marks} | cell for cell in spec["concat"]]


def test_the_table_is_the_arithmetic_of_similar_triangles():
    # derived by hand: slide f + (e - f) d / 15, walk e + (f - e)(15 - d) / 30
    table = levers_table(MOVES)
    assert list(table["walk"]) == ["slide", "walk"] * 4
    assert list(table["shift_60_ft_boards"]) == [1, 1, -2, -0.5, -1, 0.5, -4, -1]
    assert list(table["shift_45_ft_boards"]) == [1, 1, -1, 0, 0, 1, -2, 0]
    assert list(table["pivot_ft"]) == [math.inf, math.inf, 30, 45, 45, 75, 30, 45]


def test_every_move_and_way_of_walking_has_its_picture():
    titles = [cell["title"]["text"] for cell in cells()]
    assert titles == [f"{move}, {walk}" for walk in ("slide", "walk") for move in
                      ("1 and 1", "2 and 1", "3 and 2", "4 and 2")]  # fmt: skip
    ends = [cell["text"][0]["rows"][0]["text"] for cell in cells()]
    assert ends[:4] == ["1 inside", "2 outside", "1 outside", "4 outside"]
    assert ends[4:] == ["1 inside", "½ outside", "½ inside", "1 outside"]


def test_old_is_dashed_at_zero_and_new_is_solid():
    old, new = cells()[1]["line"]
    assert [row["shift"] for row in old["rows"]] == [0, 0]
    assert "strokeDash" in old["mark"]
    assert "strokeDash" not in new["mark"]
    assert [row["shift"] for row in new["rows"]] == [2, 0, -1, -2]


def test_a_pivot_is_marked_only_between_foul_line_and_pins():
    crosses = [cell["point"][1]["rows"] for cell in cells()]
    assert [rows[0]["at_ft"] if rows else None for rows in crosses] == [None, 30, 45, 30, None, 45, None, 45]


def test_the_description_tells_every_end():
    description = levers_chart(MOVES, title="Where to?").to_dict()["description"]
    assert description.startswith(
        "Where to? 1 and 1 inside, slide: 1 inside at 60 ft; 2 and 1 inside, slide: 2 out"
    )
    assert description.endswith("4 and 2 inside, walk: 1 outside at 60 ft.")


@pytest.mark.parametrize(("feet", "reach"), [(1.0, 6), (8.0, 36)])
def test_the_scale_holds_the_largest_shift(feet, reach):
    (cell,) = cells([Move(feet_boards=feet)], walks=["slide"])
    assert cell["line"][0]["encoding"]["y"]["scale"]["domain"] == [-reach, reach]
