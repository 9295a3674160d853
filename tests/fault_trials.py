"""What can go wrong with a log, done on purpose: kills, two writers, full disks, hostile texts, a season.

Each trial returns figures; tests/records/test_faults.py runs small ones, tests/benchmarks/faults.py those of
`make bench-faults`. Invented data throughout.
"""

import contextlib
import csv
import io
import os
import random
import signal
import sqlite3
import time
from collections.abc import Callable, Iterator
from datetime import UTC, datetime, timedelta
from pathlib import Path
from typing import Any, NamedTuple
from unittest import mock
from xml.etree import ElementTree

from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError
from coachlib.records import Logbook, NewSession, Student, Students
from coachlib.records.log import store
from coachlib.records.spreadsheets.csv_log import export_sessions, import_sessions
from coachlib.review.trends import student_trends
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line, Move
from coachlib.world.oil import OilPattern
from coachlib.world.shot import Shot

START = Session(bowler=Bowler(name="Ilta", hand="left"), line=Line(22, 11))
FEW_PAGES = 16
"""A disk that is full after so many pages of 4 kB."""

Say = Callable[[str], object]
Writer = Callable[[Path, Say], object]


class Kills(NamedTuple):
    """What kills did: acknowledged events, those that are gone, checks of the database that failed."""

    n_kills: int
    n_acknowledged: int
    n_lost: int
    n_extra: int
    n_damaged: int


class Writers(NamedTuple):
    """What several writers at once did."""

    n_acknowledged: int
    n_logged: int
    n_lost: int
    n_damaged: int
    took_s: float


class Season(NamedTuple):
    """How long a large log takes."""

    n_shots: int
    list_s: float
    all_sessions_s: float
    sessions_s: float
    trends_s: float
    trends_cpu_s: float
    turn_s: float
    size_mb: float


def numbered_shot(n: int) -> Shot:
    """Return a ball that tells its number."""
    return Shot(crossed_board=11.0, arrival="high", note=str(n))


def write_on_and_on(path: Path, say: Say) -> None:
    """Log balls until killed, a new session every ten, and say each once it is acknowledged."""
    logbook = Logbook(path)
    for n in range(1_000_000):
        if n % 10 == 0:
            key = logbook.start(START)
        logbook.append(key, "shot", {"shot": numbered_shot(n)})
        say(f"{key} {n}\n")


def killed_writers(path: Path, n_kills: int, seed: int = 11, writer: Writer = write_on_and_on) -> Kills:
    """Kill a writer again and again at random moments; each time everything acknowledged must be there.

    Parameters
    ----------
    path : Path
        The log.
    n_kills : int
        How often.
    seed : int
        Of the moments: after 0 to 8 acknowledgements, so that a kill comes no earlier on a busy machine, and
        0 to 50 ms more.
    writer : callable
        Logs on and on; another one shows that the check can fail.
    """
    draw, n_acknowledged, n_lost, n_extra, n_damaged = random.Random(seed), 0, 0, 0, 0
    for _ in range(n_kills):
        acknowledged = _killed_after(path, draw.randint(0, 8), draw.uniform(0.0, 0.05), writer)
        logged = _logged(path, acknowledged)
        n_acknowledged += len(acknowledged)
        n_lost += len(set(acknowledged) - set(logged))
        n_extra = max(n_extra, len(logged) - len(set(acknowledged) & set(logged)))
        n_damaged += not is_intact(path)
    return Kills(n_kills, n_acknowledged, n_lost, n_extra, n_damaged)


def is_intact(path: Path) -> bool:
    """Return whether the database of a log is whole, by its own check."""
    db = sqlite3.connect(path)
    try:
        return db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
    except sqlite3.DatabaseError:
        return False
    finally:
        db.close()


