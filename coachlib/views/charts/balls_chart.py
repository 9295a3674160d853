"""Balls on one lane, path over path: which ball goes longer, which comes back more, where each arrives.

One colour and dash a ball, its name where it arrives; thick is the ball as meant, each thin line one ball of
the bowler's own twenty. Nothing is computed here.
"""

import dataclasses
from collections.abc import Sequence
from typing import Any, Literal

import numpy as np

from coachlib.coaching.equipment.ball_comparison import BallOnLine, Compared
from coachlib.coaching.wording.arrival_words import arrival_text, is_at_head_pin
from coachlib.coaching.wording.names import short_name
from coachlib.views.charts.lesson_charts import apart
from coachlib.views.theme import HAIR, INK2, LINE, SERIES, SMALL_PX, Rows, alt, finished, layer
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, POCKET_HIGH_BOARD, POCKET_LOW_BOARD

On = Literal["line", "match", "best"]
WIDTH_PX, HEIGHT_PX, NAME_PX = 620, 300, 15
MOST_BALLS = 4
_DASHES: list[list[int]] = [[1, 0], [9, 4], [3, 3], [12, 3, 3, 3]]
_EVERY_FT = 2
_NAME: dict[str, Any] = {"align": "left", "fontSize": SMALL_PX, "fontWeight": "bold"}


@dataclasses.dataclass(frozen=True)
class _Frame:
    """The two axes, and the boards they show."""

    along: Any
    across: Any
    low_board: float
    high_board: float


def balls_chart(
    compared: Sequence[Compared],
    hand: Hand,
    *,
    on: On = "line",
    title: str = "",
    subtitle: str = "",
    width_px: int = WIDTH_PX,
    has_key: bool = False,
) -> Any:
    """Return the lane from above with the paths of up to four balls, as an Altair chart.

    Parameters
    ----------
    compared : sequence of Compared
        From :func:`coachlib.coaching.equipment.ball_comparison.compare_balls`; more than four are cut.
    hand : {"right", "left"}
        Turns the picture: up is the lane's left.
    on : {"line", "match", "best"}
        All on the line compared on, each after its matching move, or each on its own best line.
    title, subtitle : str
        The question; whose ball, on what.
    width_px : int
        Of the lane, without the names.
    has_key : bool
        Names stand over the lane instead of beside it, for narrow places.
    """
    balls: list[BallOnLine] = [getattr(one, f"on_{on}") for one in compared[:MOST_BALLS]]
    frame = _frame(balls, hand)
    pocket = {"x": HEAD_PIN_FT - 1.5, "x2": HEAD_PIN_FT, "y": POCKET_LOW_BOARD, "y2": POCKET_HIGH_BOARD}
    oil_ft = balls[0].paths.pattern.length_ft
    oil_end = {"x": oil_ft, "y": frame.low_board, "y2": frame.high_board}
    oil_words = {
        "x": oil_ft,
        "y": frame.high_board if hand == "right" else frame.low_board,
        "text": "oil ends",
    }
    layers = [
        layer("rect", [pocket], frame.along, frame.across, color=HAIR, opacity=1),
        layer("rule", [oil_end], frame.along, frame.across, color=LINE, strokeDash=[2, 4]),
    ]
    for number, ball in enumerate(balls):
        layers += _paths(ball, number, frame)
    layers += [] if has_key else _names(balls, frame)
    look = {"align": "left", "dx": 5, "dy": 8, "color": INK2, "fontSize": SMALL_PX}
    layers.append(layer("text", [oil_words], frame.along, frame.across, **look))
    chart = alt.layer(*layers).properties(width=width_px, height=HEIGHT_PX)
    if has_key:
        chart = alt.vconcat(_key(balls, width_px), chart, spacing=4)
    description = f"Seen from above: {'; '.join(map(_ball_words, balls))}."
    return finished(chart, title, subtitle, " ".join(filter(None, (title, subtitle, description))))


