"""The page for the parents: a letter on one A4, black on white, about one child and one good ball.

No oil, no score, no rank, nobody else. Every text is data; see :mod:`coachlib.views.print_style`.
"""

import dataclasses

from coachlib.coaching.callouts import board_text
from coachlib.records.parents_page import MOST_COUNTED, Better, ParentsPage
from coachlib.records.proud_ball import proud_words
from coachlib.study.drills import Need
from coachlib.views.ball_drawing import ball_svg, way_boards
from coachlib.views.print_style import joined, printed_page, safe
from coachlib.world.lane import ARROW_BOARDS

MOST_LETTERS = 120
"""More of a coach's or a child's words do not fit."""

MOST_AT_FEET, MOST_IN_NAME = 6, 18
DOT_PX, FIVES_PX = 14.0, 5.0  # from dot to dot, and more between fives

BRING = "Bring water and a small towel."
POCKET = "It hit the pocket, between the first pin and the one beside it: the best place there is."
CARE = "If a thumb, wrist, back or knee hurts, tell us. We stop, and that is fine."

STYLE = """
.letter {
  display: grid; grid-template-columns: 58mm 1fr; column-gap: 14mm; align-items: start;
  font-size: 15.5px; line-height: 1.36;
}
.letter :is(h1, p) { overflow-wrap: anywhere; }
.letter :is(h1, .for, .first, .foot) { grid-column: 1 / -1; }
.letter h1 { font-size: 42px; margin: 0 0 4px; }
.letter h1.long { font-size: 26px; }
.letter .for { margin: 0 0 12px; }
.letter h2 { font-size: 14.5px; border: 0; margin: 10px 0 0; }
.letter .big { font-size: 26px; font-weight: 700; line-height: 1.25; margin: 0 0 4px; }
.letter .first {
  border: 2px solid #000; border-radius: 4px; padding: 6px 12px; margin-bottom: 8px; font-weight: 700;
}
.letter svg { margin: 0; }
.letter .small { font-size: 12.5px; margin-top: 6px; }
.letter .count { margin: 4px 0 0; }
.letter .dots { display: block; width: 100%; margin: 0; }
.letter .own { border: 1.5px solid #000; border-radius: 4px; padding: 6px 12px 8px; margin-top: 12px; }
.letter .own h2 { margin-top: 0; }
.letter .rule { border-bottom: 1px solid #999; height: 30px; }
.letter .end { margin-top: 8px; }
.letter .foot { margin-top: 4px; }
@media screen and (max-width: 560px) {
  .letter { grid-template-columns: minmax(0, 1fr); }
  .letter svg:not(.dots) { max-width: 260px; }
}
"""

