"""Figures of what the log withstands; `make bench-faults` runs it, names on the command line pick trials.

python tests/benchmarks/faults.py kills writers disk hostile season
"""

import os
import stat
import sys
import tempfile
from collections.abc import Iterator, Sequence
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from coachlib.records import Logbook
from tests.benchmarks.figures import Figure, picked, show
from tests.fault_trials import (
    hostile_faults,
    killed_writers,
    make_season,
    print_faults,
    season_figures,
    told_to_an_ordinary_user,
    two_writers,
    written_until_full,
)
from tests.hostile import hostile_texts

N_KILLS, N_EVENTS, N_TEXTS = 500, 5000, 1000
SEASON = (200, 30, 60)


def kills(folder: Path) -> Iterator[Figure]:
    """Yield what SIGKILLs of a writer did."""
    path = folder / "logbook.sqlite"
    Logbook(path).sessions()
    found = killed_writers(path, N_KILLS)
    how = f"SIGKILL at a random moment, {found.n_acknowledged} events acknowledged"
    yield "kills", found.n_kills, "kills", how
    yield "kills_lost", found.n_lost, "events", "acknowledged and not in the log afterwards"
    yield "kills_damaged", found.n_damaged, "times", "integrity check after each kill"


def writers(folder: Path) -> Iterator[Figure]:
    """Yield what two writers at once did."""
    found = two_writers(folder / "logbook.sqlite", N_EVENTS)
    how = f"two processes, sessions of their own and shared ones, {found.took_s:.0f} s"
    yield "writers", found.n_acknowledged, "events", how
    how = f"{found.n_logged} in the log, database damaged {found.n_damaged}×"
    yield "writers_lost", found.n_lost, "events", how


def disk(folder: Path) -> Iterator[Figure]:
    """Yield what a full disk and a read-only folder did."""
    n_kept, message = written_until_full(folder / "logbook.sqlite")
    is_said = float("no room left on its disk" in message)
    yield "disk_full", is_said, "told", f"1: {n_kept} events before it all kept"
    closed = folder / "closed"
    closed.mkdir()
    folder.chmod(0o755)
    closed.chmod(stat.S_IRUSR | stat.S_IXUSR | stat.S_IROTH | stat.S_IXOTH)
    is_said = float("cannot be opened for writing" in told_to_an_ordinary_user(closed / "logbook.sqlite"))
    yield "read_only", is_said, "told", "1: as a user without special rights"
    closed.chmod(0o700)


def hostile(folder: Path) -> Iterator[Figure]:
    """Yield what hostile texts did."""
    texts = hostile_texts(N_TEXTS)
    faults, printed = hostile_faults(folder, texts), print_faults(texts)
    for fault in (faults + printed)[:20]:
        print(f"# {fault}")
    yield "hostile", len(texts), "texts", "HTML, formulas, paths, emoji, right-to-left, 10 kB"
    how = "kept, listed, exported, read back, no formula, no other file"
    yield "hostile_faults", len(faults), "faults", how
    how = "as titles of the printed lane, elements and attributes compared"
    yield "hostile_printed", len(printed), "faults", how


def season(folder: Path) -> Iterator[Figure]:
    """Yield how long a season's list and trends take."""
    path = folder / "logbook.sqlite"
    keys = make_season(path, *SEASON)
    _fresh_cache(path)
    found = season_figures(path, keys)
    how = f"{SEASON[0]} students × {SEASON[1]} sessions, {found.n_shots} shots, {found.size_mb:.0f} MB"
    yield "season_list", found.list_s, "s", f"students with counts: {how}"
    yield "season_all_sessions", found.all_sessions_s, "s", "the list of all sessions"
    yield "season_sessions", found.sessions_s, "s", "the sessions of one"
    yield "season_trends", found.trends_s, "s", f"{SEASON[1]} sessions of one, all figures"
    yield "season_trends_cpu", found.trends_cpu_s, "s", "the same, time of the processor alone"
    yield "season_turn", found.turn_s, "s", "replay of one session: the next student's turn"


def _fresh_cache(path: Path) -> None:
    """Ask the system to forget the file's pages, so that the times are not those of memory."""
    if hasattr(os, "posix_fadvise"):
        with path.open("rb") as stream:
            os.fsync(stream.fileno())
            os.posix_fadvise(stream.fileno(), 0, 0, os.POSIX_FADV_DONTNEED)


TRIALS = {trial.__name__: trial for trial in (kills, writers, disk, hostile, season)}


def main(wanted: Sequence[str]) -> int:
    """Run the trials picked, all without a pick; 1 if one is not as it must be, 2 if a name is unknown."""
    names, is_bad = picked(wanted, TRIALS, "trial"), False
    for name in names:
        with tempfile.TemporaryDirectory() as folder:
            for figure in TRIALS[name](Path(folder)):
                show(figure)
                is_bad |= _is_bad(*figure[:3])
    return int(is_bad) if names else 2


def _is_bad(figure: str, value: float, unit: str) -> bool:
    if unit == "told":
        return value != 1.0
    if figure in ("season_list", "season_all_sessions", "season_trends"):
        return value >= 1.0
    return figure.endswith(("lost", "damaged", "faults", "printed")) and value > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
