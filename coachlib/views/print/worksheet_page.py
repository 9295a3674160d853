"""Clinic papers to print: the tasks on two pages, the answers on a page of their own, and lanes to draw on.

HTML with inline SVG, no script, nothing from elsewhere; black on white, for A4 and letter.
"""

from collections.abc import Callable, Sequence
from typing import Any

from coachlib.errors import InputError, checked_thing, shown
from coachlib.study.questions.worksheet_tasks import PREDICTED_AT_FT, MoveTask, PredictTask, ReadTask
from coachlib.study.questions.worksheets import Worksheet
from coachlib.views.print import worksheet_words
from coachlib.views.print.page import filled, own_markup
from coachlib.views.print.worksheet_lane import STRETCH, lane_svg
from coachlib.views.print.worksheet_words import predict_rows
from coachlib.world.hand import Hand, checked_hand
from coachlib.world.lane import HEAD_PIN_FT

LANES_A_PAGE = 4


def worksheet_pages(papers: Sequence[Worksheet], title: str = "Clinic") -> str:
    """Return papers to hand out as one HTML text, two pages each, to be printed from a browser.

    Parameters
    ----------
    papers : sequence of Worksheet
        From :func:`coachlib.study.questions.worksheets.worksheets`.
    title : str
        What stands on top, e.g. the name of the club; taken as plain text.

    Raises
    ------
    InputError
        If there is no paper, or something else among them.
    """
    return _filled("worksheet_tasks.html", papers, title, "papers", _empty_lane)


def answer_pages(papers: Sequence[Worksheet], title: str = "Clinic") -> str:
    """Return the answers of papers as one HTML text, a page each; arguments as :func:`worksheet_pages`."""
    return _filled("worksheet_answers.html", papers, title, "answers", _solved_lane)


def lane_pages(hand: Hand = "right", n_pages: int = 1, title: str = "Lane paper") -> str:
    """Return empty lanes to draw on, four a page, 1 to 60 pages, with the boards of that hand.

    Raises
    ------
    InputError
        If the hand is unknown or so many pages are not made.
    """
    if isinstance(n_pages, bool) or not isinstance(n_pages, int) or not 1 <= n_pages <= 60:
        message = f"n_pages is {shown(n_pages)}; expected 1 to 60 pages. Give a whole number."
        raise InputError(message, {"n_pages": message})
    hand = checked_hand(hand)
    return filled(
        "lanes_to_draw_on.html",
        title=title,
        hand=hand,
        n_pages=n_pages,
        lanes_a_page=LANES_A_PAGE,
        lane=own_markup(lane_svg(hand, f"A lane to draw on, {hand}-handed")),
        stretch=STRETCH,
    )


def _filled(
    name: str, papers: Sequence[Worksheet], heading: str, what: str, lane: Callable[[int, PredictTask], str]
) -> str:
    if not isinstance(papers, list | tuple) or not papers:
        message = f"papers is {shown(papers)}; expected a list of papers. Make one with worksheets(…)."
        raise InputError(message, {"papers": message})
    for paper in papers:
        checked_thing("paper", paper, Worksheet, "Make papers with worksheets(…).")
    sheets = [
        (paper, *(_numbered(paper, kind) for kind in (ReadTask, MoveTask, PredictTask))) for paper in papers
    ]
    return filled(
        name,
        title=f"{heading}: {what}",
        heading=heading,
        sheets=sheets,
        words=worksheet_words,
        lane=lambda number, task: own_markup(lane(number, task)),
        feet=[f"{at_ft:.0f} ft" for at_ft in PREDICTED_AT_FT],
        stretch=STRETCH,
    )


def _numbered(paper: Worksheet, kind: type) -> list[tuple[int, Any]]:
    """Return the tasks of one kind, each behind its number on the paper."""
    return [(number, task) for number, task in enumerate(paper.tasks, start=1) if isinstance(task, kind)]


def _empty_lane(number: int, task: PredictTask) -> str:
    return lane_svg(task.session.bowler.hand, f"Task {number}: a lane to draw on")


def _solved_lane(number: int, task: PredictTask) -> str:
    rows = "; ".join(" ".join(row) for row in predict_rows(task))
    before, after = task.laydown_boards
    lines = [
        ("dashed", ((0.0, before), (HEAD_PIN_FT, task.boards_before[-1]))),
        ("solid", ((0.0, after), (HEAD_PIN_FT, task.answer[-1]))),
    ]
    name = f"Task {number}, boards at 30, 45 and 60 ft: {rows}"
    return lane_svg(task.session.bowler.hand, name, lines)
