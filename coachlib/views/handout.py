"""The handout: one page of a session for the student, or for a parent, to take home.

HTML with its own print style and the lane as inline SVG; black on white, A4 and letter; every text is data.
For PDF give it to :func:`coachlib.views.print_style.page_pdf`, for a file to :func:`save_handout`.
"""

from collections.abc import Sequence
from pathlib import Path

from coachlib.coaching.callouts import line_text, lowered
from coachlib.records.private import write_private
from coachlib.records.take_home import MoveMade, TakeHome, line_record_words
from coachlib.views.lane_chart import lane_chart
from coachlib.views.print_style import Sheet, joined, page_pdf, printed_page, safe
from coachlib.views.scene import simulated_scene
from coachlib.views.theme import INK, INK2, picture_svg
from coachlib.world.line import Line

N_ROWS = 4
"""Lines to fill in by hand."""

STYLE = """
.head { display: flex; justify-content: space-between; gap: 12px; align-items: baseline; }
th, td { padding: 2px 8px 2px 0; } table { margin-top: 2px; }
.moves { font-size: 11.5px; }
.moves td:nth-child(1), .moves th:nth-child(1) { width: 16%; }
.moves td:nth-child(2), .moves th:nth-child(2) { width: 32%; }
.try td { height: 18px; } .try th:nth-child(1) { width: 34%; }
"""


def handout(taken: TakeHome, *, title: str = "Lane notes", coach: str = "", place: str = "") -> str:
    """Return one page to print.

    Parameters
    ----------
    taken : TakeHome
        From :func:`coachlib.records.take_home.take_home`.
    title, coach, place : str, optional
        What stands on top; taken as plain text.

    Returns
    -------
    str
        HTML.
    """
    heading = ", ".join(filter(None, (title, taken.name)))
    body = [
        _head(heading, taken, coach, place),
        _start(taken),
        _lane(taken),
        _moves(taken),
        _numbers(taken),
        _drill(taken),
    ]
    care = _list("Take care", taken.cautions, "small")
    body.insert(1 if taken.session.bowler.has_pain else len(body), care)  # pain comes before any line
    return printed_page(heading, body, STYLE)


def save_handout(page: str, path: Path, sheet: Sheet = "A4") -> Path:
    """Write a handout for its owner's eyes: as PDF where the name ends in ``.pdf``, else as HTML.

    Raises
    ------
    InputError
        If PDF is asked for and the extra ``pdf`` is not installed.
    DataFileError
        If the file cannot be written, or lies inside the library's source.
    """
    path = Path(path)
    content = page_pdf(page, sheet) if path.suffix.lower() == ".pdf" else page.encode()
    return write_private(path, content)


def day_text(taken: TakeHome) -> str:
    """Return the day of the session, as on this machine's clock: ``Tuesday 15 September 2026``."""
    when = taken.started.astimezone()
    return f"{when:%A} {when.day} {when:%B %Y}"


def _head(heading: str, taken: TakeHome, coach: str, place: str) -> str:
    session = taken.session
    lanes = f"lane{'s' * (len(session.lanes) > 1)} {' and '.join(session.lanes)}"
    where = " · ".join(filter(None, (place, day_text(taken), lanes)))
    things = [thing.name.replace("_", " ") for thing in (session.ball, session.pattern) if thing is not None]
    n_balls = len(session.shots)
    who = [f"{session.bowler.hand}-handed", *things, f"{n_balls} ball{'s' * (n_balls != 1)}"]
    who += [f"coach: {coach}"] * bool(coach)
    return (
        f'<div class="head"><h1>{safe(heading)}</h1><span class="who">{safe(where)}</span></div>'
        f'<p class="who">{safe(" · ".join(who))}</p>'
    )


def _start(taken: TakeHome) -> str:
    big = "Next time" if taken.start is None else f"Next time: {lowered(line_text(taken.start))}"
    worked = [
        f"<p><strong>Lane {safe(one.lane)}</strong>: {safe(line_record_words(one))}.</p>"
        for one in taken.worked
    ]
    parts = [f"<h1>{safe(big)}</h1>", f"<p>{safe(taken.start_why)}</p>", *worked]
    return f'<section class="line">{joined(parts)}</section>'


def _lane(taken: TakeHome) -> str:
    """Return the lane with the line to start on: one line, so ink alone."""
    line = taken.start or _first_line(taken)
    scene = simulated_scene(taken.session, line)
    scene["deck"] = []  # what pins might do is no part of what was done
    if (path := scene["played"]["path"]) is not None:
        path["count_text"], path["dots"] = "", [[board, rank, 0.0] for board, rank, _ in path["dots"]]
    svg = picture_svg(lane_chart(scene).to_dict()).replace(INK2, INK)
    return svg if taken.start else f'{svg}<p class="small">Drawn: the line of the first ball.</p>'


def _first_line(taken: TakeHome) -> Line:
    shots = taken.session.shots
    return shots[0].line if shots else taken.session.line


def _moves(taken: TakeHome) -> str:
    if not taken.moves:
        return "<section><h2>Moves</h2><p>The line was kept all the time.</p></section>"
    rows = [
        f"<tr><td>Lane {safe(one.lane)}, ball {one.before_ball}</td>"
        f"<td><strong>{safe(one.words)}</strong></td><td>{safe(_why(one))}</td></tr>"
        for one in taken.moves
    ]
    title = "Moves, and why"
    if taken.n_moves > len(taken.moves):
        title += f": the last {len(taken.moves)} of {taken.n_moves}"
    head = "".join(f'<th scope="col">{text}</th>' for text in ("Before", "Move", "Why, and what came"))
    return (
        f'<section><h2>{title}</h2><table class="moves"><thead><tr>{head}</tr></thead>'
        f"<tbody>{joined(rows)}</tbody></table></section>"
    )


def _drill(taken: TakeHome) -> str:
    drill = taken.drill
    why = f" ({taken.drill_why})" if taken.drill_why else ""
    heads = "".join(f'<th scope="col">{text}</th>' for text in ("To try", "Crossed", "Head pin", "Pins left"))
    line = lowered(line_text(taken.start)) if taken.start else "your line"
    rows = [f"<tr><td>{safe(line)}</td><td></td><td></td><td></td></tr>"] * N_ROWS
    return (
        f"<section><h2>One thing to try: {safe(drill.title)}{safe(why)}</h2><p>{safe(drill.do)} "
        f"About {drill.minutes:.0f} minutes; it takes {safe(drill.takes)}. "
        f"<strong>Done when:</strong> {safe(drill.marked_by)}</p>"
        f'<table class="try"><thead><tr>{heads}</tr></thead><tbody>{joined(rows)}</tbody></table></section>'
    )


def _numbers(taken: TakeHome) -> str:
    text = " ".join(taken.scores)
    return f"<section><h2>In numbers</h2><p>{safe(text)}</p></section>" if text else ""


def _list(title: str, texts: Sequence[str], style: str = "") -> str:
    if not texts:
        return ""
    items = joined([f"<li>{safe(text)}</li>" for text in texts])
    return f'<section class="{style}"><h2>{title}</h2><ul>{items}</ul></section>'


def _why(move: MoveMade) -> str:
    after = f"{move.after[:1].upper()}{move.after[1:]}." if move.after else ""
    return " ".join(filter(None, (move.why, after)))
