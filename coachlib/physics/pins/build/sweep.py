"""Throw the racks behind the carry table: on all cores, on a cluster, in pieces, and again after a kill.

``python -m coachlib.physics.pins.build.sweep --racks 120000 --out build/carry`` throws what is still missing.
Every finished piece is on disk before the next is counted: stop it, kill it, start it again. ``--minutes 9``
stops in time; ``--scheduler tcp://HOST:8786`` sends the pieces to a Dask cluster (extra ``cluster``).
"""

import argparse
import contextlib
import dataclasses
import itertools
import json
import platform
import sys
import time
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import DataFileError, InputError, checked_number
from coachlib.files import append_lines, read_json, whole_lines, write_whole
from coachlib.physics.pins.build import arrival_sampling as design
from coachlib.physics.pins.rack.numbers import RackNumbers

SCHEMA = 1
PIECE = 16
STEP_MS = 0.025
HEADER = "index,standing,is_settled,time_ms"
Rows = list[tuple[int, int, int, int]]


def throw_piece(first: int, n_racks: int, seed: int, step_ms: float) -> Rows:
    """Return index, standing pins as bits (pin 1 is bit 0), settled, and time [ms] of some racks."""
    from coachlib.physics.pins.rack.throw import throw_racks

    points = design.arrival_points(first, n_racks, seed)
    thrown = throw_racks(*points.T, seed=seed, first_index=first, step_ms=step_ms)
    bits = thrown.standing @ (1 << np.arange(10))
    times_ms = np.rint(thrown.time_s * 1000.0)
    return [
        (first + number, int(bits[number]), int(thrown.is_settled[number]), int(times_ms[number]))
        for number in range(n_racks)
    ]


def settings_of(seed: int, step_ms: float) -> dict[str, Any]:
    """Return everything the counts depend on; a folder holds racks of one setting only."""
    bounds = {name: getattr(design, name) for name in dir(design) if name.startswith(("LOW", "HIGH", "DENS"))}
    return {
        "schema": SCHEMA,
        "seed": seed,
        "step_ms": step_ms,
        "design": bounds,
        "numbers": dataclasses.asdict(RackNumbers()),
    }


def read_thrown_racks(folder: Path) -> NDArray[np.int64]:
    """Return the racks thrown so far, one row a rack (see `HEADER`), sorted by index, none twice.

    Raises
    ------
    DataFileError
        If a line is no row of four numbers; names file and line.
    """
    path = folder / "racks.csv"
    rows: dict[int, list[int]] = {}
    for number, line in enumerate(whole_lines(path), start=1):
        if line == HEADER:
            continue
        cells = line.split(",")
        if len(cells) != 4 or not all(cell.isdigit() for cell in cells):
            message = (
                f"{path.name}, line {number}: {line[:40]!r}; expected four whole numbers. Delete the line."
            )
            raise DataFileError(message)
        rows[int(cells[0])] = [int(cell) for cell in cells]
    return np.array([rows[index] for index in sorted(rows)], dtype=np.int64).reshape(-1, 4)


def open_folder(folder: Path, seed: int, step_ms: float) -> None:
    """Start a folder of racks, or check that the one there holds racks of the same setting.

    Raises
    ------
    InputError
        If the folder was started with other settings; names them.
    """
    import numba

    wanted, path = settings_of(seed, step_ms), folder / "settings.json"
    if not path.is_file():
        versions = {"python": platform.python_version(), "numpy": np.__version__}
        versions |= {"numba": numba.__version__, "machine": platform.machine()}
        write_whole(path, json.dumps(wanted | {"versions": versions}, indent=1).encode())
        return
    found = read_json(path)
    other = [name for name, value in wanted.items() if found.get(name) != value]
    if other:
        message = (
            f"--out is {str(folder)!r}, started with other {', '.join(other)}; expected racks of one setting "
            "a folder. Give another folder, or the settings in its settings.json."
        )
        raise InputError(message)


def throw_missing(
    folder: Path,
    n_racks: int,
    seed: int,
    step_ms: float,
    stop_s: float,
    jobs: int,
    show: Callable[[int], None],
) -> int:
    """Throw the missing racks until done or until `stop_s` (monotonic clock); return how many there are."""
    import joblib

    open_folder(folder, seed, step_ms)
    done = set(read_thrown_racks(folder)[:, 0].tolist())
    if not done:
        append_lines(folder / "racks.csv", [HEADER])
    pieces = [range(first, min(first + PIECE, n_racks)) for first in range(0, n_racks, PIECE)]
    missing = [piece for piece in pieces if not done.issuperset(piece)]
    in_time = itertools.takewhile(lambda _: time.monotonic() < stop_s, missing)
    calls = (joblib.delayed(throw_piece)(piece.start, len(piece), seed, step_ms) for piece in in_time)
    for rows in joblib.Parallel(n_jobs=jobs, return_as="generator_unordered", batch_size=1)(calls):
        append_lines(folder / "racks.csv", [",".join(map(str, row)) for row in rows])
        done.update(row[0] for row in rows)
        show(len(done))
    return sum(index < n_racks for index in done)


