"""A student's sessions one after the other: the spread at the arrows, and where the balls came in."""

from collections.abc import Sequence
from typing import Any

from coachlib.review.trends import SessionTrend
from coachlib.views.theme import HAIR, INK, INK2, LINE, SMALL_PX, Rows, alt, finished, layer, small_title
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from coachlib.world.lane import POCKET_HALF_BOARDS

WIDTH_PX, HEIGHT_PX = 330, 200
_BELOW = ("about 180", "tour")
"""Averages named below their line."""
_SHAPES = ("circle", "square")
_SMALL: dict[str, Any] = {"color": INK2, "fontSize": SMALL_PX - 1}


def trends_chart(
    trends: Sequence[SessionTrend], title: str = "", subtitle: str = "", *, is_tall: bool = False
) -> Any:
    """Return aim against what is usual by average, and arrival against the pocket, as two Altair pictures.

    Parameters
    ----------
    trends : sequence of SessionTrend
        The oldest first, from :func:`coachlib.review.trends.student_trends`.
    title, subtitle : str, optional
        The question, and what one mark is.
    is_tall : bool, default False
        One below the other, for a screen as narrow as a phone's, instead of side by side.
    """
    days = [short_day_text(one) for one in trends]
    cells = [_aim(trends, days), _arrival(trends, days)]
    joined = alt.vconcat if is_tall else alt.hconcat
    return finished(joined(*cells, spacing=36), title, subtitle, trends_words(trends))


def trends_words(trends: Sequence[SessionTrend]) -> str:
    """Return the picture in words, session by session."""
    return "Oldest first. " + " ".join(map(_session_words, trends)) if trends else "No session yet."


def short_day_text(trend: SessionTrend) -> str:
    """Return the day of a session, as on this machine's clock: ``15 Sep 2026``."""
    when = trend.started.astimezone()
    return f"{when.day} {when:%b %Y}"


def _session_words(trend: SessionTrend) -> str:
    aim = trend.arrow_miss_boards
    words = "crossings not noted" if aim is None or aim.sd is None else f"spread {aim.sd:.1f} boards"
    came = [
        f"lane {lane} {abs(one.mean):.1f} boards {'high' if one.mean > 0 else 'light'}"
        for lane, one in trend.arrival_err_boards.items()
    ]
    return f"{short_day_text(trend)}: {', '.join([words, *came])}."


def _aim(trends: Sequence[SessionTrend], days: Sequence[str]) -> Any:
    rows: Rows = [
        {"day": day, "at": number, "value": one.sd, "low": one.sd_low, "high": one.sd_high}
        for number, (day, trend) in enumerate(zip(days, trends, strict=True), start=1)
        if (one := trend.arrow_miss_boards) is not None and one.sd is not None
    ]
    classes = [
        {"value": sd, "text": name if name == "tour" else f"about {name}"}
        for name, sd in ACCURACY_SD_BOARDS.items()
    ]
    low_names = [one for one in classes if one["text"] in _BELOW]  # neighbours lie too close for one side
    names = [([one for one in classes if one not in low_names], WIDTH_PX, -6), (low_names, WIDTH_PX - 66, 8)]
    top = max([1.8, *(row["high"] for row in rows)])
    x, (y, low) = _days(days), (_boards(field, 0.0, top) for field in ("value", "low"))
    layers = [
        layer("rule", classes, None, y, opacity=1, color=LINE, strokeDash=[2, 3], strokeWidth=0.8),
        *(
            layer("text", some, None, y, opacity=1, x=at_px, align="right", dy=dy, **_SMALL)
            for some, at_px, dy in names
        ),
        layer("rule", rows, x, low, {"y2": "high"}, opacity=1, color=INK),
        layer("point", rows, x, y, opacity=1, size=70, **_mark(0)),
    ]
    return _layered("Spread at the arrows, boards; dotted: usual by average", layers)


def _arrival(trends: Sequence[SessionTrend], days: Sequence[str]) -> Any:
    lanes = list(dict.fromkeys(lane for one in trends for lane in one.arrival_err_boards))
    rows: dict[str, Rows] = {lane: [] for lane in lanes}
    for number, (day, trend) in enumerate(zip(days, trends, strict=True), start=1):
        for lane, one in trend.arrival_err_boards.items():
            beside = 0.06 * (lanes.index(lane) - (len(lanes) - 1) / 2)
            rows[lane].append({"day": day, "at": number + beside, "value": one.mean, "text": f"lane {lane}"})
    reach = max([2.0, *(abs(row["value"]) for lane in lanes for row in rows[lane])]) * 1.15
    x, y = _days(days), _boards("value", -reach, reach)
    band = [{"value": -POCKET_HALF_BOARDS, "high": POCKET_HALF_BOARDS}]
    layers = [layer("rect", band, None, y, {"y2": "high"}, color=HAIR, opacity=0.6)]
    for number, lane in enumerate(lanes):
        words = {"align": "left", "dx": 9, "dy": 14 if number % 2 else -4, **_SMALL}
        layers.append(layer("point", rows[lane], x, y, opacity=1, size=70, **_mark(number)))
        layers.append(layer("text", rows[lane][-1:], x, y, opacity=1, **words))
    return _layered("Where it came in, boards from the pocket, + is high", layers)


def _days(days: Sequence[str]) -> Any:
    """Return the axis along: a place a session, some of them named by their day."""
    names = "{" + ", ".join(f"'{number}': '{day}'" for number, day in enumerate(days, start=1)) + "}"
    values = list(range(len(days), 0, -1))[:: max(1, round(len(days) / 4))]
    axis = alt.Axis(values=values, labelExpr=f"({names})[datum.value]", title=None)
    return alt.X("at:Q", axis=axis, scale=alt.Scale(domain=[0.5, max(len(days), 1) + 0.9], nice=False))


def _boards(field: str, low: float, high: float) -> Any:
    return alt.Y(f"{field}:Q", title=None, scale=alt.Scale(domain=[low, high], nice=False))


def _mark(number: int) -> dict[str, Any]:
    """Return how the marks of one lane look: filled circles, hollow squares."""
    is_second = bool(number % 2)
    fill = {"fill": "white" if is_second else INK, "stroke": INK, "strokeWidth": 1.6}
    return {"shape": _SHAPES[number % 2], **fill}


def _layered(title: str, layers: list[Any]) -> Any:
    heading = small_title(title, anchor="start")
    return alt.layer(*layers).properties(width=WIDTH_PX, height=HEIGHT_PX, title=heading)
