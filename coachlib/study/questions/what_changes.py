"""What happens to the ball when one thing changes: thrown twice by the simulation, and compared."""

import dataclasses
import itertools
import math
from collections.abc import Mapping
from typing import Any, Final

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import line_if_it_fits
from coachlib.coaching.simulation.paths import LinePaths, line_paths
from coachlib.coaching.simulation.what_if import simulate_lines
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS, half_text, is_at_head_pin
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import checked_choice, raise_input_errors
from coachlib.study.questions.asker import BALL, PATTERN, starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, change_text, changed
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, Question, QuestionScene
from coachlib.study.questions.why_changes import why_hit
from coachlib.world.bowler import Walk
from coachlib.world.lane import HEAD_PIN_FT, arrival_class
from coachlib.world.levers import line_shift_boards
from coachlib.world.line import Move
from coachlib.world.parsing import boards_text

CAME_IN: Final = {"high": 19.0, "pocket": 17.5, "light": 15.5}
"""Where the ball comes in before the change, as near as lines of whole and half boards allow [board]."""

HOUSE_PATTERNS: Final = ("house_38", "house_40", "house_41")

NOSE_BOARD = 19.5
"""Where a ball that goes through the nose hits, where a lesson asks for one [board]."""

SAME_BOARDS = 0.5
"""Two hits nearer to each other than this look the same from behind the foul line (our guess) [boards]."""

LOW_BOARD, HIGH_BOARD = 10.0, 28.0
SIMULATED = "Simulated"
_MOVES = ((2, 1), (1, 1), (3, 2), (4, 2), (-2, -1), (-1, -1))
_CHANGES: tuple[dict[str, float], ...] = (
    *({"feet": float(feet), "eyes": float(eyes)} for feet, eyes in _MOVES),
    {"speed_mph": 0.5},
    {"speed_mph": -0.5},
    {"speed_mph": 1.0},
    {"rotation_deg": -15.0},
)


def hit_after(
    case: Case,
    change: Mapping[str, Any] | None = None,
    came_in: str = "pocket",
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = PATTERN,
    accepts_lever: bool = True,
) -> Question:
    """Return the question on which board the ball hits after a change.

    Parameters
    ----------
    change : mapping, optional
        Fields of :class:`coachlib.study.questions.changes.Change`; drawn if left out.
    came_in : {"high", "pocket", "light", "nose", "start", "any"}
        Where the ball hits before it; "start" is the line to start on, "any" is drawn, on a drawn house
        pattern.
    walk : {"slide", "walk"}
        How the one who is asked walks.
    ball, pattern : str
        Names in the data.
    accepts_lever : bool
        Whether what a move does on paper is a correct answer too.
    """
    now, after, made = _before_and_after(case, change, came_in, walk, ball, pattern)
    was, hits = _thrown(now).arrival_board, _thrown(after).arrival_board
    board = round(2 * hits) / 2
    accepts = [
        Accepted(board, 1.0, within=1.0),
        *_half_right(was, board),
    ]
    lever = float(line_shift_boards(made.move, HEAD_PIN_FT, walk)) if made.move.is_feet_and_eyes else None
    if lever is not None and accepts_lever and abs(was + lever - board) > 1:
        words = "That is the move on paper. The hook changes it: "
        accepts.append(Accepted(was + lever, 1.0, words + why_hit(made, now, after, case.hand), within=0.5))
    scene = QuestionScene(now, after, "balls", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(was)} {change_text(made, case.hand)} Where does your ball hit now?",
        ask=NumberAsk("board", LOW_BOARD, HIGH_BOARD, 0.5, round(2 * was) / 2, HEAD_PIN_FT),
        accepts=tuple(accepts),
        answer_text=f"At {half_text(hits)}, {shift_words(shown_shift(was, hits), case)}",
        why=why_hit(made, now, after, case.hand),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="On more oil, or less, the same change does something else.",
        source=SIMULATED,
        skills=("changes",),
    )


def way_after(
    case: Case,
    change: Mapping[str, Any] | None = None,
    came_in: str = "pocket",
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = PATTERN,
) -> Question:
    """Return the question to which side the hit moves after a change; arguments as for :func:`hit_after`."""
    now, after, made = _before_and_after(case, change, came_in, walk, ball, pattern)
    was, hits = _thrown(now).arrival_board, _thrown(after).arrival_board
    shift = hits - was
    best = "same" if abs(shift) < SAME_BOARDS else "high" if shift > 0 else "low"
    also = "same" if best != "same" else ("high" if shift > 0 else "low")
    is_near = SAME_BOARDS / 2 < abs(shift) < 1.5 * SAME_BOARDS
    near = Accepted(also, 0.5, "Half correct: the difference is too small to see.")
    scene = QuestionScene(now, after, "balls", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(was)} {change_text(made, case.hand)} How does it hit now?",
        ask=(
            Choice("high", f"higher, further {side_text(1, case.hand)}"),
            Choice("same", "about the same"),
            Choice("low", f"lighter, further {side_text(-1, case.hand)}"),
        ),
        accepts=(Accepted(best), *([near] if is_near else [])),
        answer_text=f"At {half_text(hits)}, {shift_words(shown_shift(was, hits), case)}",
        why=why_hit(made, now, after, case.hand),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="On more oil, or less, the same change does something else.",
        source=SIMULATED,
        skills=("changes",),
    )