LEARNING: dict[Need, str] = {
    "aim": "To roll the ball over one board. A lane has 39 boards, and the arrows help you aim.",
    "line": "To choose where to stand. When good balls hit too far to one side, the feet move a little.",
    "speed": "To roll each ball at the same easy speed.",
    "walk": "To end the walk to the line on the same board each time.",
    "spares": "To knock down the last pin. For each pin there is a place to stand.",
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
    """Return the page to print.

    Parameters
    ----------
    page : ParentsPage
        From :func:`coachlib.records.parents_page.parents_page`.
    coach : str, optional
        Who signs it.
    own_words : str, optional
        What the child said; without any there is room to write.
    next_time, bring : str, optional
        What is tried next time, and what to bring. All are taken as plain text.

    Returns
    -------
    str
        HTML.
    """
    title = f"{page.name}’s {page.started.astimezone():%A}"
    page = dataclasses.replace(page, name=_called(page.name))
    right = [
        f'<p class="big">{safe(proud_words(page.proud, page.name, page.n_balls))}</p>',
        f"<p>{POCKET}</p>" if page.proud is not None and page.proud.kind in ("all ten", "pocket") else "",
        _section(f"What {page.name} is learning", _learning(page)),
        _better(page.better, page.name) if page.better else "",
        _section("Something to ask at home", f"“{ASKING[page.need]}” {page.name} can tell you."),
        _section("Next time", " ".join(filter(None, (_cut(next_time), _cut(bring) or BRING)))),
        _own(page.name, _cut(own_words)),
        "" if page.pain else f'<p class="end">{CARE}</p>',
        f'<p class="end">{safe(_signed(coach, page.name))}</p>' if coach else "",
    ]
    long = ' class="long"' if len(title) > 26 else ""
    body = [
        '<main class="letter">',
        f"<h1{long}>{safe(title)}</h1>",
        f'<p class="for">{safe(_for(page))}</p>',
        _pain(page),
        f"<div>{_drawing(page)}</div>",
        f"<div>{joined(right)}</div>",
        '<p class="small foot">No scores and no ranking on this page. Nothing was sent anywhere.</p>',
        "</main>",
    ]
    return printed_page(f"{title}, for the parents", body, STYLE)


def _for(page: ParentsPage) -> str:
    day = page.started.astimezone()
    return f"For {page.name} and the family at home · {day.day} {day:%B %Y}"


def _pain(page: ParentsPage) -> str:
    """Return what is said before all else where pain was noted."""
    if not page.pain:
        return ""
    text = (
        f"Please read this first. {page.name} said that something hurts: “{page.pain}”. Please have it "
        f"looked at by a doctor or a physio before {page.name} bowls again. A pro shop can check that the "
        "ball fits."
    )
    return f'<p class="first">{safe(text)}</p>'


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


def _better(better: Better, name: str) -> str:
    day = better.then.astimezone()
    then = f"on {day.day} {day:%B}, {better.n_then}"
    rows = [
        f"<p>{safe(f'{better.n} balls. Filled: within a board of where {name} aimed.')}</p>",
        f'<p class="count">{safe(then)}</p>{_dots(better.n_then, better.n)}',
        f'<p class="count"><strong>this time, {better.n_now}</strong></p>{_dots(better.n_now, better.n)}',
    ]
    return f"<section><h2>What got better</h2>{joined(rows)}</section>"


def _dots(n_filled: int, n: int) -> str:
    """Return a row of dots, in fives, the first ones filled."""
    places = [8.0 + at * DOT_PX + at // 5 * FIVES_PX for at in range(n)]
    dots = "".join(
        f'<circle cx="{x:g}" cy="8" r="5.6" fill="{"#000" if at < n_filled else "#fff"}"/>'
        for at, x in enumerate(places)
    )
    width = 16 + (MOST_COUNTED - 1) * DOT_PX + (MOST_COUNTED // 5 - 1) * FIVES_PX
    name = f'role="img" aria-label="{n_filled} of {n}"'
    look = 'stroke="#000" stroke-width="1.2"'
    return f'<svg class="dots" {name} viewBox="0 0 {width:g} 16" {look}>{dots}</svg>'


def _own(name: str, own_words: str) -> str:
    title = f"<h2>{safe(f'{name} says' if own_words else f'{name} writes or draws: my best moment')}</h2>"
    lines = f"<p>“{safe(own_words)}”</p>" if own_words else '<div class="rule"></div>' * 2
    return f'<section class="own">{title}{lines}</section>'


def _drawing(page: ParentsPage) -> str:
    if page.proud is None:
        return ""
    ball = page.proud
    number = ball.seen.number
    words = f"Ball {number}, seen from above"
    svg = ball_svg(ball.seen, ball.stood, f"{words}.", _feet(page.name))
    drawn = "We noted where it crossed and where it hit; between the two the way is sketched."
    note = drawn if way_boards(ball.seen) else "Its way was not noted."
    note += " Filled pins stayed up." if ball.seen.shot.leave else ""
    return f'{svg}<p class="small">{safe(f"{words}. {note}")}</p>'


def _section(title: str, text: str) -> str:
    return f"<section><h2>{safe(title)}</h2><p>{safe(text)}</p></section>" if text else ""


def _signed(coach: str, name: str) -> str:
    return f"{coach}, {name}’s coach"


def _feet(name: str) -> str:
    """Return what stands beside the foot; a longer name has no room there."""
    return f"{name}’s feet" if len(name) <= MOST_AT_FEET else "feet"


def _called(name: str) -> str:
    """Return a name as it stands in sentences: a long one is cut, so that the letter stays one page."""
    return name if len(name) <= MOST_IN_NAME else f"{name[: MOST_IN_NAME - 1]}…"


def _cut(text: str) -> str:
    text = text.strip()
    return text if len(text) <= MOST_LETTERS else f"{text[: MOST_LETTERS - 1]}…"
