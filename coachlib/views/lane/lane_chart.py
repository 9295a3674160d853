"""The lane from above as a printed picture: a scene, drawn once by Altair.

Across only; the live picture of the panels turns itself upright where it is narrow.
"""

from collections.abc import Sequence
from typing import Any

from coachlib.views.lane.lane_paper import BOARD_PX, INCH_PX, STRIP_PX, LanePaper
from coachlib.views.lane.lane_words import RULER, lane_words
from coachlib.views.lane.scene_parts import DrawnLine, DrawnPath, LaneScene
from coachlib.views.lane.scene_paths import DOT_BOARDS
from coachlib.views.theme import (
    GUTTER,
    INK,
    INK2,
    LINE,
    NOW_DASH,
    PAPER,
    THEN,
    WOOD,
    Row,
    Rows,
    alt,
    finished,
)
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD

SOLE = (
    "M-1 0C-1-.32-.62-.35-.31-.26C0-.18 .23-.38 .54-.38C.85-.38 1-.2 1 0"
    "C1 .2 .85 .38 .54 .38C.23 .38 0 .18-.31 .26C-.62 .35-1 .32-1 0Z"
)
SOLE_FT, OLD_SOLE_FT = -6.5, -11.0  # on the approach, which has no scale along
_CROSS = "M-1-1L1 1M-1 1L1-1"
_GUTTER_BOARDS = 1.2
AIM_DASH = [2, 3]
STRIP_FREE_PX = 8.0
ROW_PX = DOT_BOARDS * BOARD_PX  # a row of dots is so wide, and no dot wider
BALL_EVERY_FT = 2  # a thin line needs no more places


def lane_chart(scene: LaneScene, title: str = "", subtitle: str = "", *, is_end: bool = False) -> Any:
    """Return the lane from above: the line played, the next one, simulated balls, and the last ball seen.

    Parameters
    ----------
    scene : LaneScene
        From :func:`coachlib.views.lane.scene.lane_scene` or :func:`coachlib.views.lane.scene.lines_scene`.
    title, subtitle : str, optional
        The question the picture answers, and what is drawn.
    is_end : bool, default False
        The last 20 ft instead of the whole lane.
    """
    paper = LanePaper(scene, is_end)
    layers = [
        *_floor(paper, scene),
        *_balls(paper, scene),
        *_lines(paper, scene),
        *_breakpoint(paper, scene),
        *_line_marks(paper, scene),
        *_pins(paper, scene),
        *_last_ball(paper, scene),
        *_margin(paper),
        *lane_words(paper, scene),
    ]
    chart = alt.layer(*layers).properties(width=paper.width_px, height=paper.height_px)
    return finished(chart, title, subtitle, scene["summary"])


def _floor(paper: LanePaper, scene: LaneScene) -> list[Any]:
    width = {"x": 0, "x2": paper.end_ft}
    full = {"y": LOW_EDGE_BOARD, "y2": HIGH_EDGE_BOARD}
    gutters = [
        {**width, "y": LOW_EDGE_BOARD - _GUTTER_BOARDS, "y2": LOW_EDGE_BOARD},
        {**width, "y": HIGH_EDGE_BOARD, "y2": HIGH_EDGE_BOARD + _GUTTER_BOARDS},
    ]
    boards = [{"x": 0, "x2": HEAD_PIN_FT, "y": board} for board in RULER]
    low, high = scene["pocket_board"]
    pocket = [{"x": 58, "x2": paper.deck_ft(0), "y": low, "y2": high}]
    columns = [{"x": shift["at_ft"], **full} for shift in scene["shifts"] if shift["at_ft"] < HEAD_PIN_FT]
    if scene["oil_end_ft"] is not None:
        columns.append({"x": scene["oil_end_ft"], **full})
    return [
        paper.draw("rect", gutters, color=GUTTER),
        paper.draw("rect", [{**width, **full}], color=WOOD),
        *_oil_tint(paper, scene),
        paper.draw("rule", boards, color=LINE, strokeWidth=0.5, opacity=0.4),
        paper.draw("rect", pocket, color=LINE, opacity=0.28),
        paper.draw("rule", columns, color=INK2, strokeWidth=0.8, strokeDash=[1, 4]),
        paper.draw("rule", [{"x": HEAD_PIN_FT, **full}], color=LINE),
        paper.draw("rule", [{"x": 0, **full}], color=INK, strokeWidth=2.5),
        *(
            paper.draw(
                "point",
                [_place(at_ft, board) for at_ft, board in places],
                shape=shape,
                size=size,
                fill=INK2,
                strokeWidth=0,
            )
            for places, shape, size in ((scene["dots"], "circle", 5), (scene["arrows"], "triangle-right", 60))
        ),
    ]


