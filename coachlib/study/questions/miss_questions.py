"""Questions about missing the target: on paper, on oil, and how far one may miss from where."""

import dataclasses
import functools
from typing import Final

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.simulation.what_if import ROOM_BOARDS, simulate_lines
from coachlib.coaching.wording.arrival_words import half_text, is_at_head_pin
from coachlib.coaching.wording.callouts import line_text, side_text
from coachlib.errors import raise_input_errors
from coachlib.study.questions.asker import starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.lane_draws import drawn_lane
from coachlib.study.questions.question import Accepted, NumberAsk, Question, QuestionScene
from coachlib.study.questions.what_changes import (
    HIGH_BOARD,
    LOW_BOARD,
    SIMULATED,
    came_in_text,
    shift_words,
    shown_shift,
)
from coachlib.world.lane import FIRST_BOARD, HEAD_PIN_FT, LAST_BOARD, POCKET_BOARD
from coachlib.world.levers import laydown_board
from coachlib.world.line import Line
from coachlib.world.parsing import boards_text

PAPER: Final = "Similar triangles, straight line"
_MISSES = (0.5, 1.0, 1.5, 2.0)
_STRAIGHT_BOARDS = (16.0, 17.0, 18.0)
_TARGETS_FT = (12.0, 15.0, 20.0, 30.0)
_STANCES = range(-4, 5)
_AIM_STEP_BOARDS = 0.1


@dataclasses.dataclass(frozen=True)
class Room:
    """How far one may miss on a line.

    Parameters
    ----------
    session : Session
        On that line; its target is the half board nearest the middle of the room.
    low_board, high_board : float
        The outermost and the innermost aim that is good. [board]
    boards : float
        How wide the room is, to a tenth. [boards]
    """

    session: Session
    low_board: float
    high_board: float
    boards: float


def miss_on_paper(case: Case, miss: float = 0.0, target_ft: float = 0.0) -> Question:
    """Return the question how far off a straight ball is at the pins after a miss.

    Parameters
    ----------
    miss : float
        How far inside of the target the ball crosses, laydown kept; drawn if left out. [boards]
    target_ft : float
        Where the target is; drawn if left out. [ft]
    """
    now, missed = _paper_case(case, miss, target_ft)
    at_ft = now.line.target_ft
    off, side = abs(missed) * HEAD_PIN_FT / at_ft, side_text(missed, case.hand)
    answer = round(2 * off) / 2
    scene = QuestionScene(now, changed(now, Change(miss=missed)), "lines", "nothing")
    return case.question(
        scene=scene,
        prompt=f"You throw a straight ball up the boards. Your target is at {at_ft:g} ft. You miss it by "
        f"{_boards(missed)} to the {side}. How many boards off is it at the pins?",
        ask=NumberAsk("boards", 0.0, 12.0, 0.5, 0.0),
        accepts=(
            Accepted(answer, 1.0, within=0.5),
            Accepted(answer, 0.5, "Half correct: near, but not there.", within=1.0),
        ),
        answer_text=f"{_boards(off)} {side}",
        why="The line turns where the ball starts. The pins are "
        f"{boards_text(HEAD_PIN_FT / at_ft)} times as far from there as your target.",
        reveal=dataclasses.replace(scene, next_drawn="lines"),
        changes_text="A target further down makes the same miss smaller at the pins.",
        source=PAPER,
        skills=("miss room",),
    )


def hit_after_miss(case: Case, miss: float = 0.0, pattern: str = "", is_in_room: bool = True) -> Question:
    """Return the question where a ball that hooks hits after a miss.

    Parameters
    ----------
    miss : float
        How far inside of the target the ball crosses, laydown kept; drawn if left out. [boards]
    pattern : str
        A name in the data; drawn by the level if left out.
    is_in_room : bool
        Whether the line is the one with the most room; else one that comes in in the pocket.
    """
    on_start = drawn_lane(case, "start", pattern=pattern)
    now = most_room(on_start).session if is_in_room else drawn_lane(case, "pocket", pattern=pattern)
    missed = miss or case.pick(_MISSES[1:3]) * case.pick((-1, 1))
    after = changed(now, Change(miss=missed))
    was, hits = (line_paths(one, one.line).arrival_board for one in (now, after))
    if not (is_at_head_pin(was) and LOW_BOARD <= hits <= HIGH_BOARD):
        message = f"miss is {missed:g} boards; expected one after which the ball hits pins. Make it smaller."
        raise_input_errors({"miss": message})
    answer, lever = round(2 * hits) / 2, missed * HEAD_PIN_FT / now.line.target_ft
    accepts = [
        Accepted(answer, 1.0, within=1.0),
        Accepted(answer, 0.5, "Half correct: the right way, but not so far.", within=2.0),
    ]
    if (hits - was) / lever >= 0.5:
        words = "Half correct: so far goes a straight ball. The oil takes a part of it."
        accepts.append(Accepted(was + lever, 0.5, words, within=0.5))
    scene = QuestionScene(now, after, "balls", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(was)} The next ball misses your target by {_boards(missed)} to the "
        f"{side_text(missed, case.hand)}. Where does it hit?",
        ask=NumberAsk("board", LOW_BOARD, HIGH_BOARD, 0.5, round(2 * was) / 2, HEAD_PIN_FT),
        accepts=tuple(accepts),
        answer_text=f"At {half_text(hits)}, {shift_words(shown_shift(was, hits), case)}",
        why=_why_miss(now, after, lever, hits - was, side_text(missed, case.hand)),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="From another stance on the same lane the same miss can cost far more.",
        source=SIMULATED,
        skills=("miss room",),
    )


