"""Plans that several tests ask for, made once."""

import dataclasses
import functools
from typing import Any

import coachlib as cl

BALL = "hybrid_2000"
CASES = (
    ("club_right", "house_41"),
    ("club_right", "flat_42"),
    ("senior_right", "house_41"),
    ("high_rev_left", "house_41"),
    ("two_handed_right", "house_41"),
)


@functools.cache
def plan_of(bowler: str = "club_right", pattern: str = "house_41", seed: int = 0) -> cl.Plan:
    """Return the plan of an invented bowler on an invented pattern."""
    return cl.plan(session_of(bowler, pattern, seed))


def session_of(bowler: str = "club_right", pattern: str = "house_41", seed: int = 0) -> cl.Session:
    """Return the session it is made of, on no line in particular."""
    return cl.Session(
        bowler=cl.load_bowler(bowler),
        line=cl.Line(20.0, 15.0),
        ball=cl.load_ball(BALL),
        pattern=cl.load_pattern(pattern),
        seed=seed,
    )


def asked(pattern: cl.OilPattern | None = None, ball: cl.Ball | None = None, **fields: Any) -> cl.Session:
    """Return a session of a bowler with these fields, a usual one else, on no line in particular."""
    return cl.Session(cl.Bowler(**fields), cl.Line(20.0, 20.0), ball, pattern)


def mirrored(session: cl.Session) -> cl.Session:
    """Return the session as a bowler of the other hand would have it: oil turned over, nothing else."""
    other = "left" if session.bowler.hand == "right" else "right"
    film = tuple(row[::-1] for row in session.pattern.film_um)
    return dataclasses.replace(
        session,
        bowler=dataclasses.replace(session.bowler, hand=other),
        pattern=dataclasses.replace(session.pattern, film_um=film),
    )
