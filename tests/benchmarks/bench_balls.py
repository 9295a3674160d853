"""What it costs to compare balls and to look through a bag."""

import dataclasses
from collections.abc import Iterator

from coachlib.coaching.equipment.bag import evaluate_bag, smallest_bag
from coachlib.coaching.equipment.ball_comparison import compare_balls
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import get_ready
from coachlib.world.ball import load_ball
from coachlib.world.bowler import load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern, pattern_names
from tests.benchmarks.figures import Figure, elapsed_s

FOUR_BALLS = ("hybrid_2000", "solid_1000", "pearl_polished", "urethane_500")
N_RUNS, N_BAG = 5, 12


def figures() -> Iterator[Figure]:
    """Yield the time of a look through a bag for the smallest one, and of a comparison with new draws."""
    get_ready()
    balls = [load_ball(name) for name in FOUR_BALLS]
    bowler, patterns = load_bowler("club_right"), [load_pattern(name) for name in pattern_names()]
    bag = [dataclasses.replace(balls[0], name=f"ball_{n}", grit=600.0 + 250.0 * n) for n in range(N_BAG)]
    wait_s = elapsed_s(lambda: smallest_bag(evaluate_bag(bowler, bag, patterns)))
    yield "balls_bag", wait_s, "s", f"{N_BAG} balls x {len(patterns)} patterns, once"
    session = Session(bowler, Line(29.0, 16.0), pattern=load_pattern("house_41"))
    again = [dataclasses.replace(session, seed=seed) for seed in range(N_RUNS)]
    wait_s = min(elapsed_s(compare_balls, one, balls) for one in again)
    yield "balls_compare", wait_s, "s", f"4 balls, 221 moves, 64 balls each, least of {N_RUNS}"
