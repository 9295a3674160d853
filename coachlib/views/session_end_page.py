"""What a session came to, on one page to print: what worked, each line, one thing, where to start."""

from collections.abc import Sequence
from datetime import datetime

from coachlib.coaching.callouts import line_text
from coachlib.records.session_end import (
    PAIN_WORDS,
    SessionEnd,
    one_thing_words,
    pains_words,
    stretch_head_words,
    stretch_words,
    worked_words,
)
from coachlib.views.evening_row import evening_svg
from coachlib.views.print_style import joined, printed_page, safe
from coachlib.world.hand import Hand

MOST_LINES = 8
"""More lines do not fit; the last ones are told."""

KEY = "One dot is one ball. Filled: a strike. With a tick: you missed your target. Dashed: a move."
STYLE = """
.worked { font-size: 20px; font-weight: 700; line-height: 1.25; margin: 4px 0 8px; }
.first { border: 2px solid #000; border-radius: 4px; padding: 6px 12px; font-weight: 700; margin: 6px 0; }
.lines td:nth-child(1), .lines th:nth-child(1) { width: 26%; }
.counts { display: grid; grid-template-columns: max-content 1fr; gap: 2px 14px; align-items: baseline; }
.dots { letter-spacing: 1px; overflow-wrap: anywhere; }
.big { font-size: 18px; font-weight: 700; line-height: 1.3; }
.parts { display: grid; grid-template-columns: 1fr 1fr; gap: 4px 28px; }
"""


def session_end_page(end: SessionEnd, hand: Hand, started: datetime, title: str = "") -> str:
    """Return one page to print.

    Parameters
    ----------
    end : SessionEnd
        From :func:`coachlib.records.session_end.session_end`.
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
    day = started.astimezone()
    heading = title or ", ".join(filter(None, (end.name, f"{day:%A} {day.day} {day:%B %Y}")))
    body = [
        f"<h1>{safe(heading)}</h1>",
        f'<p class="first">{PAIN_WORDS}</p>' if end.has_pain else "",
        f"<p>{safe(pains_words(end.pains))}</p>" if end.pains else "",
        f'<p class="worked">{safe(worked_words(end, hand))}</p>',
        f'{evening_svg(end, hand)}<p class="small">{KEY}</p>' if end.balls else "",
        _lines(end, hand),
        f'<div class="parts">{_doings(end)}{_spares(end)}</div>',
        _section("One thing", f"<p>{safe(_upper(one_thing_words(end)))}</p>"),
        _section("Next start", _start(end)),
    ]
    return printed_page(heading, body, STYLE)


def dots_text(n_filled: int, n: int) -> str:
    """Return a count as filled and hollow dots, in fives."""
    signs = "●" * n_filled + "○" * (n - n_filled)
    return " ".join(signs[at : at + 5] for at in range(0, n, 5))


def _lines(end: SessionEnd, hand: Hand) -> str:
    if not end.stretches:
        return ""
    told = end.stretches[-MOST_LINES:]
    cells = [(_upper(stretch_head_words(end, one, hand)), f"{_upper(stretch_words(one))}.") for one in told]
    rows = [f"<tr><td>{safe(head)}</td><td>{safe(words)}</td></tr>" for head, words in cells]
    n_all = len(end.stretches)
    title = "Each line" if len(told) == n_all else f"The last {len(told)} of {n_all} lines"
    return f'<section><h2>{title}</h2><table class="lines"><tbody>{joined(rows)}</tbody></table></section>'


def _doings(end: SessionEnd) -> str:
    rows = [(doing, n, n) for doing, n in end.doings if n]
    n_all = sum(n for _, n in end.doings)
    note = f"The {n_all} ball{'s' * (n_all != 1)} that missed the pocket."
    return _section("You or the lane?", _counts(rows) + f'<p class="small">{note}</p>') if n_all else ""


def _spares(end: SessionEnd) -> str:
    rows = [(one.kind, one.n_made, one.n_tried) for one in end.spares]
    return _section("Spares", _counts(rows) + '<p class="small">Filled: made.</p>') if rows else ""


def _start(end: SessionEnd) -> str:
    line = "" if end.start is None else f'<p class="big">{safe(line_text(end.start))}</p>'
    return f"{line}<p>{safe(end.start_why)}</p>"


def _counts(rows: Sequence[tuple[str, int, int]]) -> str:
    parts = [
        f'<span>{safe(name)}, {n}</span><span class="dots">{dots_text(n, of)}</span>' for name, n, of in rows
    ]
    return f'<div class="counts">{joined(parts)}</div>'


def _section(title: str, inner: str) -> str:
    return f"<section><h2>{safe(title)}</h2>{inner}</section>"


def _upper(words: str) -> str:
    return words[:1].upper() + words[1:]
