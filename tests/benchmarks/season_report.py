"""What seasons say: strikes over never moving, share of the oracle's gap, honesty of chances and verdicts.

Two scores: the expected chance of each ball as it was thrown, and that of its line as it was played, which
comes to the same without the luck of the release and needs far fewer seasons. All comparisons are paired
lane by lane. Intervals of 95 %: a mean difference by its spread within cells, a
share by drawing the lanes of each cell again (bootstrap).
"""

import argparse
import io
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pandas as pd

from coachlib.coaching.session.last_move import half_back
from coachlib.files import whole_lines
from coachlib.world.lane import arrival_class
from coachlib.world.line import Move

NEVER, ORACLE = "never move", "oracle"
CELL = ["bowler", "pattern"]
SCORES = {
    "strikes_per_100": "expected strikes as thrown",
    "lines_per_100": "expected strikes of the lines played",
}
N_DRAWS = 2000
SHARE_AIM, GROUP_AIM, MOVES_AIM, WORST_CELL = 0.60, 0.45, 4.0, -2.0


def report(folder: Path, keys: dict[str, str], options: argparse.Namespace) -> str:
    """Return the whole report as text, of the seasons in a folder that fit the options."""
    parts = list(_strike_parts(season_rows(folder, keys, options)))
    if "advice" in keys:
        judged = judged_rows(folder, keys, options)
        parts += [*honesty_parts(judged), trust_text(judged)]
    return "\n\n".join(parts)


def season_rows(folder: Path, keys: dict[str, str], options: argparse.Namespace) -> pd.DataFrame:
    """Return the seasons in a folder that fit the options."""
    rows = _wanted_rows(folder / "seasons.csv", options)
    return rows[rows["key"] == rows["policy"].map(keys)]


def judged_rows(folder: Path, keys: dict[str, str], options: argparse.Namespace) -> pd.DataFrame:
    """Return the judged decisions of who follows the advice, each once."""
    rows = _wanted_rows(folder / "judged.csv", options)
    rows = rows[rows["key"] == keys["advice"]]
    return rows.drop_duplicates([*CELL, "seed", "ball_number"], keep="last")


def read_rows(path: Path) -> pd.DataFrame:
    """Return the finished lines of a file as a table."""
    return pd.read_csv(io.StringIO("\n".join(whole_lines(path))))


def _wanted_rows(path: Path, options: argparse.Namespace) -> pd.DataFrame:
    rows = read_rows(path)
    is_wanted = rows["bowler"].isin(options.bowlers) & rows["pattern"].isin(options.patterns)
    return rows[is_wanted & rows["seed"].between(options.first, options.last - 1)]


def lane_table(seasons: pd.DataFrame, score: str = "strikes_per_100") -> pd.DataFrame:
    """Return a score of each lane (row) and policy (column), only lanes that all have played."""
    table = seasons.pivot_table(index=[*CELL, "seed"], columns="policy", values=score)
    return table.dropna()


def over_never(lanes: pd.DataFrame, policy: str) -> tuple[float, float]:
    """Return the mean of a policy's strikes over never moving, and half of its 95 % interval.

    Every cell counts the same; the interval is that of a stratified mean.
    """
    gain = lanes[policy] - lanes[NEVER]
    cells = gain.groupby(level=CELL).agg(["mean", "var", "count"])
    error = float(np.sqrt((cells["var"] / cells["count"]).sum())) / len(cells)
    return float(cells["mean"].mean()), 1.96 * error


def gap_share(lanes: pd.DataFrame, policy: str) -> tuple[float, float, float]:
    """Return which share of the way from never moving to the oracle a policy goes, and its 95 % interval."""
    rng = np.random.default_rng(1)
    gains = [
        cell[[policy, ORACLE]].to_numpy() - cell[[NEVER]].to_numpy() for _, cell in lanes.groupby(level=CELL)
    ]
    whole = np.mean([gain.mean(axis=0) for gain in gains], axis=0)
    drawn = np.zeros((N_DRAWS, 2))
    for gain in gains:
        drawn += gain[rng.integers(len(gain), size=(N_DRAWS, len(gain)))].mean(axis=1)
    low, high = np.percentile(drawn[:, 0] / drawn[:, 1], [2.5, 97.5])
    return float(whole[0] / whole[1]), float(low), float(high)


def _strike_parts(seasons: pd.DataFrame) -> Iterator[str]:
    for score, title in SCORES.items():
        lanes = lane_table(seasons, score)
        n_left = len(seasons[[*CELL, "seed"]].drop_duplicates()) - len(lanes)
        left = f", {n_left} more not played by all" * bool(n_left)
        n_cells = lanes.groupby(level=CELL).ngroups
        yield f"{title}, of 100 first balls: {len(lanes)} lanes in {n_cells} cells{left}"
        if NEVER in lanes and len(lanes):
            yield from _score_parts(lanes)
    yield _habit_table(seasons)
    if {NEVER, ORACLE, "advice"} <= set(seasons["policy"]):
        yield _misses(lane_table(seasons), seasons)


