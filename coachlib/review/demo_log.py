"""A demo log: the invented league evenings of two students, written to a folder as a real log would be."""

import atexit
import dataclasses
import functools
import tempfile
from pathlib import Path

from coachlib.coaching.wording.advice_text import say
from coachlib.errors import InputError
from coachlib.records.log.advice_record import advice_payload
from coachlib.records.log.entries import NewSession, Step
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.student import Student
from coachlib.records.students.students import Students
from coachlib.study.hidden_lane.demo_evening import STUDENTS, Evening, demo_evenings
from coachlib.study.hidden_lane.demo_evening import EveningStep as PlayedStep

SEED = 1
"""The evenings that the notebooks show."""

_CONSENT = {"Oskar": "Invented: mother agreed to notes, no scores to be handed out, 1 September."}


def write_demo_log(folder: Path, seed: int = SEED) -> Logbook:
    """Write the demo log into a folder and return it.

    Parameters
    ----------
    folder : Path
        Where; made if missing. It must not hold a log with students or sessions, so that invented people
        never stand among real ones.
    seed : int, default 1
        The same seed is the same log, ball for ball; only the keys of the students differ.

    Raises
    ------
    InputError
        If there is a log with students or sessions already, or `seed` is not allowed.
    DataFileError
        If the folder cannot be written, or lies inside the library's source.
    """
    logbook = Logbook(Path(folder) / "logbook.sqlite")
    students = Students(logbook)
    n_students, n_sessions = len(students.listed()), len(logbook.sessions())
    if n_students or n_sessions:
        message = (
            "Choose an empty folder: the demo never mixes with real people. folder holds a log of "
            f"{n_students} students and {n_sessions} sessions."
        )
        raise InputError(message, {"folder": message})
    for invented in STUDENTS:
        name = invented.said.name
        bowler = dataclasses.replace(invented.said, name="")
        key = students.add(Student(name, "", _CONSENT.get(name, ""), bowler))
        shown = students.get(key).as_bowler
        logbook.add(_session(evening, key, shown.name, seed) for evening in demo_evenings(invented, seed))
    return logbook


def own_or_demo(logbook: Logbook | None = None) -> tuple[Logbook, bool]:
    """Return a log, by default the person's own, or the demo if it holds nothing; and whether it is the demo.

    A log that holds nothing is left alone.
    """
    logbook = logbook or Logbook()
    if not logbook.path.exists() or not (logbook.sessions() or Students(logbook).listed()):
        return demo_log(), True
    return logbook, False


@functools.cache
def demo_log() -> Logbook:
    """Return the demo in a temporary folder that goes when the program ends; asked again it is the same."""
    folder = tempfile.TemporaryDirectory(prefix="coachlib-demo-")
    atexit.register(folder.cleanup)
    return write_demo_log(Path(folder.name))


def _session(evening: Evening, student_key: str, name: str, seed: int) -> NewSession:
    start = dataclasses.replace(evening.start, bowler=dataclasses.replace(evening.start.bowler, name=name))
    key = f"demo{seed}{start.bowler.hand}{evening.number}"
    return NewSession(key, evening.started, start, tuple(map(_step, evening.steps)), student_key)


def _step(played: PlayedStep) -> Step:
    kind, payload = played
    if kind != "advice":
        return kind, payload
    words = say(payload["advice"], to="bowler")
    return kind, advice_payload(payload["advice"], words.headline, words.why)
