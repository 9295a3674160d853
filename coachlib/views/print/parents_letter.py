"""The page for the parents: a letter on one A4, black on white, about one child and one good ball.

No oil, no score, no rank, nobody else.
"""

import dataclasses
from datetime import datetime
from typing import Any

from coachlib.review.parents_page import MOST_COUNTED, ParentsPage, ProudBall, proud_words
from coachlib.study.questions.drills import Need
from coachlib.views.print.ball_drawing import ball_svg, way_boards
from coachlib.views.print.page import filled, own_markup
from coachlib.world.lane import ARROW_BOARDS
from coachlib.world.parsing import board_text

MOST_LETTERS = 120
"""More of a coach's or a child's words do not fit."""

MOST_AT_FEET, MOST_IN_NAME = 6, 18

BRING = "Bring water and a small towel."

LEARNING: dict[Need, str] = {
    "aim": "To roll the ball over one board. A lane has 39 boards, and the arrows help you aim.",
    "line": "To choose where to stand. When good balls hit too far to one side, the feet move a little.",
    "speed": "To roll each ball at the same easy speed.",
    "walk": "To end the walk to the line on the same board each time.",
    "spares": "To knock down the last pin. Each pin has a place to stand.",
    "reading": "To watch the ball to the end, and to say what it did.",
}
ASKING: dict[Need, str] = {
    "aim": "Which board did you aim at, and which one did it roll over?",
    "line": "Where did you stand, and why there?",
    "speed": "How do you roll each ball at the same speed?",
    "walk": "Where did your foot stop?",
    "spares": "Which pin was left, and where did you stand for it?",
    "reading": "What did your best ball do on its way to the pins?",
}


def parents_letter(
    page: ParentsPage, *, coach: str = "", own_words: str = "", next_time: str = "", bring: str = BRING
) -> str:
    """Return the page to print, as HTML; all texts are taken as plain text.

    Parameters
    ----------
    page : ParentsPage
        From :func:`coachlib.review.parents_page.parents_page`.
    coach : str, optional
        Who signs it.
    own_words : str, optional
        What the child said; without any there is room to write.
    next_time, bring : str, optional
        What is tried next time, and what to bring.
    """
    heading = f"{page.name}’s {page.started.astimezone():%A}"
    page = dataclasses.replace(page, name=_cut(page.name, MOST_IN_NAME))  # so that it stays one page
    return filled(
        "parents_letter.html",
        title=f"{heading}, for the parents",
        heading=heading,
        page=page,
        day=f"{_day_text(page.started)} {page.started.astimezone():%Y}",
        proud=proud_words(page.proud, page.name, page.n_balls),
        drawing=_drawing(page.proud, page.name) if page.proud else None,
        learning=_learning(page),
        better_day=_day_text(page.better.then) if page.better else "",
        most_counted=MOST_COUNTED,
        asking=ASKING[page.need],
        next_time=" ".join(filter(None, (_cut(next_time.strip()), _cut(bring.strip()) or BRING))),
        own_words=_cut(own_words.strip()),
        coach=coach,
    )


def _day_text(when: datetime) -> str:
    day = when.astimezone()
    return f"{day.day} {day:%B}"


def _learning(page: ParentsPage) -> str:
    if page.need != "aim" or not page.is_at_arrows:
        return LEARNING[page.need]
    return f"{LEARNING['aim']} {page.name} aims at board {_target_words(page.line.target_board)}."


def _target_words(board: float) -> str:
    """Return a target as a parent can find it on the lane: ``10, the second arrow``."""
    names = ("first", "second", "third", "centre", "fifth", "sixth", "seventh")
    nearest = min(range(len(ARROW_BOARDS)), key=lambda at: abs(ARROW_BOARDS[at] - board))
    off = abs(ARROW_BOARDS[nearest] - board)
    where = "" if off > 2 else f", {'' if off < 0.25 else 'near '}the {names[nearest]} arrow"
    return f"{board_text(board)}{where}"


def _drawing(ball: ProudBall, name: str) -> dict[str, Any]:
    """Return the picture of a ball, and what is said below it."""
    words = f"Ball {ball.seen.number}, seen from above"
    drawn = "We noted where it crossed and where it hit. The path between is a sketch."
    note = drawn if way_boards(ball.seen) else "We did not note its path."
    note += " Filled pins stayed up." if ball.seen.shot.leave else ""
    feet = f"{name}’s feet" if len(name) <= MOST_AT_FEET else "feet"  # a longer name has no room there
    svg = ball_svg(ball.seen, ball.stood, f"{words}.", feet)
    return {"svg": own_markup(svg), "words": f"{words}. {note}"}


def _cut(text: str, most: int = MOST_LETTERS) -> str:
    return text if len(text) <= most else f"{text[: most - 1]}…"
