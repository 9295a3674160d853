"""A bag as bars: how many feet each ball goes before it turns, and how many boards it covers.

One ball below the other, the one that turns soonest on top; each bar begins at nothing and ends with its
number. Nothing is computed here, and no side is drawn: the picture is the same for both hands.
"""

from collections.abc import Sequence
from typing import Any

from coachlib.coaching.equipment.bag import Bag, BallPlace
from coachlib.coaching.wording.names import short_name
from coachlib.views.theme import INK, INK2, PAPER, SMALL_PX, THEN, Rows, alt, finished, layer
from coachlib.world.ball import Ball
from coachlib.world.lane import HEAD_PIN_FT

WIDTH_PX, BAR_PX, SECOND_PX = 336, 112, 176
"""Narrow enough for a phone: the whole, the longest bar, and where the second column begins."""

HEAD_PX, ROW_PX, BAR_HIGH_PX = 26, 46, 14
HEADS = ("feet before it turns", "boards it covers")


def bag_chart(bag: Bag, enough: Sequence[Ball] = (), *, title: str = "", subtitle: str = "") -> Any:
    """Return a bag as two columns of bars, as an Altair chart: filled are the balls that are enough.

    Parameters
    ----------
    bag : Bag
        From :func:`coachlib.coaching.equipment.bag.evaluate_bag`.
    enough : sequence of Ball
        Balls whose bars are filled and whose names say so, e.g. from
        :func:`coachlib.coaching.equipment.bag.smallest_bag`.
    title, subtitle : str
        The question; whose balls, over which patterns.
    """
    names = {ball.name for ball in enough}
    layers = [_text(HEADS[column], at_px, 10, color=INK2) for column, at_px in enumerate((0, SECOND_PX))]
    for number, one in enumerate(bag.places):
        top_px, is_enough = HEAD_PX + ROW_PX * number, one.ball.name in names
        name = short_name(one.ball.name) + (_needed(len(names)) if is_enough else "")
        look = {"color": THEN, "fontWeight": "bold"} if is_enough else {"color": INK}
        layers.append(_text(name, 0, top_px + 10, **look))
        layers += _bars(one, bag.places, top_px + 20, is_enough)
    chart = alt.layer(*layers).properties(width=WIDTH_PX, height=HEAD_PX + ROW_PX * len(bag.places))
    words = f"{'; '.join(map(_words, bag.places))}."
    return finished(chart, title, subtitle, " ".join(filter(None, (title, subtitle, words))))


def _words(one: BallPlace) -> str:
    turns = f"turns after {one.skid_ft:.0f} ft" if one.skid_ft < HEAD_PIN_FT else "does not turn"
    return f"{short_name(one.ball.name)} {turns} and covers {_boards(one)} boards"


def _boards(one: BallPlace) -> str:
    return f"{max(one.covered_boards, 0.0):.0f}"


def _needed(n_balls: int) -> str:
    return " (the one you need)" if n_balls == 1 else f" (one of the {n_balls} you need)"


def _bars(one: BallPlace, places: Sequence[BallPlace], top_px: float, is_enough: bool) -> list[Any]:
    """Return both bars of a ball, each with its number where it ends."""
    most_ft = max(place.skid_ft for place in places)
    most_boards = max(1.0, *(place.covered_boards for place in places))
    feet = f"{one.skid_ft:.0f} ft" if one.skid_ft < HEAD_PIN_FT else "no turn"
    fill = THEN if is_enough else PAPER
    look = {"fill": fill, "stroke": THEN if is_enough else INK, "strokeWidth": 1.2, "opacity": 1}
    parts: list[Any] = []
    for left_px, share, text in (
        (0, one.skid_ft / most_ft, feet),
        (SECOND_PX, max(one.covered_boards, 0.0) / most_boards, _boards(one)),
    ):
        right_px = round(left_px + BAR_PX * share, 2)
        bar: Rows = [{"x": left_px, "x2": right_px, "y": top_px, "y2": top_px + BAR_HIGH_PX}]
        parts.append(layer("rect", bar, *_axes(), **look))
        parts.append(_text(text, right_px + 6, top_px + BAR_HIGH_PX / 2, color=INK))
    return parts


def _text(text: str, x_px: float, y_px: float, **look: Any) -> Any:
    place = {"align": "left", "baseline": "middle", "fontSize": SMALL_PX, "limit": WIDTH_PX - x_px}
    return layer("text", [{"x": x_px, "y": y_px, "text": text}], *_axes(), **place, **look)


def _axes() -> tuple[Any, Any]:
    """Return the two axes in dots of the picture, none of them drawn."""
    return alt.X("x:Q", scale=None, axis=None), alt.Y("y:Q", scale=None, axis=None)
