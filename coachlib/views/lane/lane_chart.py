"""The lane from above as a printed picture: a scene, drawn once by Altair.

Across only; the live picture of the panels turns itself upright where it is narrow.
"""

from typing import Any

from coachlib.views.lane.lane_balls import ball_layers, breakpoint_ring, oil_tint, path_rows
from coachlib.views.lane.lane_paper import INCH_PX, LanePaper, PaperRow
from coachlib.views.lane.lane_words import RULER, lane_words
from coachlib.views.lane.scene_parts import DrawnLine, LaneScene
from coachlib.views.theme import GUTTER, INK, INK2, LINE, NOW_DASH, PAPER, THEN, WOOD, finished
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD

SOLE = (
    "M-1 0C-1-.32-.62-.35-.31-.26C0-.18 .23-.38 .54-.38C.85-.38 1-.2 1 0"
    "C1 .2 .85 .38 .54 .38C.23 .38 0 .18-.31 .26C-.62 .35-1 .32-1 0Z"
)
SOLE_FT, OLD_SOLE_FT = -6.5, -11.0  # on the approach, which has no scale along
_CROSS = "M-1-1L1 1M-1 1L1-1"
_GUTTER_BOARDS = 1.2
AIM_DASH = [2, 3]


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

    Returns
    -------
    altair.LayerChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    paper = LanePaper(scene, is_end)
    layers = [
        *_floor(paper, scene),
        *ball_layers(paper, scene),
        *_lines(paper, scene),
        *breakpoint_ring(paper, scene),
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
        *oil_tint(paper, scene),
        paper.draw("rule", boards, color=LINE, strokeWidth=0.5, opacity=0.4),
        paper.draw("rect", pocket, color=LINE, opacity=0.28),
        paper.draw("rule", columns, color=INK2, strokeWidth=0.8, strokeDash=[1, 4]),
        paper.draw("rule", [{"x": HEAD_PIN_FT, **full}], color=LINE),
        paper.draw("rule", [{"x": 0, **full}], color=INK, strokeWidth=2.5),
        paper.draw("point", _places(scene["dots"]), shape="circle", size=5, fill=INK2, strokeWidth=0),
        paper.draw(
            "point", _places(scene["arrows"]), shape="triangle-right", size=60, fill=INK2, strokeWidth=0
        ),
    ]


def _places(places: list[list[float]]) -> list[PaperRow]:
    return [{"x": at_ft, "y": board} for at_ft, board in places]


