"""How long a person waits without a browser: for `import coachlib`, and for an advice after a ball."""

import statistics
import subprocess
import sys
import time
from collections.abc import Iterator

from tests.benchmarks.figures import Figure

N_IMPORTS = 5
N_BALLS = 20
_IMPORT = "import time; start = time.perf_counter(); import coachlib; print(time.perf_counter() - start)"


def figures() -> Iterator[Figure]:
    """Yield the time of an import and of an advice."""
    waits_s = [_import_s() for _ in range(N_IMPORTS)]
    yield "import", statistics.median(waits_s), "s", f"median of {N_IMPORTS} fresh Pythons"
    waits_ms = _advise_ms()
    yield "advise_first", waits_ms[0], "ms", "observe, advise, say; first ball, reads the rules"
    how = f"observe, advise, say; median of balls 2 to {N_BALLS}"
    yield "advise", statistics.median(waits_ms[1:]), "ms", how


def _import_s() -> float:
    answer = subprocess.run([sys.executable, "-c", _IMPORT], capture_output=True, text=True, check=True)
    return float(answer.stdout)


def _advise_ms() -> list[float]:
    """Return how long each of a row of balls takes from shot to sentence."""
    import coachlib as cl

    session = cl.Session(bowler=cl.Bowler(hand="right"), line=cl.Line(feet_board=22, target_board=11))
    arrivals, waits_ms = ("high", "pocket", "light", "high"), []
    for number in range(N_BALLS):
        shot = cl.Shot(crossed_board=11.0 - number % 2, arrival=arrivals[number % 4])
        start_s = time.perf_counter()
        session = cl.observe(session, shot)
        cl.say(cl.advise(session), hand="right", to="bowler")
        waits_ms.append(1000 * (time.perf_counter() - start_s))
    return waits_ms
