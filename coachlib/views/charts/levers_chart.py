"""Moves of feet and eyes as levers: how far each shifts the straight line, drawn and as a table."""

import math
from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from coachlib.views.lane.scene_paths import SHIFTS_AT_FT
from coachlib.views.theme import HAIR, INK, NOW_DASH, SMALL_PX, THEN, Rows, alt, finished, layer, small_title
from coachlib.world.bowler import Walk
from coachlib.world.lane import HEAD_PIN_FT, TARGET_FT
from coachlib.world.levers import STANCE_FT, line_shift_boards, pivot_ft
from coachlib.world.line import Move
from coachlib.world.parsing import board_text

if TYPE_CHECKING:
    import pandas as pd

WALKS: tuple[Walk, ...] = ("slide", "walk")
CELL_WIDTH_PX, CELL_HEIGHT_PX = 138, 132
_CROSS = "M-1-1L1 1M-1 1L1-1"
_FEET_LABEL = "datum.value == 60 ? '60 ft' : datum.label"
_SHIFT_LABEL = "datum.value == 0 ? 'old line' : abs(datum.value) + (datum.value > 0 ? ' inside' : ' outside')"


def levers_chart(
    moves: Sequence[Move],
    walks: Sequence[Walk] = WALKS,
    *,
    target_ft: float = TARGET_FT,
    stance_ft: float = STANCE_FT,
    title: str = "",
) -> Any:
    """Return one small picture a move and way of walking: the new straight line against the old one.

    Parameters
    ----------
    moves : sequence of Move
        One column each; only feet and eyes count.
    walks : sequence of {"slide", "walk"}
        One row each.
    target_ft, stance_ft : float
        Distance of the target, and of the stance behind the foul line. [ft]
    title : str, optional
        The question.
    """
    where = {"target_ft": target_ft, "stance_ft": stance_ft}
    shifts = {(walk, move): _shifts(move, walk, where) for walk in walks for move in moves}
    most = max(abs(row["shift"]) for rows in shifts.values() for row in rows)
    reach = max(2, 2 * math.ceil(most / 2))
    cells = [_cell(move, walk, rows, where, reach, move is moves[0]) for (walk, move), rows in shifts.items()]
    subtitle = f"Boards from the old line (dashed) to the new one, target at {target_ft:g} ft; cross: pivot"
    words = "; ".join(
        f"{move}, {walk}: {_way(rows[-1]['shift'])} at 60 ft" for (walk, move), rows in shifts.items()
    )
    chart = alt.concat(*cells, columns=len(moves), spacing=14)
    return finished(chart, title, subtitle, f"{title} {words}.".strip())


def levers_table(
    moves: Sequence[Move],
    walks: Sequence[Walk] = WALKS,
    *,
    target_ft: float = TARGET_FT,
    stance_ft: float = STANCE_FT,
) -> "pd.DataFrame":
    """Return the shifts of moves at 30, 45 and 60 ft, and their pivots.

    Parameters
    ----------
    moves, walks, target_ft, stance_ft
        As for :func:`levers_chart`.

    Returns
    -------
    pandas.DataFrame
        One row a move and way of walking: ``feet_boards``, ``target_boards``, ``walk``,
        ``shift_30_ft_boards`` …, ``pivot_ft`` (``inf`` for a parallel move); ``+`` is inside.
    """
    import pandas as pd

    where = {"target_ft": target_ft, "stance_ft": stance_ft}
    rows = [
        {
            "feet_boards": move.feet_boards,
            "target_boards": move.target_boards,
            "walk": walk,
            **{
                f"shift_{ft:.0f}_ft_boards": line_shift_boards(move, ft, walk, **where) for ft in SHIFTS_AT_FT
            },
            "pivot_ft": pivot_ft(move, walk, **where),
        }
        for move in moves
        for walk in walks
    ]
    return pd.DataFrame(rows)


def _shifts(move: Move, walk: Walk, where: dict[str, float]) -> Rows:
    places_ft = (0.0, *SHIFTS_AT_FT)
    return [{"at_ft": ft, "shift": round(line_shift_boards(move, ft, walk, **where), 2)} for ft in places_ft]


def _way(shift_boards: float) -> str:
    if abs(shift_boards) < 0.05:
        return "same"
    return f"{board_text(abs(shift_boards))} {'inside' if shift_boards > 0 else 'outside'}"


def _cell(move: Move, walk: Walk, rows: Rows, where: dict[str, float], reach: int, is_first: bool) -> Any:
    """Return the picture of one move: zero is the old line, the blue line the new one."""
    ticks = [-reach, -reach / 2, 0, reach / 2, reach]
    feet_axis = alt.Axis(values=[0, 15, 30, 45, 60], labelExpr=_FEET_LABEL)
    boards_axis = alt.Axis(
        values=ticks, labels=is_first, labelExpr=_SHIFT_LABEL, ticks=is_first, domain=False
    )
    scale = alt.Scale(domain=[-reach * 1.5, reach * 1.5])
    x = alt.X("at_ft:Q", title=None, axis=feet_axis, scale=alt.Scale(domain=[0, 60]))
    y = alt.Y("shift:Q", title=None, axis=boards_axis, scale=scale)
    end, pivot = rows[-1]["shift"], pivot_ft(move, walk, **where)
    words = [{"at_ft": HEAD_PIN_FT, "shift": end, "text": _way(end)}]
    cross = [{"at_ft": round(pivot, 2), "shift": 0.0}] if 0 < pivot < HEAD_PIN_FT else []
    old = [{"at_ft": 0, "shift": 0}, {"at_ft": 60, "shift": 0}]
    dy = 13 if end < 0 else -22 if rows[0]["shift"] > end else -13
    look = {"align": "right", "dy": dy, "color": THEN, "fontSize": SMALL_PX, "fontWeight": "bold"}
    layers = [
        layer("rule", [{"at_ft": where["target_ft"], "shift": 0}], x, opacity=1, color=HAIR),
        layer("line", old, x, y, opacity=1, color=INK, strokeWidth=2, strokeDash=NOW_DASH),
        layer("line", rows, x, y, opacity=1, color=THEN, strokeWidth=3.6),
        layer("point", rows[1:], x, y, opacity=1, shape="circle", size=50, fill=THEN, strokeWidth=0),
        layer("point", cross, x, y, opacity=1, shape=_CROSS, size=110, stroke=INK, strokeWidth=2),
        layer("text", words, x, y, opacity=1, **look),
    ]
    text = f"{board_text(move.feet_boards)} and {board_text(move.target_boards)}, {walk}"
    title = small_title(text, offset=4)
    return alt.layer(*layers).properties(width=CELL_WIDTH_PX, height=CELL_HEIGHT_PX, title=title)
