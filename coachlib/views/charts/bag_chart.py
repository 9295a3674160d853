"""The map of a bag: how far each ball skids and how many boards it covers.

Filled circles are the balls of the smallest bag that is enough, hollow ones the others. Nothing is
computed here.
"""

from collections.abc import Sequence
from typing import Any

from coachlib.coaching.equipment.bag import Bag
from coachlib.views.theme import INK, INK2, SMALL_PX, THEN, finished
from coachlib.world.ball import Ball

WIDTH_PX, HEIGHT_PX = 560, 320
_LEFT_BELOW = {"align": "right", "dx": -9, "dy": 12}


def bag_chart(bag: Bag, enough: Sequence[Ball] = (), *, title: str = "", subtitle: str = "") -> Any:
    """Return the map of a bag.

    Parameters
    ----------
    bag : Bag
        From :func:`coachlib.coaching.equipment.bag.look_through`.
    enough : sequence of Ball
        Balls drawn filled, e.g. from :func:`coachlib.coaching.equipment.bag.smallest_bag`.
    title, subtitle : str
        The question; whose balls, over which patterns.

    Returns
    -------
    altair.LayerChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    picked = {ball.name for ball in enough}
    rows = [
        {"x": round(one.skid_ft, 2), "y": round(one.covered_boards, 2), "text": one.ball.name}
        for one in bag.places
    ]
    look: dict[str, dict[str, Any]] = {
        "hollow": {"fill": "white", "stroke": INK, "strokeWidth": 1.6},
        "filled": {"fill": THEN},
    }
    layers = []
    for kind, filled in (("hollow", False), ("filled", True)):
        some = [row for row in rows if (row["text"] in picked) is filled]
        if some:
            layers.append(_layer(some, "point", rows, {"size": 110, "opacity": 1, **look[kind]}))
    layers += _names(rows, picked)
    told = "; ".join(
        f"{row['text']} skids {row['x']:.0f} ft and covers {row['y']:.0f} boards" for row in rows
    )
    chart = alt.layer(*layers).properties(width=WIDTH_PX, height=HEIGHT_PX)
    return finished(chart, title, subtitle, " ".join(filter(None, (title, subtitle, f"{told}."))))


def _names(rows: list[dict[str, Any]], picked: set[str]) -> list[Any]:
    """Return each ball's name, in turn to the right above and to the left below, so that few touch."""
    layers = []
    for number, row in enumerate(rows):
        side = {"align": "left", "dx": 9, "dy": -8} if number % 2 == 0 else _LEFT_BELOW
        colour = THEN if row["text"] in picked else INK2
        layers.append(_layer([row], "text", rows, {**side, "color": colour, "fontSize": SMALL_PX}))
    return layers


def _layer(some: list[dict[str, Any]], mark: str, every: list[dict[str, Any]], look: dict[str, Any]) -> Any:
    import altair as alt

    across = _axis([row["x"] for row in every], 6.0)
    up = _axis([row["y"] for row in every], 1.0)
    more = {"text": alt.Text("text:N")} if mark == "text" else {}
    return getattr(alt.Chart(alt.InlineData(values=some)), f"mark_{mark}")(aria=False, **look).encode(
        x=alt.X("x:Q", title="skid, ft: turns later to the right", scale=across),
        y=alt.Y("y:Q", title="covered, boards", scale=up),
        **more,
    )


def _axis(values: list[float], room: float) -> Any:
    import altair as alt

    return alt.Scale(domain=[min(values) - room, max(values) + room], nice=False, zero=False)
