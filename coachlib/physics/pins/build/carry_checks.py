"""The simulator's own checks as shipped: the time step, each number changed, the ball's way through the pins.

The tables come from ``tests/benchmarks/pins_step_halving.py``, ``pins_sensitivity.py`` and
``pins_ball_path.py``. Grade: simulated. Reading them raises :class:`DataFileError` if a file is missing or a
cell is no number.
"""

from typing import NamedTuple

from coachlib.errors import DataFileError
from coachlib.files import data_path, read_records

_EXPECTED = "the numbers as shipped. Install coachlib again."


class StepCheck(NamedTuple):
    """The same racks at one time step; the gain is against the step before, its error one standard error."""

    step_ms: float
    n_racks: int
    strike_pct: float
    gain_pct: float
    gain_se_pct: float


class NumberCheck(NamedTuple):
    """The same racks with one number of the simulator changed; `value` is None for the recommended set.

    The last three are the strikes on boards below 17, 17 to 18, and above 18.
    """

    name: str
    value: float | None
    n_racks: int
    strike_pct: float
    change_pct: float
    change_se_pct: float
    light_pct: float
    centre_pct: float
    high_pct: float


class BallWay(NamedTuple):
    """Racks at one arrival: where the ball leaves the deck, and the pins it most often hits, in order."""

    arrival_board: float
    entry_deg: float
    n_racks: int
    exit_board: float
    exit_sd_boards: float
    hits: tuple[int, ...]
    hits_frac: float


def step_checks() -> tuple[StepCheck, ...]:
    """Return the step halving, the coarsest step first."""
    columns = {"gain_pct": "strike_pct_gain", "gain_se_pct": "strike_pct_gain_se"}
    return read_records(data_path("pins_step_halving.csv"), StepCheck, _EXPECTED, **columns)


def number_checks() -> tuple[NumberCheck, ...]:
    """Return how far the strikes move when each number is changed, the recommended set first."""
    return read_records(data_path("pins_sensitivity.csv"), NumberCheck, _EXPECTED, change_se_pct="change_se")


def ball_ways() -> tuple[BallWay, ...]:
    """Return the ball's way by arrival and entry angle; boards in the own frame."""
    columns = {"exit_sd_boards": "exit_board_sd", "hits": "ball_hits", "hits_frac": "ball_hits_frac"}
    return read_records(data_path("pins_ball_path.csv"), BallWay, _EXPECTED, **columns)


def ball_way(arrival_board: float, entry_deg: float) -> BallWay:
    """Return the ball's way at one arrival of the table.

    Raises
    ------
    DataFileError
        If the table has no such arrival.
    """
    ways = ball_ways()
    for way in ways:
        if (way.arrival_board, way.entry_deg) == (arrival_board, entry_deg):
            return way
    known = ", ".join(f"{way.arrival_board:g} at {way.entry_deg:g}" for way in ways)
    message = f"arrival is {arrival_board:g} at {entry_deg:g} deg; expected one of {known}. Choose one."
    raise DataFileError(message)
