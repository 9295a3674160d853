"""What a session was, shown before it is left: balls, lines and whether they worked, one thing, next start.

Calm on purpose: no score, no average, no percentage, no rank. Facts and words are those of
:mod:`coachlib.review.session_end`, so that the panel and the page to print say the same.
"""

from datetime import datetime
from typing import Any

import anywidget
import traitlets

from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.callouts import line_text
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.logbook import Logbook
from coachlib.review.session_end import (
    PAIN_WORDS,
    SessionEnd,
    one_thing_words,
    pains_words,
    session_end,
    stretch_count_words,
    stretch_head_words,
    stretch_line_words,
    verdict_words,
    worked_words,
)
from coachlib.review.take_home import cautions
from coachlib.views.panels.lane_side.answer import button
from coachlib.views.panels.shared.parts import joined
from coachlib.views.panels.shared.trend import session_trend_view
from coachlib.views.panels.students.students_pages import Page, file_word
from coachlib.views.print.session_end_page import session_end_page
from coachlib.world.hand import Hand

MOST_LINES = 6
"""More lines do not fit beside each other; the last ones are told."""

SAVED = "Saved as “{name}” in your browser’s downloads. Open it there and print it."


class SessionSummary(anywidget.AnyWidget):
    """The summary; `look` is empty while a session goes on, see :func:`summary_view`.

    Parameters
    ----------
    look : dict
        What is shown.
    file : dict
        What the browser is to save: ``name``, ``mime``, ``content`` (base64), a ``number`` that counts up,
        and the words ``told`` to who asked.
    """

    _esm = joined("shared/parts.js", "shared/trend.js", "lane_side/session_summary.js")

    look = traitlets.Dict().tag(sync=True)
    file = traitlets.Dict().tag(sync=True)


def summary_view(logbook: Logbook, key: str, *, is_running: bool = True) -> dict[str, Any] | None:
    """Return the summary of a session of the log; None where it has no first ball.

    Parameters
    ----------
    logbook : Logbook
        The log.
    key : str
        The session's place there.
    is_running : bool
        Whether one may go back to it.

    Raises
    ------
    DataFileError
        If the session cannot be read.
    """
    told = logbook.story(key)
    end, hand = session_end(told.session, told.advice), told.session.bowler.hand
    if not end.balls:
        return None
    back = button("keep_going", "Back to the lane" if is_running else "Not now")
    return {
        "title": f"{end.name or 'This session'}, {_day(_listed(logbook, key).started)}",
        "about": _about(told.session, end),
        "pain": PAIN_WORDS if end.has_pain else "",
        "pain_noted": pains_words(end.pains),
        "worked": worked_words(end, hand),
        "trend": session_trend_view(told.session),
        "lines": _lines(end, hand),
        "causes": _causes(end),
        "spares": [list(one) for one in end.spares],
        "one_thing": _upper(one_thing_words(end)),
        "next_start": [line_text(end.start) if end.start else "", end.start_why],
        "cautions": list(cautions(told.session, told.advice, end.one_thing.drill)),
        "choices": [
            button("close_session", "Done: end this session", is_main=True),
            back,
            button("print_page", "Print this page"),
        ],
    }


def summary_page(logbook: Logbook, key: str) -> Page:
    """Return the page to print of a session of the log, and the name of its file without an ending.

    Raises
    ------
    DataFileError
        If the session cannot be read.
    """
    told, started = logbook.story(key), _listed(logbook, key).started
    session = told.session
    text = session_end_page(session_end(session, told.advice), session.bowler.hand, started)
    return Page(text, f"session {file_word(session.bowler.name)} {started.astimezone():%Y-%m-%d}")


def _listed(logbook: Logbook, key: str) -> LoggedSession:
    return next(one for one in logbook.sessions() if one.key == key)


def _about(session: Session, end: SessionEnd) -> str:
    things = [thing.name.replace("_", " ") for thing in (session.pattern, session.ball) if thing is not None]
    n_strikes = sum(ball.is_strike for ball in end.balls)
    balls = f"{_count(len(end.balls), 'first ball')}, {_count(n_strikes, 'strike')}"
    return " · ".join([f"lane{'s' * (len(end.lanes) > 1)} {' and '.join(end.lanes)}", *things, balls])


def _lines(end: SessionEnd, hand: Hand) -> list[dict[str, str]]:
    """Return each line in the order of play: how one came to it, what it brought, whether it helped."""
    return [
        {
            "head": stretch_head_words(end, one, hand),
            "line": _upper(stretch_line_words(one)),
            "count": stretch_count_words(one),
            "verdict": verdict_words(end, one),
            "is_move": "move" if one.move is not None else "",
        }
        for one in end.stretches[-MOST_LINES:]
    ]


def _causes(end: SessionEnd) -> dict[str, Any]:
    """Return whose doing the balls were that missed the pocket."""
    n_missed = sum(n for _, n in end.doings)
    words = f"{_count(n_missed, 'ball')} missed the pocket."
    return {"words": words, "counts": [list(one) for one in end.doings]}


def _day(when: datetime) -> str:
    local = when.astimezone()
    return f"{local:%A}, {local.day} {local:%B}"


def _count(n: int, word: str) -> str:
    return f"{n} {word}{'s' * (n != 1)}"


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]
