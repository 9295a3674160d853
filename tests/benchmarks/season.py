"""Plays seasons on hidden lanes and prints what each way of playing is worth; `make bench-season` runs it.

``python -m tests.benchmarks.season --seeds 156:160 --out build/season``
Every bowler on every pattern on every seed, each way of playing on the same lane with the same errors; seeds
of different cells are different lanes. A finished season is on disk before the next is counted: stop it,
kill it, start it again. Seasons of other code or other settings in the same folder are left alone; never
moving, following the miss and the oracle do not ask the advice, so a change of the advice does not make them
be played again. ``--scheduler tcp://HOST:8786`` sends seasons to a Dask cluster (extra ``cluster``).

Seeds below 100 are for choosing thresholds, seeds from 100 on for reporting.
"""

import argparse
import dataclasses
import functools
import hashlib
import itertools
import os
import sys
import time
import zlib
from collections.abc import Iterator
from pathlib import Path

import coachlib as cl
from coachlib.errors import checked_choice, checked_number
from coachlib.files import append_lines, whole_lines
from coachlib.physics.pins.build.sweep import workers
from coachlib.study.seasons.judge import Judged, judged_season
from coachlib.study.seasons.policies import POLICIES
from tests.benchmarks.season_report import report
from tests.benchmarks.season_ship import ship

BOWLERS = ("club_right", "high_rev_left", "walker_right", "senior_right", "low_rev_right", "two_handed_right")
PATTERNS = ("house_41", "flat_42", "short_36", "long_44")
BLOCK = 4
"""Seeds of one cell that are played one after the other, so that its tables stay at hand."""

SAMPLED = (("club_right", "house_41", 1), ("two_handed_right", "short_36", 2))
"""Lanes on which a way of playing is tried to name what it does: bowler, pattern, seed."""

N_SAMPLED_BALLS = 12

SEASON_HEADER = (
    "key,bowler,pattern,seed,policy,strikes_per_100,lines_per_100,n_struck,n_moves,mean_ms,most_ms"
)
JUDGED_HEADER = "key,bowler,pattern,seed," + ",".join(field.name for field in dataclasses.fields(Judged))


@dataclasses.dataclass(frozen=True)
class Piece:
    """The seasons of one bowler on one lane that are still to be played."""

    bowler: str
    pattern: str
    seed: int
    policies: tuple[str, ...]
    keys: tuple[str, ...]
    ball: str
    n_shots: int


def played(piece: Piece) -> tuple[list[str], list[str]]:
    """Play the seasons of a piece; return lines for seasons.csv and for judged.csv."""
    seasons, decisions = [], []
    for name, key in zip(piece.policies, piece.keys, strict=True):
        world = cell_lane(piece.bowler, piece.pattern, piece.seed, piece.ball)
        season = judged_season(name, world, piece.n_shots)
        result = season.result
        place = f"{key},{piece.bowler},{piece.pattern},{piece.seed}"
        scores = (result.expected_strikes_per_100, 100.0 * season.line_strike_prob.mean())
        counts = (int(result.struck.sum()), result.n_moves)
        times_ms = (result.decision_ms.mean(), result.decision_ms.max())
        values = ",".join(f"{value:.6g}" for value in (*scores, *counts, *times_ms))
        seasons.append(f"{place},{name},{values}")
        if name == "advice":
            decisions += [f"{place},{_cells(one)}" for one in season.decisions]
    return seasons, decisions


def lane_seed(bowler: str, pattern: str, seed: int) -> int:
    """Return the lane's own seed: cells share no law, no oil and no errors, so that their results add up."""
    return zlib.crc32(f"{bowler} {pattern} {seed}".encode()) % 2**31


def cell_lane(
    bowler: str, pattern: str, seed: int, ball: str, line: cl.Line | None = None
) -> cl.PracticeLane:
    """Return the hidden lane of a bowler on a pattern for a seed."""
    hidden_seed = lane_seed(bowler, pattern, seed)
    return cl.PracticeLane(
        cl.load_pattern(pattern), cl.load_bowler(bowler), cl.load_ball(ball), hidden_seed, line
    )


def _cells(one: Judged) -> str:
    values = dataclasses.astuple(one)
    return ",".join(f"{value:.6g}" if isinstance(value, float) else str(value) for value in values)


@functools.cache
def behaviour_key(policy: str, ball: str = "hybrid_2000") -> str:
    """Return a short name for what a way of playing does on hidden lanes, whatever its code looks like.

    A few balls on a few lanes: another line played, another true chance or another ball struck is another
    name; a file moved or a name changed is none.
    """
    done = hashlib.sha256()
    for bowler, pattern, seed in SAMPLED:
        world = cl.PracticeLane(
            cl.load_pattern(pattern), cl.load_bowler(bowler), cl.load_ball(ball), seed=seed
        )
        season = judged_season(policy, world, N_SAMPLED_BALLS)
        lines = [(line.feet_board, line.target_board) for line in season.result.lines]
        done.update(repr((lines, season.result.struck.tolist())).encode())
        done.update(repr([f"{prob:.5f}" for prob in season.line_strike_prob.tolist()]).encode())
    return done.hexdigest()[:12]


def key_of(policy: str, options: argparse.Namespace) -> str:
    """Return the key under which a policy's seasons are kept: what it does, ball and number of balls."""
    return f"{behaviour_key(policy, options.ball)}-{options.ball}-{options.shots}"


