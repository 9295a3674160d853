"""The words on the printed lane: boards, distances, feet, target, shifts, and what was seen."""

from typing import Any

from coachlib.views.lane_paper import APPROACH_FT, FOOT_PX, INCH_PX, Paper, Row, deck_ft
from coachlib.views.scene_parts import DrawnLine, LaneScene
from coachlib.views.theme import INK, INK2, NUMBER_PX, THEN

RULER = (5, 10, 15, 20, 25, 30, 35)
TICKS_FT = (0, 15, 30, 45, 60)
_ROW_BOARDS = 3.2  # the rows of words beyond the lane's edges
_NOTE_BOARDS = (6.6, 9.6)
_BESIDE_BOARDS = 9.0


def lane_words(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return the layers of words."""
    return [
        *_edge_words(paper, scene),
        *_shift_words(paper, scene),
        *_target_words(paper, scene),
        *_feet_words(paper, scene),
        *_seen_words(paper, scene),
    ]


def _edge_words(paper: Paper, scene: LaneScene) -> list[Any]:
    top, bottom = paper.beyond(_ROW_BOARDS), paper.beyond(-_ROW_BOARDS)
    ruler = [{"x": -0.9, "y": board, "text": str(board)} for board in RULER]
    ticks = [{"x": ft, "y": bottom, "text": f"{ft} ft" if ft else "foul line"} for ft in TICKS_FT]
    gutters = [
        {"x": paper.end_ft, "y": top, "text": scene["left_gutter_text"]},
        {"x": paper.end_ft, "y": bottom, "text": scene["right_gutter_text"]},
    ]
    stretch = f"Up to 60 ft a board is drawn {INCH_PX * 12 / FOOT_PX:.0f} times too wide."
    note = [
        {"x": -APPROACH_FT, "y": paper.beyond(-below), "text": text}
        for below, text in zip(_NOTE_BOARDS, (scene["note"], stretch), strict=True)
    ]
    oil_ft = scene["oil_end_ft"]
    oil = [] if oil_ft is None else [{"x": oil_ft, "y": 37, "text": f"oil ends {oil_ft:g} ft"}]
    return [
        paper.write(ruler, align="right"),
        paper.write(ticks),
        paper.write(gutters, align="right"),
        paper.write(note, align="left"),
        *paper.write_on_lane(oil, align="left", dx=4),
    ]


def _shift_words(paper: Paper, scene: LaneScene) -> list[Any]:
    top = paper.beyond(_ROW_BOARDS)
    shifts = [{"x": shift["at_ft"], "y": top, "text": shift["text"]} for shift in scene["shifts"]]
    head = [{"x": 0, "y": top, "text": "next line, on paper:"}] if shifts else []
    return [paper.write(shifts, color=THEN, fontWeight="bold"), paper.write(head, align="left")]


def _big(scene: LaneScene) -> Row:
    color = INK if scene["advised"] is None else THEN
    return {"fontSize": NUMBER_PX, "fontWeight": "bold", "color": color, "align": "left"}


def _big_px(text: str) -> float:
    """Return how wide a number in large type is: digits .556 em, ½ .834 em in the metrics of the font."""
    return NUMBER_PX * sum(0.834 if letter == "½" else 0.556 for letter in text)


def _target_words(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return the target's number and words, on the side of the diamond to which the line does not run."""
    played, line = scene["played"], scene["advised"] or scene["played"]
    away = -_BESIDE_BOARDS if _runs_inside(line) else _BESIDE_BOARDS
    at = {"x": line["target_ft"] + 1.5, "y": min(37.5, max(2.5, line["target_board"] + away))}
    leader = [{"x": line["target_ft"], "y": line["target_board"], "x2": at["x"], "y2": at["y"]}]
    was = "" if scene["advised"] is None else f", was {played['target_text']}"
    words = [{**at, "text": f"target at {line['target_ft']:g} ft{was}"}]
    return [
        paper.draw("rule", leader, color=INK2, strokeWidth=1),
        *paper.write_on_lane([{**at, "text": line["target_text"]}], dx=3, **_big(scene)),
        *paper.write_on_lane(words, align="left", dx=round(_big_px(line["target_text"]) + 9), dy=5),
    ]


def _feet_words(paper: Paper, scene: LaneScene) -> list[Any]:
    played, line = scene["played"], scene["advised"] or scene["played"]
    is_inside = line["feet_board"] >= played["feet_board"]
    lift = -24 if is_inside == (scene["hand"] == "right") else 24
    at = {"x": -APPROACH_FT + 0.5, "y": line["feet_board"]}
    beside = round(_big_px(line["feet_text"]) + 5)
    old = {"x": at["x"], "y": played["feet_board"], "text": f"was {played['feet_text']}"}
    return [
        paper.write([{**at, "text": line["feet_text"]}], dy=lift, **_big(scene)),
        paper.write([{**at, "text": "feet"}], align="left", dx=beside, dy=lift + 5),
        paper.write([old] if scene["advised"] is not None else [], align="left", dy=round(-lift * 0.8)),
    ]


def _seen_words(paper: Paper, scene: LaneScene) -> list[Any]:
    """Return words for pivot and last ball, on the side of the line that is free."""
    last, pivot, down_px = scene["last"], scene["pivot"], 19 if scene["hand"] == "right" else -19
    pivots = (
        [{"x": pivot["at_ft"], "y": pivot["board"], "text": pivot["text"]}]
        if pivot and pivot["is_apart"]
        else []
    )
    layers = paper.write_on_lane(pivots, dy=down_px)
    if last is None:
        return layers
    crossed = {"x": last["crossed_ft"], "y": last["crossed_board"], "text": last["crossed_text"]}
    arrived = {
        "x": deck_ft(-last["before_head_pin_in"]),
        "y": last["arrival_board"],
        "text": last["arrival_text"],
    }
    free_px = -down_px if _runs_inside(scene["played"]) else down_px
    layers += paper.write_on_lane(
        [crossed] if crossed["text"] else [], align="right", dy=round(free_px * 1.15)
    )
    return layers + paper.write_on_lane([arrived] if arrived["text"] else [], dy=round(down_px * 1.9))


def _runs_inside(line: DrawnLine) -> bool:
    return line["target_board"] > line["laydown_board"]
