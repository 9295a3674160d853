"""Where the way from never moving to reading the oil is lost: by eye, law, oil, wear or by the answer.

``python -m tests.benchmarks.season_limits --seeds 0:4``
On each hidden lane the bowler stays where practice begins. After some balls the line that the belief values
most is asked of the lane, with no gate and no margin, beside staying and the line that the oracle would take.
The same is asked of kinder lanes, on which one thing after another is as the belief assumes; a keen eye errs
less, but misses as much. What a season plays worse than this is what gates and margins cost.
"""

import argparse
import dataclasses
import itertools
import sys

import numpy as np
from numpy.typing import NDArray

import coachlib as cl
from coachlib.coaching.advice.line_values import moves_to_weigh, values_within_reach
from coachlib.coaching.belief.filter import believe
from coachlib.physics.friction import grip_of
from coachlib.study.hidden_lane.eye import Eye
from coachlib.study.hidden_lane.hidden_law import Surface, ground_under
from coachlib.study.hidden_lane.hidden_oil import drawn_difference, hidden_film_um
from coachlib.study.hidden_lane.practice import Hidden
from coachlib.world.line import after_move
from tests.benchmarks.season import BOWLERS, PATTERNS, lane_seed, seeds_of

BALL = "hybrid_2000"
AFTER_BALLS = (4, 16)
KINDS = {
    "hidden": (),
    "keen eye": ("eye",),
    "our law": ("law",),
    "even oil": ("oil",),
    "no wear": ("wear",),
    "all four": ("eye", "law", "oil", "wear"),
}
KEEN = Eye(crossing_sd_boards=0.05, arrival_sd_boards=0.05)


class KindLane(cl.PracticeLane):
    """A hidden lane on which some things are as the belief assumes: eye, law, oil, wear."""

    def __init__(self, kind: tuple[str, ...], bowler: str, pattern: str, seed: int) -> None:
        self._kind = kind
        sheet, thrower = cl.load_pattern(pattern), cl.load_bowler(bowler)
        super().__init__(sheet, thrower, cl.load_ball(BALL), seed=lane_seed(bowler, pattern, seed))

    def _drawn(self, n_others: int) -> Hidden:
        hidden = super()._drawn(n_others)
        if "eye" in self._kind:
            hidden = dataclasses.replace(hidden, eye=KEEN)
        if "wear" in self._kind:
            hidden = dataclasses.replace(hidden, wear=dataclasses.replace(hidden.wear, depth_um=0.0))
        return dataclasses.replace(hidden, fresh_film_um=self._even()) if "oil" in self._kind else hidden

    def _even(self) -> NDArray[np.float64]:
        """Return the film without the strip that others wore, and even from board to board."""
        drawn = drawn_difference(np.random.default_rng((self._seed, 1)))
        plain = dataclasses.replace(drawn, strip_depth_frac=0.0, uneven=(1.0,) * len(drawn.uneven))
        return hidden_film_um(self._pattern, self._bowler.hand, plain)

    def surface(self, ball: cl.Ball | None = None) -> Surface:
        """Return what a ball rolls on now."""
        if "law" not in self._kind:
            return super().surface(ball)
        return Surface(ground_under(self._film_um), grip_of(self._ball if ball is None else ball))


Row = tuple[int, float, float, float]


def rows_of(kind: tuple[str, ...], bowler: str, pattern: str, seed: int) -> list[Row]:
    """Return the true chances of staying, of the believed best line and of the oracle's, after some balls."""
    rows = []
    lane = KindLane(kind, bowler, pattern, seed)
    session = lane.start()
    for n_balls in range(1, max(AFTER_BALLS) + 1):
        session = cl.observe(session, lane.throw(session.line).shot)
        if n_balls not in AFTER_BALLS:
            continue
        lines = [after_move(session.line, move) for move in moves_to_weigh(session.line, session.bowler)]
        believed = int(np.argmax(values_within_reach(believe(session), session.line, session.ball).net))
        read = int(np.argmax(lane.strike_probs(lines)))
        stay, best, oracle = lane.strike_probs([lines[0], lines[believed], lines[read]], n_balls=1024, draw=1)
        rows.append((n_balls, float(stay), float(best), float(oracle)))
    return rows


def main() -> None:
    """Print one line for each kind of lane and each number of balls."""
    import joblib

    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.season_limits")
    parser.add_argument("--seeds", default="0:4", help="FIRST:LAST, the last one not asked")
    first, last = seeds_of(parser.parse_args().seeds)
    lanes = list(itertools.product(BOWLERS, PATTERNS, range(first, last)))
    for name, kind in KINDS.items():
        calls = (joblib.delayed(rows_of)(kind, *lane) for lane in lanes)
        rows = np.array([row for rows in joblib.Parallel(n_jobs=-1)(calls) for row in rows])
        for n_balls in AFTER_BALLS:
            stay, best, oracle = 100.0 * rows[rows[:, 0] == n_balls, 1:].mean(axis=0)
            share = (best - stay) / (oracle - stay)
            sys.stdout.write(
                f"{name:9s} after {n_balls:2d} balls: stay {stay:.1f}, believed best {best:.1f}, "
                f"oracle {oracle:.1f} of 100; share {share:.2f}\n"
            )


if __name__ == "__main__":
    main()