def two_writers(path: Path, n_events: int) -> Writers:
    """Let two processes log at once: by turns into a session of their own and into one that both share."""
    shared = [Logbook(path).start(START) for _ in range(max(1, n_events // 200))]
    began_s = time.perf_counter()
    halves = (range(0, n_events // 2), range(n_events // 2, n_events))
    children = [forked(lambda say, mine=mine: _write_half(path, shared, mine, say)) for mine in halves]
    acknowledged = [one for child, reader in children for one in _acknowledged(read_until_end(child, reader))]
    took_s = time.perf_counter() - began_s
    logged = _logged(path, acknowledged)
    in_order = [one for mine in halves for one in logged if one[1] in mine]
    n_lost = len(set(acknowledged) - set(logged))
    is_damaged = not is_intact(path) or sorted(in_order) != sorted(in_order, key=lambda one: one[0])
    return Writers(len(acknowledged), len(logged), n_lost, int(is_damaged), took_s)


@contextlib.contextmanager
def full_disk(n_pages: int = FEW_PAGES) -> Iterator[None]:
    """Make every log stop growing at so many pages, as on a disk that is full."""
    plain = sqlite3.connect

    def small(*args: Any, **kwargs: Any) -> sqlite3.Connection:
        db = plain(*args, **kwargs)
        db.execute(f"PRAGMA max_page_count = {n_pages}")
        return db

    with mock.patch.object(store.sqlite3, "connect", small):
        yield


def written_until_full(path: Path) -> tuple[int, str]:
    """Log balls until the disk is full; return how many acknowledged ones are there, and what was told."""
    logbook, n, message = Logbook(path), 0, ""
    key = logbook.start(START)
    with full_disk():
        try:
            while n < 10_000:
                logbook.append(key, "shot", {"shot": numbered_shot(n)})
                n += 1
        except DataFileError as error:
            message = str(error)
    kept = [ball.shot for ball in logbook.replay(key).shots]
    goes_on = logbook.append(key, "shot", {"shot": numbered_shot(n)}) == n + 1
    return (n if goes_on and kept == [numbered_shot(one) for one in range(n)] else -1), message


def told_to_an_ordinary_user(path: Path) -> str:
    """Open a log as a user without special rights, for whom modes count, and return what was told."""

    def look(say: Say) -> None:
        if os.geteuid() == 0:
            os.setuid(65534)
        try:
            with store.opened(path):
                say("opened")
        except DataFileError as error:
            say(str(error))

    return read_until_end(*forked(look))


def hostile_faults(folder: Path, texts: list[str]) -> list[str]:
    """Log, list, export and import each text in every field that takes one; return what went wrong."""
    logbook, other = Logbook(folder / "l.sqlite"), Logbook(folder / "other.sqlite")
    keys = logbook.add(_hostile_session(number, text) for number, text in enumerate(texts))
    listed = {row.key: row.bowler_name for row in logbook.sessions()}
    path = export_sessions(logbook, keys, folder / "sessions.csv")
    import_sessions(other, path)
    faults = [f"formula: {cell!r}" for cell in formulas(path.read_bytes().decode("utf-8-sig"))]
    for text, key in zip(texts, keys, strict=True):
        is_right = {
            "kept": _is_kept(logbook, key, text),
            "listed": listed[key] == text[:80],
            "read back": other.replay(key) == logbook.replay(key),
        }
        faults += [f"not {what}: {text!r}" for what, is_so in is_right.items() if not is_so]
    names = sorted(file.name.partition(".")[0] for file in folder.iterdir())
    return faults + [f"file made: {name!r}" for name in names if name not in ("l", "other", "sessions")]


def print_faults(texts: list[str], n_together: int = 40) -> list[str]:
    """Print texts as titles of a lane picture; return what of the picture is no plain text any more."""
    faults, plain = [], tags_of(_printed("plain"))
    for first in range(0, len(texts), n_together):
        title = " | ".join(text[:300] for text in texts[first : first + n_together])
        try:
            tags = tags_of(_printed(title))
        except ElementTree.ParseError as error:
            faults.append(f"no picture for texts {first} and on: {error}")
            continue
        faults += [f"texts {first} and on: {tag}" for tag in sorted(tags - plain)]
    return faults


def _printed(title: str) -> str:
    from coachlib.views.lane.lane_chart import lane_chart
    from coachlib.views.lane.scene import lane_scene
    from coachlib.views.theme import picture_svg

    return picture_svg(lane_chart(lane_scene(START), title=title).to_dict())


def tags_of(svg: str) -> set[str]:
    """Return the elements of a picture and what each carries: a text that became more would add one."""
    return {
        f"{element.tag} {name}"
        for element in ElementTree.fromstring(svg).iter()
        for name in (*element.attrib, "")
    }


def formulas(text: str) -> list[str]:
    """Return the cells of a CSV file that a spreadsheet would take for formulas, whatever parts its cells."""
    found = []
    for separator in ",;\t":
        for cells in csv.reader(io.StringIO(text, newline=""), delimiter=separator):
            found += [cell for cell in cells if _is_formula(cell)]
    return found


def make_season(path: Path, n_students: int, n_sessions: int, n_shots: int) -> list[str]:
    """Write a season into a log, whole sessions at a time, and return the keys of the students."""
    logbook, draw = Logbook(path), random.Random(3)
    students = Students(logbook)
    keys = [students.add(Student(f"Student {n:03}")) for n in range(n_students)]
    for number, key in enumerate(keys):
        bowler = students.get(key).as_bowler
        logbook.add(
            _played(f"{number:04x}{evening:04x}", evening, bowler, key, n_shots, draw)
            for evening in range(n_sessions)
        )
    return keys


def season_figures(path: Path, student_keys: list[str]) -> Season:
    """Return how long the list, a student's sessions, the trends and the change to the next student take."""
    logbook = Logbook(path)
    students = Students(logbook)
    listed, list_s = _timed(students.listed)
    _, all_sessions_s = _timed(logbook.sessions)
    rows, sessions_s = _timed(lambda: students.sessions(student_keys[-1]))
    began_cpu_s = time.process_time()
    trends, trends_s = _timed(lambda: student_trends(logbook, student_keys[-1]))
    trends_cpu_s = time.process_time() - began_cpu_s
    _, turn_s = _timed(lambda: logbook.replay(rows[0].key))
    if len(trends) != len(rows) or len(listed) != len(student_keys):
        message = "the season is not whole, so the times are not those of a season"
        raise RuntimeError(message)
    n_shots = sum(one.n_shots for one in listed)
    return Season(
        n_shots, list_s, all_sessions_s, sessions_s, trends_s, trends_cpu_s, turn_s, path.stat().st_size / 1e6
    )


def _timed(work: Callable[[], Any]) -> tuple[Any, float]:
    began_s = time.perf_counter()
    done = work()
    return done, time.perf_counter() - began_s


def _played(
    key: str, evening: int, bowler: Bowler, student_key: str, n_shots: int, draw: random.Random
) -> NewSession:
    steps: list[tuple[str, dict[str, Any]]] = []
    for n in range(n_shots):
        crossed_board = 11.0 + draw.gauss(0, 1)
        shot = Shot(
            crossed_board=min(max(crossed_board, 0.0), 40.0),
            arrival=draw.choice(("high", "pocket", "light")),
            leave=draw.choice(((), (10,), (4,))),
            speed_mph=16.0 + draw.random(),
        )
        steps.append(("shot", {"shot": shot}))
        kind = draw.choice(("stay", "line"))
        steps.append(
            ("advice", {"kind": kind, "move": Move(2, 1) if kind == "line" else Move(), "rule_ids": ("A1",)})
        )
        if kind == "line" and n % 20 == 0:
            steps.append(("change", {"line": Line(22 + n / 20, 11 + n / 40)}))
    started = datetime(2024, 9, 2, 18, tzinfo=UTC) + timedelta(days=7 * evening)
    return NewSession(key, started, Session(bowler=bowler, line=Line(22, 11), lane="7"), steps, student_key)


def _hostile_session(number: int, text: str) -> NewSession:
    start = Session(
        bowler=Bowler(name=text[:80], pain=text[:80]),
        line=Line(22, 11),
        ball=Ball(text[:60]),
        pattern=OilPattern(text[:60], 40.0),
        lane=text[:20].strip() or "1",
    )
    shot = Shot(crossed_board=11.0, note=text[:2000])
    advice = {text: text, "kind": "line", "move": Move(2, 1, note=text[:200]), "rule_ids": ()}
    steps = [("shot", {"shot": shot}), ("advice", advice)]
    return NewSession(f"{number:08x}", datetime(2024, 9, 2, tzinfo=UTC), start, steps)


def _is_kept(logbook: Logbook, key: str, text: str) -> bool:
    session, advice = logbook.story(key)
    ball, pattern = session.ball, session.pattern
    held = ball is not None and pattern is not None and ball.name == pattern.name == text[:60]
    names = session.bowler.name == session.bowler.pain == text[:80]
    is_said = advice[1]["move"]["note"] == text[:200] and advice[1][text] == text
    return held and names and session.shots[0].shot.note == text[:2000] and is_said


def _is_formula(cell: str) -> bool:
    risky = cell.strip()[:1] in tuple("=+-@＝＋－＠") and cell.strip() != ""
    try:
        float(cell)
    except ValueError:
        return risky
    return False


def _write_half(path: Path, shared: list[str], mine: range, say: Say) -> None:
    logbook = Logbook(path)
    for place, n in enumerate(mine):
        if place % 100 == 0:
            own = logbook.start(START)
        key = own if place % 2 else shared[place // 100 % len(shared)]
        logbook.append(key, "shot", {"shot": numbered_shot(n)})
        say(f"{key} {n}\n")


def _killed_after(path: Path, n_first: int, wait_s: float, writer: Writer) -> list[tuple[str, int]]:
    child, reader = forked(lambda say: writer(path, say))
    first = b""
    while first.count(b"\n") < n_first:
        first += os.read(reader, 1)
    time.sleep(wait_s)
    os.kill(child, signal.SIGKILL)
    return _acknowledged(first.decode() + read_until_end(child, reader))


def _acknowledged(text: str) -> list[tuple[str, int]]:
    """Return what a writer acknowledged, as keys and numbers; a line that the kill cut off is none."""
    whole = [line.split() for line in text.splitlines(keepends=True) if line.endswith("\n")]
    return [(key, int(number)) for key, number in whole]


def _logged(path: Path, acknowledged: list[tuple[str, int]]) -> list[tuple[str, int]]:
    """Return the balls of all sessions written to, in the order in which they are kept."""
    keys = sorted({key for key, _ in acknowledged})
    stories = zip(keys, Logbook(path).stories(keys), strict=True)
    return [(key, int(ball.shot.note)) for key, story in stories for ball in story.session.shots]


def read_until_end(child: int, reader: int) -> str:
    """Return what a child process still says, once it has ended."""
    with os.fdopen(reader, encoding="utf-8") as pipe:
        text = pipe.read()
    os.waitpid(child, 0)
    return text


def forked(work: Callable[[Say], object]) -> tuple[int, int]:
    """Run `work(say)` in a child process; return its id and the end of the pipe to read from."""
    reader, writer = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            work(lambda text: os.write(writer, text.encode()))
            os._exit(0)
        finally:
            os._exit(1)
    os.close(writer)
    return child, reader
