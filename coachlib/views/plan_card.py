"""The game plan on one page to print: the line, its picture, its room, and what to do if it goes wrong.

One HTML text with its own style and the lane as inline SVG; no script, nothing from elsewhere. It is black on
white, fits A4 and letter, and every text is escaped: names are data, never markup.
"""

import html
from collections.abc import Sequence

from coachlib.coaching.callouts import N_TWENTY, n_of_twenty
from coachlib.coaching.plan import Plan
from coachlib.coaching.plan_words import SaidCase, SaidPlan, say_plan
from coachlib.views.lane_chart import lane_chart
from coachlib.views.scene import simulated_scene
from coachlib.views.theme import picture_svg
from coachlib.world.hand import Hand

# The text is 180 mm wide: what A4 and letter both hold inside 15 mm margins.
STYLE = """
@page { margin: 12mm 15mm; }
body { font: 12.5px/1.35 Arial, "Liberation Sans", sans-serif; color: #000; background: #fff;
       max-width: 180mm; margin: 0 auto; }
h1 { font-size: 26px; line-height: 1.1; margin: 2px 0; }
h2 { font-size: 14px; margin: 6px 0 2px; border-bottom: 1px solid #000; }
p { margin: 2px 0; } ul { margin: 2px 0; padding-left: 16px; }
.line { border-left: 6px solid #000; padding-left: 12px; }
.who, .small { font-size: 11.5px; }
.balls { letter-spacing: 1px; white-space: nowrap; }
.two { display: grid; grid-template-columns: 1fr 1fr; gap: 0 20px; }
svg { display: block; width: 100%; height: auto; margin: 6px 0; }
table { border-collapse: collapse; width: 100%; table-layout: fixed; margin-top: 8px; }
th:nth-child(1) { width: 13%; } th:nth-child(2) { width: 33%; } th:nth-child(3) { width: 25%; }
th, td { text-align: left; vertical-align: top; padding: 3px 8px 3px 0; border-bottom: 1px solid #999; }
thead { display: table-header-group; } tr, section { break-inside: avoid; }
@media screen { body { padding: 16px; } }
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
        f'<p class="who"><strong>{_safe(title)}</strong> · {_safe(said.who)}</p>',
        _line(plan, said),
        _lane(plan),
        _two(_list("Room", said.room), _list("Other lines", said.runners_up)),
        _cases(said.cases),
        _list("Rule of thumb for the start", said.rules),
        _list("Mind", (*said.notes, *said.cautions), "small"),
    ]
    head = f'<meta charset="utf-8"><title>{_safe(title)}</title><style>{STYLE}</style>'
    return f'<!DOCTYPE html>\n<html lang="en"><head>{head}</head>\n<body>\n{_joined(body)}\n</body></html>\n'


def _line(plan: Plan, said: SaidPlan) -> str:
    parts = [f"<h1>{_safe(said.headline)}</h1>", f"<p>{_safe(said.sentence)}</p>"]
    if plan.strike_prob is not None:
        parts.append(f'<p><span class="balls">{_balls(plan.strike_prob)}</span> {_safe(said.chances)}</p>')
    return f'<section class="line">{_joined(parts)}</section>'


def _balls(chance: float) -> str:
    """Return twenty small balls in fives, struck ones filled; the words beside say the same."""
    marks = "●" * n_of_twenty(chance) + "○" * (N_TWENTY - n_of_twenty(chance))
    fives = " ".join(marks[first : first + 5] for first in range(0, N_TWENTY, 5))
    return f'<span aria-hidden="true">{fives}</span>'


def _lane(plan: Plan) -> str:
    return picture_svg(lane_chart(simulated_scene(plan.session, plan.line)).to_dict())


def _cases(cases: Sequence[SaidCase]) -> str:
    if not cases:
        return ""
    rows = [
        f'<tr><th scope="row">{_safe(case.heading)}</th>'
        f"<td><strong>{_safe(case.move)}</strong><br>{_safe(case.chances)}</td>"
        f"<td>{_safe(case.rule)}</td><td>{_safe(case.lane)}</td></tr>"
        for case in cases
    ]
    heads = ("What you see", "Move, by the model", "Rule of thumb", "The lane thrown on")
    head = "".join(f'<th scope="col">{text}</th>' for text in heads)
    return f"<section><table><thead><tr>{head}</tr></thead><tbody>{_joined(rows)}</tbody></table></section>"


def _two(left: str, right: str) -> str:
    return f'<div class="two">{left}{right}</div>' if left or right else ""


def _list(title: str, texts: Sequence[str], style: str = "") -> str:
    """Return a heading and its lines, nothing where there are none."""
    if not texts:
        return ""
    items = _joined([f"<li>{_safe(text)}</li>" for text in texts])
    return f'<section class="{style}"><h2>{_safe(title)}</h2><ul>{items}</ul></section>'


def _joined(parts: Sequence[str]) -> str:
    return "\n".join(part for part in parts if part)


def _safe(text: str) -> str:
    return html.escape(text, quote=True)
