"""The season's benchmark: its arithmetic on made-up seasons, and a tiny run that stops and goes on."""

import dataclasses

import numpy as np
import pandas as pd
import pytest

from tests.benchmarks import season
from tests.benchmarks.season_report import (
    brier_score,
    gap_share,
    honesty_parts,
    lane_table,
    log_loss,
    over_never,
    read_rows,
    turned_back,
    was_bowler,
)

pytest.importorskip("joblib", reason="seasons are played by the extra 'pins'")

CELLS = [("a", "x"), ("a", "y")]


def seasons(n=40, gain=5.0, gap=10.0, noise=2.0):
    """Return made-up seasons: the advice gains `gain` of a gap `gap`, on lanes of very different level."""
    rng, rows = np.random.default_rng(0), []
    for bowler, pattern in CELLS:
        for seed in range(n):
            never = rng.normal(30.0, 15.0)
            advice = never + gain + rng.normal(0.0, noise)
            scores = {"never move": never, "advice": advice, "oracle": never + gap}
            rows += [(bowler, pattern, seed, name, score) for name, score in scores.items()]
    return pd.DataFrame(rows, columns=["bowler", "pattern", "seed", "policy", "strikes_per_100"])


def test_differences_are_paired_lane_by_lane():
    # limiting case: the spread between lanes, 15, drops out; that of the gain, 2, is left
    mean, half = over_never(lane_table(seasons()), "advice")
    assert mean == pytest.approx(5.0, abs=0.7)
    assert half == pytest.approx(1.96 * 2.0 / 80**0.5, rel=0.2)


def test_interval_as_of_a_plain_paired_test_for_one_cell():
    from scipy import stats

    rows = seasons(400)
    lanes = lane_table(rows[rows["pattern"] == "x"])
    gain = lanes["advice"] - lanes["never move"]
    low, high = stats.ttest_1samp(gain, 0.0).confidence_interval(0.95)
    mean, half = over_never(lanes, "advice")
    assert (mean - half, mean + half) == pytest.approx((low, high), abs=0.01)


def test_share_of_the_gap():
    share, low, high = gap_share(lane_table(seasons()), "advice")
    assert low < share < high
    assert share == pytest.approx(0.5, abs=0.07)
    assert gap_share(lane_table(seasons(noise=0.0)), "oracle") == pytest.approx((1.0, 1.0, 1.0))


def test_lanes_not_played_by_all_are_left_out():
    rows = seasons(5)
    rows = rows[~((rows["seed"] == 2) & (rows["policy"] == "oracle"))]
    assert len(lane_table(rows)) == 8


def test_scores_against_a_library():
    from scipy.stats import entropy

    said, came = pd.Series([0.9, 0.2, 0.6, 0.5]), pd.Series([True, False, False, True])
    assert brier_score(said, came) == pytest.approx((0.01 + 0.04 + 0.36 + 0.25) / 4)
    # the best single chance costs the entropy of what came
    half = pd.Series([0.5] * 4)
    assert log_loss(half, came) == pytest.approx(entropy([0.5, 0.5], base=2))
    quarter = pd.Series([0.25] * 4), pd.Series([True, False, False, False])
    assert log_loss(*quarter) == pytest.approx(entropy([0.25, 0.75], base=2))


def judged():
    return pd.DataFrame(
        {
            "verdict": ["bowler", "lane", "lane", "too early"],
            "feet_boards": [0.0, 2.0, 2.0, 0.0],
            "target_boards": [0.0, 1.0, 1.0, 0.0],
            "bowler_said_prob": [0.8, 0.3, 0.4, np.nan],
            "release_boards": [3.0, 0.5, -0.5, 0.1],
            "lane_boards": [0.5, 2.0, 2.0, 0.2],
            "stay_said_prob": [0.4, 0.2, 0.2, 0.3],
            "new_said_prob": [0.4, 0.4, 0.4, 0.3],
            "better_said_frac": [np.nan, 0.8, 0.8, np.nan],
            "stay_true_prob": [0.35, 0.1, 0.3, 0.3],
            "new_true_prob": [0.35, 0.3, 0.2, 0.3],
            "struck": [True, True, False, False],
        }
    )


def test_whose_doing_a_miss_was():
    assert was_bowler(judged()).tolist() == [True, False, False, False]


def test_moves_turned_back_and_those_by_half():
    moves = {
        "ball_number": [1, 3, 5, 10, 12, 20, 25, 30, 32, 33],
        "feet_boards": [0, 2, -1, 3, -3, 1, -1, 0, 0, 0],
        "target_boards": [0, 1, -0.5, 2, -2, 0, 0, 1, -1, -1],
    }
    judged = pd.DataFrame({"bowler": "club_right", "pattern": "house_41", "seed": 100} | moves)
    # 2 and 1 half, 3 and 2 whole, 1 after five balls not counted, eyes 1 whole, which half of one board is
    assert turned_back(judged) == (3, 2, 9)


