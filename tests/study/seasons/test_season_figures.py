"""The season as shipped: the file's own consistency, and that thresholds were not chosen on its lanes."""

import re

import pytest

from coachlib.errors import DataFileError
from coachlib.study.seasons import season_figures
from coachlib.study.seasons.season_figures import season_honesty, season_notes, season_scores

LAST_SEED_FOR_CHOOSING = 99


def test_it_was_played_on_other_lanes_than_the_thresholds_were_chosen_on():
    first = int(season_notes()["made by"].split("--seeds ")[1].split(":")[0])
    assert first > LAST_SEED_FOR_CHOOSING


def test_every_bowler_on_every_pattern_and_every_way_of_playing_is_there():
    notes, scores = season_notes(), season_scores()
    bowlers, patterns = notes["bowlers"].split(), notes["patterns"].split()
    groups = {"all", *bowlers, *patterns, *(f"{one} on {other}" for one in bowlers for other in patterns)}
    ways = {"never move", "follow the miss", "rulebook", "advice", "oracle"}
    assert {(one.group, one.policy) for one in scores} == {(group, way) for group in groups for way in ways}
    assert len(bowlers) >= 5
    assert len(patterns) >= 4


def test_groups_add_up_to_all_lanes():
    scores = season_scores()
    advice = {one.group: one for one in scores if one.policy == "advice"}
    cells = [one for group, one in advice.items() if " on " in group]
    assert sum(one.n_lanes for one in cells) == advice["all"].n_lanes
    mean = sum(one.line_gain for one in cells) / len(cells)
    assert mean == pytest.approx(advice["all"].line_gain, abs=0.01)


def test_the_one_who_reads_the_oil_is_the_upper_end():
    by_way = {one.policy: one for one in season_scores() if one.group == "all"}
    others = [one for name, one in by_way.items() if name not in ("oracle", "never move")]
    assert all(one.line_gain < by_way["oracle"].line_gain for one in others)
    share = by_way["advice"].line_gain / by_way["oracle"].line_gain
    assert by_way["advice"].share == pytest.approx(share, abs=0.005)


def test_what_was_said_is_counted_whole():
    held = season_honesty()
    n_lanes = next(one.n_lanes for one in season_scores())
    n_balls = int(season_notes()["first balls a season"])
    n_said = sum(one.n for one in held if one.what == "chance")
    # where what was seen fits none of the model's lanes, nothing is said
    assert 0.9 * n_lanes * n_balls < n_said <= n_lanes * n_balls
    assert {one.what for one in held} == {"chance", "lanes", "verdict", "score"}


def test_a_damaged_row_is_named(tmp_path, monkeypatch):
    path = tmp_path / "season_honesty.csv"
    path.write_text("what,said,n,true\nchance,5,many,5.1\n")
    monkeypatch.setattr(season_figures, "data_path", lambda name: path)
    with pytest.raises(DataFileError, match=r"season_honesty.csv, row 2: .*many"):
        season_honesty()


def won(gain):
    return f"{'won' if gain > 0.0 else 'lost'} {abs(gain):.1f}"


def test_the_readme_tells_the_season_that_ships(repository):
    text = " ".join((repository / "README.md").read_text(encoding="utf-8").split())
    by_way = {one.policy: one for one in season_scores() if one.group == "all"}
    advice, chances = by_way["advice"], [one for one in season_honesty() if one.what == "chance"]
    n_said = sum(one.n for one in chances)
    said = sum(int(one.said) * one.n for one in chances) / n_said
    true = sum(one.true * one.n for one in chances) / n_said
    assert f"On {advice.n_lanes} simulated lanes hidden from the coach" in text
    assert f"won {advice.gain:.1f} ± {advice.gain_half:.1f} strikes in 100 first balls" in text
    assert f"Reading the oil perfectly would win {by_way['oracle'].gain:.1f}." in text
    assert f"The rule of thumb alone {won(by_way['rulebook'].gain)}," in text
    lost = by_way["follow the miss"].gain
    assert f"following every miss {abs(lost):.1f}." in text
    assert (lost < 0) == (by_way["rulebook"].gain < 0), "one verb stands for both"
    assert f"Where it said {said:.1f} strikes in 20, {true:.1f} came" in text
    assert re.search(r"SEEDS=(\S+?)`", text)[1] in season_notes()["made by"]
