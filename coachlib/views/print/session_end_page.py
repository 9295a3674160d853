"""What a session came to, on one page to print: what worked, each line, one thing, where to start."""

from datetime import datetime

from coachlib.coaching.wording.callouts import line_text
from coachlib.review.session_end import (
    PAIN_WORDS,
    SessionEnd,
    one_thing_words,
    pains_words,
    stretch_head_words,
    stretch_words,
    worked_words,
)
from coachlib.views.print.evening_row import evening_svg
from coachlib.views.print.handout import day_text
from coachlib.views.print.page import filled, own_markup
from coachlib.world.hand import Hand

MOST_LINES = 8
"""More lines do not fit; the last ones are told."""


def session_end_page(end: SessionEnd, hand: Hand, started: datetime, title: str = "") -> str:
    """Return one page to print.

    Parameters
    ----------
    end : SessionEnd
        From :func:`coachlib.review.session_end.session_end`.
    hand : {"right", "left"}
        The bowling hand.
    started : datetime
        When the session was.
    title : str, optional
        What stands on top instead of name and day; taken as plain text.

    Returns
    -------
    str
        HTML.
    """
    heading = title or ", ".join(filter(None, (end.name, day_text(started))))
    told = end.stretches[-MOST_LINES:]
    return filled(
        "session_end.html",
        title=heading,
        end=end,
        pain_words=PAIN_WORDS,
        pains=pains_words(end.pains),
        worked=worked_words(end, hand),
        evening=own_markup(evening_svg(end, hand)),
        lines=[(stretch_head_words(end, one, hand), stretch_words(one)) for one in told],
        doings=[(doing, n, n) for doing, n in end.doings if n],
        one_thing=one_thing_words(end),
        start=end.start and line_text(end.start),
    )
