"""The map of a bag: what is filled, named and told."""

from coachlib.views.charts.bag_chart import bag_chart
from coachlib.views.theme import picture_svg
from tests.coaching.equipment.test_bag import made_up


def test_the_map_fills_what_is_enough_and_names_every_ball():
    bag = made_up([[0.40, 0.20], [0.20, 0.40], [0.45, 0.45]])
    spec = bag_chart(bag, bag.balls[:1], title="Which?").to_dict()
    points = [layer for layer in spec["layer"] if layer["mark"]["type"] == "point"]
    rows = {layer["mark"]["fill"]: spec["datasets"][layer["data"]["name"]] for layer in points}
    assert [row["text"] for row in rows["white"]] == ["ball_1", "ball_2"]
    assert [len(one) for one in rows.values()] == [2, 1]
    names = [layer for layer in spec["layer"] if layer["mark"]["type"] == "text"]
    assert len(names) == 3
    assert spec["description"].startswith("Which? ball_0 skids 30 ft and covers 20 boards; ball_1")
    assert all(layer["mark"]["aria"] is False for layer in spec["layer"])
    assert picture_svg(spec).count('role="img"') == 1
