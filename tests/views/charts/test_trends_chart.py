"""The picture of a student's sessions: every figure a mark, classes as published, and words."""

import re

import pytest

from coachlib.records import Students
from coachlib.review.demo_log import write_demo_log
from coachlib.review.trends import student_trends
from coachlib.views.charts.trends_chart import short_day_text, trends_chart, trends_words
from coachlib.views.theme import picture_svg
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from tests.views.drawn import layers


@pytest.fixture(scope="module")
def trends(tmp_path_factory):
    logbook = write_demo_log(tmp_path_factory.mktemp("demo"))
    key = next(one.key for one in Students(logbook).listed() if one.shown_name == "Oskar")
    return student_trends(logbook, key)


def _layers(spec, cell, mark):
    return [layer["rows"] for layer in layers(spec, mark, part=spec["hconcat"][cell]) if layer["rows"]]


def test_each_session_is_a_mark_with_its_range(trends):
    spec = trends_chart(trends).to_dict()
    (marks,) = _layers(spec, 0, "point")
    assert [row["value"] for row in marks] == [one.arrow_miss_boards.sd for one in trends]
    ranges = _layers(spec, 0, "rule")[-1]
    assert [(row["low"], row["high"]) for row in ranges] == [
        (one.arrow_miss_boards.sd_low, one.arrow_miss_boards.sd_high) for one in trends
    ]


def test_the_tall_picture_has_the_same_two_one_below_the_other(trends):
    wide, tall = trends_chart(trends).to_dict(), trends_chart(trends, is_tall=True).to_dict()
    titles = [[cell["title"]["text"] for cell in spec] for spec in (wide["hconcat"], tall["vconcat"])]
    assert titles[0] == titles[1]
    assert "boards from the pocket" in titles[1][1]
    heights = [float(re.search(r'height="([\d.]+)"', picture_svg(spec))[1]) for spec in (wide, tall)]
    assert heights[1] > 1.5 * heights[0]


def test_the_published_classes_are_drawn_and_named(trends):
    spec = trends_chart(trends).to_dict()
    drawn = {row["text"].removeprefix("about "): row["value"] for row in _layers(spec, 0, "rule")[0]}
    assert drawn == ACCURACY_SD_BOARDS
    named = {row["text"] for rows in _layers(spec, 0, "text") for row in rows}
    assert named == {"about 160", "about 180", "about 200", "about 220", "tour"}


def test_each_lane_has_its_own_mark_and_name(trends):
    spec = trends_chart(trends).to_dict()
    marks = _layers(spec, 1, "point")
    assert [[row["value"] for row in rows] for rows in marks] == [
        [one.arrival_err_boards[lane].mean for one in trends] for lane in ("7", "8")
    ]
    shapes = [layer["mark"]["shape"] for layer in layers(spec, "point", part=spec["hconcat"][1])]
    assert shapes == ["circle", "square"]
    assert [rows[0]["text"] for rows in _layers(spec, 1, "text")] == ["lane 7", "lane 8"]


def test_the_picture_is_told_in_words(trends):
    words = trends_words(trends)
    assert words.startswith(f"Oldest first. {short_day_text(trends[0])}: spread ")
    assert words.count("boards high") + words.count("boards light") == 2 * len(trends)
    assert words in trends_chart(trends).to_dict()["description"]
    assert trends_words(()) == "No session yet."


def test_a_session_without_figures_and_no_session_are_drawn_too(trends):
    bare = trends[0]._replace(arrow_miss_boards=None, arrival_err_boards={})
    assert "crossings not noted" in trends_words([bare])
    for some in ([bare], []):
        assert picture_svg(trends_chart(some).to_dict()).startswith("<svg")


def test_hostile_lane_names_stay_text(trends):
    nasty = "</text><script>alert(1)</script>"
    bad = trends[0]._replace(arrival_err_boards={nasty: trends[0].arrival_err_boards["7"]})
    svg = picture_svg(trends_chart([bad]).to_dict())
    assert "<script" not in svg
    assert "&lt;script&gt;" in svg


def test_the_day_is_told_by_this_machines_clock(trends):
    assert short_day_text(trends[0]) == "1 Sep 2026"  # the demo's evenings are laid by that clock
