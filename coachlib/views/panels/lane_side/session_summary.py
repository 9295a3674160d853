"""What a session was, shown before it is left: balls, lines and whether they worked, one thing, next start.

Calm on purpose: no score, no average, no percentage, no rank. Facts and words are those of
:mod:`coachlib.review.session_end`, so that the panel and the page to print say the same.
"""

from datetime import datetime
from typing import Any

import traitlets

from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import said_name
from coachlib.errors import DataFileError
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
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.turns import logged_session
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.parts import View, browser_file, joined
from coachlib.views.panels.shared.trend import session_trend_view
from coachlib.views.panels.shared.typed import counted, raised
from coachlib.views.panels.students.students_pages import Page, file_word
from coachlib.views.print.session_end_page import session_end_page
from coachlib.world.hand import Hand

MOST_LINES = 6
"""More lines do not fit beside each other; the last ones are told."""

SAVED = "Saved as “{name}” in your browser’s downloads. Open it there and print it."


class SessionSummary(View):
    """The summary, empty while a session goes on, see :func:`summary_view`; and the file to be saved."""

    _esm = joined("shared/parts.js", "shared/trend.js", "lane_side/session_summary.js")

    file = traitlets.Dict().tag(sync=True)


def summary_view(logbook: Logbook, key: str, *, is_running: bool = True) -> dict[str, Any] | None:
    """Return the summary of a session of the log; None where it has no first ball.

    Parameters
    ----------
    is_running : bool
        Whether one may go back to it.

    Raises
    ------
    DataFileError
        If the session cannot be read.
    """
    replay = logbook.story(key)
    session, hand = replay.session, replay.session.bowler.hand
    end = session_end(session, replay.advice)
    if not end.balls:
        return None
    back = button("keep_going", "Back to the lane" if is_running else "Not now")
    return {
        "title": f"{end.name or 'This session'}, {_day(logged_session(logbook, key).started)}",
        "about": _about(session, end),
        "pain": PAIN_WORDS if end.has_pain else "",
        "pain_noted": pains_words(end.pains),
        "worked": worked_words(end, hand),
        "trend": session_trend_view(session),
        "lines": _lines(end, hand),
        "causes": {
            "words": f"{counted(sum(n for _, n in end.doings), 'ball')} missed the pocket.",
            "counts": [list(one) for one in end.doings],
        },
        "spares": [list(one) for one in end.spares],
        "one_thing": raised(one_thing_words(end)),
        "next_start": [line_text(end.start) if end.start else "", end.start_why],
        "cautions": list(cautions(session, replay.advice, end.one_thing.drill)),
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
    replay, started = logbook.story(key), logged_session(logbook, key).started
    session = replay.session
    text = session_end_page(session_end(session, replay.advice), session.bowler.hand, started)
    return Page(text, f"session {file_word(session.bowler.name)} {started.astimezone():%Y-%m-%d}")


def _about(session: Session, end: SessionEnd) -> str:
    things = [said_name(thing.name) for thing in (session.pattern, session.ball) if thing is not None]
    n_strikes = sum(ball.is_strike for ball in end.balls)
    balls = f"{counted(len(end.balls), 'first ball')}, {counted(n_strikes, 'strike')}"
    return " · ".join([f"lane{'s' * (len(end.lanes) > 1)} {' and '.join(end.lanes)}", *things, balls])


def _lines(end: SessionEnd, hand: Hand) -> list[dict[str, str]]:
    """Return each line in the order of play: how one came to it, what it brought, whether it helped."""
    return [
        {
            "head": stretch_head_words(end, one, hand),
            "line": raised(stretch_line_words(one)),
            "count": stretch_count_words(one),
            "verdict": verdict_words(end, one),
            "is_move": "move" if one.move is not None else "",
        }
        for one in end.stretches[-MOST_LINES:]
    ]


def _day(when: datetime) -> str:
    local = when.astimezone()
    return f"{local:%A}, {local.day} {local:%B}"


class Leaving(LaneSideBase):
    """Ending the session that runs, or the one offered; the lane side is one of these."""

    summary: SessionSummary

    @action("who")
    def start_new(self) -> None:
        """Leave the session offered: its summary first, then the form for who throws."""
        key = self.logbook.latest_open()
        if key is None:
            self._clear()
        else:
            self._leave(key)

    @action("who")
    def end(self) -> None:
        """Leave the session: its summary first; one without a ball ends at once."""
        self._leave(self._run().key)

    @action("who")
    def keep_going(self) -> None:
        """Go back from the summary; nothing was ended."""
        self.shown.summary = self.shown.ending = None

    @action("who")
    def close_session(self) -> None:
        """End the session whose summary is shown: it stays in the log and is not offered again."""
        if self.shown.ending is not None:
            self._close(self.shown.ending)

    @action("who")
    def print_page(self) -> None:
        """Give the browser the summary as a page to print; nothing is ended."""
        if self.shown.ending is None:
            return
        page = summary_page(self.logbook, self.shown.ending)
        name, number = f"{page.stem}.html", self.summary.file.get("number", 0) + 1
        content = page.text.encode()
        self.summary.file = browser_file(name, "text/html", content, number, SAVED.format(name=name))

    def _leave(self, key: str) -> None:
        try:
            summary = summary_view(self.logbook, key, is_running=self.running is not None)
        except DataFileError:  # it cannot be read: nothing to show, and it must not stand in the way
            summary = None
        if summary is None:
            self._close(key)
        else:
            self.shown.summary, self.shown.ending, self.shown.is_open = summary, key, False

    def _close(self, key: str) -> None:
        self.logbook.close(key)
        self.running = None
        self._clear()