def room_at_target(case: Case, pattern: str = "") -> Question:
    """Return the question how wide the target is; the pattern as for :func:`hit_after_miss`."""
    room = most_room(drawn_lane(case, "start", pattern=pattern))
    now = room.session
    edges = [
        changed(now, Change(miss=edge - now.line.target_board)) for edge in (room.low_board, room.high_board)
    ]
    on_paper = 2 * ROOM_BOARDS * now.line.target_ft / HEAD_PIN_FT
    answer = round(2 * room.boards) / 2
    return case.question(
        scene=QuestionScene(now),
        prompt=f"{line_text(now.line)}. Say a ball is good when it hits within a board of 17½. "
        "How wide is the good part of your target?",
        ask=NumberAsk("boards", 0.0, 6.0, 0.5, 0.0),
        accepts=(
            Accepted(answer, 1.0, within=0.5),
            Accepted(answer, 0.5, "Half correct: near, but not there.", within=1.0),
        ),
        answer_text=f"{_boards(answer)} from this line",
        why=f"A straight ball has {_boards(on_paper)}. {_why_room(case, room.boards, on_paper)} "
        "The two lines drawn are its edges.",
        reveal=QuestionScene(edges[0], edges[1], "balls", "balls"),
        changes_text="A few boards of feet further in or out the room is gone.",
        source=SIMULATED,
        skills=("miss room",),
    )


@functools.lru_cache(maxsize=32)
def most_room(start: Session) -> Room:
    """Return the line with the most room for a miss.

    Stances up to 4 boards from its own are tried. Room is the longest stretch of boards at the target from
    which the ball hits within :data:`coachlib.coaching.simulation.what_if.ROOM_BOARDS` of the pocket, laydown
    kept.
    """
    feet = [start.line.feet_board + move for move in _STANCES]
    found = [_room_from(dataclasses.replace(start.line, feet_board=one), start) for one in feet]
    return max(found, key=lambda one: one.boards)


def _paper_case(case: Case, miss: float, target_ft: float) -> tuple[Session, float]:
    """Return who is asked on a line straight up the boards, and a miss that stays on the lane to the pins."""
    start = starting_session(case.bowler)
    fitting = [
        (board, at_ft, one)
        for board in _STRAIGHT_BOARDS
        for at_ft in ((target_ft,) if target_ft else _TARGETS_FT)
        for one in ((miss,) if miss else tuple(side * one for one in _MISSES for side in (-1, 1)))
        if FIRST_BOARD <= board + one * HEAD_PIN_FT / at_ft <= LAST_BOARD
    ]
    if not fitting:
        message = f"miss is {miss:g} boards; expected one that stays on the lane. Make it smaller."
        raise_input_errors({"miss": message})
    board, at_ft, missed = case.pick(fitting)
    line = Line(board + start.bowler.laydown_offset_boards, board, at_ft)
    return dataclasses.replace(start, line=line), missed


def _room_from(line: Line, start: Session) -> Room:
    """Return the room from a stance."""
    laid = laydown_board(line, start.bowler)
    aims = np.arange(max(FIRST_BOARD, laid - 12.0), min(laid, LAST_BOARD), _AIM_STEP_BOARDS)
    first = dataclasses.replace(start, line=dataclasses.replace(line, target_board=float(aims[0])))
    hits = simulate_lines(first, misses_boards=aims - aims[0]).arrival_board
    good = np.nan_to_num(np.abs(hits - POCKET_BOARD), nan=99.0) <= ROOM_BOARDS
    runs = np.flatnonzero(np.diff(np.concatenate([[0], good.astype(int), [0]])))
    starts, ends = runs[::2], runs[1::2]
    if not len(starts):
        return Room(start, line.target_board, line.target_board, 0.0)
    at = int(np.argmax(ends - starts))
    low, high = float(aims[starts[at]]), float(aims[ends[at] - 1])
    middle = dataclasses.replace(line, target_board=round(low + high) / 2)
    boards = round(float(ends[at] - starts[at]) * _AIM_STEP_BOARDS, 1)
    return Room(dataclasses.replace(start, line=middle), low, high, boards)


def _boards(boards: float) -> str:
    return f"{boards_text(boards)} {'board' if abs(boards) <= 1 else 'boards'}"


def _why_miss(now: Session, after: Session, lever: float, shift: float, side: str) -> str:
    """Return what becomes of a miss, read off the two simulated balls."""
    first, second = (line_paths(one, one.line) for one in (now, after))
    later = second.breakpoint_ft - first.breakpoint_ft
    turns = (
        f"turns {abs(later):.0f} ft {'later' if later > 0 else 'sooner'}"
        if abs(later) >= 0.75
        else "turns there too"
    )
    straight = f"Straight, it would be {boards_text(lever)} boards."
    if shift / lever >= 0.6:
        return f"{straight} There is nearly as much oil on both lines here, so most of the miss stays."
    if lever < 0:
        return f"{straight} Your ball {turns}, finds less oil on the {side} and comes back."
    return f"{straight} Your ball {turns}, and the oil on the {side} holds it."


def _why_room(case: Case, room: float, on_paper: float) -> str:
    if room >= 2 * on_paper:
        sides = (side_text(-1, case.hand), side_text(1, case.hand))
        return "Here a miss {} comes back and a miss {} is held.".format(*sides)
    return "Here the oil gives hardly more: the aim decides."
