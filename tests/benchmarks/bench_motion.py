"""How fast and how true the march is, against a general adaptive solver in the same run.

Times are the least of several runs: other work on the machine only adds. Ratios come from runs that
alternate. At a relative tolerance of 3e-5 the solver's error is about that of the march.
"""

import dataclasses
import tracemalloc
from collections.abc import Callable, Iterator

import numpy as np

from coachlib.physics.friction import Grip, grip_of
from coachlib.physics.kernel import CHUNK, march
from coachlib.physics.kinematics import Launch
from coachlib.physics.motion import BOARD_M, ground_of, launch_of, simulate
from coachlib.world.ball import load_ball
from coachlib.world.oil import load_pattern, pattern_names
from coachlib.world.release import Release
from tests.adaptive import solved
from tests.benchmarks.figures import Figure, elapsed_s
from tests.marching import smooth_ground

N_SOLVED = 60
SMOOTH_GRIP = Grip(dry_coef=0.24, wet_coef=0.01, rolling_coef=0.003, half_film_um=0.3, track_frac=0.11)
# bytes that the array operations of one step read and write for one shot, counted in physics/kernel
STEP_BYTES, STEP_BYTES_PAST_THE_OIL = 722, 538


def figures() -> Iterator[Figure]:
    """Yield speed, error, ratio and memory of the march."""
    yield from _speeds()
    yield from _against_the_solver()
    how = "most of all shipped patterns, step 1/2 against 1/32 ft"
    yield "motion_error_kinked", _kinked_error(), "boards", how
    yield from _memory()
    yield from _chunks()
    yield from _bandwidth()


def _release(n_shots: int) -> Release:
    draw = np.random.default_rng(1)
    return Release(
        laydown_board=24.0 + draw.normal(size=n_shots),
        launch_deg=-2.0 + 0.3 * draw.normal(size=n_shots),
        speed_mph=19.0 + 0.4 * draw.normal(size=n_shots),
        rev_rate_rpm=300.0 + 15.0 * draw.normal(size=n_shots),
        axis_rotation_deg=45.0 + 4.0 * draw.normal(size=n_shots),
        axis_tilt_deg=13.0,
    )


def _least_s(work: Callable[[], object], n_runs: int = 7) -> float:
    return min(elapsed_s(work) for _ in range(n_runs))


def _speeds() -> Iterator[Figure]:
    ball, pattern = load_ball("hybrid_2000"), load_pattern("house_41")
    for n_shots in (1, 1_000, 20_000, 100_000):
        release = _release(n_shots)
        wait_s = _least_s(lambda release=release: simulate(release, ball, pattern, keep_path=False))
        yield f"motion_speed_{n_shots}", n_shots / wait_s, "shots/s", f"{1e3 * wait_s:.1f} ms, no paths kept"
    wait_s = _least_s(lambda: simulate(_release(20_000), ball, pattern))
    yield "motion_speed_20000_paths", 20_000 / wait_s, "shots/s", f"{1e3 * wait_s:.1f} ms, paths kept"


def _against_the_solver() -> Iterator[Figure]:
    launch = launch_of(_release(20_000), load_ball("hybrid_2000"))
    ground = smooth_ground(0.5)
    few = _part(launch, N_SOLVED)
    exact = np.array([solved(few, SMOOTH_GRIP, shot, 1e-10)[0] for shot in range(N_SOLVED)])
    ours = np.abs(march(few, ground, SMOOTH_GRIP).across_m - exact).max() / BOARD_M
    yield "motion_error_smooth", ours, "boards", f"most of {N_SOLVED} shots against DOP853 at rtol 1e-10"
    march_s, solver_s = np.inf, {rtol: np.full(N_SOLVED, np.inf) for rtol in (3e-5, 1e-6)}
    for _ in range(6):
        march_s = min(march_s, _least_s(lambda: march(launch, ground, SMOOTH_GRIP), 3) / 20_000)
        for rtol in solver_s:
            waits = [
                _least_s(lambda shot=shot, rtol=rtol: solved(few, SMOOTH_GRIP, shot, rtol), 1)
                for shot in range(N_SOLVED)
            ]
            solver_s[rtol] = np.minimum(solver_s[rtol], waits)
    for rtol, shots_s in solver_s.items():
        wait_s = float(shots_s.mean())
        theirs = np.abs(_solve_all(few, rtol) - exact).max() / BOARD_M
        how = (
            f"20000 shots against DOP853 at rtol {rtol:g}: {1e3 * wait_s:.2f} ms a shot, {theirs:.4f} boards"
        )
        yield f"motion_ratio_rtol_{rtol:g}", wait_s / march_s, "x", how


