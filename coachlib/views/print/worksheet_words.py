"""The words of a clinic paper: what is told, what is asked, and the answers with their why and their grade.

Nothing is computed here but the wording; left and right, and the pins, are turned for the hand of the class.
"""

import dataclasses
from collections.abc import Mapping

from coachlib.coaching.advice.advice import Advice
from coachlib.coaching.rules.rule import Rule
from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.ball_reading import miss_lever, on_target_boards
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.wording.advice_text import say
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import (
    count_text,
    line_text,
    move_text,
    rule_name,
    side_text,
    with_sides,
)
from coachlib.study.questions.worksheet_stories import clinic_bowler
from coachlib.study.questions.worksheet_tasks import (
    PREDICTED_AT_FT,
    MoveTask,
    PredictTask,
    ReadTask,
    Whose,
)
from coachlib.study.questions.worksheets import Worksheet
from coachlib.views.lane.scene_paths import shift_text
from coachlib.world.hand import own_pins
from coachlib.world.parsing import board_text, boards_text
from coachlib.world.pins import leave_name

BOXES: Mapping[Whose, str] = {
    "bowler": "the bowler",
    "lane": "the lane",
    "both": "both",
    "cannot tell": "cannot tell yet",
}
TURNED = {"skid_long": "hardly", "over_hook": "too sharply", "roll_out": "turned and died"}
READ_QUESTION = "Whose doing was the last ball?"
MOVE_QUESTION = "Which move of feet and eyes comes next?"
PREDICT_QUESTION = "Where is the straight line after the move?"
NO_MOVE = "no move yet"
PREDICT_SOURCE = "Straight lines on paper, derived."
TOLERANCE = "Good within a third of a board."  # drills of the trade: +-0.3 board
CAUTION = (
    "Never step past the foul line to look. If thumb, wrist, back or knee hurts, stop and say so. "
    "Your hall's rules and your coach come before this paper."
)


@dataclasses.dataclass(frozen=True)
class Answered:
    """One answer in words.

    `also` is what is right too, empty where nothing is; `source` is the rule behind it and how well it is
    founded.
    """

    short: str
    also: str
    why: str
    source: str


def boxes(paper: Worksheet) -> tuple[str, ...]:
    """Return what may be ticked for a shot to read: "both" only where a level knows it."""
    known = {whose for whose, _ in paper.level.reads}
    return tuple(text for whose, text in BOXES.items() if whose != "both" or whose in known)


def help_texts(paper: Worksheet) -> tuple[str, ...]:
    """Return what holds in all tasks of a paper."""
    bowler, hand = clinic_bowler(paper.hand), paper.hand
    lever, patience = miss_lever(bowler, 15.0), load_rulebook().settings["patience"]
    four = own_pins((4,), hand)[0]
    return (
        f"The bowler is {hand}-handed, with {bowler.speed_mph:g} mph, {bowler.rev_rate_rpm:g} rpm and always "
        "the same ball. The slide foot usually ends on the board of the feet. Boards count from the bowler's "
        "own side; the pocket is at 17½.",
        f"On target means within {boards_text(on_target_boards(bowler))} board. If you miss the target by a "
        f"board, a hooking ball misses by about {boards_text(lever)} at the pins.",
        f"Move the line after {count_text(patience)} balls on target to the same side. After a ball through "
        f"the nose, the {four}-pin alone or another clear sign from the lane you need not wait.",
    )


def setting_text(session: Session) -> str:
    """Return line, lane and what was told of the place in one sentence."""
    first = session.shots[0].line if session.shots else session.line
    parts = [f"{line_text(first)}."]
    if session.bowler.walk == "walk":
        parts.append("This bowler walks toward the target.")
    if session.games_on_lane:
        games = "game" if session.games_on_lane == 1 else "games"
        parts.append(f"{board_text(session.games_on_lane)} {games} on this lane so far.")
    if session.place.is_feet_stuck:
        parts.append("The feet cannot move here.")
    return " ".join(parts)


def ball_rows(session: Session) -> tuple[tuple[str, ...], list[tuple[str, ...]]]:
    """Return the balls of a task as a table: the headings of what was noted, and one row a ball."""
    balls = [_cells(session, ball) for ball in session.shots]
    always = ("Ball", "Crossed", "At the pins")
    heads = tuple(head for head in balls[0] if head in always or any(cells[head] for cells in balls))
    return heads, [tuple(cells[head] or "–" for head in heads) for cells in balls]


