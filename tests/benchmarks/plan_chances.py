"""How often planned lines strike on hidden lanes, against what the plan's model says before scaling.

``python -m tests.benchmarks.plan_chances`` plans for every bowler of the season on every pattern and asks the
hidden lanes of seeds 0 to 3, which are for choosing, for the true chance of the planned line.
"""

import numpy as np

import coachlib as cl
from coachlib.coaching.plan.plan import PLAN_FACTOR
from tests.benchmarks.season import BOWLERS, PATTERNS, cell_lane

BALL, SEEDS = "hybrid_2000", range(4)


def said_and_true(bowler: str, pattern: str) -> tuple[float, list[float]]:
    """Return a plan's unscaled chance, and its line's true chance on each hidden lane."""
    start = cl.Line(20, 20)
    plan = cl.plan(cl.Session(cl.load_bowler(bowler), start, cl.load_ball(BALL), cl.load_pattern(pattern)))
    lanes = [cell_lane(bowler, pattern, seed, BALL, plan.line) for seed in SEEDS]
    true = [float(lane.strike_probs([plan.line])[0]) for lane in lanes]
    return (plan.strike_prob or 0.0) / PLAN_FACTOR, true


def main() -> None:
    """Print both of twenty balls, and their ratio."""
    pairs = [said_and_true(bowler, pattern) for bowler in BOWLERS for pattern in PATTERNS]
    plans, true = np.mean([one for one, _ in pairs]), np.mean([chances for _, chances in pairs])
    print(f"{20 * plans:.1f} of 20 said, {20 * true:.1f} true, ratio {true / plans:.3f}")


if __name__ == "__main__":
    main()
