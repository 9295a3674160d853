"""Writes what a season gave into two small tables that ship, see ``study.seasons.season_figures``."""

import argparse
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pandas as pd

from coachlib.study.seasons.season_figures import HONESTY_FILE, SCORES_FILE, HeldRow, SeasonScore
from tests.benchmarks.season_report import (
    CELL,
    NEVER,
    ORACLE,
    brier_score,
    came_in_wrong,
    gap_share,
    judged_rows,
    lane_table,
    log_loss,
    over_never,
    season_rows,
    was_bowler,
)

NAN = float("nan")


def ship(folder: Path, into: Path, keys: dict[str, str], options: argparse.Namespace) -> None:
    """Write the tables of the seasons in a folder that fit the options."""
    notes = {
        "made by": f"python -m tests.benchmarks.season --seeds {options.first}:{options.last} --ship data",
        "bowlers": " ".join(options.bowlers),
        "patterns": " ".join(options.patterns),
        "first balls a season": str(options.shots),
    }
    seasons, judged = season_rows(folder, keys, options), judged_rows(folder, keys, options)
    write_with_notes(into / SCORES_FILE, notes, pd.DataFrame(scores(seasons)), "%.4g")
    write_with_notes(into / HONESTY_FILE, notes, pd.DataFrame(honesty(judged)), "%.4g")


def write_with_notes(path: Path, notes: dict[str, str], table: pd.DataFrame, numbers: str) -> None:
    """Write a table with its notes above, its numbers in a format such as ``%.4g``."""
    head = "".join(f"# {name}: {value}\n" for name, value in notes.items())
    path.write_text(head + table.to_csv(index=False, float_format=numbers, na_rep="nan"), encoding="utf-8")


def scores(seasons: pd.DataFrame) -> Iterator[SeasonScore]:
    """Yield the scores of all lanes, then by bowler, by pattern and by cell."""
    thrown, lines = lane_table(seasons), lane_table(seasons, "lines_per_100")
    moves = lane_table(seasons, "n_moves")
    yield from _of_group("all", thrown, lines, moves)
    for level in (*CELL, CELL):
        for name, part in thrown.groupby(level=level):
            group = " on ".join(name) if isinstance(name, tuple) else str(name)
            yield from _of_group(group, part, lines.loc[part.index], moves.loc[part.index])


def honesty(judged: pd.DataFrame) -> Iterator[HeldRow]:
    """Yield what was said against what was true."""
    thrown = judged[judged["new_said_prob"].notna()]
    for count, part in thrown.groupby((thrown["new_said_prob"] * 20.0).round().astype(int)):
        yield HeldRow("chance", str(count), len(part), 20.0 * part["new_true_prob"].mean())
    moves = judged[
        ((judged["feet_boards"] != 0) | (judged["target_boards"] != 0)) & judged["better_said_frac"].notna()
    ]
    gain = moves["new_true_prob"] - moves["stay_true_prob"]
    for count, part in gain.groupby((moves["better_said_frac"] * 10.0).round().astype(int)):
        yield HeldRow("lanes", str(count), len(part), 10.0 * float(np.mean(part > 0)))
    missed = judged.dropna(subset=["release_boards", "lane_boards"])
    missed = missed[came_in_wrong(missed)]
    came = was_bowler(missed)
    for verdict, part in came.groupby(missed["verdict"]):
        yield HeldRow("verdict", str(verdict), len(part), float(part.mean()))
    yield from _whole_scores(thrown, missed[missed["bowler_said_prob"].notna()])


def _whole_scores(thrown: pd.DataFrame, told: pd.DataFrame) -> Iterator[HeldRow]:
    usual = pd.Series(thrown["struck"].astype(float).mean(), index=thrown.index)
    chances = (("said", thrown["new_said_prob"]), ("one number", usual), ("true", thrown["new_true_prob"]))
    for name, chance in chances:
        yield HeldRow("score", f"Brier, {name}", len(thrown), brier_score(chance, thrown["struck"]))
    came = was_bowler(told)
    prior = pd.Series(came.mean(), index=told.index)
    for name, chance in (("said", told["bowler_said_prob"]), ("prior", prior)):
        yield HeldRow("score", f"log loss of the verdict, {name}", len(told), log_loss(chance, came))


def _of_group(
    group: str, thrown: pd.DataFrame, lines: pd.DataFrame, moves: pd.DataFrame
) -> Iterator[SeasonScore]:
    for policy in thrown.columns:
        mean = float(thrown[policy].groupby(level=CELL).mean().mean())
        gains = (*over_never(thrown, policy), *over_never(lines, policy)) if policy != NEVER else (NAN,) * 4
        share = gap_share(lines, policy) if policy not in (NEVER, ORACLE) else (NAN,) * 3
        yield SeasonScore(group, policy, len(thrown), mean, *gains, *share, float(moves[policy].mean()))
