"""The season in a notebook: all that is shipped is shown, and the chart says it in words."""

from coachlib.study.seasons.season_figures import HeldRow, SeasonScore, season_honesty, season_scores
from coachlib.views.charts.season_tables import (
    groups_table,
    held_table,
    reliability_chart,
    scores_table,
    ways_table,
)


def _score(policy, gain):
    return SeasonScore("all", policy, 8, 30.0 + gain, gain, 1.0, gain, 0.5, 0.5, 0.2, 0.8, 3.0)


def test_ways_stand_in_order_and_never_moving_has_no_gain():
    nan = float("nan")
    never = SeasonScore("all", "never move", 8, 30.0, nan, nan, nan, nan, nan, nan, nan, 0.0)
    frame = ways_table([_score("oracle", 5.0), _score("advice", 3.0), never]).frame
    assert list(frame.index) == ["never move", "our advice", "one who reads the oil"]
    assert list(frame["over never moving"]) == ["", "+3.0 ± 1.0", "+5.0 ± 1.0"]


def test_every_group_has_its_row():
    frame = groups_table(season_scores()).frame
    assert len(frame) == len({one.group for one in season_scores()})
    assert frame.index[0] == "all"


def test_what_was_said_is_told_by_kind():
    held = season_honesty()
    assert len(held_table(held, "verdict", ("said", "n", "true")).frame) == 5
    assert "log loss" in scores_table(held).frame.index[-1]


def test_the_chart_says_what_it_draws():
    drawn = reliability_chart([HeldRow("chance", "5", 40, 5.5), HeldRow("lanes", "7", 3, 7.0)], "As said?")
    told = drawn.to_dict()
    assert "said 5, true 5.5, 40 times" in str(told)
    assert "true 7.0" not in str(told)