def pieces(options: argparse.Namespace, done: set[str]) -> Iterator[Piece]:
    """Yield what is not played yet, the seeds of a block cell by cell."""
    keys = {name: key_of(name, options) for name in options.policies}
    for first in range(options.first, options.last, BLOCK):
        seeds = range(first, min(first + BLOCK, options.last))
        for bowler, pattern, seed in itertools.product(options.bowlers, options.patterns, seeds):
            missing = {
                name: key
                for name, key in keys.items()
                if f"{key},{bowler},{pattern},{seed},{name}" not in done
            }
            if missing:
                names, kept = zip(*missing.items(), strict=True)
                yield Piece(bowler, pattern, seed, names, kept, options.ball, options.shots)


def play_missing(options: argparse.Namespace) -> None:
    """Play what is missing, each season on disk before the next is counted."""
    import joblib

    for name in ("OMP_NUM_THREADS", "OPENBLAS_NUM_THREADS", "MKL_NUM_THREADS"):
        os.environ.setdefault(name, "1")  # one process a core, one thread a process
    seasons, judged = options.out / "seasons.csv", options.out / "judged.csv"
    for path, header in ((seasons, SEASON_HEADER), (judged, JUDGED_HEADER)):
        if not whole_lines(path):
            append_lines(path, [header])
    missing = list(pieces(options, _done(seasons)))
    start_s, stop_s = time.monotonic(), time.monotonic() + 60.0 * options.minutes
    with workers(options.scheduler):
        on_time = itertools.takewhile(lambda _: time.monotonic() < stop_s, missing)
        calls = (joblib.delayed(played)(piece) for piece in on_time)
        finished = joblib.Parallel(n_jobs=options.jobs, return_as="generator_unordered", batch_size=1)(calls)
        for number, (season_lines, judged_lines) in enumerate(finished, start=1):
            append_lines(judged, judged_lines)
            append_lines(seasons, season_lines)
            _show(number, len(missing), time.monotonic() - start_s)


def _show(n_done: int, n_all: int, spent_s: float) -> None:
    filled = 30 * n_done // n_all
    left = (n_all - n_done) * spent_s / n_done / 60.0
    line = f"[{'#' * filled}{'.' * (30 - filled)}] {n_done} of {n_all} lanes, {left:.1f} min left"
    if sys.stderr.isatty():
        sys.stderr.write(f"\r{line} " + "\n" * (n_done == n_all))
    elif n_done % 20 == 0 or n_done == n_all:
        sys.stderr.write(line + "\n")
    sys.stderr.flush()


def main(arguments: list[str] | None = None) -> int:
    """Play and print; 0 when all seasons are there, 3 when some are missing, 2 when it could not start."""
    try:
        options = _options(arguments)
        play_missing(options)
        is_whole = not list(pieces(options, _done(options.out / "seasons.csv")))
        keys = {name: key_of(name, options) for name in options.policies}
        print(report(options.out, keys, options))
        if options.ship is not None and is_whole:
            ship(options.out, options.ship, keys, options)
    except (cl.InputError, cl.DataFileError, ImportError) as error:
        sys.stderr.write(f"{error}\n")
        return 2
    return 0 if is_whole else 3


def _done(path: Path) -> set[str]:
    return {",".join(line.split(",")[:5]) for line in whole_lines(path)}


def _options(arguments: list[str] | None) -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.season", description="Play seasons.")
    parser.add_argument("--seeds", default="156:160", help="FIRST:LAST, the last one not played")
    parser.add_argument("--bowlers", default=",".join(BOWLERS), help="names, with commas")
    parser.add_argument("--patterns", default=",".join(PATTERNS), help="names, with commas")
    parser.add_argument("--policies", default=",".join(POLICIES), help="ways of playing, with commas")
    parser.add_argument("--ship", type=Path, help="folder to write the small tables into that ship")
    parser.add_argument("--ball", default="hybrid_2000", help="the ball that is thrown")
    parser.add_argument("--shots", type=int, default=36, help="first balls that count")
    parser.add_argument("--out", type=Path, default=Path("build/season"), help="folder of the seasons")
    parser.add_argument("--jobs", type=int, default=-1, help="processes; -1 is one a core")
    parser.add_argument("--minutes", type=float, default=1e6, help="start no further season after this time")
    parser.add_argument("--scheduler", default="", help="address of a Dask scheduler, e.g. tcp://HOST:8786")
    options = parser.parse_args(arguments)
    options.first, options.last = seeds_of(options.seeds)
    for name, known in (
        ("bowlers", cl.bowler_names()),
        ("patterns", cl.pattern_names()),
        ("policies", tuple(POLICIES)),
    ):
        asked = [one.strip() for one in getattr(options, name).split(",")]
        setattr(options, name, tuple(checked_choice(f"--{name}", one, known) for one in asked))
    checked_choice("--ball", options.ball, cl.ball_names())
    checked_number("--shots", options.shots, 1, 1000, "balls")
    return options


def seeds_of(text: str) -> tuple[int, int]:
    """Return the first seed of FIRST:LAST and the one behind the last."""
    first, _, last = text.partition(":")
    if not (first.isdigit() and last.isdigit() and int(first) < int(last)):
        message = f"--seeds is {text!r}; expected FIRST:LAST, two whole numbers. Give e.g. 156:160."
        raise cl.InputError(message, {"--seeds": message})
    return int(first), int(last)


if __name__ == "__main__":
    sys.exit(main())
