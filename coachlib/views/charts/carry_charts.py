"""Pictures of where the carry comes from: how far each number of the simulator moves the strikes."""

from collections.abc import Sequence
from typing import Any

from coachlib.physics.pins.build.carry_checks import NumberCheck
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.views.charts.carry_tables import number_name, with_unit
from coachlib.views.theme import HAIR, INK2, LINE, SMALL_PX, THEN, YOU, finished, plot

ROW_PX, WIDTH_PX = 18, 300
N_ERRORS = 2.0
"""How many standard errors a bar reaches to each side."""

_Rows = list[dict[str, Any]]


def changes_chart(checks: Sequence[NumberCheck], title: str, subtitle: str = "") -> Any:
    """Return how far each changed number moves the strikes, largest first: a dot and its counting error.

    Parameters
    ----------
    checks : sequence of NumberCheck
        Those without a value are left out.
    title, subtitle : str
        The question, and what one dot is.

    Returns
    -------
    altair.LayerChart
        Show it after :func:`coachlib.views.theme.enable_pictures`. Tuned numbers are brown squares.
    """
    import altair as alt

    rows = change_rows(checks)
    order = [row["name"] for row in rows]
    what = "change in strikes of 100"
    across = alt.X("x:Q", title=what, axis=alt.Axis(tickCount=7))
    down = alt.Y("name:N", title=None, sort=order, axis=alt.Axis(ticks=False, domain=False, labelLimit=300))
    zero = plot([{"x": 0.0}]).mark_rule(aria=False, color=LINE).encode(x=across)
    guides = plot(rows).mark_rule(aria=False, color=HAIR, strokeWidth=0.5)
    bars = plot(rows).mark_rule(aria=False, color=INK2, strokeWidth=1.2)
    layers = [
        guides.encode(y=down),
        zero,
        bars.encode(x=alt.X("low:Q", title=what), x2="high:Q", y=down),
        *(
            _dots([row for row in rows if row["is_tuned"] == is_tuned]).encode(x=across, y=down)
            for is_tuned in (False, True)
        ),
    ]
    told = "; ".join(f"{row['name']}: {row['x']:+g}" for row in rows)
    chart = alt.layer(*layers).properties(width=WIDTH_PX, height=ROW_PX * len(rows))
    return finished(chart, title, subtitle, f"{title} {subtitle}. {what.capitalize()}: {told}.")


def change_rows(checks: Sequence[NumberCheck]) -> _Rows:
    """Return one row a changed number, the largest change first, with the ends of its bar."""
    grades = {field: RackNumbers.__dataclass_fields__[field].metadata["grade"] for field in _names(checks)}
    changed = [check for check in checks if check.value is not None]
    return [
        {
            "name": f"{number_name(check.name)} {with_unit(check.name, check.value or 0.0)}",
            "x": check.change_pct,
            "low": round(check.change_pct - N_ERRORS * check.change_se_pct, 2),
            "high": round(check.change_pct + N_ERRORS * check.change_se_pct, 2),
            "is_tuned": grades[check.name] == "tuned",
        }
        for check in sorted(changed, key=lambda check: -abs(check.change_pct))
    ]


def _names(checks: Sequence[NumberCheck]) -> list[str]:
    return [check.name for check in checks if check.value is not None]


def _dots(rows: _Rows) -> Any:
    is_tuned = any(row["is_tuned"] for row in rows)
    color, shape = (YOU, "square") if is_tuned else (THEN, "circle")
    return plot(rows).mark_point(
        aria=False, opacity=1, fill=color, strokeWidth=0, shape=shape, size=SMALL_PX * 4
    )