def read_answer(task: ReadTask) -> Answered:
    """Return whose doing the last ball was, and why."""
    short, rule, hand = BOXES[task.answer], task.rule, task.session.bowler.hand
    why = with_sides(rule.why, hand, task.advice.rule.numbers)
    return Answered(short[0].upper() + short[1:], "", why, _source(rule, task.advice))


def move_answer(task: MoveTask) -> Answered:
    """Return the move, what is right too, and why."""
    why, hand = say(task.advice).why, task.session.bowler.hand
    source = _source(task.advice.rule.fired[0].rule, task.advice)
    if task.answer.is_stay:
        return Answered("No move yet", "", why, source)
    also = "; ".join(move_text(move, hand).lower() for move in task.also_right)
    return Answered(move_text(task.answer, hand), also and f"Also good: {also}.", why, source)


def predict_texts(task: PredictTask) -> tuple[str, ...]:
    """Return what is told of a move to predict: line and walk, the old line where it is given, the move."""
    bowler, hand = task.session.bowler, task.session.bowler.hand
    offset = f"{boards_text(bowler.laydown_offset_boards)} boards {side_text(-1, hand)}"
    walked = f"The slide foot ends where the feet stood. The ball is laid down {offset} of it."
    if bowler.walk == "walk":
        walked = (
            f"The bowler walks toward the target from {bowler.stance_ft:g} ft behind the foul line. "
            f"The ball's line starts there, {offset} of the feet."
        )
    places = zip(task.boards_before, PREDICTED_AT_FT, strict=True)
    boards = ", ".join(f"board {board_text(board)} at {at_ft:.0f} ft" for board, at_ft in places)
    given = f"The straight line now: {boards}." if task.is_line_given else ""
    texts = (
        f"{line_text(task.session.line)}. {walked}",
        given,
        f"The move: {move_text(task.move, hand).lower()}.",
    )
    return tuple(filter(None, texts))


def predict_rows(task: PredictTask) -> list[tuple[str, ...]]:
    """Return the answer as a table: board before, board after and the shift, each at 30, 45 and 60 ft."""
    hand = task.session.bowler.hand
    shifts = [shift_text(shift, hand) for shift in task.shifts_boards]
    return [
        ("before", *map(board_text, task.boards_before)),
        ("after", *map(board_text, task.answer)),
        ("moves by", *shifts),
    ]


def hook_text(task: PredictTask) -> str:
    """Return what the hook makes of the move at the pins, where it differs from the straight line."""
    hand, hooked, straight = task.session.bowler.hand, task.hook_shift_boards, task.shifts_boards[-1]
    if hooked is None:
        return "With its hook this ball would not reach the pins on both lines, so there is no number."
    if abs(hooked - straight) < 0.5:
        return "A hooking ball moves about as much here (simulated, not measured)."
    moved = "hardly moves" if hooked == 0 else f"moves {boards_text(hooked)} {side_text(hooked, hand)}"
    return f"A hooking ball {moved} at the pins, because the oil answers too (simulated, not measured)."


def predict_why(task: PredictTask) -> str:
    """Return the arithmetic of the lever in one sentence."""
    line, (before, after) = task.new_line, task.laydown_boards
    was = "as before" if before == after else f"instead of {board_text(before)}"
    return (
        f"The ball is laid down on {board_text(after)} {was} and crosses {board_text(line.target_board)} at "
        f"{line.target_ft:g} ft. The straight line through both goes on."
    )


def _source(rule: Rule, advice: Advice) -> str:
    return f"Rule: {rule_name(rule, advice.session.bowler.hand, advice.rule.numbers)}."


def _cells(session: Session, ball: Observed) -> dict[str, str]:
    """Return what was noted of a ball, by the heading of its column; an empty text is "not noted"."""
    shot, line = ball.shot, ball.line
    if isinstance(shot.arrival, str):
        arrival = ARRIVAL_WORDS[shot.arrival].name
    else:
        arrival = "" if shot.arrival is None else f"across, board {board_text(shot.arrival)}"
    is_new = line != session.shots[0].line
    return {
        "Ball": str(ball.number),
        "New line": f"{board_text(line.feet_board)} / {board_text(line.target_board)}" if is_new else "",
        "Crossed": _board(shot.crossed_board),
        "At the pins": arrival,
        "Turned": TURNED.get(str(shot.motion), shot.motion or ""),
        "Leave": "" if shot.leave is None else leave_name(own_pins(shot.leave, session.bowler.hand)),
        "Last pin": shot.hit or "",
        "Speed": "" if shot.speed_mph is None else f"{shot.speed_mph:g} mph",
        "Slide foot": _board(shot.slide_board),
    }


def _board(board: float | None) -> str:
    return "" if board is None else board_text(board)
