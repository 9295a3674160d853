"""The picture of strikes kept: what is in its parts, from numbers made up in the test of the words."""

from coachlib.views.charts.practice_chart import kept_chart
from tests.study.game.test_practice_words import end, lost


def drawn():
    return kept_chart(end(*(lost(number, 0.3, 0.4) for number in range(36)))).to_dict()


def test_every_way_has_a_bar_a_diamond_and_its_number():
    layers = drawn()["layer"]
    (rows,) = drawn()["datasets"].values()
    assert [(row["name"], row["kept"], row["fell"], row["text"]) for row in rows] == [
        ("you", 20.8, 23, "kept 21"),
        ("never moving", 18.1, 18, "kept 18"),
        ("the rulebook", 19.4, 17, "kept 19"),
        ("our advice", 22.0, 22, "kept 22"),
        ("the oracle", 25.2, 26, "kept 25"),
    ]
    assert [layer["mark"]["type"] for layer in layers] == ["bar", "point", "text"]
    assert all(layer["mark"]["aria"] is False for layer in layers)


def test_only_your_bar_is_filled_and_the_number_stands_behind_both_marks():
    (rows,) = drawn()["datasets"].values()
    assert len({row["fill"] for row in rows[1:]}) == 1
    assert rows[0]["fill"] != rows[1]["fill"]
    assert [row["end"] for row in rows[:2]] == [23, 18.1]


def test_the_picture_says_what_it_shows():
    told = drawn()
    assert "You kept 21 strikes of 36; never moving 18" in told["description"]
    assert "diamond: strikes that fell" in told["title"]["subtitle"]
    assert told["layer"][0]["encoding"]["x"]["title"] == "strikes of 36 first balls"
