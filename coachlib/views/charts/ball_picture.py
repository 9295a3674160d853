"""A drilled ball as two halves: pin, grip, axis point, the way of the axis, and the track it leaves.

Both halves are seen from outside, the bowler's axis point in the middle of the first and its far end in
the middle of the second. Distances from the middle are true along the surface. Which way
round it the pin lies is drawn as usual, and does not matter on the lane. Nothing is computed here
but places on paper.
"""

from typing import Any

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.equipment.layouts import flare_text, layout_text
from coachlib.physics.flare import POINTS_A_TURN, Flare, ring
from coachlib.views.theme import (
    HAIR,
    INK,
    INK2,
    LINE,
    SMALL_PX,
    THEN,
    WOOD,
    YOU,
    Rows,
    alt,
    finished,
    layer,
    small_title,
)
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.layout import QUARTER_IN, Layout

SIZE_PX = 270
RING_EVERY_TURNS = 2
_HALVES = ("from the bowler's axis point", "from the other side; brown: the first ring")


def ball_picture(
    ball: Ball,
    layout: Layout,
    flare: Flare,
    hand: Hand = "right",
    *,
    tilt_deg: float = 13.0,
    title: str = "",
    subtitle: str = "",
) -> Any:
    """Return the two halves of a drilled ball, as an Altair chart.

    Parameters
    ----------
    ball, layout : Ball, Layout
        What is drilled, and how.
    flare : Flare
        From :func:`coachlib.physics.flare.flare`.
    hand : {"right", "left"}
        A left-hander's ball is the mirror image.
    tilt_deg : float, default 13
        Where the ball touches the lane. [deg]
    title, subtitle : str
        The question; which ball.
    """
    halves = [_half(number, ball, layout, flare, hand, tilt_deg) for number in (0, 1)]
    core = "asymmetric" if ball.intermediate_in > 0.0 else "symmetric"
    description = (
        f"Ball in two halves: {core} core. {layout_text(ball, layout)} from the axis point; "
        f"{flare_text(ball, flare)}."
    )
    description = " ".join(filter(None, (title, subtitle, description)))
    return finished(alt.concat(*halves, columns=2, spacing=30), title, subtitle, description)


def _half(number: int, ball: Ball, layout: Layout, flare: Flare, hand: Hand, tilt_deg: float) -> Any:
    def on_paper(places: NDArray[np.float64]) -> Rows:
        return _projected(places, number, hand)

    rings = [on_paper(ring(axis, tilt_deg)) for axis in flare.axis[:: POINTS_A_TURN * RING_EVERY_TURNS]]
    curves = [(rows, {"color": LINE if at else YOU, "strokeWidth": 1.4}) for at, rows in enumerate(rings)]
    curves.append((on_paper(flare.axis), {"color": THEN, "strokeWidth": 3}))
    layers = [_outline(), *(_draw("line", rows, look, {"order": "order:Q"}) for rows, look in curves if rows)]
    for name, place, look in _marks(ball, layout, flare):
        rows = on_paper(place[None, :])
        if rows:
            layers += _mark(rows[0], name, look)
    return alt.layer(*layers).properties(width=SIZE_PX, height=SIZE_PX, title=small_title(_HALVES[number]))


def _marks(ball: Ball, layout: Layout, flare: Flare) -> list[tuple[str, NDArray[np.float64], dict[str, Any]]]:
    marks = [
        ("grip", layout.grip, {"shape": "cross", "fill": INK2, "size": 110}),
        ("pin", layout.pin, {"shape": "circle", "fill": INK, "size": 90}),
        ("axis at the hand", flare.axis[0], {"shape": "triangle-up", "fill": THEN, "size": 90}),
        ("at the pins", flare.axis[-1], {"shape": "square", "fill": THEN, "size": 70}),
    ]
    if ball.intermediate_in > 0.0:
        marks.append(("mass bias", layout.mass_bias, {"shape": "diamond", "fill": YOU, "size": 110}))
    return marks


def _projected(places: NDArray[np.float64], number: int, hand: Hand) -> Rows:
    """Return the places on one half as inches on paper; a line that leaves it goes on as a new part."""
    side = 1.0 if number == 0 else -1.0
    turned = side if hand == "right" else -side
    away = np.arccos(np.clip(side * places[:, 2], -1.0, 1.0))
    flat = np.hypot(places[:, 0], places[:, 1])
    scale = np.divide(away * QUARTER_IN / (np.pi / 2.0), flat, out=np.zeros_like(flat), where=flat > 1e-12)
    part, rows = 0, []
    for place, factor, angle in zip(places, scale, away, strict=True):
        if angle > np.pi / 2.0 + 1e-9:
            part += 1
            continue
        x_in, y_in = turned * place[0] * factor, place[1] * factor
        rows.append({"x": round(float(x_in), 2), "y": round(float(y_in), 2), "ball": part})
    return [{**row, "order": order} for order, row in enumerate(rows)]


def _draw(mark: str, rows: Rows, look: dict[str, Any], channels: dict[str, Any] | None = None) -> Any:
    reach = alt.Scale(domain=[-QUARTER_IN - 0.3, QUARTER_IN + 0.3], nice=False, zero=False)
    x, y = alt.X("x:Q", scale=reach, axis=None), alt.Y("y:Q", scale=reach, axis=None)
    return layer(mark, rows, x, y, channels, **look)


def _outline() -> Any:
    turned = np.linspace(0.0, 2.0 * np.pi, 73)
    places = np.round(QUARTER_IN * np.column_stack((np.cos(turned), np.sin(turned))), 2).tolist()
    rows = [{"x": x, "y": y, "order": order} for order, (x, y) in enumerate(places)]
    look = {"stroke": HAIR, "strokeWidth": 2, "fill": WOOD, "opacity": 1}
    return _draw("line", rows, look, {"order": "order:Q"})


def _mark(row: dict[str, Any], name: str, look: dict[str, Any]) -> list[Any]:
    is_right = row["x"] > QUARTER_IN / 2.0
    words = {"align": "right" if is_right else "left", "dx": -8 if is_right else 8, "dy": -8}
    words |= {"color": look["fill"], "fontSize": SMALL_PX}
    halo = {**words, "stroke": WOOD, "strokeWidth": 4, "strokeJoin": "round"}
    texts = [_draw("text", [{**row, "text": name}], each) for each in (halo, words)]
    return [_draw("point", [row], {"opacity": 1, "strokeWidth": 0, **look}), *texts]
