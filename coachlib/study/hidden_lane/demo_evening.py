"""Invented league evenings of two students, one of them left-handed, played on hidden lanes.

Nothing in it was bowled by anybody. Each frame is thrown on a pair of practice lanes that wear; the rule of
thumb answers after each first ball, and the student follows it mostly. Spare balls are drawn, not simulated.
The same seed is the same evening, ball for ball.
"""

import dataclasses
from collections.abc import Iterator, Mapping
from datetime import datetime, timedelta
from typing import Any

import numpy as np

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.session import Session, change, observe
from coachlib.errors import checked_number
from coachlib.study.hidden_lane.practice import PracticeLane
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.oil import load_pattern
from coachlib.world.shot import Shot

N_EVENINGS, N_FRAMES = 3, 20
FIRST_EVENING = datetime(2026, 9, 1, 18, 0)  # by the clock of whoever looks, so that all see the same
LANES = ("7", "8")
FOLLOWED_PROB = 0.75
"""How often the students take a move that is advised (invented)."""

SINGLE_PIN_PROB, OTHER_SPARE_PROB = 0.65, 0.3
"""How often they convert one pin, and more than one (invented)."""

_FEET_NOTED_PROB = 0.6  # the coach notes start and slide board of so many balls
_FEET_SD_BOARDS = 0.5

EveningStep = tuple[str, Mapping[str, Any]]


@dataclasses.dataclass(frozen=True)
class Invented:
    """An invented student: as the coach has their numbers, as they are, and what each evening begins with."""

    said: Bowler
    real: Bowler
    ball_name: str
    line: Line


@dataclasses.dataclass(frozen=True)
class Evening:
    """One evening of one student.

    Parameters
    ----------
    number, started
        1 for the first; when, in this machine's time zone.
    start : Session
        Before the first ball.
    steps : tuple of (kind, payload)
        What happened, oldest first: ``shot``, ``change``, and ``advice`` with the :class:`Advice` itself.
    """

    number: int
    started: datetime
    start: Session
    steps: tuple[EveningStep, ...]


_MAIJA = Bowler(
    name="Maija",
    hand="right",
    speed_mph=16.5,
    rev_rate_rpm=290.0,
    axis_rotation_deg=45.0,
    axis_tilt_deg=13.0,
    arrow_sd_boards=0.97,
    is_usual_accuracy_entered=True,
    age_years=34.0,
)
_OSKAR = Bowler(
    name="Oskar",
    hand="left",
    speed_mph=15.0,
    rev_rate_rpm=240.0,
    axis_rotation_deg=55.0,
    axis_tilt_deg=12.0,
    arrow_sd_boards=1.46,
    drift_boards=1.0,
    age_years=15.0,
)
STUDENTS = (
    Invented(_MAIJA, _MAIJA, "hybrid_2000", Line(feet_board=27.0, target_board=14.0)),
    Invented(
        dataclasses.replace(
            _OSKAR, rev_rate_rpm=None, axis_rotation_deg=None, arrow_sd_boards=0.97, drift_boards=None
        ),
        _OSKAR,
        "hybrid_14lb",
        Line(feet_board=25.0, target_board=13.0),
    ),
)
"""The two of them; the coach does not know revs, rotation, aim and drift of the second."""


def demo_evenings(student: Invented, seed: int = 1) -> tuple[Evening, ...]:
    """Return the evenings of one student, the first one first.

    Parameters
    ----------
    student : Invented
        One of :data:`STUDENTS`.
    seed : int, default 1
        The same seed is the same evenings.

    Raises
    ------
    InputError
        If `seed` is no number from 0 to 1,000,000.
    """
    first = 1000 * round(checked_number("seed", seed, 0, 1_000_000, "", "It names the evenings."))
    first += 100 * (student.said.hand == "left")
    pattern, ball = load_pattern("house_41"), load_ball(student.ball_name)
    usual: PracticeLane | None = None  # whose bowler, law and eye all lanes have
    evenings = []
    for number in range(1, N_EVENINGS + 1):
        lanes = {}
        for seed_of_lane, lane in enumerate(LANES, start=first + 10 * number):
            lanes[lane] = PracticeLane(pattern, student.real, ball, seed_of_lane, student.line, pair=usual)
            usual = usual or lanes[lane]
        start = Session(student.said, student.line, ball, pattern, lane=LANES[0], scoring_started=True)
        steps = tuple(_played(start, lanes, np.random.default_rng((first, number)), student.real))
        started = (FIRST_EVENING + timedelta(weeks=number - 1)).astimezone()
        evenings.append(Evening(number, started, start, steps))
    return tuple(evenings)


def _played(
    session: Session, lanes: Mapping[str, PracticeLane], rng: np.random.Generator, real: Bowler
) -> Iterator[EveningStep]:
    """Yield what happens in one evening: a frame on each lane of the pair in turn."""
    for frame in range(N_FRAMES):
        lane = LANES[frame % len(LANES)]
        if session.lane != lane:
            yield "change", {"lane": lane}
            session = change(session, lane=lane)
        thrown = lanes[lane].throw(session.line).shot
        shot = dataclasses.replace(thrown, **_feet(session.line, rng, real))
        yield "shot", {"shot": shot}
        session = observe(session, shot)
        advice = advise(session, model_on=False)
        yield "advice", {"advice": advice}
        if shot.leave:
            chance = SINGLE_PIN_PROB if len(shot.leave) == 1 else OTHER_SPARE_PROB
            spare = Shot(leave=() if rng.random() < chance else shot.leave, is_spare=True)
            yield "shot", {"shot": spare}
            session = observe(session, spare)
        if advice.kind == "line" and rng.random() < FOLLOWED_PROB:
            yield "change", {"line": advice.new_line}
            session = change(session, line=advice.new_line)


def _feet(line: Line, rng: np.random.Generator, real: Bowler) -> dict[str, Any]:
    """Return the boards on which they began and slid, to the half board, where the coach noted them."""
    start, slide = rng.normal(0.0, _FEET_SD_BOARDS, 2)
    if rng.random() >= _FEET_NOTED_PROB:
        return {}
    began = round(2.0 * (line.feet_board + start)) / 2.0
    slid = round(2.0 * (began + (real.drift_boards or 0.0) + slide)) / 2.0
    return {"start_board": began, "slide_board": slid}
