"""The house's look for pictures made with Altair: ink on paper, one blue for what to do next.

The tokens are those of the panels' style sheet, light side only: a stored picture cannot follow the theme of
the notebook, so it brings its own paper and stays readable on a dark page.
"""

import html
import re
from typing import Any, Final

from coachlib.views.font import STACK
from coachlib.views.word_room import with_room

PAPER: Final = "#FFFFFF"
INK: Final = "#1D1B18"
INK2: Final = "#57534B"
LINE: Final = "#86817A"
HAIR: Final = "#DDD8CE"
THEN: Final = "#0A5688"
YOU: Final = "#8F4300"
WOOD: Final = "#FBF5E8"
GUTTER: Final = "#E6E1D6"
OIL: Final = "#7F8EA3"

# Measured as Arial, whose widths are the same on every machine, so stored pictures stay put.
FONT: Final = STACK
TITLE_PX, NUMBER_PX, TEXT_PX, SMALL_PX = 18, 26, 15, 13
NOW_DASH: Final = [7, 4]
SERIES: Final = [INK, THEN, YOU, LINE]
NAME_AXIS: Final = {"ticks": False, "domain": False, "labelPadding": 8, "labelLimit": 220}
"""The axis of a list of names."""

Row = dict[str, Any]
Rows = list[Row]


class _Altair:
    """Altair, loaded when the first picture is drawn: a panel starts without it."""

    def __getattr__(self, name: str) -> Any:
        import altair

        return getattr(altair, name)


alt: Any = _Altair()

# What XML 1.0 allows in a text (W3C, section 2.2), turned round.
_UNPRINTABLE = re.compile("[^\t\n\r\u0020-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")


def finished(chart: Any, title: str, subtitle: str, description: str) -> Any:
    """Return a chart in the house's look, with the question as its title and one description.

    Parameters
    ----------
    chart : altair chart
        Layered or concatenated; its marks carry ``aria=False``, so that only the description is read out.
    title, subtitle, description : str
        The question the picture answers; what one line or point is, and where the numbers come from; the
        picture in words. The first two may be empty.
    """
    if title:
        chart = chart.properties(title={"text": title, "subtitle": subtitle})
    return chart.properties(description=description, background=PAPER, padding=8).configure(**_config())


def layer(
    mark: str,
    rows: Rows,
    x: Any = None,
    y: Any = None,
    channels: dict[str, Any] | None = None,
    /,
    **look: Any,
) -> Any:
    """Return one layer of marks, from rows that stand in the picture itself.

    Parameters
    ----------
    mark : str
        A mark of Altair: ``line``, ``text`` …
    rows : list of dict
        What the two axes name; where they hold x2 and y2 these are drawn too, and one line a ``ball``. Words
        stand in ``text``.
    x, y : altair axis, optional
        Without one the mark has the whole length of the picture.
    channels : dict, optional
        What else is taken from the rows.
    **look
        Of the mark.
    """
    first = rows[0] if rows else {}
    encoded = {name: axis for name, axis in (("x", x), ("y", y)) if axis is not None}
    encoded |= {name: f"{name}:Q" for name in ("x2", "y2") if name in first}
    encoded |= {"text": "text:N"} if mark == "text" else {}
    encoded |= {"detail": "ball:N"} if mark == "line" and "ball" in first else {}
    drawn = getattr(alt.Chart(alt.InlineData(values=rows)), f"mark_{mark}")(aria=False, **look)
    return drawn.encode(**encoded, **(channels or {}))


def small_title(text: str, **look: Any) -> dict[str, Any]:
    """Return the heading of one picture among several."""
    return {"text": text, "fontSize": SMALL_PX, "fontWeight": "normal", "color": INK2, **look}


def enable_pictures() -> None:
    """Show charts as stored pictures from here on: no network, no script, the same on every machine.

    Each picture carries its description for a screen reader, and its coordinates are rounded to .01.
    """
    alt.renderers.register("coach", _picture)
    alt.renderers.enable("coach")


def _picture(spec: dict[str, Any], **_metadata: Any) -> dict[str, str]:
    return {"image/svg+xml": picture_svg(spec), "text/plain": str(spec.get("description", ""))}


def picture_svg(spec: dict[str, Any]) -> str:
    """Return a chart as SVG text, from ``chart.to_dict()``.

    It has ``role="img"`` and the description as its name, and room for its words in any usual font.
    """
    import vl_convert

    spec = printable(spec)
    drawn = re.sub(
        r"\d+\.\d{3,}", lambda number: f"{float(number.group()):.2f}", vl_convert.vegalite_to_svg(spec)
    )
    name = html.escape(str(spec.get("description", "")), quote=True)
    return with_room(drawn).replace("<svg ", f'<svg role="img" aria-label="{name}" ', 1)


def printable(part: Any) -> Any:
    """Return a chart's description without the signs that a picture must not hold.

    A name from a file may hold control signs; the converter does not refuse them, it ends the whole program.
    """
    if isinstance(part, str):
        return _UNPRINTABLE.sub("�", part)
    if isinstance(part, dict):
        return {printable(name): printable(value) for name, value in part.items()}
    return [printable(value) for value in part] if isinstance(part, list) else part


def _config() -> dict[str, Any]:
    small = {"labelFontSize": SMALL_PX, "titleFontSize": SMALL_PX, "labelColor": INK2, "titleColor": INK2}
    return {
        "font": FONT,
        "view": {"stroke": None},
        "range": {"category": SERIES},
        "axis": {
            "grid": False,
            "domainColor": LINE,
            "tickColor": LINE,
            "titleFontWeight": "normal",
            "labelFlush": False,
            **small,
        },
        "axisY": {"titleAngle": 0, "titleAlign": "left", "titleAnchor": "end"},
        "title": {
            "anchor": "start",
            "frame": "group",
            "fontSize": TITLE_PX,
            "color": INK,
            "subtitleFontSize": SMALL_PX,
            "subtitleColor": INK2,
            "subtitlePadding": 6,
            "offset": 12,
        },
        "legend": {"disable": True},
    }