def progress_line(n_done: int, n_start: int, n_racks: int, spent_s: float) -> str:
    """Return a bar with the time left, from what this run has thrown so far."""
    filled = 30 * n_done // n_racks
    rate = (n_done - n_start) / spent_s if spent_s > 0 else 0.0
    left = f"{(n_racks - n_done) / rate / 60.0:.1f} min left" if rate > 0 else "time left unknown"
    return f"[{'#' * filled}{'.' * (30 - filled)}] {n_done} of {n_racks} racks, {rate:.1f} a second, {left}"


def main(arguments: list[str] | None = None) -> int:
    """Run the sweep from the command line; return 0 when all racks are there, 3 when some are missing.

    Returns 2 where it could not start, with the reason on the error stream.
    """
    options = _parser().parse_args(arguments)
    try:
        n_there = _sweep(options)
    except (InputError, DataFileError, ImportError) as error:
        sys.stderr.write(f"{error}\n")
        return 2
    sys.stderr.write(f"\n{n_there} of {options.racks} racks are in {options.out}\n")
    return 0 if n_there >= options.racks else 3


def _sweep(options: argparse.Namespace) -> int:
    checked_number("--racks", options.racks, 1, 10_000_000, "racks")
    checked_number("--minutes", options.minutes, 0, 1e6, "min")
    start_s, n_start = time.monotonic(), len(read_thrown_racks(options.out))

    def show(n_done: int) -> None:
        line = progress_line(n_done, n_start, options.racks, time.monotonic() - start_s)
        if sys.stderr.isatty():
            sys.stderr.write(f"\r{line} ")
        elif (n_done // PIECE) % 64 == 0:
            sys.stderr.write(line + "\n")
        sys.stderr.flush()

    throw_piece(0, 1, options.seed, options.step_ms)  # compiles once, before the workers start
    with workers(options.scheduler):
        stop_s = start_s + 60.0 * options.minutes
        return throw_missing(
            options.out, options.racks, options.seed, options.step_ms, stop_s, options.jobs, show
        )


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python -m coachlib.physics.pins.build.sweep", description="Throw racks of pins."
    )
    parser.add_argument("--racks", type=int, default=131_072, help="how many racks there shall be in all")
    parser.add_argument("--out", type=Path, default=Path("build/carry"), help="folder of the racks")
    parser.add_argument("--minutes", type=float, default=1e6, help="start no further piece after this time")
    parser.add_argument("--jobs", type=int, default=-1, help="processes; -1 is one a core")
    parser.add_argument("--seed", type=int, default=1, help="of design and scatter")
    parser.add_argument("--step-ms", type=float, default=STEP_MS, help="time step in ms")
    parser.add_argument("--scheduler", default="", help="address of a Dask scheduler, e.g. tcp://HOST:8786")
    return parser


@contextlib.contextmanager
def workers(scheduler: str) -> Iterator[None]:
    """Let the pieces run on this machine's cores, or on the cluster behind a scheduler's address."""
    import joblib

    if not scheduler:
        with joblib.parallel_config(backend="loky"):
            yield
        return
    # joblib's Dask backend finds the client that is open.
    with _client(scheduler), joblib.parallel_config(backend="dask"):
        yield


def _client(scheduler: str) -> Any:
    """Return a connection to a Dask scheduler, or raise if Dask is missing or nothing answers."""
    try:
        import distributed

        connect: Any = distributed.Client
        return connect(scheduler, timeout="10s")
    except ImportError as error:
        problem = "and Dask is not installed; expected the extra 'cluster'. Install it with pip install "
        problem += "'coachlib[cluster]', or leave --scheduler out."
        cause: Exception = error
    except (OSError, ValueError) as error:
        problem = "and gives no answer; expected the address of a running Dask scheduler, such as "
        problem += "tcp://HOST:8786. Start it or mend the address."
        cause = error
    message = f"--scheduler is {scheduler!r} {problem}"
    raise InputError(message) from cause


if __name__ == "__main__":
    sys.exit(main())
