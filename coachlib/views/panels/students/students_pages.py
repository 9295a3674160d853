"""The pages that the students' panel prints: lane notes for the student, a letter for the parents."""

import re
from collections.abc import Mapping, Sequence
from typing import Any, NamedTuple

from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.records.log.student import Student
from coachlib.review.parents_page import is_junior, parents_page
from coachlib.review.take_home import take_home
from coachlib.review.work_on import WorkOn
from coachlib.views.print.handout import handout
from coachlib.views.print.parents_letter import BRING, MOST_LETTERS, parents_letter

Options = Mapping[str, Any]
FOR_PARENTS = "parent"


class Page(NamedTuple):
    """A page as HTML, and the name of its file without an ending."""

    text: str
    stem: str


def usual_reader(student: Student) -> str:
    """Return whom a page is for until the coach says else: the parents of a junior, or the student."""
    return FOR_PARENTS if is_junior(student.bowler) else "student"


def page_to_take_home(
    listed: LoggedSession,
    replay: Replay,
    earlier: Sequence[tuple[LoggedSession, Replay]],
    worth: WorkOn,
    options: Options,
    called: str = "",
) -> Page:
    """Return the page that the form asks for.

    Parameters
    ----------
    listed, replay : LoggedSession, Replay
        The session's line in the list, and the session with its advice.
    earlier : sequence of (LoggedSession, Replay)
        The sessions before it, the oldest first; for what got better.
    worth : WorkOn
        What the student works on.
    options : mapping
        ``for`` (``"student"`` or ``"parent"``), ``scores`` (ticked or not), ``coach``, ``place``,
        ``own_words``, ``next_time`` and ``bring``.
    called : str, optional
        What a letter home calls the student.
    """
    day = f"{listed.started.astimezone():%Y-%m-%d}"
    name = file_word(replay.session.bowler.name)
    if options.get("for") == FOR_PARENTS:
        typed = {field: _text(options, field, MOST_LETTERS) for field in ("own_words", "next_time", "bring")}
        page = parents_page(listed, replay, earlier, worth, called)
        typed["bring"] = typed["bring"] or BRING
        letter = parents_letter(page, coach=_text(options, "coach"), **typed)
        return Page(letter, f"for the parents {name} {day}")
    taken = take_home(listed, replay, drill=worth.drill, with_scores=options.get("scores") is True)
    text = handout(taken, coach=_text(options, "coach"), place=_text(options, "place"))
    return Page(text, f"lane notes {name} {day}")


def file_word(name: str) -> str:
    """Return a name as part of a file's name: letters and digits, nothing that a disk could misread."""
    return re.sub(r"[^\w]+", " ", name).strip()[:40] or "student"


def _text(options: Options, name: str, most: int = 80) -> str:
    return str(options.get(name) or "").strip()[:most]
