"""Ways of playing in a notebook: all that is shipped is shown, and the charts say it in words."""

from coachlib.study.seasons.season_figures import HeldRow, SeasonScore, season_honesty, season_scores
from coachlib.views.charts.season_tables import (
    groups_table,
    held_table,
    kept_chart,
    reliability_chart,
    scores_table,
    ways_table,
)
from tests.study.game.test_practice_words import end, lost
from tests.views.drawn import assert_described


def _score(policy, gain):
    return SeasonScore("all", policy, 8, 30.0 + gain, gain, 1.0, gain, 0.5, 0.5, 0.2, 0.8, 3.0)


def test_ways_stand_in_order_and_never_moving_has_no_gain():
    nan = float("nan")
    never = SeasonScore("all", "never move", 8, 30.0, nan, nan, nan, nan, nan, nan, nan, 0.0)
    frame = ways_table([_score("oracle", 5.0), _score("advice", 3.0), never]).frame
    assert list(frame.index) == ["never move", "our advice", "reading the oil perfectly"]
    assert list(frame["over never moving"]) == ["", "+3.0 ± 1.0", "+5.0 ± 1.0"]


def test_every_group_has_its_row():
    frame = groups_table(season_scores()).frame
    assert len(frame) == len({one.group for one in season_scores()})
    assert frame.index[0] == "all lanes"
    assert "club bowler, right-handed · house pattern, 41 ft" in frame.index


def test_what_was_said_is_told_by_kind():
    held = season_honesty()
    assert len(held_table(held, "verdict", ("said", "n", "true")).frame) == 5
    assert "log loss" in scores_table(held).frame.index[-1]


def test_the_chart_says_what_it_draws():
    drawn = reliability_chart([HeldRow("chance", "5", 40, 5.5), HeldRow("lanes", "7", 3, 7.0)], "As said?")
    told = drawn.to_dict()
    assert "we said 5, 5.5 came, 40 times" in str(told)
    assert "7.0 came" not in str(told)


def test_every_way_of_a_practice_game_has_a_bar_a_diamond_and_its_number():
    spec = kept_chart(end(*(lost(number, 0.3, 0.4) for number in range(36)))).to_dict()
    (rows,) = spec["datasets"].values()
    assert [(row["name"], row["kept"], row["fell"], row["text"]) for row in rows] == [
        ("you", 20.8, 23, "kept 21"),
        ("never moving", 18.1, 18, "kept 18"),
        ("the rulebook", 19.4, 17, "kept 19"),
        ("our advice", 22.0, 22, "kept 22"),
        ("somebody who sees the oil", 25.2, 26, "kept 25"),
    ]
    assert [layer["mark"]["type"] for layer in spec["layer"]] == ["bar", "point", "text"]
    (others,) = {row["fill"] for row in rows[1:]}
    assert rows[0]["fill"] != others  # only your bar is filled
    assert [row["end"] for row in rows[:2]] == [23, 18.1]  # the number stands behind both marks
    assert "You kept 21 strikes in 36. The others: never moving 18" in spec["description"]
    assert "diamond: strikes that fell" in spec["title"]["subtitle"]
    assert spec["layer"][0]["encoding"]["x"]["title"] == "strikes of 36 first balls"
    assert_described(spec, "How many strikes")
