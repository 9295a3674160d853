"""Racks a second and core, look-ups a second, time to read the table, and hours for the whole table."""

import statistics
import time
from collections.abc import Iterator

import numpy as np

from coachlib.files import data_path
from coachlib.physics.pins.carry import leave_probs, sample_leaves, strike_prob
from coachlib.physics.pins.carry_file import read_carry_table
from tests.benchmarks.figures import Figure, elapsed_s

N_RACKS = 48
N_LOOK_UPS = 1_000_000
TABLE_RACKS = 131_072


def figures() -> Iterator[Figure]:
    """Yield what the pins cost."""
    waits_s = [elapsed_s(_read) for _ in range(5)]
    yield "carry_read", 1000 * statistics.median(waits_s), "ms", "table file to strike column"
    boards = np.random.default_rng(0).uniform(10, 30, N_LOOK_UPS)
    draws = np.random.default_rng(0).random((2, 10_000))
    strike_prob(17.5, 5.0, 17.0)  # the table is read
    rate = N_LOOK_UPS / elapsed_s(strike_prob, boards, 5.0, 17.0, 15.0) / 1e6
    yield "strike_prob", rate, "M/s", f"{N_LOOK_UPS} arrivals in one call"
    waits_s = [elapsed_s(leave_probs, 15.0 + number / 10, 5.0, 17.0) for number in range(51)]
    yield "leave_probs", 1000 * statistics.median(waits_s[1:]), "ms", "one arrival, all leaves; median of 50"
    wait_s = elapsed_s(sample_leaves, 15.0 + 5.0 * draws[0], 5.0, 17.0, 15.0, draws[1])
    yield "sample_leaves", 10_000 / wait_s / 1000, "k/s", "10000 balls in one call"
    try:
        rate = N_RACKS / _racks_s()
    except ImportError:
        return
    yield "racks", rate, "1/s", f"one core, {N_RACKS} racks of the table's design, processor time"
    for cores in (2, 16):
        how = f"{TABLE_RACKS} racks, from the rate"
        yield f"table_{cores}_cores", TABLE_RACKS / rate / cores / 3600, "h", how


def _read() -> None:
    assert read_carry_table(data_path("carry_table.npz")).strike_shares.size


def _racks_s() -> float:
    from coachlib.physics.pins.build.arrival_sampling import arrival_points
    from coachlib.physics.pins.rack.throw import throw_racks

    throw_racks(17.5, 5.0, 17.0, 15.0)
    start_s = time.process_time()
    throw_racks(*arrival_points(0, N_RACKS, 1).T)
    return time.process_time() - start_s
