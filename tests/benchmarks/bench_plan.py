"""What a game plan costs: the scan of all lines, the room, the cases, and the printed page."""

from collections.abc import Iterator

from coachlib.coaching.plan.plan import plan
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import playable_lines
from coachlib.views.print.plan_card import plan_card
from coachlib.world.ball import load_ball
from coachlib.world.bowler import load_bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern
from tests.benchmarks.figures import Figure, elapsed_s

BOWLERS = ("club_right", "walker_right", "two_handed_right")
N_RUNS = 3


def figures() -> Iterator[Figure]:
    """Yield the first plan, which loads what it needs, then plans of several bowlers, and one page."""
    ball, pattern = load_ball("hybrid_2000"), load_pattern("house_41")
    sessions = {name: Session(load_bowler(name), Line(20, 20), ball, pattern) for name in BOWLERS}
    wait_s = elapsed_s(plan, sessions["club_right"])
    yield "plan_first", wait_s, "s", "SciPy and the carry table loaded on the way"
    for name, session in sessions.items():
        wait_s = max(elapsed_s(plan, session) for _ in range(N_RUNS))
        how = f"{len(playable_lines(session.bowler, 15.0))} lines, house_41, the slowest of {N_RUNS}"
        yield f"plan_{name}", wait_s, "s", how
    made = plan(sessions["club_right"])
    wait_s = elapsed_s(plan_card, made)
    yield "plan_card", wait_s, "s", f"{len(plan_card(made)) / 1000:.0f} kB, Altair loaded on the way"
