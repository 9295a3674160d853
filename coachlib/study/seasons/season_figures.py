"""What a season on hidden lanes gave, as shipped: strikes by way of playing, and what was said and true.

Both tables come from ``python -m tests.benchmarks.season --seeds 156:160 --ship data``. Grade: simulated, on
lanes of another friction and wear than the coach's model has. Judge and coach share how a ball moves.
"""

from typing import NamedTuple

from coachlib.files import data_path, read_notes, read_records

SCORES_FILE, HONESTY_FILE = "season_scores.csv", "season_honesty.csv"
_EXPECTED = (
    "the columns and numbers of a season's report. Make the file again: make bench-season, with --ship data."
)


class SeasonScore(NamedTuple):
    """One way of playing on a group of lanes, strikes of 100 first balls over never moving.

    `gain` is that of the balls as thrown, `line_gain` that of the lines they were played on; the halves are
    those of 95 % intervals. `share` is the part of the oracle's gain, by the lines. Never moving has its own
    strikes in `strikes_per_100` and no gain.
    """

    group: str
    policy: str
    n_lanes: int
    strikes_per_100: float
    gain: float
    gain_half: float
    line_gain: float
    line_gain_half: float
    share: float
    share_low: float
    share_high: float
    n_moves: float


class HeldRow(NamedTuple):
    """Something said, how often, and what was true.

    `what` is ``chance`` (of 20, of the line then played), ``lanes`` (of 10, on which a move is better),
    ``verdict`` (the release's share of misses it was said of) or ``score`` (`said` names it).
    """

    what: str
    said: str
    n: int
    true: float


def season_scores() -> tuple[SeasonScore, ...]:
    """Return the scores by group and way of playing, all lanes first. Raises as :func:`read_records`."""
    return read_records(data_path(SCORES_FILE), SeasonScore, _EXPECTED)


def season_honesty() -> tuple[HeldRow, ...]:
    """Return what was said against what was true. Raises as :func:`read_records`."""
    return read_records(data_path(HONESTY_FILE), HeldRow, _EXPECTED)


def season_notes() -> dict[str, str]:
    """Return how the season was played: seeds, bowlers, patterns, balls."""
    return read_notes(data_path(SCORES_FILE))
