"""Where the carry comes from: published facts, the simulator's numbers, its own checks; tables and a picture.

For a notebook; all cells of the tables are texts, ready to be read.
"""

import dataclasses
from collections.abc import Sequence
from typing import Any

import pandas as pd

from coachlib.physics.pins.build.carry_checks import NumberCheck, StepCheck
from coachlib.physics.pins.build.carry_verdict import CheckedFact
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.views.print.page import filled
from coachlib.views.theme import HAIR, INK2, LINE, SMALL_PX, THEN, YOU, Rows, alt, finished, layer

_UNITS = {"lb": "lb", "in": "in", "ms": "ms", "oz": "oz"}
ROW_PX, WIDTH_PX = 18, 300
N_ERRORS = 2.0
"""How many standard errors a bar reaches to each side."""

_ORDER = ("tuned", "our guess", "derived", "published")


LONG_CELL = 30
"""A table with a longer text in it becomes a list on a phone, one row below the other. [letters]"""


@dataclasses.dataclass(frozen=True, eq=False)
class TextTable:
    """A table of texts that shows itself in a notebook, set from the left and uncut.

    Parameters
    ----------
    frame : DataFrame
        Its rows; the index is the first column.
    summary : str, optional
        One line that stands for the table until it is opened; without one the table is open.
    """

    frame: pd.DataFrame
    summary: str = ""

    def folded(self, summary: str) -> "TextTable":
        """Return the same table behind one line that opens it."""
        return dataclasses.replace(self, summary=summary)

    def _repr_html_(self) -> str:
        heads = [self.frame.columns.name, *self.frame.columns]
        rows = list(self.frame.itertuples(name=None))
        is_wide = any(len(text) > LONG_CELL for row in rows for text in row)
        return filled("text_table.html", heads=heads, rows=rows, is_wide=is_wide, summary=self.summary)

    def __repr__(self) -> str:
        with pd.option_context("display.max_colwidth", None):
            return self.frame.to_string()


def facts_table(facts: Sequence[CheckedFact]) -> TextTable:
    """Return published facts in the order given, one a row: in print, simulated, verdict, source."""
    rows = [(fact.statement, fact.expected, fact.simulated, fact.verdict, fact.source) for fact in facts]
    return text_table(rows, ("statement", "in print", "our racks", "verdict", "source"))


def reasons_table(facts: Sequence[CheckedFact]) -> TextTable:
    """Return what is known about each fact that is not met or not tested."""
    rows = [(fact.statement, fact.verdict, fact.why or "not known") for fact in facts if not fact.agrees]
    return text_table(rows, ("statement", "verdict", "why"))


def numbers_table() -> TextTable:
    """Return the simulator's numbers, the least founded first: value, grade, source."""
    fields = sorted(dataclasses.fields(RackNumbers), key=lambda field: _ORDER.index(field.metadata["grade"]))
    rows = [
        (
            number_name(field.name),
            with_unit(field.name, float(str(field.default))),
            field.metadata["grade"],
            field.metadata["source"],
        )
        for field in fields
    ]
    return text_table(rows, ("number", "value", "grade", "source"))


def steps_table(checks: Sequence[StepCheck]) -> TextTable:
    """Return the step halving: strikes of 100, and what each halving changed."""
    rows = [
        (
            f"{check.step_ms:g} ms",
            f"{check.n_racks}",
            f"{check.strike_pct:.1f}",
            f"{check.gain_pct:+.2f} ± {check.gain_se_pct:.2f}" if number else "",
        )
        for number, check in enumerate(checks)
    ]
    return text_table(rows, ("step", "racks", "strikes in 100", "change when halved"))


def strike_changes_table(checks: Sequence[NumberCheck]) -> TextTable:
    """Return what each changed number does to the strikes of 100: in all, and by side of the pocket."""
    rows = [
        (
            "as we use it"
            if check.value is None
            else f"{number_name(check.name)} {with_unit(check.name, check.value)}",
            f"{check.strike_pct:.0f}",
            "" if check.value is None else f"{check.change_pct:+.1f} ± {check.change_se_pct:.1f}",
            *(f"{zone:.0f}" for zone in (check.light_pct, check.centre_pct, check.high_pct)),
        )
        for check in checks
    ]
    columns = ("changed to", "strikes in 100", "change", "below 17", "17 to 18", "above 18")
    return text_table(rows, columns)


def number_name(name: str) -> str:
    """Return a number's name as words: ``pin_deck_restitution`` is ``pin deck restitution``."""
    words = name.split("_")
    return " ".join(words[:-1] if words[-1] in _UNITS else words)


def with_unit(name: str, value: float) -> str:
    """Return a number's value with the unit its name ends in: ``0.65``, ``5.781 in``."""
    return f"{value:g} {_UNITS.get(name.split('_')[-1], '')}".strip()


def text_table(rows: Sequence[tuple[str, ...]], columns: tuple[str, ...]) -> TextTable:
    """Return rows as a table, the first column in front."""
    frame = pd.DataFrame(list(rows), columns=list(columns)).set_index(columns[0])
    return TextTable(frame.rename_axis(columns=columns[0]).rename_axis(index=None))


def changes_chart(
    checks: Sequence[NumberCheck], title: str, subtitle: str = "", *, n_shown: int | None = None
) -> Any:
    """Return how far each changed number moves the strikes, as an Altair chart: a dot and its counting error.

    The largest change stands first; tuned numbers are brown squares.

    Parameters
    ----------
    checks : sequence of NumberCheck
        Those without a value are left out.
    title, subtitle : str
        The question, and what one dot is.
    n_shown : int, optional
        Only so many, the largest changes.
    """
    rows, what = change_rows(checks)[:n_shown], "change in strikes in 100"
    x, bar = alt.X("x:Q", title=what, axis=alt.Axis(tickCount=7)), alt.X("low:Q", title=what)
    axis = alt.Axis(ticks=False, domain=False, labelLimit=300)
    y = alt.Y("name:N", title=None, sort=[row["name"] for row in rows], axis=axis)
    layers = [
        layer("rule", rows, None, y, color=HAIR, strokeWidth=0.5),
        layer("rule", [{"x": 0.0}], x, color=LINE),
        layer("rule", rows, bar, y, {"x2": "high:Q"}, color=INK2, strokeWidth=1.2),
    ]
    for is_tuned, color, shape in ((False, THEN, "circle"), (True, YOU, "square")):
        some = [row for row in rows if row["is_tuned"] == is_tuned]
        look = {"opacity": 1, "strokeWidth": 0, "size": SMALL_PX * 4}
        layers.append(layer("point", some, x, y, fill=color, shape=shape, **look))
    words = "; ".join(f"{row['name']}: {row['x']:+g}" for row in rows)
    chart = alt.layer(*layers).properties(width=WIDTH_PX, height=ROW_PX * len(rows))
    return finished(chart, title, subtitle, f"{title} {subtitle}. {what.capitalize()}: {words}.")


def change_rows(checks: Sequence[NumberCheck]) -> Rows:
    """Return one row a changed number, the largest change first, with the ends of its bar."""
    changed = [check for check in checks if check.value is not None]
    fields = RackNumbers.__dataclass_fields__
    return [
        {
            "name": f"{number_name(check.name)} {with_unit(check.name, check.value or 0.0)}",
            "x": check.change_pct,
            "low": round(check.change_pct - N_ERRORS * check.change_se_pct, 2),
            "high": round(check.change_pct + N_ERRORS * check.change_se_pct, 2),
            "is_tuned": fields[check.name].metadata["grade"] == "tuned",
        }
        for check in sorted(changed, key=lambda check: -abs(check.change_pct))
    ]
