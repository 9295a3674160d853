"""How often planned lines strike on hidden lanes, against what the plan's model says before scaling.

``python -m tests.benchmarks.plan_chances`` plans for every bowler of the season on every pattern and asks the
hidden lanes of seeds 0 to 3, which are for choosing, for the true chance of the planned line.
"""

import numpy as np

import coachlib as cl
from coachlib.coaching.plan.plan import PLAN_FACTOR
from tests.benchmarks.season import BOWLERS, PATTERNS, lane_seed

BALL, SEEDS = "hybrid_2000", range(4)


def told_and_true(bowler_name: str, pattern_name: str) -> tuple[float, list[float]]:
    """Return a plan's unscaled chance, and its line's true chance on each hidden lane."""
    bowler, pattern, ball = cl.load_bowler(bowler_name), cl.load_pattern(pattern_name), cl.load_ball(BALL)
    plan = cl.plan(cl.Session(bowler, cl.Line(20, 20), ball, pattern))
    lanes = [
        cl.PracticeLane(
            pattern, bowler, ball, seed=lane_seed(bowler_name, pattern_name, seed), line=plan.line
        )
        for seed in SEEDS
    ]
    true = [float(lane.strike_probs([plan.line])[0]) for lane in lanes]
    return (plan.strike_prob or 0.0) / PLAN_FACTOR, true


def main() -> None:
    """Print both of twenty balls, and their ratio."""
    pairs = [told_and_true(bowler, pattern) for bowler in BOWLERS for pattern in PATTERNS]
    told, true = np.mean([one for one, _ in pairs]), np.mean([chances for _, chances in pairs])
    print(f"{20 * told:.1f} of 20 said, {20 * true:.1f} true, ratio {true / told:.3f}")


if __name__ == "__main__":
    main()