def _lines(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return both lines: strong where the ball goes, thin where a line is only aim or lever on paper."""
    played, advised = scene["played"], scene["advised"]
    thin: PaperRow = {"strokeWidth": 1, "strokeDash": AIM_DASH} if played["path"] is not None else {}
    aimed_ft = scene["pivot"]["at_ft"] if scene["pivot"] is not None else 0.0
    if advised is None:
        return _line(paper, played, aimed_ft, INK, {"strokeWidth": 3}, {"strokeWidth": 1.4, **thin})
    near, far = {"strokeWidth": 2, "strokeDash": NOW_DASH}, {"strokeWidth": 1.2, "strokeDash": [4, 4], **thin}
    was = _line(paper, played, aimed_ft, INK, near, far)
    return was + _line(paper, advised, aimed_ft, THEN, {"strokeWidth": 3.6}, {"strokeWidth": 1.5, **thin})


def _line(
    paper: LanePaper, line: DrawnLine, aimed_ft: float, color: str, near: PaperRow, far: PaperRow
) -> list[Any]:
    """Return the ball's path and its aim line up to target or pivot; without a path the straight line."""
    start = {"x": line["start_ft"], "y": line["start_board"]}
    target = {"x": line["target_ft"], "y": line["target_board"]}
    end = {"x": line["end_ft"], "y": line["end_board"]}
    strong, thin = [start, target], [target, end]
    if line["path"] is not None:
        strong, thin = path_rows(paper, line["path"]["meant_board"]), [start, _along(line, aimed_ft)]
    return [paper.draw("line", strong, color=color, **near), paper.draw("line", thin, color=color, **far)]


def _along(line: DrawnLine, at_ft: float) -> PaperRow:
    """Return the place on the straight line at some distance, not before the target and not off the lane."""
    at_ft = min(max(at_ft, line["target_ft"]), line["end_ft"])
    share = (at_ft - line["start_ft"]) / (line["end_ft"] - line["start_ft"])
    board = line["start_board"] + share * (line["end_board"] - line["start_board"])
    return {"x": at_ft, "y": round(board, 2)}


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
    hollow: PaperRow = {"fill": WOOD, "stroke": INK, "strokeWidth": 1.5}
    solid: PaperRow = {"fill": INK if advised is None else THEN, "strokeWidth": 0}
    was = [{"x": at["at_ft"], "y": at["played_board"]} for at in shifts if at["played_board"] is not None]
    will_be = [
        {"x": at["at_ft"], "y": at["advised_board"]} for at in shifts if at["advised_board"] is not None
    ]
    layers = [
        paper.draw("point", was, shape="circle", size=36, **hollow),
        paper.draw("point", will_be, shape="circle", size=56, **solid),
    ]
    if advised is not None:
        layers += _target_and_sole(paper, played, OLD_SOLE_FT, {**hollow, "strokeDash": [3, 2]}, hollow)
    layers += _target_and_sole(paper, advised or played, SOLE_FT, solid, solid)
    pivot = scene["pivot"]
    cross = [{"x": pivot["at_ft"], "y": pivot["board"]}] if pivot is not None and pivot["is_apart"] else []
    return [*layers, paper.draw("point", cross, shape=_CROSS, size=130, stroke=INK, strokeWidth=2)]


def _target_and_sole(
    paper: LanePaper, line: DrawnLine, sole_ft: float, sole: PaperRow, diamond: PaperRow
) -> list[Any]:
    target = [{"x": line["target_ft"], "y": line["target_board"]}]
    feet = [{"x": sole_ft, "y": line["feet_board"]}]
    return [
        paper.draw("point", target, shape="diamond", size=170, **diamond),
        paper.draw(
            "point", feet, shape=SOLE, size=676, **{**sole, "fill": sole["fill"].replace(WOOD, PAPER)}
        ),
    ]


def _pins(paper: LanePaper, scene: LaneScene) -> list[Any]:
    size = round((2 * scene["pin_radius_in"] * INCH_PX) ** 2)
    layers = []
    for is_left, fill, ink, weight in ((False, PAPER, INK2, "normal"), (True, INK, PAPER, "bold")):
        pins = [pin for pin in scene["pins"] if pin["is_left"] == is_left]
        rows = [
            {"x": paper.deck_ft(pin["behind_in"]), "y": pin["board"], "text": str(pin["number"])}
            for pin in pins
        ]
        layers.append(
            paper.draw("point", rows, shape="circle", size=size, fill=fill, stroke=LINE, strokeWidth=1)
        )
        layers.append(paper.write(rows, fontSize=11, color=ink, fontWeight=weight))
    return layers


def _last_ball(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return a ring where the last ball crossed and its outline, in true size, where it met the pins."""
    last = scene["last"]
    if last is None:
        return []
    ring: PaperRow = {"shape": "circle", "stroke": INK, "strokeWidth": 1.6}
    crossed = [{"x": last["crossed_ft"], "y": last["crossed_board"]}] if last["crossed_text"] else []
    arrived = [{"x": paper.deck_ft(-last["before_head_pin_in"]), "y": last["arrival_board"]}]
    size = round((2 * scene["ball_radius_in"] * INCH_PX) ** 2)
    return [
        paper.draw("point", crossed, size=324, **ring),
        paper.draw("point", arrived if last["arrival_text"] else [], size=size, **ring),
    ]
