"""Clinic papers to print: the tasks on two pages, the answers on a page of their own, and lanes to draw on.

HTML with its own style and inline SVG, no script, nothing from elsewhere; black on white, for A4 and letter.
"""

from collections.abc import Sequence
from typing import TypeVar

from coachlib.errors import InputError, checked_thing, shown
from coachlib.study.worksheet_tasks import PREDICTED_AT_FT, MoveTask, PredictTask, ReadTask
from coachlib.study.worksheets import Paper
from coachlib.views.print_style import joined, printed_page, safe
from coachlib.views.worksheet_lane import STRETCH, Drawn, lane_svg
from coachlib.views.worksheet_words import (
    CAUTION,
    MOVE_QUESTION,
    NO_MOVE,
    PREDICT_QUESTION,
    PREDICT_SOURCE,
    READ_QUESTION,
    TOLERANCE,
    Answered,
    ball_table,
    boxes,
    help_texts,
    hook_text,
    move_answer,
    predict_rows,
    predict_texts,
    predict_why,
    read_answer,
    setting_text,
)
from coachlib.world.hand import Hand, checked_hand
from coachlib.world.lane import HEAD_PIN_FT

LANES_A_PAGE = 4
Kind = TypeVar("Kind", ReadTask, PredictTask, MoveTask)
STYLE = """
.head { display: flex; justify-content: space-between; align-items: baseline; border-bottom: 2px solid #000; }
.head h1 { font-size: 20px; }
.blank { border-bottom: 1px solid #000; display: inline-block; min-width: 42mm; }
.short { min-width: 12mm; }
.task { margin: 5px 0; break-inside: avoid; }
.task p { margin: 1px 0; }
.pair { display: grid; grid-template-columns: 1fr 1fr; gap: 0 18px; }
.task table { margin-top: 2px; table-layout: auto; }
.task th, .task td { padding: 1px 6px 1px 0; font-size: 11.5px; }
.box { display: inline-block; width: 9px; height: 9px; border: 1px solid #000; margin-right: 3px; }
.tick { white-space: nowrap; margin-right: 7px; }
.lanes svg { width: 92%; }
.answer { margin: 3px 0; break-inside: avoid; font-size: 11.5px; line-height: 1.25; }
.answer p { margin: 0; }
.sheet svg { margin: 2px 0; }
.solved { display: grid; grid-template-columns: 2fr 3fr; gap: 0 14px; align-items: start; }
.solved table { margin: 1px 0; } .solved th, .solved td { padding: 1px 4px 1px 0; font-size: 11px; }
@media screen and (max-width: 560px) { .pair, .solved { grid-template-columns: minmax(0, 1fr); } }
"""


def worksheet_pages(papers: Sequence[Paper], title: str = "Clinic") -> str:
    """Return papers to hand out as one HTML text, two pages each.

    Parameters
    ----------
    papers : sequence of Paper
        From :func:`coachlib.study.worksheets.worksheets`.
    title : str, default "Clinic"
        What stands on top, e.g. the name of the club; taken as plain text.

    Returns
    -------
    str
        Write it to a file and print it from a browser, or see
        :func:`coachlib.views.print_style.page_pdf`.

    Raises
    ------
    InputError
        If there is no paper, or something else among them.
    """
    pages = [
        page for paper in _checked(papers) for page in (_shots_page(paper, title), _lanes_page(paper, title))
    ]
    return printed_page(f"{title}: papers", pages, STYLE)


def answer_pages(papers: Sequence[Paper], title: str = "Clinic") -> str:
    """Return the answers of papers as one HTML text, a page each; arguments as :func:`worksheet_pages`."""
    pages = [_answers_page(paper, title) for paper in _checked(papers)]
    return printed_page(f"{title}: answers", pages, STYLE)


def lane_pages(hand: Hand = "right", n_pages: int = 1, title: str = "Lane paper") -> str:
    """Return empty lanes to draw on, four a page.

    Parameters
    ----------
    hand : {"right", "left"}
        Whose boards.
    n_pages : int, default 1
        1 to 60.
    title : str
        What stands on top; taken as plain text.

    Raises
    ------
    InputError
        If the hand is unknown or there are no such pages.
    """
    if isinstance(n_pages, bool) or not isinstance(n_pages, int) or not 1 <= n_pages <= 60:
        message = f"n_pages is {shown(n_pages)}; expected 1 to 60 pages. Give a whole number."
        raise InputError(message, {"n_pages": message})
    hand = checked_hand(hand)
    drawn = lane_svg(hand, f"A lane to draw on, {hand}-handed")
    lane = f'<div class="task lanes"><p>{_blank()}</p>{drawn}</div>'
    head = f'<div class="head"><h1>{safe(title)}</h1><span>{hand}-handed</span></div>'
    page = _article([head, *[lane] * LANES_A_PAGE, _stretch()])
    return printed_page(title, [page] * n_pages, STYLE)


def _checked(papers: Sequence[Paper]) -> tuple[Paper, ...]:
    if not isinstance(papers, list | tuple) or not papers:
        message = f"papers is {shown(papers)}; expected a list of papers. Make one with worksheets(…)."
        raise InputError(message, {"papers": message})
    return tuple(checked_thing("paper", paper, Paper, "Make papers with worksheets(…).") for paper in papers)


def _head(paper: Paper, title: str, what: str, right: str) -> str:
    told = f"{safe(paper.level.title)} · {paper.hand}-handed"
    return (
        f'<div class="head"><h1>{safe(title)}, {what} {paper.seed}</h1><span>{right}</span></div>'
        f'<p class="who">{told}</p>'
    )