def _score_parts(lanes: pd.DataFrame) -> Iterator[str]:
    others = [name for name in lanes.columns if name != NEVER]
    cells = {"all": lanes}
    for level in CELL:
        cells |= {str(name): part for name, part in lanes.groupby(level=level)}
    cells |= {" on ".join(map(str, name)): part for name, part in lanes.groupby(level=CELL)}
    yield _gain_table(cells, others)
    if ORACLE in lanes:
        yield _share_table(cells, [name for name in others if name != ORACLE])


def _gain_table(cells: dict[str, pd.DataFrame], others: list[str]) -> str:
    lines = [f"{'over never moving':32}{'never':>7}" + "".join(f"{name:>18}" for name in others)]
    for name, lanes in cells.items():
        gains = (over_never(lanes, other) for other in others)
        shown = "".join(f"{f'{mean:+.1f} ± {half:.1f}':>18}" for mean, half in gains)
        lines.append(f"{name:32}{lanes[NEVER].groupby(level=CELL).mean().mean():7.1f}{shown}")
    return "\n".join(lines)


def _share_table(cells: dict[str, pd.DataFrame], others: list[str]) -> str:
    lines = [f"{'share of never → oracle':32}" + "".join(f"{name:>22}" for name in others)]
    for name, lanes in cells.items():
        shares = (gap_share(lanes, other) for other in others)
        shown = (f"{share:.2f} ({low:.2f} to {high:.2f})" for share, low, high in shares)
        lines.append(f"{name:32}" + "".join(f"{one:>22}" for one in shown))
    return "\n".join(lines)


def _habit_table(seasons: pd.DataFrame) -> str:
    lines = [f"{'':18}{'moves a season':>16}{'ms a decision':>16}{'slowest, ms':>14}"]
    for name, rows in seasons.groupby("policy"):
        lines.append(
            f"{name!s:18}{rows['n_moves'].mean():16.1f}{rows['mean_ms'].mean():16.2f}{rows['most_ms'].max():14.0f}"
        )
    return "\n".join(lines)


def _misses(lanes: pd.DataFrame, seasons: pd.DataFrame) -> str:
    """Return which aims the advice misses, one a line."""
    missed = []
    share = gap_share(lanes, "advice")[0]
    if share < SHARE_AIM:
        missed.append(f"overall the advice closes {share:.2f} of the gap, aim {SHARE_AIM:.2f}")
    moves = seasons.loc[seasons["policy"] == "advice", "n_moves"].mean()
    if moves > MOVES_AIM:
        missed.append(f"it moves {moves:.1f} times a season, aim at most {MOVES_AIM:g}")
    for name, part in lanes.groupby(level="bowler"):
        share = gap_share(part, "advice")[0]
        if share < GROUP_AIM:
            missed.append(f"{name}: {share:.2f} of the gap, aim {GROUP_AIM:.2f}")
    for name, part in lanes.groupby(level=CELL):
        mean, half = over_never(part, "advice")
        if mean + half < WORST_CELL:
            missed.append(
                f"{' on '.join(map(str, name))}: {mean:+.1f} ± {half:.1f}, wholly below {WORST_CELL:g}"
            )
    return "\n".join(["aims missed:", *missed]) if missed else "no aim is missed"


def honesty_parts(judged: pd.DataFrame) -> Iterator[str]:
    """Yield the tables that hold what the advice said against what was true."""
    is_stay = (judged["feet_boards"] == 0) & (judged["target_boards"] == 0)
    said = judged["stay_said_prob"].notna()
    if said.any():
        yield _reliability(judged[said], "stay_said_prob", "stay_true_prob", "chance of staying")
    thrown = judged[judged["new_said_prob"].notna()]
    if len(thrown):
        yield _reliability(thrown, "new_said_prob", "new_true_prob", "chance of the line then played")
        yield _brier(thrown)
    moves = judged[~is_stay]
    if len(moves):
        yield _better(moves)
    verdicts = judged.dropna(subset=["release_boards", "lane_boards"])
    verdicts = verdicts[came_in_wrong(verdicts)]
    if len(verdicts):
        yield _verdicts(verdicts)


BACK_WITHIN_BALLS = 3
TURNED_BACK_AIM = 0.05


def turned_back(judged: pd.DataFrame) -> tuple[int, int, int]:
    """Return how many moves were turned back within three balls, how many of these by half, and all moves.

    Back is a move whose feet go the other way than those of the one before on the same lane (its eyes, where
    neither moves the feet). By half is what the rule of thumb takes back of a move that went too far.
    """
    moves = judged[(judged["feet_boards"] != 0) | (judged["target_boards"] != 0)]
    n_back = n_half = 0
    for _, season in moves.sort_values("ball_number").groupby([*CELL, "seed"]):
        feet, eyes = season["feet_boards"].to_numpy(), season["target_boards"].to_numpy()
        is_soon = np.diff(season["ball_number"].to_numpy()) <= BACK_WITHIN_BALLS
        by_eyes = (feet[1:] == 0) & (feet[:-1] == 0) & (eyes[1:] * eyes[:-1] < 0)
        is_back = is_soon & ((feet[1:] * feet[:-1] < 0) | by_eyes)
        n_back += int(is_back.sum())
        made = [Move(float(f), float(e)) for f, e in zip(feet, eyes, strict=True)]
        n_half += sum(bool(is_back[i]) and made[i + 1] == half_back(made[i]) for i in range(len(is_back)))
    return n_back, n_half, len(moves)


