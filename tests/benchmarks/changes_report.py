"""From measured changes to a small table: what each kind of change adds to strikes, with its error."""

import argparse
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pandas as pd

from coachlib.study.seasons.change_figures import CHANGES_FILE, ChangeWorth
from tests.benchmarks.season_ship import write_with_notes

LANE = ["bowler", "pattern", "seed"]
COLUMNS = ("key", *LANE, "kind", "change", "side", "said", "looked", "judged")
LEAST_SAID = 0.0125
"""A change that is said to add less than a quarter ball of twenty is not made."""

SEEN = " seen"
ONE_STEP = ("0.5 mph", "10 deg", "surface")
"""Changes asked of each side from which the ball comes in, whatever a rule says: in their smallest size."""


def ship(path: Path, key: str, options: argparse.Namespace) -> None:
    """Print the table of the rows in a file, and write it if a folder is named."""
    rows = pd.read_csv(path)
    rows = rows[(rows["key"] == key) & rows["seed"].between(options.first, options.last - 1)]
    table = pd.DataFrame([*kinds(rows), *rules(rows), *sides(rows)], columns=ChangeWorth._fields)
    print(table.to_string(index=False))
    if options.ship is None:
        return
    seeds = f"{options.first}:{options.last}"
    notes = {
        "made by": f"python -m tests.benchmarks.changes_worth --seeds {seeds} --ship data",
        "bowlers": " ".join(rows["bowler"].unique()),
        "patterns": " ".join(rows["pattern"].unique()),
    }
    write_with_notes(options.ship / CHANGES_FILE, notes, table, "%.3f")


def kinds(rows: pd.DataFrame) -> Iterator[ChangeWorth]:
    """Yield each kind of change as the belief chooses it, and the most that there was to win."""
    asked = rows[(rows["kind"] != "rule") & ~rows["kind"].str.endswith(SEEN)]
    n_lanes = len(asked.drop_duplicates(LANE))
    for kind, some in asked.groupby("kind", sort=False):
        chosen = some.loc[some.groupby(LANE)["said"].idxmax()]
        made = chosen[chosen["said"] > LEAST_SAID]
        gain = np.concatenate([made["judged"], np.zeros(n_lanes - len(made))])
        whole = rows[rows["kind"] == f"{kind}{SEEN}"]
        most = hindsight(whole if len(whole) else some, n_lanes)
        yield ChangeWorth("kind", str(kind), n_lanes, len(made), *mean_half(gain), lost(made), most)


def rules(rows: pd.DataFrame) -> Iterator[ChangeWorth]:
    """Yield each rule of thumb, where it first fired, apart by the side from which the ball came in."""
    return _everywhere("rule", rows[rows["kind"] == "rule"])


def sides(rows: pd.DataFrame) -> Iterator[ChangeWorth]:
    """Yield each change of speed, hand and surface in its smallest size, by the side of the last ball."""
    is_one = rows["kind"].isin(["speed", "hand", "surface"]) & rows["change"].str.contains("|".join(ONE_STEP))
    return _everywhere("side", rows[is_one & rows["side"].isin(["high", "light"])])


def _everywhere(what: str, rows: pd.DataFrame) -> Iterator[ChangeWorth]:
    for (change, side), some in rows.groupby(["change", "side"]):
        gain = some["judged"].to_numpy()
        counts = (len(some), len(some))
        yield ChangeWorth(what, f"{change}: {side}", *counts, *mean_half(gain), lost(some), float("nan"))


def hindsight(rows: pd.DataFrame, n_lanes: int) -> float:
    """Return the mean gain of who sees the truth and may also stay, judged by other errors, of 100."""
    best = rows.loc[rows.groupby(LANE)["looked"].idxmax()]
    return 100.0 * float(best.loc[best["looked"] > 0.0, "judged"].sum()) / n_lanes


def mean_half(gain: np.ndarray) -> tuple[float, float]:
    """Return the mean gain of 100 balls and half of its 95 % interval."""
    if len(gain) < 2:
        return 100.0 * float(gain.mean()), float("nan")
    return 100.0 * float(gain.mean()), 196.0 * float(gain.std(ddof=1) / np.sqrt(len(gain)))


def lost(made: pd.DataFrame) -> float:
    """Return the share of changes made that lost strikes."""
    return float((made["judged"] < 0.0).mean()) if len(made) else float("nan")
