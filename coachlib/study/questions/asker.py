"""Who is asked, and on which lane: a learner's own numbers, their usual ball, a line to start from."""

import dataclasses
import functools

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.line_search import on_starting_line
from coachlib.world.ball import Ball, load_ball
from coachlib.world.bowler import Bowler, load_bowler
from coachlib.world.hand import Hand
from coachlib.world.oil import OilPattern, load_pattern

BOWLER, BALL, PATTERN = "club_right", "hybrid_2000", "house_41"


def usual_learner(hand: Hand = "right") -> Bowler:
    """Return the learner of all questions until their own numbers are known: a club bowler."""
    return dataclasses.replace(load_bowler(BOWLER), name="", hand=hand, age_years=None)


def starting_session(bowler: Bowler, ball: str = BALL, pattern: str = PATTERN) -> Session:
    """Return a learner on the line to start on with a ball on a pattern, both by their names in the data."""
    return _started(dataclasses.replace(bowler, name="", pain=""), load_ball(ball), load_pattern(pattern))


@functools.lru_cache(maxsize=64)
def _started(bowler: Bowler, ball: Ball, pattern: OilPattern) -> Session:
    return on_starting_line(bowler, ball, pattern)
