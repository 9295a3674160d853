"""Which lane a question is asked on: the pattern its level allows, and a line on which the ball comes in so.

All patterns are the same from both sides, so that a left-hander gets the mirrored question.
"""

import dataclasses
from typing import Final

from coachlib.coaching.session.session import Session
from coachlib.study.questions.asker import BALL, PATTERN, starting_session, usual_learner
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.question import Level
from coachlib.study.questions.what_changes import CAME_IN, HOUSE_PATTERNS, coming_in
from coachlib.world.bowler import Walk

PATTERNS: Final[dict[Level, tuple[str, ...]]] = {
    "lever": (PATTERN,),
    "oil": HOUSE_PATTERNS,
    "wear": ("house_40", "house_41"),
    "thin": ("flat_42", "long_44"),
}
"""Patterns by level: one, house patterns, house patterns that are played on, and such with little room."""

WORN_GAMES = 1.0
"""What four bowlers have played before a question about wear is asked [games]."""


CLUB_WORDS: Final = "This one is asked with a club bowler’s numbers. "
"""Stands before a question that a learner's own ball has no answer to."""


def as_club_bowler(case: Case) -> Case | None:
    """Return a case asked with a club bowler of the same hand; None where it is one already."""
    club = usual_learner(case.hand)
    return None if case.bowler == club else dataclasses.replace(case, bowler=club)


def drawn_lane(
    case: Case, came_in: str = "", walk: Walk = "slide", ball: str = BALL, pattern: str = ""
) -> Session:
    """Return the one who is asked on a lane of the case's level.

    Parameters
    ----------
    case : Case
        Who is asked, and how hard it may be.
    came_in : {"", "start", "high", "pocket", "light"}
        Where the ball hits; "start" is the line to start on, whatever it hits; drawn if left out.
    walk : {"slide", "walk"}
        How the one who is asked walks.
    ball, pattern : str
        Names in the data; the pattern is drawn by the level if left out.

    Raises
    ------
    InputError
        If no line nearby brings the ball in there, or a name is unknown.
    """
    name = pattern or case.pick(PATTERNS[case.level])
    session = starting_session(dataclasses.replace(case.bowler, walk=walk), ball, name)
    if case.level == "wear":
        session = changed(session, Change(games=WORN_GAMES))
    where = came_in or case.pick(tuple(CAME_IN))
    return session if where == "start" else coming_in(session, CAME_IN[where])
