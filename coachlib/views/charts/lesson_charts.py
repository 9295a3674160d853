"""Pictures of the lessons: curves of what is said against what the model does, and what a fit tells.

Dashed ink is what a rule or a formula says, solid blue what the model gives, brown with squares a third one.
More than three belong into small multiples. Nothing is computed here.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike

from coachlib.views.theme import HAIR, INK, INK2, NOW_DASH, SMALL_PX, THEN, YOU, finished, plot
from coachlib.world.lane import POCKET_HIGH_BOARD, POCKET_LOW_BOARD

Look = Literal["said", "model", "third"]
_COLOUR: dict[str, str] = {"said": INK, "model": THEN, "third": YOU}
_LINE: dict[str, dict[str, Any]] = {
    "said": {"strokeWidth": 2, "strokeDash": NOW_DASH},
    "model": {"strokeWidth": 3.6},
    "third": {"strokeWidth": 2},
}
POINTS: dict[str, dict[str, Any]] = {
    "said": {"shape": "diamond", "fill": "white", "stroke": INK, "strokeWidth": 1.6, "size": 70},
    "model": {"shape": "circle", "fill": THEN, "strokeWidth": 0, "size": 60},
    "third": {"shape": "square", "fill": YOU, "strokeWidth": 0, "size": 50},
}
HEIGHT_PX, WIDTH_PX, SMALL_WIDTH_PX = 220, 400, 230
_APART_PX = 15
_Rows = list[dict[str, Any]]


@dataclasses.dataclass(frozen=True, eq=False)
class Curve:
    """One line of a picture.

    Parameters
    ----------
    label : str
        Written where the line ends.
    x, y : array
        Its points; NaN leaves a gap.
    look : {"said", "model", "third"}
        What a rule or formula says, what the model gives, or a third line.
    has_points : bool
        Whether each point is marked.
    error : array, optional
        How far each point may be off, drawn as an upright bar of so much up and down.
    """

    label: str
    x: ArrayLike
    y: ArrayLike
    look: Look = "model"
    has_points: bool = True
    error: ArrayLike | None = None

    @property
    def rows(self) -> _Rows:
        """Its finite points, rounded."""
        pairs = zip(np.ravel(self.x), np.ravel(self.y), strict=True)
        return [{"x": round(float(x), 2), "y": round(float(y), 2)} for x, y in pairs if np.isfinite(y)]

    @property
    def bars(self) -> _Rows:
        """The upright bars of its points, rounded; none without an error."""
        if self.error is None:
            return []
        columns = np.broadcast_arrays(np.ravel(self.x), np.ravel(self.y), np.ravel(self.error))
        return [
            {"x": round(float(x), 2), "y": round(float(y - off), 2), "y2": round(float(y + off), 2)}
            for x, y, off in zip(*columns, strict=True)
            if np.isfinite(y)
        ]


def curves_chart(
    panels: Mapping[str, Sequence[Curve]],
    *,
    title: str,
    x_title: str,
    y_title: str,
    subtitle: str = "",
    has_pocket: bool = False,
    is_pocket_across: bool = False,
    y_range: tuple[float, float] | None = None,
) -> Any:
    """Return one picture a panel, side by side, all on the same scales.

    Parameters
    ----------
    panels : mapping of str to sequence of Curve
        Heading of each picture, and its lines.
    title : str
        The question.
    x_title, y_title : str
        With units.
    subtitle : str, optional
        What one point is, and whose ball.
    has_pocket : bool, default False
        Draw the pocket, 16.8 to 18.2, as a grey band.
    is_pocket_across : bool, default False
        Draw it where boards are counted across instead of upwards.
    y_range : tuple of float, optional
        What is drawn of the upright scale; lines beyond it are cut.

    Returns
    -------
    altair.ConcatChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    every = [row for curves in panels.values() for curve in curves for row in curve.rows]
    x_range = _range([row["x"] for row in every], room=0.03)
    y_range = y_range or _range([row["y"] for row in every], room=0.06)
    shown = [
        _panel(
            heading, curves, x_range, y_range, (x_title, y_title), (has_pocket, is_pocket_across), len(panels)
        )
        for heading, curves in panels.items()
    ]
    told = "; ".join(_told(heading, curve) for heading, curves in panels.items() for curve in curves)
    description = f"{title} {subtitle}. {y_title}, by {x_title}: {told}."
    return finished(alt.concat(*shown, columns=len(shown), spacing=24), title, subtitle, description)


def _range(values: Sequence[float], room: float = 0.0) -> tuple[float, float]:
    low, high = min(values), max(values)
    more = room * ((high - low) or 1.0)
    return low - more, high + more