def _part(launch: Launch, n_shots: int) -> Launch:
    rows = {name: value[:n_shots] for name, value in vars(launch).items() if isinstance(value, np.ndarray)}
    return dataclasses.replace(launch, **rows)


def _solve_all(launch: Launch, rtol: float) -> np.ndarray:
    return np.array([solved(launch, SMOOTH_GRIP, shot, rtol)[0] for shot in range(launch.across_m.size)])


def _kinked_error() -> float:
    ball, release = load_ball("hybrid_2000"), _release(2_000)
    launch, grip, most = launch_of(release, ball), grip_of(ball), 0.0
    for name in pattern_names():
        pattern = load_pattern(name)
        on_lane = ~simulate(release, ball, pattern, keep_path=False).gutter
        half, fine = (
            march(launch, ground_of(pattern, "right", step_ft), grip).across_m for step_ft in (0.5, 1 / 32)
        )
        most = max(most, float(np.abs(half - fine)[on_lane].max()) / BOARD_M)
    return most


def _memory() -> Iterator[Figure]:
    ball, pattern = load_ball("hybrid_2000"), load_pattern("house_41")
    launch, grip, ground = launch_of(_release(100_000), ball), grip_of(ball), ground_of(pattern, "right")
    peaks = {n_shots: _peak_bytes(_part(launch, n_shots), ground, grip) for n_shots in (20_000, 100_000)}
    working = {n_shots: peak / 2**20 for n_shots, peak in peaks.items()}
    yield "motion_bytes_result", 9 * 8, "B/shot", "nine numbers a shot; 244 more where paths are kept"
    for n_shots, size in working.items():
        yield f"motion_working_memory_{n_shots}", size, "MiB", f"peak without the results, chunks of {CHUNK}"


def _peak_bytes(launch: Launch, ground: object, grip: Grip) -> float:
    tracemalloc.start()
    landed = march(launch, ground, grip)  # type: ignore[arg-type]
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    return peak - sum(value.nbytes for value in vars(landed).values())


def _chunks() -> Iterator[Figure]:
    """Yield what smaller chunks cost."""
    launch = launch_of(_release(2 * CHUNK), load_ball("hybrid_2000"))
    grip, ground = grip_of(load_ball("hybrid_2000")), ground_of(load_pattern("house_41"), "right")
    least_s = dict.fromkeys((CHUNK, CHUNK // 2, CHUNK // 4), np.inf)
    for _ in range(5):
        for chunk in least_s:
            wait_s = _least_s(lambda chunk=chunk: march(launch, ground, grip, chunk=chunk), 2)
            least_s[chunk] = min(least_s[chunk], wait_s)
    for chunk in (CHUNK // 2, CHUNK // 4):
        yield f"motion_chunk_{chunk}", least_s[chunk] / least_s[CHUNK], "x", f"time against chunks of {CHUNK}"


def _bandwidth() -> Iterator[Figure]:
    """Yield what adding arrays in the cache reaches, and which share of it the march does."""
    one, two, three = np.ones((3, CHUNK))
    add_s = _least_s(lambda: [np.add(one, two, out=three) for _ in range(400)]) / 400
    limit = 24.0 * CHUNK / add_s
    ball, pattern = load_ball("hybrid_2000"), load_pattern("house_41")
    launch, grip, ground = launch_of(_release(20_000), ball), grip_of(ball), ground_of(pattern, "right")
    n_oiled = int(ground.film_um.any(axis=1).sum())
    moved = STEP_BYTES * n_oiled + STEP_BYTES_PAST_THE_OIL * (len(ground.film_um) - n_oiled)
    share = 20_000 * moved / _least_s(lambda: march(launch, ground, grip)) / limit
    yield "motion_cache_bandwidth", limit / 1e9, "GB/s", f"np.add on arrays of {CHUNK}"
    yield "motion_bandwidth_share", share, "", f"{moved / len(ground.film_um):.0f} B a shot and step, counted"
