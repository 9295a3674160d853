"""Which pins the ball itself hits, and where it leaves the deck; by arrival.

``python tests/benchmarks/pins_ball_path.py --racks 40 --out build/pins_ball_path.csv``
17 mph, 15 lb, recommended numbers, step 0.025 ms. Published (P. Ridenour, federation research, second-hand):
a flush ball hits 1, 3, 5 and 9 and leaves near board 19; the ball of the classic 10-pin leaves near 14; a
light strike leaves outside the 9, board 14.4; a high ball hits the 8.
"""

import argparse
import sys
from collections import Counter
from pathlib import Path

import numpy as np

from coachlib.files import write_whole
from coachlib.physics.pins.rack.contact import AT, AXIS
from coachlib.physics.pins.rack.floor import deck_of
from coachlib.physics.pins.rack.loop import ASLEEP, AWAKE, BALL, N_PINS, run
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.physics.pins.rack.shape import BALL_PART, N_PIN_PARTS, gap_between, part_table
from coachlib.physics.pins.rack.throw import STEP_MS, set_rack
from coachlib.units import BOARD_IN, FT_M, IN_M
from coachlib.world.pins import pin_ft

HEADER = "arrival_board,entry_deg,n_racks,exit_board,exit_board_sd,ball_hits,ball_hits_frac"
ARRIVALS = [
    (board, angle) for angle in (0.0, 4.0, 6.0) for board in (16.0, 16.5, 17.0, 17.5, 18.0, 18.5, 19.0)
]
BACK_ROW_M = (pin_ft(10) - pin_ft(1)) * FT_M
NUMBERS = RackNumbers()
PARTS = part_table(NUMBERS)


def one_path(board: float, angle_deg: float, seed: int) -> tuple[tuple[int, ...], float]:
    """Return the pins that the ball touched, in order, and its board at the back row."""
    arrival = np.array([board, angle_deg, 17.0, 15.0])
    bodies, laws = set_rack(arrival, np.random.default_rng((7, seed)), NUMBERS)
    state = np.array([ASLEEP] * N_PINS + [AWAKE])
    room, hits = deck_of(NUMBERS), []
    for _ in range(20_000):
        step_s = STEP_MS / 1000.0
        run(bodies, PARTS, room, laws, state, NUMBERS.pin_cg_in * IN_M, step_s, step_s, False)
        hits += [pin for pin in touched(bodies) if pin not in hits]
        if bodies[BALL, AT] > BACK_ROW_M:
            break
    return tuple(hits), 20.0 + float(bodies[BALL, AT + 1]) / (BOARD_IN * IN_M)


def touched(bodies: np.ndarray) -> list[int]:
    """Return the pins that touch the ball now."""
    apart = np.linalg.norm(bodies[:N_PINS, AT : AT + 3] - bodies[BALL, AT : AT + 3], axis=1)
    near = [int(pin) for pin in np.flatnonzero(apart < 0.36)]
    return [pin + 1 for pin in near if ball_gap_m(bodies, pin) < 0.0]


def ball_gap_m(bodies: np.ndarray, pin: int) -> float:
    """Return the gap between the ball and a pin."""
    at, axis = tuple(bodies[pin, AT : AT + 3]), tuple(bodies[pin, AXIS : AXIS + 3])
    ball, upright = tuple(bodies[BALL, AT : AT + 3]), (0.0, 0.0, 1.0)
    parts = range(N_PIN_PARTS)
    return min(gap_between(PARTS, BALL_PART, ball, upright, part, at, axis)[0] for part in parts)


def main() -> None:
    """Print and write one line an arrival."""
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--racks", type=int, default=40)
    parser.add_argument("--out", type=Path, default=Path("build/pins_ball_path.csv"))
    options = parser.parse_args()
    lines = [HEADER]
    for board, angle_deg in ARRIVALS:
        hits, exits = zip(*(one_path(board, angle_deg, seed) for seed in range(options.racks)), strict=True)
        (usual, n_usual), *_ = Counter(hits).most_common(1)
        lines.append(
            f"{board},{angle_deg},{len(hits)},{np.mean(exits):.1f},{np.std(exits):.1f},"
            f"{'-'.join(map(str, usual))},{n_usual / len(hits):.2f}"
        )
        sys.stdout.write(lines[-1] + "\n")
        sys.stdout.flush()
        write_whole(options.out, "\n".join([*lines, ""]).encode())


if __name__ == "__main__":
    main()
