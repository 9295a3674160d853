"""Does the time step matter? The same racks at halved steps, in and round the pocket.

``python tests/benchmarks/pins_step_halving.py --racks 4096 --out build/pins_step_halving.csv``
Recommended numbers, board 16.5 to 18.5 at 60 ft, 3 to 6 deg, 16 to 18 mph, 15 lb; every step throws the same
arrivals with the same scatter. Errors are one standard error of the paired difference.
"""

import argparse
import sys
from pathlib import Path

import numpy as np
from scipy.stats import qmc

from coachlib.files import write_whole
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.physics.pins.rack.throw import throw_racks

STEPS_MS = (0.1, 0.05, 0.025, 0.0125)
LOW, HIGH = (16.5, 3.0, 16.0), (18.5, 6.0, 18.0)
HEADER = "step_ms,n_racks,strike_pct,strike_pct_gain,strike_pct_gain_se,pins_standing"


def standing_counts(points: np.ndarray, part: int, jobs: int, **options: object) -> np.ndarray:
    """Return how many pins each rack left; so many racks at once, weight in the last column of arrivals."""
    import joblib

    calls = (
        joblib.delayed(throw_racks)(*points[first : first + part].T, first_index=first, **options)
        for first in range(0, len(points), part)
    )
    return np.concatenate([thrown.standing.sum(axis=1) for thrown in joblib.Parallel(n_jobs=jobs)(calls)])


def main() -> None:
    """Print and write one line a step."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--racks", type=int, default=4096)
    parser.add_argument("--jobs", type=int, default=-1)
    parser.add_argument("--out", type=Path, default=Path("build/pins_step_halving.csv"))
    options = parser.parse_args()
    unit = qmc.Sobol(3, rng=np.random.default_rng(11)).random(options.racks)
    points = np.column_stack([qmc.scale(unit, LOW, HIGH), np.full(options.racks, 15.0)])
    lines, before = [HEADER], None
    for step_ms in STEPS_MS:
        counts = standing_counts(points, 64, options.jobs, seed=5, step_ms=step_ms, numbers=RackNumbers())
        strikes = 100.0 * (counts == 0)
        gain = strikes - (strikes if before is None else before)
        error = gain.std() / np.sqrt(len(gain))
        lines.append(
            f"{step_ms},{len(counts)},{strikes.mean():.2f},{gain.mean():.2f},{error:.2f},{counts.mean():.4f}"
        )
        sys.stdout.write(lines[-1] + "\n")
        sys.stdout.flush()
        write_whole(options.out, "\n".join([*lines, ""]).encode())
        before = strikes


if __name__ == "__main__":
    main()