def trust_text(judged: pd.DataFrame) -> str:
    """Return the habits that cost a coach's trust: moves turned back, and moves advised at a loss."""
    n_back, n_half, n_moves = turned_back(judged)
    loss = judged["new_said_prob"] < judged["stay_said_prob"]
    n_silent = int(judged["stay_said_prob"].isna().sum())
    share = n_back / max(n_moves, 1)
    return (
        f"moves turned back within {BACK_WITHIN_BALLS} balls: {n_back} of {n_moves} ({share:.3f}, aim below "
        f"{TURNED_BACK_AIM:g}); {n_half} of them by half, as the rule of thumb says\n"
        f"advised at a loss, by its own counts: {int(loss.sum())}\n"
        f"no counts shown: {n_silent} of {len(judged)} decisions"
    )


def came_in_wrong(rows: pd.DataFrame) -> pd.Series:
    """Return whether the ball before each decision missed the pocket."""
    arrival = 17.5 + rows["release_boards"] + rows["lane_boards"]
    return arrival.map(lambda board: arrival_class(board) != "pocket")


def was_bowler(rows: pd.DataFrame) -> pd.Series:
    """Return whether a miss was more the release's than the lane's, where their parts are known."""
    return rows["release_boards"].abs() > rows["lane_boards"].abs()


def _reliability(rows: pd.DataFrame, said: str, true: str, title: str) -> str:
    lines = [f"{title}: said, of 20; decisions; true of 20"]
    for count, part in rows.groupby((rows[said] * 20.0).round()):
        lines.append(f"{count:4.0f} of 20{len(part):8d}{20.0 * part[true].mean():10.1f}")
    lines.append(f"all {20.0 * rows[said].mean():.1f} said, {20.0 * rows[true].mean():.1f} true")
    return "\n".join(lines)


def brier_score(said: pd.Series, struck: pd.Series) -> float:
    """Return the mean squared difference between a chance and what came, 0 for a seer."""
    return float(((said - struck.astype(float)) ** 2).mean())


def _brier(rows: pd.DataFrame) -> str:
    usual = pd.Series(rows["struck"].astype(float).mean(), index=rows.index)
    parts = {
        "said": rows["new_said_prob"],
        "one number for all": usual,
        "true chances": rows["new_true_prob"],
    }
    scores = ", ".join(f"{name} {brier_score(chance, rows['struck']):.4f}" for name, chance in parts.items())
    return f"Brier score of strikes: {scores}"


def _better(moves: pd.DataFrame) -> str:
    gain = moves["new_true_prob"] - moves["stay_true_prob"]
    said = moves["new_said_prob"] - moves["stay_said_prob"]
    lines = [
        f"moves: {len(moves)}, truly better {np.mean(gain > 0):.2f}, "
        f"true gain {20.0 * gain.mean():+.2f} of 20, said {20.0 * said.mean():+.2f}"
    ]
    for name, part in (
        ("inside", moves["feet_boards"] > 0),
        ("outside or eyes alone", moves["feet_boards"] <= 0),
    ):
        if part.any():
            lines.append(f"  {name}: {part.sum()}, truly better {np.mean(gain[part] > 0):.2f}")
    tens = (moves["better_said_frac"] * 10.0).round()
    for count, part in gain.groupby(tens):
        lines.append(
            f"  said better on {count:.0f} of 10 lanes: {len(part)}, truly better {np.mean(part > 0):.2f}"
        )
    return "\n".join(lines)


def log_loss(said: pd.Series, came: pd.Series) -> float:
    """Return the mean surprise of yes-or-no outcomes under their chances [bit]."""
    kept = said.clip(1e-3, 1.0 - 1e-3)
    return float(-np.log2(np.where(came, kept, 1.0 - kept)).mean())


def _verdicts(rows: pd.DataFrame) -> str:
    came = was_bowler(rows)
    lines = [
        f"verdicts after {len(rows)} balls out of the pocket; more the release's doing: {came.mean():.2f}"
    ]
    for verdict, part in came.groupby(rows["verdict"]):
        lines.append(f"  {verdict!s:18}{len(part):6d}  the release's {part.mean():.2f}")
    told = rows["bowler_said_prob"].notna()
    if told.any():
        prior = pd.Series(came[told].mean(), index=rows.index[told])
        lines.append(
            f"  log loss {log_loss(rows.loc[told, 'bowler_said_prob'], came[told]):.3f} bit; "
            f"prior {log_loss(prior, came[told]):.3f}"
        )
    return "\n".join(lines)
