"""Balls on one lane, path over path: which goes longer, which comes back more, where each arrives.

One colour and dash a ball, its name where it arrives; thick is the ball as meant, each thin line one ball of
the bowler's own twenty. Nothing is computed here.
"""

import dataclasses
from collections.abc import Sequence
from typing import Any, Literal

import numpy as np

from coachlib.coaching.equipment.ball_comparison import BallOnLine, Compared
from coachlib.coaching.wording.arrival_words import arrival_text, is_at_head_pin
from coachlib.views.charts.lesson_charts import apart
from coachlib.views.theme import HAIR, INK2, LINE, SERIES, SMALL_PX, finished
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, POCKET_HIGH_BOARD, POCKET_LOW_BOARD

On = Literal["line", "match", "best"]
WIDTH_PX, HEIGHT_PX, NAME_PX = 620, 300, 15
MOST_BALLS = 4
_DASHES: list[list[int]] = [[1, 0], [9, 4], [3, 3], [12, 3, 3, 3]]
_EVERY_FT = 2
_Rows = list[dict[str, Any]]


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
    """Return the lane from above with the paths of up to four balls.

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

    Returns
    -------
    altair.LayerChart or altair.VConcatChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    balls: list[BallOnLine] = [getattr(one, f"on_{on}") for one in compared[:MOST_BALLS]]
    frame = _frame(balls, hand)
    layers = [_pocket(frame), _oil_end(balls[0], frame)]
    for number, ball in enumerate(balls):
        layers += [_thin(ball, number, frame), _thick(ball, number, frame)]
    layers += [_oil_words(balls[0], frame, hand)] if has_key else _names(balls, frame, hand)
    chart: Any = alt.layer(*layers).properties(width=width_px, height=HEIGHT_PX)
    if has_key:
        chart = alt.vconcat(_key(balls, width_px), chart, spacing=4)
    told = "; ".join(_told(ball) for ball in balls)
    return finished(
        chart, title, subtitle, " ".join(filter(None, (title, subtitle, f"Seen from above: {told}.")))
    )


def _told(one: BallOnLine) -> str:
    parts = [f"{one.ball.name} from board {one.paths.meant_board[0]:.0f}"]
    parts += [f"outermost at {one.turn_board:.0f}"] if np.isfinite(one.turn_board) else []
    where = arrival_text(one.arrival_board)
    parts.append(
        f"arrives at {one.arrival_board:.1f}" if is_at_head_pin(one.arrival_board) else f"ends {where}"
    )
    return ", ".join([*parts, f"oil to {one.paths.pattern.length_ft:.0f} ft"])


def _frame(balls: Sequence[BallOnLine], hand: Hand) -> _Frame:
    import altair as alt

    boards = np.concatenate([one.paths.path.path_board.ravel() for one in balls])
    low, high = float(np.floor(np.nanmin(boards))) - 0.5, float(np.ceil(np.nanmax(boards))) + 0.5
    scale = alt.Scale(domain=[low, high], nice=False, zero=False, reverse=hand == "left")
    top: Any = "start" if hand == "left" else "end"  # a turned axis begins at the top
    along = alt.Scale(domain=[0, HEAD_PIN_FT], nice=False)
    return _Frame(
        alt.X("x:Q", title="ft from the foul line", scale=along, axis=alt.Axis(tickCount=7)),
        alt.Y("y:Q", title="board, own side", scale=scale, axis=alt.Axis(tickCount=6, titleAnchor=top)),
        low,
        high,
    )


def _chart(rows: _Rows, frame: _Frame, mark: str, **look: Any) -> Any:
    import altair as alt

    more = {"text": {"text": "text:N"}, "line": {"order": "x:Q"}}.get(mark, {})
    more |= {"detail": "ball:N"} if rows and "ball" in rows[0] else {}
    more |= {"x2": "x2:Q"} if rows and "x2" in rows[0] else {}
    more |= {"y2": "y2:Q"} if rows and "y2" in rows[0] else {}
    drawn = getattr(alt.Chart(alt.InlineData(values=rows)), f"mark_{mark}")(aria=False, **look)
    return drawn.encode(x=frame.along, y=frame.across, **more)


def _pocket(frame: _Frame) -> Any:
    low, high = POCKET_LOW_BOARD, POCKET_HIGH_BOARD
    row = {"x": HEAD_PIN_FT - 1.5, "x2": HEAD_PIN_FT, "y": low, "y2": high}
    return _chart([row], frame, "rect", color=HAIR, opacity=1)


def _oil_end(one: BallOnLine, frame: _Frame) -> Any:
    row = {"x": one.paths.pattern.length_ft, "y": frame.low_board, "y2": frame.high_board}
    return _chart([row], frame, "rule", color=LINE, strokeDash=[2, 4])


def _path(boards: Any, every_ft: int = 1) -> _Rows:
    rows = [{"x": ft, "y": round(float(board), 2)} for ft, board in enumerate(boards) if np.isfinite(board)]
    return rows[::every_ft] + (rows[-1:] if (len(rows) - 1) % every_ft else [])


def _thin(one: BallOnLine, number: int, frame: _Frame) -> Any:
    paths = one.paths.balls_board
    rows = [
        {**row, "ball": ball} for ball in range(paths.shape[1]) for row in _path(paths[:, ball], _EVERY_FT)
    ]
    return _chart(rows, frame, "line", color=SERIES[number], strokeWidth=0.7, opacity=0.3, clip=True)


def _thick(one: BallOnLine, number: int, frame: _Frame) -> Any:
    look = {"color": SERIES[number], "strokeWidth": 3, "strokeDash": _DASHES[number], "clip": True}
    return _chart(_path(one.paths.meant_board), frame, "line", **look)


def _names(balls: Sequence[BallOnLine], frame: _Frame, hand: Hand) -> list[Any]:
    """Return each ball's name beside where it ends, moved apart where two would touch, and the oil's end."""
    ends = [_path(one.paths.meant_board)[-1] for one in balls]
    least = NAME_PX * (frame.high_board - frame.low_board) / HEIGHT_PX
    places = apart([end["y"] for end in ends], least)
    layers = [
        _chart(
            [{**end, "y": round(place, 2), "text": one.ball.name}],
            frame,
            "text",
            align="left",
            dx=8,
            color=SERIES[number],
            fontSize=SMALL_PX,
            fontWeight="bold",
        )
        for number, (one, end, place) in enumerate(zip(balls, ends, places, strict=True))
    ]
    return [*layers, _oil_words(balls[0], frame, hand)]


def _oil_words(one: BallOnLine, frame: _Frame, hand: Hand) -> Any:
    top = frame.high_board if hand == "right" else frame.low_board
    row = {"x": one.paths.pattern.length_ft, "y": top, "text": "oil ends"}
    return _chart([row], frame, "text", align="left", dx=5, dy=8, color=INK2, fontSize=SMALL_PX)


def _key(balls: Sequence[BallOnLine], width_px: int) -> Any:
    """Return the names over the lane, each beside a piece of its line."""
    import altair as alt

    rows = [
        part
        for number, ball in enumerate(balls)
        for part in (
            _key_part(number, "rule", {"x": 0, "x2": 34}, strokeWidth=3, strokeDash=_DASHES[number]),
            _key_part(
                number,
                "text",
                {"x": 42, "text": ball.ball.name},
                align="left",
                fontSize=SMALL_PX,
                fontWeight="bold",
            ),
        )
    ]
    return alt.layer(*rows).properties(width=width_px, height=NAME_PX * len(balls), view={"stroke": None})


def _key_part(number: int, mark: str, place: dict[str, Any], **look: Any) -> Any:
    import altair as alt

    row = {**place, "y": NAME_PX * (number + 0.5)}
    drawn = getattr(alt.Chart(alt.InlineData(values=[row])), f"mark_{mark}")
    more = {"x2": alt.X2("x2:Q")} if mark == "rule" else {"text": "text:N"}
    return drawn(aria=False, color=SERIES[number], **look).encode(
        x=alt.X("x:Q", scale=None, axis=None), y=alt.Y("y:Q", scale=None, axis=None), **more
    )
