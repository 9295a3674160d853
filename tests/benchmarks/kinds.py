"""How often the simulation has nothing to say, for eight kinds of bowler.

``python -m tests.benchmarks.kinds`` plays hidden lanes with each kind, the advice followed, and writes a line
a kind: balls, and those after which nothing that the belief holds fits what was seen. Beside it stand balls
written down by hand: on target and in the pocket, again and again, on a line that such a bowler plays. No
lane is drawn for those, so nothing of ours can favour them. ``--seeds 0:2`` plays other lanes, ``--kinds
two_handed`` one kind.
"""

import argparse
import dataclasses
from collections.abc import Iterator, Sequence

import coachlib as cl
from coachlib.world.bowler import Bowler

MOST_SILENT_FRAC = 0.02
"""The simulation is to be silent for fewer balls than this share."""

N_BALLS, N_POCKET_HITS = 16, 4
PATTERNS = ("house_41", "flat_42", "short_36")


@dataclasses.dataclass(frozen=True)
class Kind:
    """A kind of bowler, their ball, and lines that find the pocket for one like them somewhere (invented)."""

    bowler: Bowler
    ball: str
    pocket_lines: tuple[tuple[float, float], ...]


KINDS = {
    "club": Kind(cl.load_bowler("club_right"), "hybrid_2000", ((22, 11), (25, 13))),
    "low_revs": Kind(cl.load_bowler("low_rev_right"), "hybrid_2000", ((15, 8), (18, 10))),
    "power": Kind(cl.load_bowler("high_rev_left"), "hybrid_2000", ((28, 16), (32, 18))),
    "two_handed": Kind(cl.load_bowler("two_handed_right"), "hybrid_2000", ((30, 18), (34, 20))),
    "two_handed_unknown": Kind(Bowler(is_two_handed=True), "hybrid_2000", ((30, 18), (28, 16))),
    "senior_unknown": Kind(Bowler(age_years=70.0, speed_mph=15.0), "hybrid_2000", ((20, 10), (18, 9))),
    "woman_unknown": Kind(Bowler(speed_mph=14.5), "hybrid_2000", ((21, 11), (23, 12))),
    "straight": Kind(Bowler(arrow_sd_boards=1.46), "plastic_spare", ((20, 14), (16, 11))),
}
"""Eight kinds; those of whom nothing is known are taken as usual, and the plastic ball goes straight."""


def silent_on_hidden_lane(kind: Kind, pattern: str, seed: int, n_balls: int = N_BALLS) -> list[bool]:
    """Return for each ball of a hidden lane whether the simulation was silent; the advice is followed."""
    ball = cl.load_ball(kind.ball)
    lane = cl.PracticeLane(cl.load_pattern(pattern), kind.bowler, ball, seed=seed)
    session, silent = lane.start(), []
    for _ in range(n_balls):
        session = cl.observe(session, lane.throw(session.line).shot)
        advice = cl.advise(session)
        silent.append(advice.model is None)
        session = cl.change(session, line=advice.new_line)
    return silent


def silent_on_pocket_hits(kind: Kind, pattern: str, line: tuple[float, float]) -> list[bool]:
    """Return for each of some pocket strikes on target whether the simulation was silent."""
    session = cl.Session(
        bowler=kind.bowler,
        line=cl.Line(*line),
        ball=cl.load_ball(kind.ball),
        pattern=cl.load_pattern(pattern),
    )
    silent = []
    for _ in range(N_POCKET_HITS):
        session = cl.observe(session, cl.Shot(crossed_board=line[1], arrival="pocket", leave=()))
        silent.append(cl.advise(session).model is None)
    return silent


def rows(names: Sequence[str], seeds: Sequence[int]) -> Iterator[tuple[str, list[bool], list[bool]]]:
    """Yield each kind with what was silent on hidden lanes and after pocket hits."""
    for name in names:
        kind = KINDS[name]
        hidden = [
            silent
            for pattern in PATTERNS
            for seed in seeds
            for silent in silent_on_hidden_lane(kind, pattern, seed)
        ]
        hits = [
            silent
            for pattern in PATTERNS
            for line in kind.pocket_lines
            for silent in silent_on_pocket_hits(kind, pattern, line)
        ]
        yield name, hidden, hits


def main() -> None:
    """Print a line a kind, and all together."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--seeds", default="0:2", help="hidden lanes, FIRST:LAST")
    asked.add_argument("--kinds", default="", help="some of the kinds, separated by commas")
    given = asked.parse_args()
    first, last = map(int, given.seeds.split(":"))
    names = given.kinds.split(",") if given.kinds else list(KINDS)
    total: list[bool] = []
    for name, hidden, hits in rows(names, range(first, last)):
        total += hidden + hits
        print(
            f"{name:20s} hidden lanes {sum(hidden):3d} of {len(hidden):3d} silent, "
            f"pocket hits {sum(hits):2d} of {len(hits)}",
            flush=True,
        )
    print(f"{'all':20s} {sum(total)} of {len(total)} silent, {sum(total) / len(total):.3f}")


if __name__ == "__main__":
    main()