def _ball_words(one: BallOnLine) -> str:
    parts = [f"{short_name(one.ball.name)} from board {one.paths.meant_board[0]:.0f}"]
    parts += [f"outermost at {one.turn_board:.0f}"] if np.isfinite(one.turn_board) else []
    is_there = is_at_head_pin(one.arrival_board)
    parts.append(
        f"arrives at {one.arrival_board:.1f}" if is_there else f"ends {arrival_text(one.arrival_board)}"
    )
    return ", ".join([*parts, f"oil to {one.paths.pattern.length_ft:.0f} ft"])


def _frame(balls: Sequence[BallOnLine], hand: Hand) -> _Frame:
    boards = np.concatenate([one.paths.path.path_board.ravel() for one in balls])
    low, high = float(np.floor(np.nanmin(boards))) - 0.5, float(np.ceil(np.nanmax(boards))) + 0.5
    scale = alt.Scale(domain=[low, high], nice=False, zero=False, reverse=hand == "left")
    top = "start" if hand == "left" else "end"  # a turned axis begins at the top
    along = alt.Scale(domain=[0, HEAD_PIN_FT], nice=False)
    return _Frame(
        alt.X("x:Q", title="ft from the foul line", scale=along, axis=alt.Axis(tickCount=7)),
        alt.Y("y:Q", title="board, own side", scale=scale, axis=alt.Axis(tickCount=6, titleAnchor=top)),
        low,
        high,
    )


def _path(boards: Any, every_ft: int = 1) -> Rows:
    rows = [{"x": ft, "y": round(float(board), 2)} for ft, board in enumerate(boards) if np.isfinite(board)]
    return rows[::every_ft] + (rows[-1:] if (len(rows) - 1) % every_ft else [])


def _paths(one: BallOnLine, number: int, frame: _Frame) -> list[Any]:
    """Return the thin lines of one ball, and its thick one."""
    thin = [
        {**row, "ball": ball}
        for ball, boards in enumerate(one.paths.balls_board.T)
        for row in _path(boards, _EVERY_FT)
    ]
    thick_look = {"strokeWidth": 3, "strokeDash": _DASHES[number]}
    return [
        layer(
            "line", rows, frame.along, frame.across, {"order": "x:Q"}, color=SERIES[number], clip=True, **look
        )
        for rows, look in (
            (thin, {"strokeWidth": 0.7, "opacity": 0.3}),
            (_path(one.paths.meant_board), thick_look),
        )
    ]


def _names(balls: Sequence[BallOnLine], frame: _Frame) -> list[Any]:
    """Return each ball's name beside where it ends, moved apart where two would touch."""
    ends = [_path(one.paths.meant_board)[-1] for one in balls]
    least = NAME_PX * (frame.high_board - frame.low_board) / HEIGHT_PX
    places = apart([end["y"] for end in ends], least)
    rows = [
        {**end, "y": round(place, 2), "text": short_name(one.ball.name)}
        for one, end, place in zip(balls, ends, places, strict=True)
    ]
    return [
        layer("text", [row], frame.along, frame.across, color=SERIES[number], dx=8, **_NAME)
        for number, row in enumerate(rows)
    ]


def _key(balls: Sequence[BallOnLine], width_px: int) -> Any:
    """Return the names over the lane, each beside a piece of its line."""
    x, y = alt.X("x:Q", scale=None, axis=None), alt.Y("y:Q", scale=None, axis=None)
    layers = []
    for number, ball in enumerate(balls):
        color, at = SERIES[number], {"y": NAME_PX * (number + 0.5)}
        dash = {"strokeWidth": 3, "strokeDash": _DASHES[number]}
        layers.append(layer("rule", [{"x": 0, "x2": 34, **at}], x, y, color=color, **dash))
        layers.append(
            layer("text", [{"x": 42, "text": short_name(ball.ball.name), **at}], x, y, color=color, **_NAME)
        )
    return alt.layer(*layers).properties(width=width_px, height=NAME_PX * len(balls), view={"stroke": None})