def _place(at_ft: float, board: float | None) -> Row:
    return {"x": at_ft, "y": board}


def _oil_tint(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return the oil as a picture whose upper edge is the lane's left, for either hand."""
    oil = scene["oil"]
    if oil is None:
        return []
    left = HIGH_EDGE_BOARD if scene["hand"] == "right" else LOW_EDGE_BOARD
    size = {
        "width": round(oil["to_ft"] * paper.foot_px, 2),
        "height": round((HIGH_EDGE_BOARD - LOW_EDGE_BOARD) * BOARD_PX, 2),
    }
    row = {**_place(0, left), "url": oil["image"]}
    return [paper.draw("image", [row], aspect=False, align="left", baseline="top", **size)]


def _balls(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return thin lines and dots of the simulated balls; none where a scene has none."""
    played, advised = scene["played"]["path"], scene["advised"] and scene["advised"]["path"]
    if played is None:
        return []
    thin, dots = [_thin(paper, played, INK2)], _dots(paper, played, 0, INK)
    if advised is None:
        return thin + dots
    return [*thin, _thin(paper, advised, THEN), *dots, *_dots(paper, advised, 1, THEN)]


def _path_rows(paper: LanePaper, boards: Sequence[float], every_ft: int = 1) -> Rows:
    """Return the places of one path, given a board a foot; the last place is always kept."""
    rows = [_place(ft, board) for ft, board in enumerate(boards) if ft >= paper.from_ft]
    return rows[::every_ft] + (rows[-1:] if (len(rows) - 1) % every_ft else [])


def _thin(paper: LanePaper, path: DrawnPath, color: str) -> Any:
    every_ft = 1 if paper.is_end else BALL_EVERY_FT
    rows = [
        {**row, "ball": ball}
        for ball, boards in enumerate(path["balls_board"])
        for row in _path_rows(paper, boards, every_ft)
    ]
    return paper.draw("line", rows, color=color, strokeWidth=0.8, opacity=0.5)


def _dots(paper: LanePaper, path: DrawnPath, column: int, color: str) -> list[Any]:
    """Return a column of dots: a filled one is a strike, a hollow one is not."""
    most = max([rank for _, rank, _ in path["dots"]], default=0.0)
    pitch_px = min(ROW_PX, (STRIP_PX - STRIP_FREE_PX) / (most + 1.0))
    look = {"shape": "circle", "size": round((0.84 * pitch_px) ** 2), "stroke": color, "strokeWidth": 1}
    layers = []
    for is_strike, fill in ((0.0, WOOD), (1.0, color)):
        rows = [
            _place(paper.dot_ft(column * STRIP_PX + 2 + (rank + 0.5) * pitch_px), board)
            for board, rank, struck in path["dots"]
            if struck == is_strike
        ]
        layers.append(paper.draw("point", rows, fill=fill, **look))
    return layers


def _lines(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return both lines: strong where the ball goes, thin where a line is only aim or lever on paper."""
    played, advised = scene["played"], scene["advised"]
    thin: Row = {"strokeWidth": 1, "strokeDash": AIM_DASH} if played["path"] is not None else {}
    aimed_ft = scene["pivot"]["at_ft"] if scene["pivot"] is not None else 0.0
    if advised is None:
        return _line(paper, played, aimed_ft, INK, {"strokeWidth": 3}, {"strokeWidth": 1.4, **thin})
    near, far = {"strokeWidth": 2, "strokeDash": NOW_DASH}, {"strokeWidth": 1.2, "strokeDash": [4, 4], **thin}
    was = _line(paper, played, aimed_ft, INK, near, far)
    return was + _line(paper, advised, aimed_ft, THEN, {"strokeWidth": 3.6}, {"strokeWidth": 1.5, **thin})


def _line(paper: LanePaper, line: DrawnLine, aimed_ft: float, color: str, near: Row, far: Row) -> list[Any]:
    """Return the ball's path and its aim line up to target or pivot; without a path the straight line."""
    start = _place(line["start_ft"], line["start_board"])
    target = _place(line["target_ft"], line["target_board"])
    end = _place(line["end_ft"], line["end_board"])
    strong, thin = [start, target], [target, end]
    if line["path"] is not None:
        strong, thin = _path_rows(paper, line["path"]["meant_board"]), [start, _along(line, aimed_ft)]
    return [paper.draw("line", strong, color=color, **near), paper.draw("line", thin, color=color, **far)]


def _along(line: DrawnLine, at_ft: float) -> Row:
    """Return the place on the straight line at some distance, not before the target and not off the lane."""
    at_ft = min(max(at_ft, line["target_ft"]), line["end_ft"])
    share = (at_ft - line["start_ft"]) / (line["end_ft"] - line["start_ft"])
    board = line["start_board"] + share * (line["end_board"] - line["start_board"])
    return _place(at_ft, round(board, 2))


def _breakpoint(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return a ring where the ball as meant is farthest out on the line to play."""
    path = (scene["advised"] or scene["played"])["path"]
    if path is None or (turn := path["breakpoint"]) is None:
        return []
    look = {"shape": "circle", "size": 80, "fill": WOOD, "stroke": THEN if scene["advised"] else INK}
    return [paper.draw("point", [_place(turn["at_ft"], turn["board"])], strokeWidth=2, **look)]


def _margin(paper: LanePaper) -> list[Any]:
    """Return bare paper before the last 20 ft, where lines come in from the front of the lane."""
    if not paper.is_end:
        return []
    low, high = LOW_EDGE_BOARD - _GUTTER_BOARDS, HIGH_EDGE_BOARD + _GUTTER_BOARDS
    return [
        paper.draw("rect", [{"x": paper.left_ft, "x2": paper.from_ft, "y": low, "y2": high}], color=PAPER)
    ]


def _line_marks(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return shifts, target, feet and pivot: hollow for the line played beside a next one, else filled.

    Shifts are marked on straight lines only: a simulated ball goes elsewhere.
    """
    played, advised = scene["played"], scene["advised"]
    shifts = scene["shifts"] if played["path"] is None else []
    hollow: Row = {"fill": WOOD, "stroke": INK, "strokeWidth": 1.5}
    solid: Row = {"fill": INK if advised is None else THEN, "strokeWidth": 0}
    was = [_place(at["at_ft"], at["played_board"]) for at in shifts if at["played_board"] is not None]
    new = [_place(at["at_ft"], at["advised_board"]) for at in shifts if at["advised_board"] is not None]
    layers = [
        paper.draw("point", was, shape="circle", size=36, **hollow),
        paper.draw("point", new, shape="circle", size=56, **solid),
    ]
    if advised is not None:
        layers += _target_and_sole(paper, played, OLD_SOLE_FT, {**hollow, "strokeDash": [3, 2]}, hollow)
    layers += _target_and_sole(paper, advised or played, SOLE_FT, solid, solid)
    pivot = scene["pivot"]
    cross = [_place(pivot["at_ft"], pivot["board"])] if pivot is not None and pivot["is_apart"] else []
    return [*layers, paper.draw("point", cross, shape=_CROSS, size=130, stroke=INK, strokeWidth=2)]


def _target_and_sole(paper: LanePaper, line: DrawnLine, sole_ft: float, sole: Row, diamond: Row) -> list[Any]:
    target, feet = _place(line["target_ft"], line["target_board"]), _place(sole_ft, line["feet_board"])
    sole = {**sole, "fill": sole["fill"].replace(WOOD, PAPER)}
    return [
        paper.draw("point", [target], shape="diamond", size=170, **diamond),
        paper.draw("point", [feet], shape=SOLE, size=676, **sole),
    ]


def _pins(paper: LanePaper, scene: LaneScene) -> list[Any]:
    size = round((2 * scene["pin_radius_in"] * INCH_PX) ** 2)
    layers = []
    for is_left, fill, ink, weight in ((False, PAPER, INK2, "normal"), (True, INK, PAPER, "bold")):
        rows = [
            {**_place(paper.deck_ft(pin["behind_in"]), pin["board"]), "text": str(pin["number"])}
            for pin in scene["pins"]
            if pin["is_left"] == is_left
        ]
        look = {"shape": "circle", "size": size, "fill": fill, "stroke": LINE, "strokeWidth": 1}
        layers.append(paper.draw("point", rows, **look))
        layers.append(paper.write(rows, fontSize=11, color=ink, fontWeight=weight))
    return layers


def _last_ball(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return a ring where the last ball crossed and its outline, in true size, where it met the pins."""
    last = scene["last"]
    if last is None:
        return []
    ring: Row = {"shape": "circle", "stroke": INK, "strokeWidth": 1.6}
    crossed = [_place(last["crossed_ft"], last["crossed_board"])] if last["crossed_text"] else []
    arrived = [_place(paper.deck_ft(-last["before_head_pin_in"]), last["arrival_board"])]
    size = round((2 * scene["ball_radius_in"] * INCH_PX) ** 2)
    return [
        paper.draw("point", crossed, size=324, **ring),
        paper.draw("point", arrived if last["arrival_text"] else [], size=size, **ring),
    ]
