"""Strikes kept by each way of playing a practice game: a bar a way, a diamond for those that fell."""

from typing import Any

from coachlib.study.game.practice_end import YOU, PracticeEnd
from coachlib.study.game.practice_words import WAY_NAMES, fell_text, kept_text, whole
from coachlib.views.theme import HAIR, INK, INK2, PAPER, SMALL_PX, finished, name_axis

ROW_PX, WIDTH_PX = 34, 420


def kept_chart(
    end: PracticeEnd, *, title: str = "How many strikes did each way of playing keep?", subtitle: str = ""
) -> Any:
    """Return the strikes kept by each way of playing, yours filled, and how many really fell.

    Parameters
    ----------
    end : PracticeEnd
        How the game ended.
    title, subtitle : str
        The question; which lane and bowler.

    Returns
    -------
    altair.LayerChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    rows = _rows(end)
    chart = alt.Chart(alt.InlineData(values=rows))
    up = alt.Y("name:N", sort=[row["name"] for row in rows], title=None, axis=name_axis())
    across = alt.X("kept:Q", title=f"strikes of {end.n_scored} first balls", axis=alt.Axis(tickMinStep=1))
    bars = chart.mark_bar(aria=False, height=16, stroke=INK2).encode(
        x=across, y=up, color=alt.Color("fill:N", scale=None)
    )
    fell = chart.mark_point(
        aria=False, shape="diamond", size=70, filled=True, opacity=1, fill=PAPER, stroke=INK, strokeWidth=1.6
    )
    words = chart.mark_text(aria=False, align="left", dx=12, fontSize=SMALL_PX, color=INK)
    layers = [bars, fell.encode(x="fell:Q", y=up), words.encode(x="end:Q", y=up, text="text:N")]
    told = "Bar: worth of the balls; diamond: strikes that fell"
    subtitle = f"{subtitle}. {told}." if subtitle else told
    drawn = alt.layer(*layers).properties(width=WIDTH_PX, height=ROW_PX * len(rows))
    return finished(drawn, title, subtitle, f"{title} {kept_text(end)} {fell_text(end)}")


def _rows(end: PracticeEnd) -> list[dict[str, Any]]:
    return [
        {
            "name": WAY_NAMES[way.name],
            "kept": round(way.kept, 2),
            "fell": way.n_fell,
            "end": round(max(way.kept, way.n_fell), 2),
            "text": f"kept {whole(way.kept)}",
            "fill": INK if way.name == YOU else HAIR,
        }
        for way in end.ways
    ]
