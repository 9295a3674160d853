"""Pictures of the lessons: curves of what is said against what the model does, and what a fit tells.

Dashed ink is what a rule or a formula says, solid blue what the model gives, brown with squares a third one.
More than three belong into small multiples. Nothing is computed here.
"""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, Literal

import numpy as np
from numpy.typing import ArrayLike

from coachlib.views.theme import (
    HAIR,
    INK,
    INK2,
    NOW_DASH,
    SMALL_PX,
    THEN,
    YOU,
    Rows,
    alt,
    finished,
    layer,
    small_title,
)
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
    def rows(self) -> Rows:
        """Its finite points, rounded."""
        pairs = zip(np.ravel(self.x), np.ravel(self.y), strict=True)
        return [{"x": round(float(x), 2), "y": round(float(y), 2)} for x, y in pairs if np.isfinite(y)]

    @property
    def bars(self) -> Rows:
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
    """Return one Altair picture a panel, side by side, all on the same scales.

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
    has_pocket, is_pocket_across : bool, default False
        Draw the pocket, 16.8 to 18.2, as a grey band, where boards are counted upwards or across.
    y_range : tuple of float, optional
        What is drawn of the upright scale; lines beyond it are cut.
    """
    every = [row for curves in panels.values() for curve in curves for row in curve.rows]
    x_range = _range([row["x"] for row in every], room=0.03)
    y_range = y_range or _range([row["y"] for row in every], room=0.06)
    width, n_ticks = (WIDTH_PX, 7) if len(panels) == 1 else (SMALL_WIDTH_PX, 5)
    scales = (
        alt.Scale(domain=list(x_range), nice=False),
        alt.Scale(domain=list(y_range), nice=False, zero=False),
    )
    x = alt.X("x:Q", title=x_title, axis=alt.Axis(tickCount=n_ticks), scale=scales[0])
    y = alt.Y("y:Q", title=y_title, scale=scales[1])
    ways = [False] * has_pocket + [True] * is_pocket_across
    pocket = [part for is_across in ways for part in _pocket(x_range, y_range, x, y, is_across)]
    pictures = []
    for heading, curves in panels.items():
        upper = sorted(curves, key=lambda one: one.look == "said")  # dashes stay visible on a solid line
        lines = [part for curve in upper for part in _line(curve, x, y)]
        drawn = alt.layer(*pocket, *lines, *_labels(curves, y_range, x, y))
        pictures.append(
            drawn.properties(width=width, height=HEIGHT_PX, title=small_title(heading, offset=18))
        )
    words = "; ".join(_curve_words(heading, curve) for heading, curves in panels.items() for curve in curves)
    description = f"{title} {subtitle}. {y_title}, by {x_title}: {words}."
    return finished(alt.concat(*pictures, columns=len(pictures), spacing=24), title, subtitle, description)


def _range(values: Sequence[float], room: float) -> tuple[float, float]:
    low, high = min(values), max(values)
    more = room * ((high - low) or 1.0)
    return low - more, high + more


def _curve_words(heading: str, curve: Curve) -> str:
    rows = curve.rows
    ends = ", ".join(f"{row['y']:g} at {row['x']:g}" for row in (rows[0], rows[len(rows) // 2], rows[-1]))
    return f"{', '.join(filter(None, (heading, curve.label)))}: {ends}"


def _line(curve: Curve, x: Any, y: Any) -> list[Any]:
    color, rows = _COLOUR[curve.look], curve.rows
    layers = [layer("line", rows, x, y, color=color, clip=True, **_LINE[curve.look])]
    if curve.bars:
        layers.append(layer("rule", curve.bars, x, y, color=color, clip=True, strokeWidth=1.2))
    if curve.has_points:
        layers.append(layer("point", rows, x, y, clip=True, opacity=1, **POINTS[curve.look]))
    return layers


def _pocket(
    x_range: tuple[float, float], y_range: tuple[float, float], x: Any, y: Any, is_across: bool
) -> list[Any]:
    """Return the pocket as a band across the picture with its name, or as an upright one without."""
    low, high = POCKET_LOW_BOARD, POCKET_HIGH_BOARD
    (x1, x2), (y1, y2) = ((low, high), y_range) if is_across else (x_range, (low, high))
    layers = [layer("rect", [{"x": x1, "x2": x2, "y": y1, "y2": y2}], x, y, clip=True, color=HAIR, opacity=1)]
    if not is_across:
        look = {"align": "left", "baseline": "bottom", "dx": 4, "dy": -3, "color": INK2, "fontSize": SMALL_PX}
        layers.append(layer("text", [{"x": x1, "y": low, "text": "pocket"}], x, y, **look))
    return layers


def _labels(curves: Sequence[Curve], y_range: tuple[float, float], x: Any, y: Any) -> list[Any]:
    """Return the names of the lines at their visible ends, moved apart where two would touch."""
    ends = []
    for curve in curves:
        inside = [row for row in curve.rows if y_range[0] <= row["y"] <= y_range[1]]
        ends.append((inside or curve.rows)[-1])
    places = apart([end["y"] for end in ends], _APART_PX * ((y_range[1] - y_range[0]) / HEIGHT_PX))
    look = {"align": "left", "dx": 9, "fontSize": SMALL_PX, "fontWeight": "bold"}
    return [
        layer(
            "text", [{**end, "y": round(place, 2), "text": one.label}], x, y, color=_COLOUR[one.look], **look
        )
        for one, end, place in zip(curves, ends, places, strict=True)
    ]


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
