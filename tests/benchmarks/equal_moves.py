"""How far two good moves' chances differ by the draw of believed lanes alone: what "equal" rests on.

``python -m tests.benchmarks.equal_moves`` draws the lanes of four bowlers on two patterns six times anew and
prints, for the forty best moves, the spread (one standard deviation) of their differences as shown.
"""

import subprocess
import sys
from itertools import combinations

import numpy as np

import coachlib as cl
from coachlib.coaching.advice.decision import DISPLAY_FACTOR
from coachlib.coaching.advice.line_values import values_within_reach
from coachlib.coaching.belief import particles
from coachlib.coaching.belief.filter import believe

BOWLERS = ("club_right", "high_rev_left", "walker_right", "senior_right")
PATTERNS = ("house_41", "flat_42")
SEEN = (("high", (4,)), ("pocket", ()), ("high", (4, 9)))
SEEDS = range(20, 26)
N_BEST = 40


def gains(bowler: str, pattern: str) -> np.ndarray:
    """Return what each move within reach adds to staying after three invented balls, as shown."""
    session = cl.Session(
        bowler=cl.load_bowler(bowler),
        ball=cl.load_ball("hybrid_2000"),
        pattern=cl.load_pattern(pattern),
        line=cl.Line(24, 13),
    )
    for arrival, leave in SEEN:
        shot = cl.Shot(crossed_board=13, arrival=arrival, leave=leave, motion="even")
        session = cl.observe(session, shot)
    return DISPLAY_FACTOR * values_within_reach(believe(session), session.line, session.ball).gain


def drawn(seed: int) -> np.ndarray:
    """Return the gains of all cases with the lanes of one seed, from a process of its own."""
    call = [sys.executable, "-m", "tests.benchmarks.equal_moves", str(seed)]
    printed = subprocess.run(call, check=True, capture_output=True, text=True).stdout
    return np.array([[float(word) for word in line.split()] for line in printed.splitlines()], dtype=object)


def main() -> None:
    """Print the spread of the differences, case by case."""
    if len(sys.argv) > 1:
        particles.SEED = int(sys.argv[1])
        for bowler in BOWLERS:
            for pattern in PATTERNS:
                print(" ".join(f"{gain:.6f}" for gain in gains(bowler, pattern)))
        return
    tables = [drawn(seed) for seed in SEEDS]
    for number, (bowler, pattern) in enumerate((one, two) for one in BOWLERS for two in PATTERNS):
        case = np.array([list(table[number]) for table in tables], dtype=float)
        best = np.argsort(-case.mean(axis=0))[:N_BEST]
        spread = [np.std(case[:, one] - case[:, two], ddof=1) for one, two in combinations(best, 2)]
        most = np.quantile(spread, 0.9)
        print(f"{bowler} on {pattern}: mean {np.mean(spread):.4f}, nine of ten below {most:.4f}")


if __name__ == "__main__":
    main()
