"""The words on the printed lane: boards, distances, feet, target, shifts, and what was seen."""

from typing import Any

from coachlib.views.lane.lane_paper import (
    APPROACH_FT,
    NOTE_FROM_BOARDS,
    NOTE_ROW_BOARDS,
    ROW_BOARDS,
    STRIP_PX,
    LanePaper,
)
from coachlib.views.lane.scene_parts import DrawnLine, LaneScene
from coachlib.views.lane.scene_paths import NAMES
from coachlib.views.theme import INK, INK2, NUMBER_PX, THEN, Row
from coachlib.views.word_room import words_px
from coachlib.world.lane import HEAD_PIN_FT

RULER = (5, 10, 15, 20, 25, 30, 35)
TICKS_FT, END_TICKS_FT = (0, 15, 30, 45, 60), (40, 45, 50, 55)
RULER_PX, _BESIDE_BOARDS = 5.94, 9.0


def lane_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return the layers of words."""
    return [
        *_edge_words(paper, scene),
        *_words_below(paper),
        *_shift_words(paper, scene),
        *_ball_words(paper, scene),
        *([] if paper.is_end else [*_target_words(paper, scene), *_feet_words(paper, scene)]),
        *_seen_words(paper, scene),
    ]


def _edge_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    top, bottom = paper.beyond(ROW_BOARDS), paper.beyond(-ROW_BOARDS)
    ruler_ft = paper.from_ft - RULER_PX / paper.foot_px
    ruler = [_word(ruler_ft, board, str(board)) for board in RULER]
    ticks_ft = [ft for ft in (END_TICKS_FT if paper.is_end else TICKS_FT) if ft < 60 or not paper.strip_px]
    ticks = [_word(ft, bottom, f"{ft} ft" if ft else "foul line") for ft in ticks_ft]
    gutters = [
        _word(paper.end_ft, top, scene["left_gutter_text"]),
        _word(paper.end_ft, bottom, scene["right_gutter_text"]),
    ]
    oil_ft = scene["oil_end_ft"]
    is_oiled = oil_ft is not None and oil_ft >= paper.from_ft
    oil = [_word(oil_ft, 37, f"oil ends {oil_ft:g} ft")] if is_oiled else []
    return [
        paper.write(ruler, align="right"),
        paper.write(ticks),
        paper.write(gutters, align="right"),
        *paper.write_on_lane(oil, align="left", dx=4),
    ]


def _word(at_ft: float | None, board: float | None, text: str) -> Row:
    return {"x": at_ft, "y": board, "text": text}


def _words_below(paper: LanePaper) -> list[Any]:
    """Return what is likely to stay, below the deck, and under it what must be said of the picture."""
    n_deck, n_note = len(paper.deck_lines), len(paper.note_lines)
    rows = [paper.beyond(-(NOTE_FROM_BOARDS + row * NOTE_ROW_BOARDS)) for row in range(n_deck + n_note)]
    deck: dict[bool, list[Row]] = {False: [], True: []}
    for at, (name, text) in zip(rows, paper.deck_lines, strict=False):
        deck[name == NAMES[1]].append(_word(paper.end_ft, at, text))
    note = zip(rows[n_deck:], paper.note_lines, strict=True)
    return [
        paper.write(deck[False], align="right"),
        paper.write(deck[True], align="right", color=THEN),
        paper.write([_word(paper.left_ft, at, text) for at, text in note], align="left"),
    ]


def _shift_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return the shifts on paper, and in a row of its own what the simulated balls do at the pins."""
    simulated, low_row = scene["simulated_text"], paper.beyond(ROW_BOARDS)
    top = paper.beyond(2 * ROW_BOARDS) if simulated else low_row
    shifts = [_word(at["at_ft"], top, at["text"]) for at in scene["shifts"] if at["at_ft"] >= paper.from_ft]
    on_paper = "on paper:" if paper.is_end else "next line, on paper:"
    head = [_word(paper.from_ft, top, on_paper)] if shifts else []
    if simulated:
        shifts.append(_word(HEAD_PIN_FT, low_row, simulated))
        head.append(_word(paper.from_ft, low_row, "simulated:"))
    return [paper.write(shifts, color=THEN, fontWeight="bold"), paper.write(head, align="left")]


