"""What a session came to, on one page to print: what worked, each line, one thing, where to start.

Its balls stand in rows, one row a lane, as plain SVG: how each hit, and where the line was changed.
"""

import html
import itertools
from collections.abc import Sequence
from datetime import datetime

from coachlib.coaching.wording.callouts import line_text
from coachlib.review.evening import EveningBall, Stretch
from coachlib.review.session_end import (
    PAIN_WORDS,
    SessionEnd,
    move_words,
    one_thing_words,
    pains_words,
    stretch_head_words,
    stretch_words,
    worked_words,
)
from coachlib.views.print.handout import day_text
from coachlib.views.print.page import filled, own_markup
from coachlib.world.hand import Hand
from coachlib.world.lane import POCKET_HALF_BOARDS

MOST_LINES = 8
"""More lines do not fit; the last ones are told."""

WIDTH_PX, LEFT_PX, ROW_PX, TOP_PX = 680.0, 64.0, 128.0, 44.0
BOARD_PX, MOST_BOARDS = 10.0, 4.0
MOST_STEP_PX, DOT_PX, WORD_PX = 22.0, 5.0, 12.0
LETTER_PX = 8.2
"""Width of a letter of the words at the moves, at most; they are parted by it."""


def session_end_page(end: SessionEnd, hand: Hand, started: datetime, title: str = "") -> str:
    """Return one page to print, as HTML.

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
    """
    heading = title or ", ".join(filter(None, (end.name, day_text(started))))
    return filled(
        "session_end.html",
        title=heading,
        end=end,
        pain_words=PAIN_WORDS,
        pains=pains_words(end.pains),
        worked=worked_words(end, hand),
        evening=own_markup(evening_svg(end, hand)),
        lines=[
            (stretch_head_words(end, one, hand), stretch_words(one)) for one in end.stretches[-MOST_LINES:]
        ],
        doings=[(doing, n, n) for doing, n in end.doings if n],
        one_thing=one_thing_words(end),
        start=end.start and line_text(end.start),
    )


def evening_svg(end: SessionEnd, hand: Hand) -> str:
    """Return the first balls of a session in the order in which they were thrown, one row a lane.

    Filled is a strike; a tick stands at a ball that missed its target; dashed is a change of line or ball.
    """
    rows = [_row(end, lane, at, hand) for at, lane in enumerate(end.lanes)]
    height = len(end.lanes) * (ROW_PX + TOP_PX)
    label = html.escape(_evening_words(end), quote=True)
    look = f'viewBox="0 0 {WIDTH_PX:g} {height:g}" font-size="{WORD_PX:g}"'
    return f'<svg role="img" aria-label="{label}" {look}>{"".join(rows)}</svg>'


def _evening_words(end: SessionEnd) -> str:
    """Return the rows in words, for who cannot see them."""
    lanes = []
    for lane in end.lanes:
        words = ", ".join(f"{ball.number} {ball.side or 'not noted'}" for ball in _of_lane(end, lane))
        lanes.append(f"Lane {lane}: {words}.")
    return " ".join(lanes) or "No ball was read."


def _of_lane(end: SessionEnd, lane: str) -> list[EveningBall]:
    return [ball for ball in end.balls if end.stretches[ball.stretch].lane == lane]


def _row(end: SessionEnd, lane: str, at: int, hand: Hand) -> str:
    middle = at * (ROW_PX + TOP_PX) + TOP_PX + ROW_PX / 2.0 - 14.0
    balls = _of_lane(end, lane)
    step = min(MOST_STEP_PX, (WIDTH_PX - LEFT_PX - 12.0) / max(len(balls), 1))
    half = POCKET_HALF_BOARDS * BOARD_PX
    size = f'width="{WIDTH_PX - LEFT_PX:g}" height="{2 * half:g}"'
    band = f'<rect x="{LEFT_PX:g}" y="{middle - half:g}" {size} fill="#ddd"/>'
    words = "".join(
        f'<text x="{LEFT_PX - 8:g}" y="{middle + boards * -BOARD_PX + 4:g}" text-anchor="end">{name}</text>'
        for name, boards in (("high", 3.0), ("pocket", 0.0), ("light", -3.0))
    )
    name = f'<text x="0" y="{middle - ROW_PX / 2 + 10:g}" font-weight="700">Lane {html.escape(lane)}</text>'
    dots = "".join(_dot(ball, LEFT_PX + (n + 0.5) * step, middle) for n, ball in enumerate(balls))
    moves = _moves(end.stretches, balls, step, middle, hand)
    return band + words + (name if len(end.lanes) > 1 else "") + moves + dots


def _dot(ball: EveningBall, x: float, middle: float) -> str:
    if ball.err_boards is None:
        return f'<text x="{x:g}" y="{middle + 4:g}" text-anchor="middle">?</text>'
    y = middle - min(max(ball.err_boards, -MOST_BOARDS), MOST_BOARDS) * BOARD_PX
    look = f'fill="{"#000" if ball.is_strike else "#fff"}" stroke="#000" stroke-width="1.4"'
    away = -1 if y <= middle else 1
    tick = f'<path d="M{x:g} {y + away * DOT_PX:g}v{away * 7}" stroke="#000" stroke-width="1.6"/>'
    return f'<circle cx="{x:g}" cy="{y:g}" r="{DOT_PX:g}" {look}/>' + (tick if ball.is_off_target else "")


def _moves(
    stretches: Sequence[Stretch], balls: Sequence[EveningBall], step: float, middle: float, hand: Hand
) -> str:
    """Return a dashed line before each ball on a new line, and in words what was changed."""
    parts, free_px = [], [0.0, 0.0]
    for n, (before, ball) in enumerate(itertools.pairwise(balls), start=1):
        if ball.stretch == before.stretch:
            continue
        x, words = LEFT_PX + n * step, move_words(stretches[ball.stretch], hand)
        width = len(words) * LETTER_PX
        at = min(x, WIDTH_PX - width)
        row = 0 if at >= free_px[0] else 1
        y = middle - ROW_PX / 2 + (10 if row else -6)
        top = y + 4
        parts.append(f'<path d="M{x:g} {top:g}V{middle + 50:g}" stroke="#000" stroke-dasharray="4 4"/>')
        if at >= free_px[row]:
            parts.append(f'<text x="{at:g}" y="{y:g}" font-weight="700">{html.escape(words)}</text>')
            free_px[row] = at + width + 8
    return "".join(parts)
