"""How far each number moves the strikes, drawn: largest first, tuned ones by shape as well as by colour."""

from coachlib.physics.pins.build.carry_checks import NumberCheck
from coachlib.views.charts.carry_charts import change_rows, changes_chart
from coachlib.views.theme import THEN, YOU, picture_svg

CHECKS = (
    NumberCheck("recommended", None, 100, 80.0, 0.0, 0.0, 54.0, 93.0, 83.0),
    NumberCheck("pin_mass_lb", 3.375, 100, 81.0, 1.0, 0.5, 54.0, 93.0, 83.0),
    NumberCheck("pin_deck_restitution", 0.2, 100, 90.0, 10.0, 1.5, 54.0, 93.0, 83.0),
    NumberCheck("hit_ms", 0.7, 100, 76.0, -4.0, 1.0, 54.0, 93.0, 83.0),
)


def points(spec):
    return [layer for layer in spec["layer"] if layer["mark"]["type"] == "point"]


def test_the_largest_change_stands_first_and_bars_reach_two_errors():
    rows = change_rows(CHECKS)
    assert [row["name"] for row in rows] == ["pin deck restitution 0.2", "hit 0.7 ms", "pin mass 3.375 lb"]
    assert [(row["low"], row["high"]) for row in rows] == [(7.0, 13.0), (-6.0, -2.0), (0.0, 2.0)]


def test_tuned_numbers_are_squares_and_the_rest_circles():
    spec = changes_chart(CHECKS, "How far?").to_dict()
    guessed, tuned = points(spec)
    assert (guessed["mark"]["shape"], guessed["mark"]["fill"]) == ("circle", THEN)
    assert (tuned["mark"]["shape"], tuned["mark"]["fill"]) == ("square", YOU)
    names = [row["name"] for row in spec["datasets"][tuned["data"]["name"]]]
    assert names == ["pin deck restitution 0.2"]


def test_it_is_told_in_words_and_can_be_drawn():
    spec = changes_chart(CHECKS, "How far?", "one change").to_dict()
    assert "pin deck restitution 0.2: +10; hit 0.7 ms: -4; pin mass 3.375 lb: +1" in spec["description"]
    assert all(layer["mark"].get("aria") is False for layer in spec["layer"])
    assert "<svg" in picture_svg(spec)