def _half_right(was: float, board: float) -> list[Accepted]:
    """Return the boards one to two off that lie on the side to which the ball went: half correct."""
    if abs(board - was) < SAME_BOARDS:
        return [Accepted(board, 0.5, "Half correct: it hardly moves.", within=2.0)]
    sign = math.copysign(1.0, board - was)
    accepts = [Accepted(board + 1.5 * sign, 0.5, "Half correct: the right way, but too far.", within=0.5)]
    reach = min(2.0, abs(board - was) - SAME_BOARDS)
    if reach > 1.0:
        middle = board - sign * (1.0 + reach) / 2
        words = "Half correct: the right way, but not far enough."
        accepts.append(Accepted(middle, 0.5, words, within=(reach - 1.0) / 2))
    return accepts


def came_in_text(board: float) -> str:
    """Return where a ball hit, as a sentence such as ``You hit your target and come in high, at 19``."""
    if arrival_class(board) == "pocket":
        return f"You hit your target and the pocket, at {half_text(board)}."
    does = ARRIVAL_WORDS[arrival_class(board)].does
    verb, _, rest = does.partition(" ")
    plain = {"comes": "come", "hits": "hit", "goes": "go", "crosses": "cross", "misses": "miss"}[verb]
    return f"You hit your target and {plain} {rest}, at {half_text(board)}."


def shift_words(shift: float, case: Case) -> str:
    """Return how far a hit has moved: ``two boards further right``, or ``about the same``."""
    size = round(2 * abs(shift)) / 2
    if size < SAME_BOARDS:
        return "about the same"
    unit = "board" if size <= 1 else "boards"
    return f"{boards_text(size)} {unit} further {side_text(shift, case.hand)}"


def shown_shift(was: float, hits: float) -> float:
    """Return how far apart two hits are as they are shown, to the half board [boards]."""
    return (round(2 * hits) - round(2 * was)) / 2


def coming_in(session: Session, board: float) -> Session:
    """Return the session on the nearest line of half boards from which the ball hits at a board.

    Lines up to 4 boards of feet and 3 of eyes away are thrown; of those that hit within half a board the
    nearest one counts, else the one that hits nearest.
    """
    moves = [
        Move(feet_boards=float(feet), target_boards=half_eyes / 2)
        for feet in range(-4, 5)
        for half_eyes in range(-6, 7)
    ]
    fitting = [(move, line_if_it_fits(session.line, move, session.bowler)) for move in moves]
    lines = [line for _, line in fitting if line is not None]
    sizes = [move.size_boards for move, line in fitting if line is not None]
    hits = simulate_lines(session, lines).arrival_board
    offs = np.maximum(np.nan_to_num(np.abs(hits - board), nan=99.0), 0.25)
    off, _, at = min(zip(offs.tolist(), sizes, range(len(lines)), strict=True))
    line = lines[at]
    if off > 1.5:
        message = f"came_in is {board:g}; expected a board that a line nearby reaches. Choose another."
        raise_input_errors({"came_in": message})
    return dataclasses.replace(session, line=line)


def _before_and_after(
    case: Case, change: Mapping[str, Any] | None, came_in: str, walk: Walk, ball: str, pattern: str
) -> tuple[Session, Session, Change]:
    """Return what is thrown before and after the change, and the change."""
    given: Mapping[str, Any] = case.pick(_CHANGES) if change is None else change
    made = change_of(given)
    bowler = dataclasses.replace(case.bowler, walk=walk)
    checked_choice("came_in", came_in, (*CAME_IN, "nose", "start", "any"))
    cases = [(came_in, pattern)]
    if came_in == "any":
        every = list(itertools.product(CAME_IN, HOUSE_PATTERNS))
        cases = [every[int(at)] for at in case.draw.permutation(len(every))]
    for where, oil in cases:
        start = starting_session(bowler, ball, oil)
        now = start if where == "start" else coming_in(start, CAME_IN.get(where, NOSE_BOARD))
        after = changed(now, made)
        if is_at_head_pin(_thrown(after).arrival_board):
            return now, after, made
    message = f"change is {given}; expected one that leaves the ball on the pins. Make it smaller."
    raise_input_errors({"change": message})


def _thrown(session: Session) -> LinePaths:
    return line_paths(session, session.line)
