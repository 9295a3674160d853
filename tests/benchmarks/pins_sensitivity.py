"""How far the strike share moves when each number of the pin simulator is changed over its plausible range.

``python tests/benchmarks/pins_sensitivity.py --racks 1024 --out build/pins_sensitivity.csv``
Paired racks: the same arrivals (17.5 +- 1.3 boards with a spread of 0.97, 3.5 to 6.5 deg, 16 to 18 mph,
15 lb) and the same scatter for every change, at a step of 0.05 ms. Errors are one standard error of the
paired difference; the first line is the recommended set. The last three columns are the strike shares on
boards below 17, 17 to 18, and above 18. Values already in the file are not thrown again.
"""

import argparse
import dataclasses
import sys
from pathlib import Path

import numpy as np
from scipy.stats import norm, qmc

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from coachlib.files import append_lines, whole_lines
from coachlib.physics.pins.rack.numbers import RackNumbers
from tests.benchmarks.pins_step_halving import standing_counts

STEP_MS = 0.05
HEADER = "name,value,n_racks,strike_pct,change_pct,change_se,light_pct,centre_pct,high_pct"
CHANGES = {
    "pin_deck_restitution": (0.20, 0.45, 0.75),
    "pin_pin_friction": (0.05, 0.20, 0.30),
    "ball_pin_friction": (0.15, 0.32),
    "pin_pin_restitution": (0.60, 0.80),
    "ball_pin_restitution": (0.60, 0.80),
    "pin_deck_friction": (0.15, 0.35),
    "kickback_restitution": (0.30, 0.70),
    "kickback_friction": (0.10, 0.50),
    "hit_ms": (0.7, 1.5),
    "floor_ms": (1.0, 4.0),
    "hit_grip_ms": (0.125, 0.2),
    "pin_mass_lb": (3.375, 3.625),
    "pin_cg_in": (5.65, 5.90),
    "pin_gyration_across_in": (3.45, 3.75),
    "pin_base_ring_in": (1.125,),
    "ball_rg_in": (2.46, 2.80),
    "spot_sd_in": (0.0, 0.11),
    "kickback_height_in": (17.0,),
    "gutter_restitution": (0.2, 0.5),
    "ball_lane_restitution": (0.2, 0.5),
    "ball_lane_friction": (0.05, 0.25),
    "restitution_sd": (0.0,),
    "friction_log_sd": (0.0,),
}


def pocket_points(n_racks: int) -> np.ndarray:
    """Return a professional's pocket hits."""
    unit = qmc.Sobol(3, rng=np.random.default_rng(12)).random(n_racks)
    low, high = norm.cdf(-1.3 / 0.97), norm.cdf(1.3 / 0.97)
    board = 17.5 + 0.97 * norm.ppf(low + (high - low) * unit[:, 0])
    return np.column_stack([board, 3.5 + 3.0 * unit[:, 1], 16.0 + 2.0 * unit[:, 2], np.full(n_racks, 15.0)])


def strikes(points: np.ndarray, numbers: RackNumbers, jobs: int) -> np.ndarray:
    """Return whether each rack was a strike."""
    return standing_counts(points, 32, jobs, seed=6, numbers=numbers, step_ms=STEP_MS) == 0


def zone_pcts(struck: np.ndarray, board: np.ndarray) -> str:
    """Return the strike shares on the light side, in the centre and on the high side."""
    zones = (board < 17.0, (board >= 17.0) & (board <= 18.0), board > 18.0)
    return ",".join(f"{100 * struck[zone].mean():.1f}" for zone in zones)


def main() -> None:
    """Print and write one line a change."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--racks", type=int, default=1024)
    parser.add_argument("--jobs", type=int, default=-1)
    parser.add_argument("--out", type=Path, default=Path("build/pins_sensitivity.csv"))
    options = parser.parse_args()
    points = pocket_points(options.racks)
    done = {tuple(line.split(",")[:2]) for line in whole_lines(options.out)}
    base = strikes(points, RackNumbers(), options.jobs).astype(float)
    if not done:
        first = f"recommended,,{len(base)},{100 * base.mean():.1f},0.0,0.0,{zone_pcts(base, points[:, 0])}"
        append_lines(options.out, [HEADER, first])
    for name, values in CHANGES.items():
        for value in values:
            if (name, f"{value:g}") in done:
                continue
            numbers = dataclasses.replace(RackNumbers(), **{name: value})
            struck = strikes(points, numbers, options.jobs).astype(float)
            change = 100.0 * (struck - base)
            error = change.std() / np.sqrt(len(change))
            share = 100 * base.mean() + change.mean()
            line = f"{name},{value:g},{len(base)},{share:.1f},{change.mean():.1f},{error:.1f}"
            line += f",{zone_pcts(struck, points[:, 0])}"
            append_lines(options.out, [line])
            sys.stdout.write(line + "\n")
            sys.stdout.flush()


if __name__ == "__main__":
    main()
