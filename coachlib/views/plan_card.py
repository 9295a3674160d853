"""The game plan on one page to print: the line, its picture, its room, and what to do if it goes wrong.

One HTML text with its own style and the lane as inline SVG; no script, nothing from elsewhere. It is black on
white, fits A4 and letter, and every text is escaped: names are data, never markup.
"""

from collections.abc import Sequence

from coachlib.coaching.callouts import N_TWENTY, n_of_twenty
from coachlib.coaching.plan import Plan
from coachlib.coaching.plan_words import SaidCase, SaidPlan, say_plan
from coachlib.views.lane_chart import lane_chart
from coachlib.views.print_style import joined, printed_page, safe
from coachlib.views.scene import simulated_scene
from coachlib.views.theme import picture_svg
from coachlib.world.hand import Hand

# What the card adds to what all printed pages share.
STYLE = """
.balls { letter-spacing: 1px; white-space: nowrap; }
th:nth-child(1) { width: 13%; } th:nth-child(2) { width: 33%; } th:nth-child(3) { width: 25%; }
"""


def plan_card(plan: Plan, title: str = "Game plan", hand: Hand | None = None) -> str:
    """Return the plan as one HTML page to print.

    Parameters
    ----------
    plan : Plan
        From :func:`coachlib.plan`.
    title : str, default "Game plan"
        What stands on top, e.g. with a date; taken as plain text.
    hand : {"right", "left"}, optional
        Whose left and right in the words; the bowler's own if left out.

    Returns
    -------
    str
        Write it to a file and open it in a browser, or show it with ``IPython.display.HTML``.

    Raises
    ------
    InputError
        If `plan` is no plan or `hand` is unknown.
    """
    said = say_plan(plan, hand)
    body = [
        f'<p class="who"><strong>{safe(title)}</strong> · {safe(said.who)}</p>',
        _line(plan, said),
        _lane(plan),
        _two(_list("Room", said.room), _list("Other lines", said.runners_up)),
        _cases(said.cases),
        _list("Rule of thumb for the start", said.rules),
        _list("Mind", (*said.notes, *said.cautions), "small"),
    ]
    return printed_page(title, body, STYLE)


def _line(plan: Plan, said: SaidPlan) -> str:
    parts = [f"<h1>{safe(said.headline)}</h1>", f"<p>{safe(said.sentence)}</p>"]
    if plan.strike_prob is not None:
        parts.append(f'<p><span class="balls">{_balls(plan.strike_prob)}</span> {safe(said.chances)}</p>')
    return f'<section class="line">{joined(parts)}</section>'


def _balls(chance: float) -> str:
    """Return twenty small balls in fives, struck ones filled; the words beside say the same."""
    marks = "●" * n_of_twenty(chance) + "○" * (N_TWENTY - n_of_twenty(chance))
    fives = " ".join(marks[first : first + 5] for first in range(0, N_TWENTY, 5))
    return f'<span aria-hidden="true">{fives}</span>'


def _lane(plan: Plan) -> str:
    told = [] if plan.strike_prob is None else [n_of_twenty(plan.strike_prob)]
    return picture_svg(lane_chart(simulated_scene(plan.session, plan.line, n_told=told)).to_dict())


def _cases(cases: Sequence[SaidCase]) -> str:
    if not cases:
        return ""
    rows = [
        f'<tr><th scope="row">{safe(case.heading)}</th>'
        f"<td><strong>{safe(case.move)}</strong><br>{safe(case.chances)}</td>"
        f"<td>{safe(case.rule)}</td><td>{safe(case.lane)}</td></tr>"
        for case in cases
    ]
    heads = ("What you see", "Move, by the model", "Rule of thumb", "The lane thrown on")
    head = "".join(f'<th scope="col">{text}</th>' for text in heads)
    return f"<section><table><thead><tr>{head}</tr></thead><tbody>{joined(rows)}</tbody></table></section>"


def _two(left: str, right: str) -> str:
    return f'<div class="two">{left}{right}</div>' if left or right else ""


def _list(title: str, texts: Sequence[str], style: str = "") -> str:
    """Return a heading and its lines, nothing where there are none."""
    if not texts:
        return ""
    items = joined([f"<li>{safe(text)}</li>" for text in texts])
    return f'<section class="{style}"><h2>{safe(title)}</h2><ul>{items}</ul></section>'
