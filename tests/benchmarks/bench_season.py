"""What a season on a hidden lane costs: the lane itself with 40 balls, and the oracle that reads it."""

import statistics
import time
from collections.abc import Iterator

import coachlib as cl
from coachlib.study.seasons.policies import policy
from coachlib.study.seasons.season import play_session
from tests.benchmarks.figures import Figure

N_SEASONS = 5


def figures() -> Iterator[Figure]:
    """Yield the figures."""
    how = f"median of {N_SEASONS} seasons of 40 balls, club bowler on house_41"
    world_s, oracle_ms = zip(*(_season(seed, "oracle") for seed in range(N_SEASONS + 1)), strict=True)
    yield "season_world", statistics.median(world_s[1:]), "s", f"{how}, others' wear included"
    yield "season_oracle", statistics.median(oracle_ms[1:]), "ms", f"{how}, mean of a decision"


def _season(seed: int, name: str) -> tuple[float, float]:
    """Return the time outside decisions [s] and the mean time of a decision [ms]."""
    start_s = time.perf_counter()
    world = cl.PracticeLane(
        cl.load_pattern("house_41"), cl.load_bowler("club_right"), cl.load_ball("hybrid_2000"), seed=seed
    )
    result = play_session(policy(name, world), world)
    spent_s = time.perf_counter() - start_s
    return spent_s - result.decision_ms.sum() / 1000.0, float(result.decision_ms.mean())
