"""Ways of playing for a notebook: a season on hidden lanes, what we said and what came, a practice game."""

import math
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.wording.names import said_name
from coachlib.study.game.practice_end import YOU, PracticeEnd
from coachlib.study.game.practice_words import WAY_NAMES, fell_text, kept_text, whole
from coachlib.study.seasons.season_figures import HeldRow, SeasonScore
from coachlib.views.charts.carry_tables import TextTable, text_table
from coachlib.views.theme import HAIR, INK, INK2, NAME_AXIS, PAPER, SMALL_PX, THEN, Rows, alt, finished, layer

NEVER, ORACLE, ADVICE = "never move", "oracle", "advice"
WAYS = {
    NEVER: "never move",
    "follow the miss": "follow every miss",
    "rulebook": "rule of thumb alone",
    ADVICE: "our advice",
    ORACLE: "reading the oil perfectly",
}
VERDICTS = {
    "bowler": "the bowler",
    "lane": "the lane",
    "direction known": "same side twice, unclear whose",
    "too early": "too early to tell",
}
SIDE_PX, ROW_PX, WIDTH_PX = 300, 34, 420


def ways_table(scores: Sequence[SeasonScore], group: str = "all") -> TextTable:
    """Return the ways of playing on a group of lanes: strikes of 100 over never moving, and moves."""
    found = {one.policy: one for one in scores if one.group == group}
    rows = [
        (
            words,
            f"{found[name].strikes_per_100:.1f}",
            _gain(found[name].gain, found[name].gain_half),
            _gain(found[name].line_gain, found[name].line_gain_half),
            f"{found[name].n_moves:.1f}",
        )
        for name, words in WAYS.items()
        if name in found
    ]
    columns = ("way of playing", "strikes in 100", "over never moving", "by lines", "moves")
    return text_table(rows, columns)


def groups_table(scores: Sequence[SeasonScore]) -> TextTable:
    """Return our advice by bowler, by pattern and by both, beside what there was to win."""
    most = {one.group: one for one in scores if one.policy == ORACLE}
    rows = [
        (
            _group_name(one.group),
            f"{one.n_lanes}",
            _gain(one.line_gain, one.line_gain_half),
            _gain(most[one.group].line_gain, most[one.group].line_gain_half),
            f"{one.share:.2f} ({one.share_low:.2f} to {one.share_high:.2f})",
            f"{one.n_moves:.1f}",
        )
        for one in scores
        if one.policy == ADVICE
    ]
    return text_table(rows, ("lanes", "how many", "our advice", "reading the oil", "share", "moves"))


def held_table(held: Sequence[HeldRow], what: str, columns: tuple[str, str, str]) -> TextTable:
    """Return what we said of one kind, how often, and what came."""
    digits = {"chance": 1, "lanes": 1}.get(what, 2)
    rows = [
        (VERDICTS.get(one.said, one.said), f"{one.n}", f"{one.true:.{digits}f}")
        for one in held
        if one.what == what
    ]
    return text_table(rows, columns)


def scores_table(held: Sequence[HeldRow]) -> TextTable:
    """Return the whole scores: Brier score of the strikes, log loss of the verdicts."""
    rows = [(one.said, f"{one.n}", f"{one.true:.4f}") for one in held if one.what == "score"]
    return text_table(rows, ("score", "of how many", "value"))


def reliability_chart(held: Sequence[HeldRow], title: str, subtitle: str = "") -> Any:
    """Return strikes in twenty as we said them against those that came, as an Altair chart.

    On the line as many came as we said.

    Parameters
    ----------
    held : sequence of Held
        Those of ``chance`` are drawn, the larger the more often it was said.
    title, subtitle : str
        The question, and where the answer comes from.
    """
    rows: Rows = [
        {"said": int(one.said), "true": one.true, "n": one.n} for one in held if one.what == "chance"
    ]
    most = math.floor(max(max(row["said"], row["true"]) for row in rows)) + 1.6  # no tick at the axis's title
    scale = alt.Scale(domain=(0.0, most), nice=False)
    x = alt.X("said:Q", title="strikes in 20 that we said", scale=scale)
    y = alt.Y("true:Q", title="strikes in 20 that came", scale=scale)
    corners = [{"said": place, "true": place} for place in (0.0, most)]
    size = alt.Size("n:Q", scale=alt.Scale(range=(20, 400)), legend=None)
    line = layer("line", corners, x, y, stroke=HAIR, strokeWidth=1.5)
    dots = layer("point", rows, x, y, {"size": size}, filled=True, fill=THEN, stroke=INK2, opacity=1)
    chart = alt.layer(line, dots).properties(width=SIDE_PX, height=SIDE_PX)
    words = "; ".join(f"we said {row['said']}, {row['true']:.1f} came, {row['n']} times" for row in rows)
    return finished(chart, title, subtitle, f"{title} {words}.")


def kept_chart(
    end: PracticeEnd, *, title: str = "How many strikes did each way of playing keep?", subtitle: str = ""
) -> Any:
    """Return the strikes kept by each way of playing a practice game, as an Altair chart.

    A bar a way, yours filled, and a diamond for how many really fell.

    Parameters
    ----------
    end : PracticeEnd
        How the game ended.
    title, subtitle : str
        The question; which lane and bowler.
    """
    rows: Rows = [
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
    x = alt.X("kept:Q", title=f"strikes of {end.n_scored} first balls", axis=alt.Axis(tickMinStep=1))
    y = alt.Y("name:N", sort=[row["name"] for row in rows], title=None, axis=NAME_AXIS)
    diamond = {"shape": "diamond", "size": 70, "filled": True, "opacity": 1, "fill": PAPER, "stroke": INK}
    chart = alt.layer(
        layer("bar", rows, x, y, {"color": alt.Color("fill:N", scale=None)}, height=16, stroke=INK2),
        layer("point", rows, "fell:Q", y, strokeWidth=1.6, **diamond),
        layer("text", rows, "end:Q", y, align="left", dx=12, fontSize=SMALL_PX, color=INK),
    ).properties(width=WIDTH_PX, height=ROW_PX * len(rows))
    marks = "Bar: worth of the balls; diamond: strikes that fell"
    subtitle = f"{subtitle}. {marks}." if subtitle else marks
    return finished(chart, title, subtitle, f"{title} {kept_text(end)} {fell_text(end)}")


def _group_name(group: str) -> str:
    """Return a group of lanes as a person says it: ``club bowler, right-handed · house pattern, 41 ft``."""
    return " · ".join(map(said_name, group.split(" on "))) if group != "all" else "all lanes"


def _gain(gain: float, half: float) -> str:
    return "" if gain != gain else f"{gain:+.1f} ± {half:.1f}"
