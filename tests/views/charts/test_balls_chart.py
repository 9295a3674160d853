"""Balls path over path: what is drawn, named and told."""

import pytest

import coachlib as cl
from coachlib.coaching.equipment.ball_comparison import compare_balls
from coachlib.views.charts.balls_chart import MOST_BALLS, balls_chart
from coachlib.views.theme import SERIES
from tests.views.drawn import assert_described, layers

BALLS = ("hybrid_2000", "solid_1000", "plastic_spare")
NAMES = ("hybrid 2000", "solid 1000", "plastic spare")


@pytest.fixture(scope="module")
def compared():
    session = cl.Session(
        bowler=cl.load_bowler("club_right"), line=cl.Line(29, 16), pattern=cl.load_pattern("house_41")
    )
    return compare_balls(session, [cl.load_ball(name) for name in BALLS])


def drawn(compared, hand="right", **options):
    return balls_chart(compared, hand, title="Where?", **options).to_dict()


def test_a_thick_line_a_ball_and_twenty_thin_ones(compared):
    lines = layers(drawn(compared), "line")
    thick = [line for line in lines if line["mark"]["strokeWidth"] == 3]
    thin = [line for line in lines if line["mark"]["strokeWidth"] < 1]
    assert [line["mark"]["color"] for line in thick] == SERIES[:3]
    assert len({tuple(line["mark"]["strokeDash"]) for line in thick}) == 3
    assert [len({row["ball"] for row in line["rows"]}) for line in thin] == [20] * 3
    assert thick[0]["rows"][-1] == {"x": 60, "y": round(compared[0].on_line.arrival_board, 2)}


def test_each_ball_is_named_where_it_arrives(compared):
    texts = layers(drawn(compared), "text")
    assert [text["rows"][0]["text"] for text in texts] == [*NAMES, "oil ends"]
    assert [text["rows"][0]["x"] for text in texts] == [60, 60, 60, 41.0]


def test_each_on_its_best_line_starts_elsewhere(compared):
    starts = {line["rows"][0]["y"] for line in layers(drawn(compared), "line")}
    best = {line["rows"][0]["y"] for line in layers(drawn(compared, on="best"), "line")}
    assert len(starts) == 1
    assert len(best) > 1


def test_after_the_matching_move_the_balls_arrive_together(compared):
    def apart(on):
        lines = layers(drawn(compared[:2], on=on), "line")
        first, second = (line["rows"][-1]["y"] for line in lines if line["mark"]["strokeWidth"] == 3)
        return abs(second - first)

    assert apart("match") < 1.0 < apart("line")


def test_where_it_is_narrow_the_names_stand_over_the_lane(compared):
    spec = drawn(compared, width_px=300, has_key=True)
    key, lane = spec["vconcat"]
    assert lane["width"] == key["width"] == 300
    assert [name["rows"][0]["text"] for name in layers(spec, "text", part=key)] == list(NAMES)


def test_the_picture_turns_with_the_hand(compared):
    scales = [
        layers(drawn(compared, hand), "line")[0]["encoding"]["y"]["scale"] for hand in ("right", "left")
    ]
    assert [scale["reverse"] for scale in scales] == [False, True]


def test_it_draws_no_more_than_can_be_told_apart(compared):
    lines = layers(drawn((*compared, *compared)), "line")
    assert len(lines) == 2 * MOST_BALLS


def test_it_is_described_and_its_marks_are_silent(compared):
    assert_described(drawn(compared), "Where? Seen from above: hybrid 2000 from board 22, outermost", least=8)
