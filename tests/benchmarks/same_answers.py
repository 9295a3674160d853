"""Whether the advice answers as it did: seeded sessions, kept in a file and held against another.

``python -m tests.benchmarks.same_answers --out build/before.csv`` plays 300 sessions on hidden lanes and
keeps a row an answer: kind, line, chances and headline. After a change that may alter no answer, ``--out
build/after.csv --against build/before.csv`` plays them again and prints every answer that differs. Sessions
go as an evening does: advice followed or not, a second lane, oil laid anew, spares, a ball corrected.
"""

import argparse
import csv
import itertools
from collections.abc import Iterator
from concurrent.futures import ProcessPoolExecutor
from pathlib import Path

import numpy as np

import coachlib as cl
from tests.benchmarks.kinds import KINDS

N_SESSIONS, N_BALLS = 300, 12
PATTERNS = ("house_41", "flat_42", "short_36")
COLUMNS = ("session", "ball", "kind", "verdict", "feet", "target", "stay", "move", "lanes", "headline", "why")


def answers(number: int) -> list[dict[str, str]]:
    """Return a row for each answer of one session; its number draws everything."""
    rng = np.random.default_rng(number)
    names = list(KINDS)
    kind, pattern = KINDS[names[number % len(names)]], PATTERNS[number // len(names) % len(PATTERNS)]
    line = cl.Line(*kind.pocket_lines[number % 2])  # not one that the library would choose
    lane = cl.PracticeLane(cl.load_pattern(pattern), kind.bowler, cl.load_ball(kind.ball), number, line)
    session, told = lane.start(), []
    for _ in range(N_BALLS):
        session = cl.observe(session, lane.throw(session.line).shot)
        session = _observed_too(session, rng)
        advice = cl.advise(session)
        told.append(_row(number, session, advice))
        if advice.new_line != session.line and rng.random() < 0.7:
            session = cl.change(session, line=advice.new_line)
        session = _changed(session, rng)
    return told


def _observed_too(session: cl.Session, rng: np.random.Generator) -> cl.Session:
    """Return the session with, now and then, a spare ball thrown or the last ball corrected."""
    if rng.random() < 0.1:
        return cl.observe(session, cl.Shot(leave=(), is_spare=True))
    if rng.random() < 0.05:
        return cl.correct(session, len(session.shots), cl.Shot(arrival="high"))
    return session


def _changed(session: cl.Session, rng: np.random.Generator) -> cl.Session:
    """Return the session with, now and then, the other lane, fresh oil, or a line of the bowler's own."""
    drawn = rng.random()
    if drawn < 0.06:
        return cl.change(session, lane="2" if session.lane == "1" else "1")
    if drawn < 0.09 and session.games_now:
        return cl.change(session, games_on_lane=0.0)
    if drawn < 0.12:
        line = cl.Line(session.line.feet_board + 1, session.line.target_board + 1)
        return cl.change(session, line=line)
    return session


def _row(number: int, session: cl.Session, advice: cl.Advice) -> dict[str, str]:
    said = cl.say(advice, hand=session.bowler.hand, to="coach")
    facts = (
        number,
        len(session.shots),
        advice.kind,
        advice.cause.verdict,
        f"{advice.new_line.feet_board:g}",
        f"{advice.new_line.target_board:g}",
        *(_number(prob) for prob in (advice.stay_strike_prob, advice.move_strike_prob)),
        _number(advice.better_lanes_frac),
        said.headline,
        said.why,
    )
    return dict(zip(COLUMNS, map(str, facts), strict=True))


def _number(prob: float | None) -> str:
    return "" if prob is None else f"{prob:.6f}"


def differences(before: list[dict[str, str]], after: list[dict[str, str]]) -> Iterator[str]:
    """Yield a text for every answer that is not as it was."""
    for was, now in itertools.zip_longest(before, after):
        if was == now:
            continue
        if was is None or now is None:
            yield "one of the two files is longer"
            return
        changed = [f"{name}: {was[name]} -> {now[name]}" for name in COLUMNS if was[name] != now[name]]
        yield f"session {now['session']}, ball {now['ball']}: {'; '.join(changed)}"


def main() -> None:
    """Play, keep, compare."""
    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("--out", type=Path, required=True)
    asked.add_argument("--against", type=Path)
    asked.add_argument("--sessions", type=int, default=N_SESSIONS)
    asked.add_argument("--jobs", type=int, default=2)
    given = asked.parse_args()
    with ProcessPoolExecutor(given.jobs) as pool:
        rows = [row for told in pool.map(answers, range(given.sessions)) for row in told]
    given.out.parent.mkdir(parents=True, exist_ok=True)
    with given.out.open("w", newline="", encoding="utf-8") as file:
        writer = csv.DictWriter(file, COLUMNS)
        writer.writeheader()
        writer.writerows(rows)
    print(f"{given.sessions} sessions, {len(rows)} answers kept")
    if given.against:
        with given.against.open(newline="", encoding="utf-8") as file:
            different = list(differences(list(csv.DictReader(file)), rows))
        print("\n".join([*different, f"{len(different)} of {len(rows)} answers differ"]))


if __name__ == "__main__":
    main()