def _ball_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return how many of each line's dots strike, and the breakpoint unless the pivot's words stand there."""
    if not paper.strip_px:
        return []
    line, bottom = scene["advised"] or scene["played"], paper.beyond(-ROW_BOARDS)
    counts = []
    for column, (drawn, color) in enumerate(((scene["played"], INK), (scene["advised"], THEN))):
        if drawn is not None and drawn["path"] is not None:
            count = _word(paper.dot_ft(STRIP_PX * column + 2), bottom, drawn["path"]["count_text"])
            counts.append(paper.write([count], color=color, fontWeight="bold", align="left"))
    turn = line["path"] and line["path"]["breakpoint"]
    words = []
    if turn and turn["at_ft"] >= paper.from_ft and not _is_by_pivot(paper, scene, turn["at_ft"]):
        words = [_word(turn["at_ft"], turn["board"], turn["text"])]
    return [
        *counts,
        *paper.write_on_lane(words, align="left", dx=10, dy=19 if scene["hand"] == "right" else -19),
    ]


def _is_by_pivot(paper: LanePaper, scene: LaneScene, at_ft: float) -> bool:
    """Return whether words for a breakpoint there would run into those of the pivot."""
    pivot = scene["pivot"]
    if pivot is None or not pivot["is_apart"]:
        return False
    return -90 < (at_ft - pivot["at_ft"]) * paper.foot_px + 10 < 34


def _big(scene: LaneScene) -> Row:
    color = INK if scene["advised"] is None else THEN
    return {"fontSize": NUMBER_PX, "fontWeight": "bold", "color": color, "align": "left"}


def _big_px(text: str) -> float:
    """Return how wide a number in large type may be, so that the words beside it never touch it."""
    return words_px(text, NUMBER_PX, is_bold=True)


def _target_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
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


def _feet_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    played, line = scene["played"], scene["advised"] or scene["played"]
    is_inside = line["feet_board"] >= played["feet_board"]
    lift = -24 if is_inside == (scene["hand"] == "right") else 24
    at = {"x": -APPROACH_FT + 0.5, "y": line["feet_board"]}
    beside = round(_big_px(line["feet_text"]) + 5)
    old = _word(at["x"], played["feet_board"], f"was {played['feet_text']}")
    return [
        paper.write([{**at, "text": line["feet_text"]}], dy=lift, **_big(scene)),
        paper.write([{**at, "text": "feet"}], align="left", dx=beside, dy=lift + 5),
        paper.write([old] if scene["advised"] is not None else [], align="left", dy=round(-lift * 0.8)),
    ]


def _seen_words(paper: LanePaper, scene: LaneScene) -> list[Any]:
    """Return words for pivot and last ball, on the side of the line that is free."""
    last, pivot, down_px = scene["last"], scene["pivot"], 19 if scene["hand"] == "right" else -19
    pivots = [_word(pivot["at_ft"], pivot["board"], pivot["text"])] if pivot and pivot["is_apart"] else []
    layers = paper.write_on_lane(pivots, dy=down_px)
    if last is None:
        return layers
    crossed = _word(last["crossed_ft"], last["crossed_board"], last["crossed_text"])
    arrived = _word(paper.deck_ft(-last["before_head_pin_in"]), last["arrival_board"], last["arrival_text"])
    free_dy = round((-down_px if _runs_inside(scene["played"]) else down_px) * 1.15)
    layers += paper.write_on_lane([crossed] if crossed["text"] else [], align="right", dy=free_dy)
    return layers + paper.write_on_lane([arrived] if arrived["text"] else [], dy=round(down_px * 1.9))


def _runs_inside(line: DrawnLine) -> bool:
    return line["target_board"] > line["laydown_board"]
