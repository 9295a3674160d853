"""Pictures of the lessons with one row a thing: what a move is said to do and does, what balls tell.

Diamonds are what a rule or the truth says, blue circles what the model gives.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any

from coachlib.coaching.bowler_profile.bowler_estimate import BowlerEstimate, Estimate
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.what_if import arrival_changes_boards
from coachlib.views.charts.lesson_charts import POINTS
from coachlib.views.theme import HAIR, INK, LINE, NAME_AXIS, SMALL_PX, THEN, alt, finished, layer, small_title
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.levers import line_shift_boards
from coachlib.world.line import Move
from coachlib.world.parsing import board_text

ROW_PX, ROWS_WIDTH_PX = 30, 170
ANSWER_ROW_PX, ANSWERS_WIDTH_PX = 34, 240
_COLUMNS = {
    "rev_rate_rpm": ("revs, rpm", 1.0),
    "axis_rotation_deg": ("axis rotation, degrees", 1.0),
    "film_frac": ("film, % of the sheet", 100.0),
}


@dataclasses.dataclass(frozen=True)
class MoveAnswer:
    """What one move, or anything else with a name, is said to do and does.

    Parameters
    ----------
    name : str
        Written at the left of its row.
    said, model : float
        The rule's or lever's number, and the model's.
    """

    name: str
    said: float
    model: float


def move_answers(session: Session, moves: Sequence[Move]) -> list[MoveAnswer]:
    """Return how far each move shifts the arrival: by the lever of the bowler's walk, and in the model.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and line.
    moves : sequence of Move
        Only feet and eyes count.
    """
    bowler, target_ft = session.bowler, session.line.target_ft
    levers = [
        line_shift_boards(move, HEAD_PIN_FT, bowler.walk, target_ft, bowler.stance_ft) for move in moves
    ]
    names = [f"{board_text(move.feet_boards)} and {board_text(move.target_boards)}" for move in moves]
    changes = arrival_changes_boards(session, moves)
    return [MoveAnswer(*row) for row in zip(names, levers, map(float, changes), strict=True)]


def answers_chart(
    panels: Mapping[str, Sequence[MoveAnswer]],
    *,
    title: str,
    x_title: str,
    names: tuple[str, str] = ("on paper", "model"),
    subtitle: str = "",
    n_columns: int = 2,
) -> Any:
    """Return one picture a panel: a row a move, with what is said of it and what the model gives.

    Parameters
    ----------
    panels : mapping of str to sequence of Answer
        Heading of each picture, and its rows.
    title : str
        The question.
    x_title : str
        What the numbers are, with unit.
    names : tuple of str
        What the diamond and the circle are called, written at the first row of the first picture.
    subtitle : str, optional
        Whose ball, on what.
    n_columns : int, default 2
        Pictures side by side.
    """
    every = [value for answers in panels.values() for one in answers for value in (one.said, one.model)]
    reach = 1.15 * max(1.0, *map(abs, every))
    pictures = [
        _answers(heading, answers, reach, x_title, names if number == 0 else ())
        for number, (heading, answers) in enumerate(panels.items())
    ]
    words = "; ".join(
        f"{heading}, {one.name}: {names[0]} {one.said:+.1f}, {names[1]} {one.model:+.1f}"
        for heading, answers in panels.items()
        for one in answers
    )
    chart = alt.concat(*pictures, columns=n_columns, spacing=24)
    return finished(chart, title, subtitle, f"{title} {subtitle}. {x_title}: {words}.")


def _answers(
    heading: str, answers: Sequence[MoveAnswer], reach: float, x_title: str, names: tuple[str, ...]
) -> Any:
    """Return one picture; `names` are written at its first row."""
    order = [one.name for one in answers]
    y = alt.Y("name:N", sort=order, title=None, axis=NAME_AXIS)
    x = alt.X("value:Q", title=x_title, scale=alt.Scale(domain=[-reach, reach], nice=False))
    said = [{"name": one.name, "value": round(one.said, 2), "end": round(one.model, 2)} for one in answers]
    model = [{"name": one.name, "value": round(one.model, 2)} for one in answers]
    layers = [
        layer("rule", [{"value": 0.0}], x, color=LINE),
        layer("rule", said, x, y, {"x2": "end:Q"}, color=HAIR, strokeWidth=2),
        layer("point", said, x, y, opacity=1, **POINTS["said"]),
        layer("point", model, x, y, opacity=1, **POINTS["model"]),
    ]
    for name, row, color, dy in zip(names, (said[0], model[0]), (INK, THEN), (-13, 15), strict=False):
        look = {"dy": dy, "color": color, "fontSize": SMALL_PX, "fontWeight": "bold"}
        layers.append(layer("text", [{**row, "text": name}], x, y, **look))
    height_px, title = ANSWER_ROW_PX * len(order), small_title(heading, offset=12)
    return alt.layer(*layers).properties(width=ANSWERS_WIDTH_PX, height=height_px, title=title)


def estimates_chart(
    estimates: Mapping[str, BowlerEstimate],
    truth: Mapping[str, float] | None = None,
    *,
    title: str,
    subtitle: str = "",
) -> Any:
    """Return what is believed of revs, rotation and film: a row an estimate, a picture a number.

    Parameters
    ----------
    estimates : mapping of str to BowlerEstimate
        Name of each row, and what it tells.
    truth : mapping of str to float, optional
        The true numbers, by the names of the estimate's fields, where they are known.
    title, subtitle : str
        The question; what was seen.

    Notes
    -----
    Grey is what was assumed, blue what is believed now, each give or take its spread; the diamond is the
    truth.
    """
    truth = truth or {}
    pictures = [_estimates(name, estimates, truth.get(name)) for name in _COLUMNS]
    words = "; ".join(_estimate_text(row, one) for row, one in estimates.items())
    chart = alt.concat(*pictures, columns=len(pictures), spacing=20)
    return finished(chart, title, subtitle, f"{title} {subtitle}. {words}.")


def _estimate_text(row: str, estimate: BowlerEstimate) -> str:
    parts = []
    for name, (words, per_unit) in _COLUMNS.items():
        one: Estimate = getattr(estimate, name)
        parts.append(f"{words} {one.mean * per_unit:.0f} give or take {one.sd * per_unit:.0f}")
    return f"{row}: {', '.join(parts)}"


def _estimates(name: str, estimates: Mapping[str, BowlerEstimate], true: float | None) -> Any:
    """Return one picture; the rows are named at the first."""
    words, per_unit = _COLUMNS[name]
    found: dict[str, Estimate] = {row: getattr(one, name) for row, one in estimates.items()}
    axis = NAME_AXIS if name == next(iter(_COLUMNS)) else None
    y = alt.Y("name:N", sort=list(found), title=None, axis=axis)
    x, x2 = alt.X("value:Q", title=words, scale=alt.Scale(zero=False)), {"x2": "end:Q"}
    assumed = [_span(row, one.assumed_mean, one.assumed_sd, per_unit) for row, one in found.items()]
    now = [_span(row, one.mean, one.sd, per_unit) for row, one in found.items()]
    middles = [{**row, "value": row["middle"]} for row in now]
    layers = [
        layer("rule", assumed, x, y, x2, color=HAIR, strokeWidth=11),
        layer("rule", now, x, y, x2, color=THEN, strokeWidth=3.6),
        layer("point", middles, x, y, opacity=1, **POINTS["model"]),
    ]
    if true is not None:
        truth = [{"name": row, "value": round(true * per_unit, 2)} for row in found]
        layers.append(layer("point", truth, x, y, opacity=1, **POINTS["said"]))
    return alt.layer(*layers).properties(width=ROWS_WIDTH_PX, height=ROW_PX * len(found))


def _span(row: str, mean: float, sd: float, per_unit: float) -> dict[str, Any]:
    low, high = (mean - sd) * per_unit, (mean + sd) * per_unit
    return {"name": row, "value": round(low, 2), "end": round(high, 2), "middle": round(mean * per_unit, 2)}
