"""The lane from above as a printed picture: the scene of :mod:`coachlib.views.scene`, drawn once by Altair.

Across only; the live picture of the panels turns itself upright where it is narrow.
"""

from typing import Any

from coachlib.views.lane_paper import INCH_PX, Paper, Row, deck_ft
from coachlib.views.lane_words import RULER, lane_words
from coachlib.views.scene_parts import DrawnLine, LaneScene
from coachlib.views.theme import GUTTER, INK, INK2, LINE, NOW_DASH, PAPER, THEN, WOOD, finished
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD

SOLE = (
    "M-1 0C-1-.32-.62-.35-.31-.26C0-.18 .23-.38 .54-.38C.85-.38 1-.2 1 0"
    "C1 .2 .85 .38 .54 .38C.23 .38 0 .18-.31 .26C-.62 .35-1 .32-1 0Z"
)
SOLE_FT, OLD_SOLE_FT = -6.5, -11.0  # on the approach, which has no scale along
_CROSS = "M-1-1L1 1M-1 1L1-1"
_GUTTER_BOARDS = 1.2


def lane_chart(scene: LaneScene, title: str = "", subtitle: str = "") -> Any:
    """Return the lane from above: the line played, the next one, and the last ball.

    Parameters
    ----------
    scene : LaneScene
        From :func:`coachlib.views.scene.lane_scene` or :func:`coachlib.views.scene.lines_scene`.
    title, subtitle : str, optional
        The question the picture answers, and what is drawn.

    Returns
    -------
    altair.LayerChart
        Show it after :func:`coachlib.views.theme.enable_pictures`.
    """
    import altair as alt

    paper = Paper(scene["hand"], scene["pit_behind_in"])
    layers = [
        *_floor(paper, scene),
        *_lines(paper, scene),
        *_line_marks(paper, scene),
        *_pins(paper, scene),
        *_last_ball(paper, scene),
        *lane_words(paper, scene),
    ]
    chart = alt.layer(*layers).properties(width=paper.width_px, height=paper.height_px)
    return finished(chart, title, subtitle, scene["summary"])


def _floor(paper: Paper, scene: LaneScene) -> list[Any]:
    width = {"x": 0, "x2": paper.end_ft}
    full = {"y": LOW_EDGE_BOARD, "y2": HIGH_EDGE_BOARD}
    gutters = [
        {**width, "y": LOW_EDGE_BOARD - _GUTTER_BOARDS, "y2": LOW_EDGE_BOARD},
        {**width, "y": HIGH_EDGE_BOARD, "y2": HIGH_EDGE_BOARD + _GUTTER_BOARDS},
    ]
    boards = [{"x": 0, "x2": HEAD_PIN_FT, "y": board} for board in RULER]
    low, high = scene["pocket_board"]
    pocket = [{"x": 58, "x2": deck_ft(0), "y": low, "y2": high}]
    columns = [{"x": shift["at_ft"], **full} for shift in scene["shifts"] if shift["at_ft"] < HEAD_PIN_FT]
    if scene["oil_end_ft"] is not None:
        columns.append({"x": scene["oil_end_ft"], **full})
    return [
        paper.draw("rect", gutters, color=GUTTER),
        paper.draw("rect", [{**width, **full}], color=WOOD),
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


def _places(places: list[list[float]]) -> list[Row]:
    return [{"x": at_ft, "y": board} for at_ft, board in places]


def _lines(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return both lines: strong up to the target, thin beyond, where they are only the lever on paper."""
    played, advised = scene["played"], scene["advised"]
    if advised is None:
        return _line(paper, played, INK, {"strokeWidth": 3}, {"strokeWidth": 1.4})
    near, far = {"strokeWidth": 2, "strokeDash": NOW_DASH}, {"strokeWidth": 1.2, "strokeDash": [4, 4]}
    was = _line(paper, played, INK, near, far)
    return was + _line(paper, advised, THEN, {"strokeWidth": 3.6}, {"strokeWidth": 1.5})


def _line(paper: Paper, line: DrawnLine, color: str, near: Row, far: Row) -> list[Any]:
    start = {"x": line["start_ft"], "y": line["start_board"]}
    target = {"x": line["target_ft"], "y": line["target_board"]}
    end = {"x": line["end_ft"], "y": line["end_board"]}
    return [
        paper.draw("line", [start, target], color=color, **near),
        paper.draw("line", [target, end], color=color, **far),
    ]


def _line_marks(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return shifts, target, feet and pivot: hollow for the line played beside a next one, else filled."""
    played, advised, shifts = scene["played"], scene["advised"], scene["shifts"]
    hollow: Row = {"fill": WOOD, "stroke": INK, "strokeWidth": 1.5}
    solid: Row = {"fill": INK if advised is None else THEN, "strokeWidth": 0}
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


def _target_and_sole(paper: Paper, line: DrawnLine, sole_ft: float, sole: Row, diamond: Row) -> list[Any]:
    target = [{"x": line["target_ft"], "y": line["target_board"]}]
    feet = [{"x": sole_ft, "y": line["feet_board"]}]
    return [
        paper.draw("point", target, shape="diamond", size=170, **diamond),
        paper.draw(
            "point", feet, shape=SOLE, size=676, **{**sole, "fill": sole["fill"].replace(WOOD, PAPER)}
        ),
    ]


def _pins(paper: Paper, scene: LaneScene) -> list[Any]:
    size = round((2 * scene["pin_radius_in"] * INCH_PX) ** 2)
    layers = []
    for is_left, fill, ink, weight in ((False, PAPER, INK2, "normal"), (True, INK, PAPER, "bold")):
        pins = [pin for pin in scene["pins"] if pin["is_left"] == is_left]
        rows = [
            {"x": deck_ft(pin["behind_in"]), "y": pin["board"], "text": str(pin["number"])} for pin in pins
        ]
        layers.append(
            paper.draw("point", rows, shape="circle", size=size, fill=fill, stroke=LINE, strokeWidth=1)
        )
        layers.append(paper.write(rows, fontSize=11, color=ink, fontWeight=weight))
    return layers


def _last_ball(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return a ring where the last ball crossed and its outline, in true size, where it met the pins."""
    last = scene["last"]
    if last is None:
        return []
    ring: Row = {"shape": "circle", "stroke": INK, "strokeWidth": 1.6}
    crossed = [{"x": last["crossed_ft"], "y": last["crossed_board"]}] if last["crossed_text"] else []
    arrived = [{"x": deck_ft(-last["before_head_pin_in"]), "y": last["arrival_board"]}]
    size = round((2 * scene["ball_radius_in"] * INCH_PX) ** 2)
    return [
        paper.draw("point", crossed, size=324, **ring),
        paper.draw("point", arrived if last["arrival_text"] else [], size=size, **ring),
    ]