def _blank(style: str = "") -> str:
    return f'<span class="blank {style}">&#160;</span>'


def _ticks(texts: Sequence[str]) -> str:
    return " ".join(f'<span class="tick"><span class="box"></span>{safe(text)}</span>' for text in texts)


def _article(body: Sequence[str]) -> str:
    return f'<article class="sheet">{joined(body)}</article>'


def _numbered(paper: Paper, kind: type[Kind]) -> list[tuple[int, Kind]]:
    return [(number, task) for number, task in enumerate(paper.tasks, start=1) if isinstance(task, kind)]


def _shots_page(paper: Paper, title: str) -> str:
    notes = "".join(f"<li>{safe(text)}</li>" for text in help_texts(paper))
    reads = [_balls(number, task, _ticks(boxes(paper))) for number, task in _numbered(paper, ReadTask)]
    moves = [_balls(number, task, _move_blanks()) for number, task in _numbered(paper, MoveTask)]
    body = [
        _head(paper, title, "paper", f"Name {_blank()}"),
        f'<ul class="small">{notes}</ul>',
        f"<h2>{READ_QUESTION}</h2>",
        f'<div class="pair">{joined(reads)}</div>',
        f"<h2>{MOVE_QUESTION}</h2>",
        f'<div class="pair">{joined(moves)}</div>',
        f'<p class="small">{safe(CAUTION)}</p>',
    ]
    return _article(body)


def _balls(number: int, task: ReadTask | MoveTask, asked: str) -> str:
    heads, rows = ball_table(task.session)
    told = f"<p><strong>{number}.</strong> {safe(setting_text(task.session))}</p>"
    return f'<div class="task">{told}{_table(heads, rows)}<p>{asked}</p></div>'


def _move_blanks() -> str:
    feet_and_eyes = [f"{name} {_blank('short')} left / right" for name in ("feet", "eyes")]
    return f"{', '.join(feet_and_eyes)} {_ticks([NO_MOVE])}"


def _table(heads: Sequence[str], rows: Sequence[Sequence[str]]) -> str:
    head = "".join(f'<th scope="col">{safe(text)}</th>' for text in heads)
    cells = ["".join(f"<td>{safe(text)}</td>" for text in row) for row in rows]
    body = "".join(f"<tr>{row}</tr>" for row in cells)
    return f"<table><thead><tr>{head}</tr></thead><tbody>{body}</tbody></table>"


def _lanes_page(paper: Paper, title: str) -> str:
    tasks = [_predict(number, task) for number, task in _numbered(paper, PredictTask)]
    return _article([_head(paper, title, "paper", PREDICT_QUESTION), *tasks, _stretch()])


def _predict(number: int, task: PredictTask) -> str:
    told = " ".join(safe(text) for text in predict_texts(task))
    blanks = ", ".join(f"at {at_ft:.0f} ft board {_blank('short')}" for at_ft in PREDICTED_AT_FT)
    lane = lane_svg(task.session.bowler.hand, f"Task {number}: a lane to draw on")
    return (
        f'<div class="task"><p><strong>{number}.</strong> {told}</p>{lane}'
        f"<p>The straight line after the move: {blanks}</p></div>"
    )


def _stretch() -> str:
    return f'<p class="small">A board is drawn {STRETCH:.0f} times too wide.</p>'


def _answers_page(paper: Paper, title: str) -> str:
    reads = [_answer(number, read_answer(task)) for number, task in _numbered(paper, ReadTask)]
    predicts = [_predicted(number, task) for number, task in _numbered(paper, PredictTask)]
    moves = [_answer(number, move_answer(task)) for number, task in _numbered(paper, MoveTask)]
    body = [
        _head(paper, title, "answers to paper", "for the teacher"),
        f"<h2>{READ_QUESTION}</h2>",
        *reads,
        f"<h2>{MOVE_QUESTION}</h2>",
        *moves,
        f"<h2>{PREDICT_QUESTION}</h2>",
        f'<p class="small">{TOLERANCE} {PREDICT_SOURCE} Dashed: before the move. Solid: after it.</p>',
        *predicts,
    ]
    return _article(body)


def _answer(number: int, told: Answered) -> str:
    said = " ".join(safe(text) for text in (told.also, told.why, told.source) if text)
    return f'<div class="answer"><p><strong>{number}. {safe(told.short)}.</strong> {said}</p></div>'


def _predicted(number: int, task: PredictTask) -> str:
    heads = ("", *(f"{at_ft:.0f} ft" for at_ft in PREDICTED_AT_FT))
    said = f"<p>{safe(predict_why(task))} {safe(hook_text(task))}</p>"
    told = f"<p><strong>{number}.</strong></p>{_table(heads, predict_rows(task))}{said}"
    lane = lane_svg(task.session.bowler.hand, _lane_name(number, task), _drawn(task))
    return f'<div class="answer solved"><div>{told}</div>{lane}</div>'


def _lane_name(number: int, task: PredictTask) -> str:
    rows = [" ".join(row) for row in predict_rows(task)]
    return f"Task {number}, boards at 30, 45 and 60 ft: {'; '.join(rows)}"


def _drawn(task: PredictTask) -> list[Drawn]:
    laydowns, ends = task.laydown_boards, (task.boards_before[-1], task.answer[-1])
    kinds = ("dashed", "solid")
    return [
        (kind, ((0.0, laydown), (HEAD_PIN_FT, end)))
        for kind, laydown, end in zip(kinds, laydowns, ends, strict=True)
    ]
