"""The simulated balls on the printed lane: thin lines, dots where they arrive, breakpoint, and the oil."""

from collections.abc import Sequence
from typing import Any

from coachlib.views.lane.lane_paper import BOARD_PX, STRIP_PX, LanePaper, PaperRow
from coachlib.views.lane.scene_parts import DrawnPath, LaneScene
from coachlib.views.lane.scene_paths import DOT_BOARDS
from coachlib.views.theme import INK, INK2, THEN, WOOD
from coachlib.world.lane import HIGH_EDGE_BOARD, LOW_EDGE_BOARD

STRIP_FREE_PX = 8.0
ROW_PX = DOT_BOARDS * BOARD_PX  # a row of dots is so wide, and no dot wider
BALL_EVERY_FT = 2  # a thin line needs no more places


def ball_layers(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return the layers of simulated balls; none where a scene has none."""
    played, advised = scene["played"]["path"], None if scene["advised"] is None else scene["advised"]["path"]
    if played is None:
        return []
    if advised is None:
        return [_thin(paper, played, INK2), *_dots(paper, played, 0, INK)]
    return [
        _thin(paper, played, INK2),
        _thin(paper, advised, THEN),
        *_dots(paper, played, 0, INK),
        *_dots(paper, advised, 1, THEN),
    ]


def oil_tint(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return the oil as a picture whose upper edge is the lane's left, for either hand."""
    oil = scene["oil"]
    if oil is None:
        return []
    left = HIGH_EDGE_BOARD if scene["hand"] == "right" else LOW_EDGE_BOARD
    size = {
        "width": round(oil["to_ft"] * paper.foot_px, 2),
        "height": round((HIGH_EDGE_BOARD - LOW_EDGE_BOARD) * BOARD_PX, 2),
    }
    row = [{"x": 0, "y": left, "url": oil["image"]}]
    return [paper.draw("image", row, aspect=False, align="left", baseline="top", **size)]


def breakpoint_ring(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return a ring where the ball as meant is farthest out on the line to play."""
    color, line = (INK, scene["played"]) if scene["advised"] is None else (THEN, scene["advised"])
    turn = None if line["path"] is None else line["path"]["breakpoint"]
    if turn is None:
        return []
    ring = [{"x": turn["at_ft"], "y": turn["board"]}]
    return [paper.draw("point", ring, shape="circle", size=80, fill=WOOD, stroke=color, strokeWidth=2)]


def path_rows(paper: LanePaper, boards: Sequence[float], every_ft: int = 1) -> list[PaperRow]:
    """Return the places of one path, given a board a foot; the last place is always kept."""
    rows = [{"x": ft, "y": board} for ft, board in enumerate(boards) if ft >= paper.from_ft]
    last = rows[-1:] if (len(rows) - 1) % every_ft else []
    return rows[::every_ft] + last


def _thin(paper: LanePaper, path: DrawnPath, color: str) -> Any:
    every_ft = 1 if paper.is_end else BALL_EVERY_FT
    rows = [
        {**row, "ball": ball}
        for ball, boards in enumerate(path["balls_board"])
        for row in path_rows(paper, boards, every_ft)
    ]
    return paper.draw("line", rows, color=color, strokeWidth=0.8, opacity=0.5)


def _dots(paper: LanePaper, path: DrawnPath, column: int, color: str) -> list[Any]:
    """Return a column of dots: a filled one is a strike, a hollow one is not."""
    most = max([rank for _, rank, _ in path["dots"]], default=0.0)
    pitch_px = min(ROW_PX, (STRIP_PX - STRIP_FREE_PX) / (most + 1.0))
    rows: dict[float, list[PaperRow]] = {0.0: [], 1.0: []}
    for board, rank, struck in path["dots"]:
        past_px = column * STRIP_PX + 2 + (rank + 0.5) * pitch_px
        rows[struck].append({"x": paper.dot_ft(past_px), "y": board})
    size = round((0.84 * pitch_px) ** 2)
    looks: dict[float, PaperRow] = {0.0: {"fill": WOOD}, 1.0: {"fill": color}}
    return [
        paper.draw(
            "point", rows[struck], shape="circle", size=size, stroke=color, strokeWidth=1, **looks[struck]
        )
        for struck in rows
    ]