def _told(heading: str, curve: Curve) -> str:
    rows = curve.rows
    ends = ", ".join(f"{row['y']:g} at {row['x']:g}" for row in (rows[0], rows[len(rows) // 2], rows[-1]))
    return f"{', '.join(filter(None, (heading, curve.label)))}: {ends}"


def _panel(
    heading: str,
    curves: Sequence[Curve],
    x_range: tuple[float, float],
    y_range: tuple[float, float],
    titles: tuple[str, str],
    pocket: tuple[bool, bool],
    n_panels: int,
) -> Any:
    import altair as alt

    width = WIDTH_PX if n_panels == 1 else SMALL_WIDTH_PX
    ticks = alt.Axis(tickCount=7 if n_panels == 1 else 5)
    across = alt.X("x:Q", title=titles[0], axis=ticks, scale=alt.Scale(domain=list(x_range), nice=False))
    up = alt.Y("y:Q", title=titles[1], scale=alt.Scale(domain=list(y_range), nice=False, zero=False))
    layers = _pocket(x_range, across, up) if pocket[0] else []
    layers += _pocket_across(y_range, across, up) if pocket[1] else []
    for curve in sorted(curves, key=lambda one: one.look == "said"):  # dashes stay visible on a solid line
        layers += _line(curve, across, up)
    layers += _labels(curves, x_range, y_range, across, up)
    look = alt.TitleParams(text=heading, fontSize=SMALL_PX, fontWeight="normal", color=INK2, offset=18)
    return alt.layer(*layers).properties(width=width, height=HEIGHT_PX, title=look)


def _line(curve: Curve, across: Any, up: Any) -> list[Any]:
    line = plot(curve.rows).mark_line(aria=False, clip=True, color=_COLOUR[curve.look], **_LINE[curve.look])
    drawn = [line.encode(x=across, y=up)]
    if curve.bars:
        bars = plot(curve.bars).mark_rule(aria=False, clip=True, color=_COLOUR[curve.look], strokeWidth=1.2)
        drawn.append(bars.encode(x=across, y=up, y2="y2:Q"))
    if curve.has_points:
        points = plot(curve.rows).mark_point(aria=False, clip=True, opacity=1, **POINTS[curve.look])
        drawn.append(points.encode(x=across, y=up))
    return drawn


def _pocket(x_range: tuple[float, float], across: Any, up: Any) -> list[Any]:
    low, high = POCKET_LOW_BOARD, POCKET_HIGH_BOARD
    import altair as alt

    band = [{"x": x_range[0], "x2": x_range[1], "y": low, "y2": high}]
    name = [{"x": x_range[0], "y": low, "text": "pocket"}]
    words = plot(name).mark_text(
        aria=False, align="left", baseline="bottom", dx=4, dy=-3, color=INK2, fontSize=SMALL_PX
    )
    return [
        plot(band)
        .mark_rect(aria=False, clip=True, color=HAIR, opacity=1)
        .encode(x=across, x2="x2:Q", y=up, y2="y2:Q"),
        words.encode(x=across, y=up, text=alt.Text("text:N")),
    ]


def _pocket_across(y_range: tuple[float, float], across: Any, up: Any) -> list[Any]:
    low, high = POCKET_LOW_BOARD, POCKET_HIGH_BOARD
    band = [{"x": low, "x2": high, "y": y_range[0], "y2": y_range[1]}]
    drawn = plot(band).mark_rect(aria=False, clip=True, color=HAIR, opacity=1)
    return [drawn.encode(x=across, x2="x2:Q", y=up, y2="y2:Q")]


def _labels(
    curves: Sequence[Curve], x_range: tuple[float, float], y_range: tuple[float, float], across: Any, up: Any
) -> list[Any]:
    """Return the names of the lines at their ends, moved apart where two would touch."""
    ends = [_visible_end(curve, y_range) for curve in curves]
    per_px = (y_range[1] - y_range[0]) / HEIGHT_PX
    places = apart([end["y"] for end in ends], _APART_PX * per_px)
    return [
        plot([{**end, "y": round(place, 2), "text": curve.label}])
        .mark_text(
            aria=False, align="left", dx=9, color=_COLOUR[curve.look], fontSize=SMALL_PX, fontWeight="bold"
        )
        .encode(x=across, y=up, text="text:N")
        for curve, end, place in zip(curves, ends, places, strict=True)
    ]


def _visible_end(curve: Curve, y_range: tuple[float, float]) -> dict[str, Any]:
    inside = [row for row in curve.rows if y_range[0] <= row["y"] <= y_range[1]]
    return dict((inside or curve.rows)[-1])


def apart(places: Sequence[float], least: float) -> list[float]:
    """Return the places with neighbours at least so far apart, their order and middle kept."""
    order = np.argsort(places, kind="stable")
    moved = np.array(places, dtype=float)[order]
    for number in range(1, len(moved)):
        moved[number] = max(moved[number], moved[number - 1] + least)
    moved -= (moved - np.array(places, dtype=float)[order]).mean() if len(moved) else 0.0
    back = np.empty_like(moved)
    back[order] = moved
    return [float(place) for place in back]