def test_honesty_tables():
    stay, new, brier, moves, verdicts = honesty_parts(judged())
    assert "   4 of 20       2       4.0" in stay  # said .2 twice, true .1 and .3
    assert "   8 of 20       3       5.7" in new
    assert "Brier score of strikes: said 0.2425" in brier
    assert "moves: 2, truly better 0.50, true gain +1.00 of 20, said +4.00" in moves
    assert "said better on 8 of 10 lanes: 2, truly better 0.50" in moves
    assert "after 3 balls out of the pocket" in verdicts  # the fourth came in at 17.8
    assert "bowler                 1  the release's 1.00" in verdicts


OPTIONS = ["--bowlers", "club_right", "--patterns", "house_41", "--shots", "2", "--jobs", "1"]


def test_a_run_stops_goes_on_and_repeats_nothing(tmp_path, capsys):
    options = [*OPTIONS, "--policies", "never move,advice", "--out", str(tmp_path), "--seeds", "5:7"]
    assert season.main([*options, "--minutes", "0"]) == 3
    assert season.main(options) == 0
    rows = read_rows(tmp_path / "seasons.csv")
    wanted = [(seed, name) for seed in (5, 6) for name in ("advice", "never move")]
    assert sorted(zip(rows["seed"], rows["policy"], strict=True)) == wanted
    assert "2 lanes in 1 cells" in capsys.readouterr().out
    first = (tmp_path / "seasons.csv").read_bytes()
    with (tmp_path / "seasons.csv").open("ab") as file:
        file.write(b"torn")  # as a kill leaves it
    assert season.main(options) == 0
    assert (tmp_path / "seasons.csv").read_bytes() in (first, first + b"torn")
    assert len(read_rows(tmp_path / "judged.csv")) == 4


def test_seasons_are_what_the_library_plays(tmp_path):
    from coachlib.study.seasons.judge import judged_season
    from tests.hidden_lanes import lane

    assert season.main([*OPTIONS, "--policies", "rulebook", "--out", str(tmp_path), "--seeds", "3:4"]) == 0
    (row,) = read_rows(tmp_path / "seasons.csv").to_dict("records")
    world = lane(season.lane_seed("club_right", "house_41", 3))
    played = judged_season("rulebook", world, n_shots=2)
    assert row["strikes_per_100"] == pytest.approx(played.result.expected_strikes_per_100, rel=1e-5)
    assert row["lines_per_100"] == pytest.approx(100.0 * played.line_strike_prob.mean(), rel=1e-5)


def test_keys_tell_settings_and_ways_of_playing_apart(monkeypatch):
    monkeypatch.setattr(season, "SAMPLED", season.SAMPLED[:1])
    season.behaviour_key.cache_clear()
    options = season._options(OPTIONS)
    other = season._options([*OPTIONS, "--shots", "3"])
    key = season.key_of("never move", options)
    assert season.key_of("follow the miss", options) != key
    assert season.key_of("never move", other) != key
    season.behaviour_key.cache_clear()
    assert season.key_of("never move", options) == key  # the same balls again
    as_played = season.judged_season

    def luckier(*given):
        one = as_played(*given)
        return dataclasses.replace(one, line_strike_prob=one.line_strike_prob + 0.001)

    season.behaviour_key.cache_clear()
    monkeypatch.setattr(season, "judged_season", luckier)
    assert season.key_of("never move", options) != key
    season.behaviour_key.cache_clear()


@pytest.mark.parametrize(
    ("wrong", "told"),
    [
        (["--seeds", "7"], "--seeds is '7'; expected FIRST:LAST"),
        (["--seeds", "7:7"], "--seeds is '7:7'; expected FIRST:LAST"),
        (["--bowlers", "me"], "--bowlers is 'me'; expected one of 'club_right'"),
        (["--policies", "hope"], "--policies is 'hope'; expected one of 'never move'"),
        (["--shots", "0"], "--shots is 0; expected 1 to 1000 balls"),
    ],
)
def test_a_wrong_option_is_told_in_one_line(wrong, told, tmp_path, capsys):
    assert season.main([*OPTIONS, "--out", str(tmp_path), *wrong]) == 2
    assert told in capsys.readouterr().err
    assert not list(tmp_path.iterdir())


def test_a_cluster_plays_the_same_seasons(tmp_path):
    distributed = pytest.importorskip("distributed", reason="a cluster needs the extra 'cluster'")
    options = [*OPTIONS, "--policies", "never move", "--seeds", "3:5"]
    assert season.main([*options, "--out", str(tmp_path / "here")]) == 0
    with distributed.LocalCluster(
        n_workers=2, threads_per_worker=1, dashboard_address=None, local_directory=str(tmp_path / "dask")
    ) as cluster:
        there = [*options, "--out", str(tmp_path / "there"), "--scheduler", cluster.scheduler_address]
        assert season.main(there) == 0
    columns = ["seed", "policy", "strikes_per_100", "lines_per_100", "n_moves"]
    here, there = (
        read_rows(tmp_path / name / "seasons.csv").sort_values("seed")[columns] for name in ("here", "there")
    )
    assert here.to_numpy().tolist() == there.to_numpy().tolist()
