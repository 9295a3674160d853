"""Racks a second and core, look-ups a second, time to read the table, and hours for the whole table."""

import statistics
import time
from collections.abc import Iterator

N_RACKS = 48
N_LOOK_UPS = 1_000_000
TABLE_RACKS = 131_072


def figures() -> Iterator[tuple[str, float, str, str]]:
    """Yield what the pins cost."""
    yield (
        "carry_read",
        1000 * statistics.median(_read_s() for _ in range(5)),
        "ms",
        "table file to strike column",
    )
    yield "strike_prob", N_LOOK_UPS / _look_up_s() / 1e6, "M/s", f"{N_LOOK_UPS} arrivals in one call"
    yield "leave_probs", 1000 * _leaves_s(), "ms", "one arrival, all leaves; median of 50"
    yield "sample_leaves", 10_000 / _sample_s() / 1000, "k/s", "10000 balls in one call"
    try:
        rate = N_RACKS / _racks_s()
    except ImportError:
        return
    yield "racks", rate, "1/s", f"one core, {N_RACKS} racks of the table's design, processor time"
    for cores in (2, 16):
        yield (
            f"table_{cores}_cores",
            TABLE_RACKS / rate / cores / 3600,
            "h",
            f"{TABLE_RACKS} racks, from the rate",
        )


def _read_s() -> float:
    from coachlib.files import data_path
    from coachlib.physics.pins.carry_file import read_carry_table

    start_s = time.perf_counter()
    assert read_carry_table(data_path("carry_table.npz")).strike_shares.size
    return time.perf_counter() - start_s


def _look_up_s() -> float:
    import numpy as np

    from coachlib.physics.pins.carry import strike_prob

    boards = np.random.default_rng(0).uniform(10, 30, N_LOOK_UPS)
    strike_prob(17.5, 5.0, 17.0)
    start_s = time.perf_counter()
    strike_prob(boards, 5.0, 17.0, 15.0)
    return time.perf_counter() - start_s


def _leaves_s() -> float:
    from coachlib.physics.pins.carry import leave_probs

    waits_s = []
    for number in range(51):
        start_s = time.perf_counter()
        leave_probs(15.0 + number / 10, 5.0, 17.0)
        waits_s.append(time.perf_counter() - start_s)
    return statistics.median(waits_s[1:])


def _sample_s() -> float:
    import numpy as np

    from coachlib.physics.pins.carry import sample_leaves

    draws = np.random.default_rng(0).random((2, 10_000))
    start_s = time.perf_counter()
    sample_leaves(15.0 + 5.0 * draws[0], 5.0, 17.0, 15.0, draws[1])
    return time.perf_counter() - start_s


def _racks_s() -> float:
    from coachlib.physics.pins.build.arrival_sampling import arrival_points
    from coachlib.physics.pins.rack.throw import throw_racks

    throw_racks(17.5, 5.0, 17.0, 15.0)
    start_s = time.process_time()
    throw_racks(*arrival_points(0, N_RACKS, 1).T)
    return time.process_time() - start_s
