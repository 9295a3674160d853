"""Questions about speed: whether a hit was the speed or the lane, and what a change is worth in strikes."""

import dataclasses
from collections.abc import Mapping
from typing import Any, Final

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import strikes_text
from coachlib.errors import checked_choice, raise_input_errors
from coachlib.study.questions.asker import BALL
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, change_text, changed
from coachlib.study.questions.lane_draws import drawn_lane
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, Question, QuestionScene
from coachlib.study.questions.what_changes import (
    CAME_IN,
    SAME_BOARDS,
    SIMULATED,
    came_in_text,
    coming_in,
    shift_words,
    shown_shift,
)
from coachlib.world.parsing import boards_text
from coachlib.world.shot import Shot
from coachlib.world.usual import as_usual

LINES: Final = ("same", "found again")
ENOUGH_FRAC: Final = 0.7
"""From this share on speed explains a difference; up to the rest of it, hardly a part of it (our choice)."""

_OFF_MPH = (-1.0, -0.5, 0.5)
_REST_BOARDS = 1.5
_CHANGES: tuple[dict[str, float], ...] = (
    {"speed_mph": 1.0},
    {"speed_mph": -1.0},
    {"speed_mph": 0.5},
    {"speed_mph": 2.0},
)


def speed_or_lane(
    case: Case, off_mph: float = 0.0, rest_boards: float | None = None, pattern: str = ""
) -> Question:
    """Return the question whether speed explains where a ball hit that was on target.

    Parameters
    ----------
    off_mph : float
        How much faster than usual the ball was; drawn if left out. [mph]
    rest_boards : float, optional
        How much further inside it hit than its speed says; drawn if left out. [boards]
    pattern : str
        A name in the data; drawn by the level if left out.
    """
    now = drawn_lane(case, "pocket", pattern=pattern)
    off = off_mph or case.pick(_OFF_MPH)
    slower = changed(now, Change(speed_mph=off))
    was, by_speed = _hit(now), _hit(slower)
    rest = _drawn_rest(case, by_speed - was) if rest_boards is None else rest_boards
    seen_board = round(2 * (by_speed + rest)) / 2
    usual_mph = as_usual(now.bowler, now.ball).speed_mph or 0.0
    seen = Shot(crossed_board=now.line.target_board, arrival=seen_board, speed_mph=usual_mph + off)
    return case.question(
        scene=QuestionScene(now, seen=seen),
        prompt=f"Your usual {_mph(usual_mph)} hits at {half_text(was)}. This ball was on target too, at "
        f"{_mph(usual_mph + off)}, and hit at {half_text(seen_board)}. Does its speed explain that?",
        ask=(
            Choice("all", "yes, all or most of it"),
            Choice("part", "only a part of it"),
            Choice("none", "no, speed would do the opposite"),
        ),
        accepts=_explained(by_speed - was, seen_board - was),
        answer_text=f"{_mph(usual_mph + off)} alone would hit at {half_text(by_speed)}",
        why=_why_speed(off, shown_shift(was, by_speed), shown_shift(by_speed, seen_board), case),
        reveal=QuestionScene(now, slower, "balls", "balls", seen=seen),
        changes_text="With more revs, or on other oil, half a mile an hour can be a little more or less.",
        source=SIMULATED,
        skills=("speed",),
    )


def strikes_after(
    case: Case,
    change: Mapping[str, Any] | None = None,
    line: str = "same",
    came_in: str = "pocket",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question how many of twenty balls strike after a change.

    Parameters
    ----------
    change : mapping, optional
        Fields of :class:`coachlib.study.questions.changes.Change`; a speed is drawn if left out.
    line : {"same", "found again"}
        Whether the line stays, or the one who is asked finds the pocket again.
    came_in, ball, pattern
        As for :func:`coachlib.study.questions.lane_draws.drawn_lane`.
    """
    checked_choice("line", line, LINES)
    now = drawn_lane(case, came_in, ball=ball, pattern=pattern)
    made = change_of(case.pick(_CHANGES) if change is None else change)
    after = changed(now, made)
    if line == "found again":
        after = coming_in(after, CAME_IN["pocket"])
    first, second = (line_paths(one, one.line).n_strikes for one in (now, after))
    scene = QuestionScene(now, after, "balls", "nothing")
    found = "You stay on your line." if line == "same" else "You find a line to the pocket again."
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(_hit(now))} About {strikes_text(first / 20)}. "
        f"{change_text(made, case.hand)} {found} How many strikes in 20 now?",
        ask=NumberAsk("count", 0.0, 20.0, 1.0, float(first)),
        accepts=(
            Accepted(float(second), 1.0, within=1.0),
            Accepted(float(second), 0.5, "Half correct: near, but not there.", within=2.0),
        ),
        answer_text=_strikes_answer(first, second),
        why=f"The ball meant for {half_text(_hit(now))} now hits at {half_text(_hit(after))}: "
        f"{shift_words(shown_shift(_hit(now), _hit(after)), case)}. {_why_strikes(now, after)}",
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="A bowler who repeats better loses more by a miss of the pocket.",
        source="Simulated balls at simulated racks",
        skills=("speed", "carry"),
    )


def _drawn_rest(case: Case, by_speed: float) -> float:
    """Return how much further inside a ball hit than its speed says; all three answers are equally likely."""
    way = 1.0 if by_speed > 0 else -1.0
    return case.pick((0.0, way * _REST_BOARDS, -by_speed - way * _REST_BOARDS))


def _hit(session: Session) -> float:
    board = line_paths(session, session.line).arrival_board
    if board != board:
        message = (
            "arrival_board is NaN: the ball goes into the gutter; expected a smaller change. Choose one."
        )
        raise_input_errors({"change": message})
    return board


def _explained(by_speed: float, seen: float) -> tuple[Accepted, ...]:
    """Return the answers that count, by how much of the difference the speed makes."""
    if by_speed * seen <= 0:
        return (Accepted("none"),)
    share = by_speed / seen
    if share >= ENOUGH_FRAC:
        return (Accepted("all"),)
    if share <= 1 - ENOUGH_FRAC:
        small = "Half correct: it is the smaller part by far."
        return (Accepted("part"), Accepted("none", 0.5, small))
    return (Accepted("part"),)


def _why_speed(off: float, by_speed: float, rest: float, case: Case) -> str:
    size = f"{_mph(abs(off))} {'faster' if off > 0 else 'slower'} is {shift_words(by_speed, case)}."
    if abs(rest) < SAME_BOARDS:
        return f"{size} That is all of it: no need to blame the lane."
    return f"{size} The rest, {shift_words(rest, case)}, has another cause: watch the next balls."


def _why_strikes(now: Session, after: Session) -> str:
    """Return what speed does to angle, read off the two simulated balls."""
    first, second = (line_paths(one, one.line).path for one in (now, after))
    mph = float(second.speed_at_pins_mph[0] - first.speed_at_pins_mph[0])
    steeper = float(second.entry_deg[0] - first.entry_deg[0])
    way = "about as steep" if abs(steeper) < 0.15 else "steeper" if steeper > 0 else "flatter"
    return f"It is {abs(mph):.1f} mph {'faster' if mph > 0 else 'slower'} at the pins and comes in {way}."


def _strikes_answer(first: int, second: int) -> str:
    if first == second:
        return f"About {strikes_text(second / 20)}, as before"
    return f"About {strikes_text(second / 20)}, {'up' if second > first else 'down'} from {first}"


def _mph(mph: float) -> str:
    return f"{boards_text(mph)} mph"
