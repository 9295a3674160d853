"""What the model costs: its first table, an answer after a ball, 200 balls, and the memory it holds."""

import statistics
import subprocess
import sys
import time
from collections.abc import Iterator

import coachlib as cl
from coachlib.coaching.belief.line_table import tabulate
from coachlib.coaching.belief.parameters import DEFAULT_NUMBERS
from coachlib.coaching.belief.table_cache import belief_setting, particles_of
from tests.benchmarks.figures import Figure, elapsed_s

N_BALLS = 40
PATTERNS = ("house_41", "flat_42", "short_36", "long_44")


def figures() -> Iterator[Figure]:
    """Yield the first table, answers on a hidden lane, a long session and the memory."""
    ball, bowler = cl.load_ball("hybrid_2000"), cl.load_bowler("club_right")
    wait_s = max(_table_s(bowler, cl.load_pattern(name), ball) for name in PATTERNS)
    how = f"{DEFAULT_NUMBERS.n_particles} lanes, the slowest of {len(PATTERNS)} patterns"
    yield "belief_table", wait_s, "s", how
    waits_ms = _answers_ms(bowler, ball)
    how = f"after a ball, table at hand, median of {len(waits_ms)}"
    yield "advise", statistics.median(waits_ms), "ms", how
    yield "advise_slowest", max(waits_ms), "ms", "the same, the slowest"
    yield "advise_200_balls", _long_s(bowler, ball), "s", "a session of 200 balls read anew, table at hand"
    how = "what one bowler, ball and pattern add to a process after 10 answers"
    yield "model_memory", _memory_mib(), "MiB", how


def _table_s(bowler: cl.Bowler, pattern: cl.OilPattern, ball: cl.Ball) -> float:
    setting = belief_setting(bowler, pattern)
    return elapsed_s(tabulate, particles_of(setting), ball, setting.pattern, bowler.hand)


def _answers_ms(bowler: cl.Bowler, ball: cl.Ball) -> list[float]:
    lane = cl.PracticeLane(cl.load_pattern("house_41"), bowler, ball, seed=1)
    session, waits_ms = lane.start(), []
    cl.advise(session)
    for _ in range(N_BALLS):
        session = cl.observe(session, lane.throw(session.line).shot)
        start_s = time.perf_counter()
        advice = cl.advise(session)
        waits_ms.append(1000.0 * (time.perf_counter() - start_s))
        session = cl.change(session, line=advice.new_line)
    return waits_ms


def _long_s(bowler: cl.Bowler, ball: cl.Ball) -> float:
    session = cl.Session(bowler=bowler, line=cl.Line(26, 13), ball=ball, pattern=cl.load_pattern("house_41"))
    for number in range(200):
        shot = cl.Shot(crossed_board=13.0 + number % 3, arrival=17.0 + number % 4, speed_mph=17.0)
        session = cl.observe(session, shot)
    cl.advise(cl.undo(session), model_on=False)
    return elapsed_s(cl.advise, session)


_MEMORY = """
import resource, coachlib as cl
from coachlib.coaching.advice.advice import advise
bowler, ball = cl.load_bowler("club_right"), cl.load_ball("hybrid_2000")
lane = cl.PracticeLane(cl.load_pattern("house_41"), bowler, ball, seed=1, line=cl.Line(26, 13))
session = lane.start()
for _ in range(10):
    advise(session)
    session = cl.observe(session, lane.throw(session.line).shot)
print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024)
"""


def _memory_mib() -> float:
    """Return the most memory a fresh process held; Linux counts in KiB."""
    answer = subprocess.run([sys.executable, "-c", _MEMORY], capture_output=True, text=True, check=True)
    return float(answer.stdout)
