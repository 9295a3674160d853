"""What it costs to compare balls and to look through a bag."""

import dataclasses
import time
from collections.abc import Iterator

from coachlib.coaching.equipment.bag import evaluate_bag, smallest_bag
from coachlib.coaching.equipment.ball_comparison import compare_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import get_ready
from coachlib.world.ball import load_ball
from coachlib.world.bowler import load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern, pattern_names

FOUR_BALLS = ("hybrid_2000", "solid_1000", "pearl_polished", "urethane_500")
N_RUNS, N_BAG = 5, 12


def figures() -> Iterator[tuple[str, float, str, str]]:
    """Yield the time of a comparison."""
    how = f"{N_BAG} balls x {len(pattern_names())} patterns, once"
    yield "balls_bag", _bag_s(), "s", how
    yield "balls_compare", _compare_s(), "s", f"4 balls, 221 moves, 64 balls each, least of {N_RUNS}"


def _compare_s() -> float:
    """Return the least time of some runs, each with draws not thrown before."""
    get_ready()
    balls = [load_ball(name) for name in FOUR_BALLS]
    bowler, pattern = load_bowler("club_right"), load_pattern("house_41")
    waits_s = []
    for seed in range(N_RUNS):
        session = Session(bowler, Line(29.0, 16.0), pattern=pattern, seed=seed)
        start_s = time.perf_counter()
        compare_balls(session, balls)
        waits_s.append(time.perf_counter() - start_s)
    return min(waits_s)


def _bag_s() -> float:
    """Return the time of a look through a bag and the search for the smallest one."""
    get_ready()
    first = load_ball(FOUR_BALLS[0])
    balls = [dataclasses.replace(first, name=f"ball_{n}", grit=600.0 + 250.0 * n) for n in range(N_BAG)]
    patterns = [load_pattern(name) for name in pattern_names()]
    start_s = time.perf_counter()
    smallest_bag(evaluate_bag(load_bowler("club_right"), balls, patterns))
    return time.perf_counter() - start_s
