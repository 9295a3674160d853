"""Curves and rows of the lessons: what is drawn, how it is labelled and told."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.bowler_profile.bowler_estimate import BowlerEstimate, Estimate
from coachlib.views.charts import lesson_charts
from coachlib.views.charts.lesson_charts import Curve, curves_chart
from coachlib.views.charts.lesson_rows import MoveAnswer, answers_chart, estimates_chart, move_answers
from coachlib.views.theme import INK, THEN, YOU
from coachlib.world.oil_shape import ramp_pattern
from tests.views import drawn

X = np.array([0.0, 1.0, 2.0])
CURVES = [
    Curve("rule", X, 2 * X, "said", has_points=False),
    Curve("model", X, X, "model"),
    Curve("third", X, -X, "third"),
]


def chart(panels=None, **options):
    spec = {"title": "How much?", "x_title": "miss, boards", "y_title": "shift, boards"} | options
    return curves_chart(panels or {"": CURVES}, **spec).to_dict()


def layers(spec, mark, panel=0):
    return drawn.layers(spec, mark, part=spec["concat"][panel])


def test_what_is_said_is_dashed_ink_and_lies_on_top_of_the_solid_blue():
    lines = layers(chart(), "line")
    assert [line["mark"]["color"] for line in lines] == [THEN, YOU, INK]
    assert ["strokeDash" in line["mark"] for line in lines] == [False, False, True]


def test_each_line_is_named_at_its_end_in_its_colour():
    names = layers(chart(), "text")
    assert [(name["rows"][0]["text"], name["mark"]["color"]) for name in names] == [
        ("rule", INK), ("model", THEN), ("third", YOU),
    ]  # fmt: skip
    assert [name["rows"][0]["x"] for name in names] == [2.0] * 3


def test_points_are_marked_where_asked_in_other_shapes():
    assert [point["mark"]["shape"] for point in layers(chart(), "point")] == ["circle", "square"]


def test_gaps_are_left_out_and_numbers_rounded():
    curve = Curve("one", [0.0, 1.0, 2.0], [1.23456, np.nan, 3.0])
    assert curve.rows == [{"x": 0.0, "y": 1.23}, {"x": 2.0, "y": 3.0}]


def test_a_point_with_an_error_gets_a_bar_and_others_get_none():
    counted = Curve("one", [0.0, 1.0, 2.0], [10.0, np.nan, 12.0], error=[0.5, 1.0, 0.25])
    spec = chart({"": [counted, CURVES[0]]})
    (bars,) = layers(spec, "rule")
    assert bars["rows"] == [{"x": 0.0, "y": 9.5, "y2": 10.5}, {"x": 2.0, "y": 11.75, "y2": 12.25}]
    assert bars["encoding"]["y2"]["field"] == "y2"
    assert bars["mark"]["color"] == THEN
    assert layers(chart(), "rule") == []


def test_the_pocket_lies_where_boards_are_counted():
    (up,), (across,) = (
        layers(chart(**{option: True}), "rect") for option in ("has_pocket", "is_pocket_across")
    )
    assert (up["rows"][0]["y"], up["rows"][0]["y2"]) == (16.8, 18.2)
    assert (across["rows"][0]["x"], across["rows"][0]["x2"]) == (16.8, 18.2)
    assert layers(chart(), "rect") == []
    assert "pocket" in [name["rows"][0]["text"] for name in layers(chart(has_pocket=True), "text")]


def test_names_that_would_touch_are_moved_apart_in_their_order():
    places = lesson_charts.apart([5.0, 5.1, 0.0], 1.0)
    assert sorted(places)[0] == pytest.approx(0.0, abs=0.4)
    assert places[1] - places[0] == pytest.approx(1.0)
    assert lesson_charts.apart([1.0, 9.0], 1.0) == [1.0, 9.0]


def test_panels_share_their_scales():
    spec = chart({"one": CURVES[:1], "two": CURVES[2:]})
    domains = [layers(spec, "line", panel)[0]["encoding"]["y"]["scale"]["domain"] for panel in (0, 1)]
    assert domains[0] == domains[1]
    assert domains[0][0] < -2.0
    assert domains[0][1] > 4.0
    assert [panel["title"]["text"] for panel in spec["concat"]] == ["one", "two"]


def test_a_cut_line_is_named_where_it_leaves_the_picture():
    (name, *_) = layers(chart(y_range=(-3.0, 3.0)), "text")
    assert (name["rows"][0]["text"], name["rows"][0]["x"]) == ("rule", 1.0)


def test_the_description_tells_every_line_and_marks_are_silent():
    spec = chart({"house": CURVES}, subtitle="model", has_pocket=True)
    start = "How much? model. shift, boards, by miss, boards: house, rule: 0 at 0, 2 at 1, 4 at 2"
    drawn.assert_described(spec, start, least=5)
    assert spec["description"].count(";") == 2
    assert spec["config"]["legend"]["disable"] is True
    drawn.assert_described(chart({"a": CURVES, "b": CURVES}), "How much?", least=10)


ANSWERS = [MoveAnswer("1 and 1", 1.0, -0.8), MoveAnswer("2 and 1", -2.0, -1.4)]


def test_answers_show_what_is_said_and_what_the_model_gives_in_one_row():
    spec = answers_chart({"slide": ANSWERS}, title="Where?", x_title="boards").to_dict()
    said, model = layers(spec, "point")
    assert [row["value"] for row in said["rows"]] == [1.0, -2.0]
    assert [row["value"] for row in model["rows"]] == [-0.8, -1.4]
    assert (said["mark"]["shape"], model["mark"]["shape"]) == ("diamond", "circle")
    assert [name["rows"][0]["text"] for name in layers(spec, "text")] == ["on paper", "model"]
    assert spec["description"].endswith("slide, 2 and 1: on paper -2.0, model -1.4.")


def test_answers_are_named_only_once():
    spec = answers_chart({"slide": ANSWERS, "walk": ANSWERS}, title="Where?", x_title="boards").to_dict()
    assert len(layers(spec, "text", 1)) == 0


def test_moves_on_even_film_answer_as_their_levers():
    # limiting case: there the model is the lever
    club = dataclasses.replace(cl.load_bowler("club_right"), walk="walk")
    even = ramp_pattern(1.0, length_ft=55.0)
    session = cl.Session(
        bowler=club, line=cl.Line(25.0, 14.0), ball=cl.load_ball("hybrid_2000"), pattern=even
    )
    answers = move_answers(session, [cl.Move(feet_boards=2.0, target_boards=1.0)])
    assert [(one.name, one.said) for one in answers] == [("2 and 1", -0.5)]
    assert answers[0].model == pytest.approx(-0.5, abs=0.02)


def fitted(revs):
    return BowlerEstimate(
        Estimate(revs, 40.0, 300.0, 80.0),
        Estimate(44.0, 8.0, 45.0, 15.0),
        Estimate(0.9, 0.25, 1.0, 0.3),
        (),
        10,
    )


def test_estimates_show_before_now_and_truth():
    truth = {"rev_rate_rpm": 250.0, "film_frac": 0.75}
    spec = estimates_chart({"ten": fitted(240.0), "more": fitted(255.0)}, truth, title="What?").to_dict()
    assert len(spec["concat"]) == 3
    assumed, now = layers(spec, "rule")
    assert [(row["value"], row["end"]) for row in assumed["rows"]] == [(220.0, 380.0)] * 2
    assert [(row["value"], row["end"]) for row in now["rows"]] == [(200.0, 280.0), (215.0, 295.0)]
    assert [row["value"] for row in layers(spec, "point")[1]["rows"]] == [250.0, 250.0]
    assert len(layers(spec, "point", 1)) == 1  # the true rotation was not given
    assert [row["value"] for row in layers(spec, "point", 2)[1]["rows"]] == [75.0, 75.0]
    assert "ten: revs, rpm 240 give or take 40" in spec["description"]
