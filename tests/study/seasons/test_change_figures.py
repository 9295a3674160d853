"""What was measured of changes: the arithmetic of the report, the shipped table, and how it is shown."""

import re

import pandas as pd
import pytest

import coachlib as cl
from coachlib.study.seasons import change_figures
from coachlib.study.seasons.change_figures import changes_notes, changes_table, changes_worth
from tests.benchmarks.changes_report import COLUMNS, kinds, rules, sides


def rows(*cells):
    """Return measured rows: lane number, kind, change, said, looked, judged; the ball came in high."""
    lanes = [("k", "a", "x", lane, kind, change, "high", *more) for lane, kind, change, *more in cells]
    return pd.DataFrame(lanes, columns=COLUMNS)


def test_the_change_that_is_said_to_be_best_is_made_where_it_promises_something():
    measured = rows(
        (1, "speed", "slower", 0.05, 0.02, 0.01),
        (1, "speed", "faster", 0.01, 0.06, 0.05),
        (2, "speed", "slower", -0.02, -0.03, -0.04),
        (2, "speed", "faster", 0.01, -0.01, -0.02),
        (3, "speed", "slower", 0.03, -0.01, -0.03),
        (3, "speed", "faster", 0.00, 0.02, 0.01),
    )
    (speed,) = kinds(measured)
    assert (speed.n_lanes, speed.n_made, speed.lost_frac) == (3, 2, 0.5)
    assert speed.gain == pytest.approx(100 * (0.01 + 0.0 - 0.03) / 3)
    assert speed.most == pytest.approx(100 * (0.05 + 0.0 + 0.01) / 3)  # lane 2: who sees all stays
    assert speed.gain_half == pytest.approx(196 * pd.Series([0.01, -0.03, 0.0]).std() / 3**0.5)


def test_who_sees_all_is_asked_of_every_line_where_that_was_looked_for():
    measured = rows(
        (1, "feet and eyes", "2 and 1", 0.05, 0.02, 0.01),
        (1, "feet and eyes seen", "ball", float("nan"), 0.09, 0.08),
    )
    (moved,) = kinds(measured)
    assert (moved.gain, moved.most) == (pytest.approx(1.0), pytest.approx(8.0))


def test_a_rule_counts_where_it_fired():
    measured = rows(
        (1, "rule", "faster", float("nan"), 0.0, 0.04), (4, "rule", "faster", float("nan"), 0.0, -0.02)
    )
    (faster,) = rules(measured)
    assert (faster.what, faster.name, faster.n_lanes, faster.lost_frac) == ("rule", "faster: high", 2, 0.5)
    assert faster.gain == pytest.approx(1.0)


def test_a_change_is_counted_by_the_side_in_its_smallest_size():
    nan = float("nan")
    measured = rows(
        (1, "speed", "0.5 mph faster", 0.0, nan, 0.02),
        (1, "speed", "1 mph faster", 0.0, nan, 0.5),
        (2, "speed", "0.5 mph faster", 0.0, nan, 0.04),
        (2, "another ball", "0.5 mph", 0.0, nan, 0.5),
    )
    assert [(one.name, one.n_made, one.gain) for one in sides(measured)] == [
        ("0.5 mph faster: high", 2, pytest.approx(3.0))
    ]
    measured["side"] = "pocket"
    assert not list(sides(measured))


def test_the_shipped_table_is_whole_and_says_how_it_was_made():
    shipped = changes_worth()
    assert {one.name for one in shipped if one.what == "kind"} == {
        "feet and eyes", "speed", "hand", "surface", "another ball", "another ball and its line"
    }  # fmt: skip
    rulebook = cl.load_rulebook()
    ruled = [one for one in shipped if one.what == "rule"]
    assert ruled
    assert all(rulebook.rule(one.name.partition(":")[0]).section in "GH" for one in ruled)
    assert all(0 <= one.n_made <= one.n_lanes for one in shipped)
    assert re.fullmatch(
        r"python -m tests\.benchmarks\.changes_worth --seeds \d+:\d+ --ship data", changes_notes()["made by"]
    )


def test_each_row_is_shown_with_its_error():
    table = changes_table()
    shown = table.loc["speed"]
    speed = next(one for one in changes_worth() if one.name == "speed")
    assert shown["strikes_of_100_added"] == f"{speed.gain:+.1f} ± {speed.gain_half:.1f}"
    assert shown["made_on"] == f"{speed.n_made} of {speed.n_lanes} lanes"
    assert "by_who_sees_all" not in changes_table("rule").columns


def test_a_broken_table_is_told(monkeypatch, tmp_path):
    path = tmp_path / "changes_worth.csv"
    path.write_text("what,name,n_lanes,n_made,gain,gain_half,lost_frac,most\nkind,speed,3,many,1,1,1,1\n")
    monkeypatch.setattr(change_figures, "data_path", lambda _name: path)
    with pytest.raises(cl.DataFileError, match=r"changes_worth\.csv, row 2: .*Make the file again"):
        changes_worth()
