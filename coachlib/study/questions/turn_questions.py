"""Questions about where the ball turns: without its hook, where its breakpoint is, sooner or later."""

import dataclasses
import math
from collections.abc import Mapping
from typing import Any, Final

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import line_if_it_fits
from coachlib.coaching.simulation.paths import LinePaths, line_paths
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import raise_input_errors
from coachlib.study.questions.asker import BALL
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, change_text, changed
from coachlib.study.questions.lane_draws import CLUB_WORDS, as_club_bowler, drawn_lane
from coachlib.study.questions.question import Accepted, Choice, NumberAsk, Question, QuestionScene
from coachlib.study.questions.what_changes import SIMULATED, came_in_text
from coachlib.world.bowler import Walk
from coachlib.world.lane import HIGH_EDGE_BOARD, LOW_EDGE_BOARD
from coachlib.world.levers import board_at, laydown_board
from coachlib.world.line import Move
from coachlib.world.parsing import board_text, boards_text

SAME_FT: Final = 0.75
"""Two balls that turn nearer to each other than this turn at the same place (our guess) [ft]."""

PAPER: Final = "Straight line through laydown and target"
_AT_FT = (30.0, 45.0)
_MOVES = ((0, 0), (1, 1), (2, 1), (3, 2), (-1, -1), (-2, -1))
_CHANGES: tuple[dict[str, Any], ...] = (
    {"speed_mph": 1.0},
    {"speed_mph": -1.0},
    {"rotation_deg": 15.0},
    {"feet": 3.0, "eyes": 2.0},
    {"revs_rpm": -50.0},
    {"games": 3.0},
)


def line_runs_on(case: Case, at_ft: float = 0.0, walk: Walk = "slide", pattern: str = "") -> Question:
    """Return the question on which board a ball that never hooks would be.

    Parameters
    ----------
    at_ft : float
        How far from the foul line; drawn if left out. [ft]
    walk : {"slide", "walk"}
        How the one who is asked walks.
    pattern : str
        A name in the data; drawn by the level if left out.
    """
    now, where_ft = _straight_case(case, drawn_lane(case, "start", walk, pattern=pattern), at_ft)
    line = now.line
    laid, board = laydown_board(line, now.bowler), board_at(line, now.bowler, where_ft)
    times, goes = where_ft / line.target_ft, laid - line.target_board
    return case.question(
        scene=QuestionScene(now, now_drawn="nothing"),
        prompt=f"Your ball starts on board {half_text(laid)} and crosses your target, board "
        f"{board_text(line.target_board)}, at {line.target_ft:g} ft. If it never hooked, on which board "
        f"would it be at {where_ft:g} ft?",
        ask=NumberAsk("board", 1.0, 39.0, 0.5, line.target_board, where_ft),
        accepts=(
            Accepted(round(2 * board) / 2, 1.0, within=1.0),
            Accepted(round(2 * board) / 2, 0.5, "Half correct: the right way, but not so far.", within=2.5),
        ),
        answer_text=f"On board {half_text(board)}",
        why=f"In the first {line.target_ft:g} ft it goes {boards_text(goes)} boards "
        f"{side_text(-goes, case.hand)}. By {where_ft:g} ft it has gone {_times(times)} as far.",
        reveal=QuestionScene(now, now_drawn="lines"),
        changes_text="From the same feet, one board at the target is two boards at 30 ft.",
        source=PAPER,
        skills=("breakpoint",),
    )


def where_it_turns(
    case: Case, came_in: str = "", walk: Walk = "slide", ball: str = BALL, pattern: str = ""
) -> Question:
    """Return the question how far down the lane the breakpoint is; arguments as for ``drawn_lane``.

    Raises
    ------
    InputError
        If the ball has no breakpoint: it is not thrown outward, or does not turn.
    """
    now = drawn_lane(case, came_in, walk, ball, pattern)
    paths = line_paths(now, now.line)
    turns_ft = paths.breakpoint_ft
    if not math.isfinite(turns_ft):
        club = as_club_bowler(case)
        if club is not None:
            return _in_club_words(where_it_turns(club, came_in, walk, ball, pattern))
        message = "breakpoint_ft is unknown; expected a ball that goes out and turns. Choose another pattern."
        raise_input_errors({"pattern": message})
    answer_ft = float(round(turns_ft))
    return case.question(
        scene=QuestionScene(now, now_drawn="lines"),
        prompt=f"The oil ends at {paths.pattern.length_ft:g} ft. Your ball hits at "
        f"{half_text(paths.arrival_board)}. Where is its breakpoint, the place where it is furthest "
        f"{side_text(-1, case.hand)}?",
        ask=NumberAsk("ft", 15.0, 60.0, 1.0, 20.0),
        accepts=(
            Accepted(answer_ft, 1.0, within=2.0),
            Accepted(answer_ft, 0.5, "Half correct: near, but not there.", within=4.0),
        ),
        answer_text=f"At {answer_ft:.0f} ft, on board {half_text(paths.breakpoint_board)}",
        why=_why_there(paths),
        reveal=QuestionScene(now, now_drawn="balls"),
        changes_text="With more oil under your line, or more speed, it turns later.",
        source=SIMULATED,
        skills=("breakpoint",),
    )


def turn_after(
    case: Case,
    change: Mapping[str, Any] | None = None,
    came_in: str = "",
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question whether the ball turns sooner or later after a change.

    Parameters
    ----------
    change : mapping, optional
        Fields of :class:`coachlib.study.questions.changes.Change`; drawn if left out.
    came_in, walk, ball, pattern
        As for :func:`coachlib.study.questions.lane_draws.drawn_lane`.
    """
    now = drawn_lane(case, came_in, walk, ball, pattern)
    made = change_of(case.pick(_CHANGES) if change is None else change)
    after = changed(now, made)
    first, second = line_paths(now, now.line), line_paths(after, after.line)
    later_ft = second.breakpoint_ft - first.breakpoint_ft
    if not math.isfinite(later_ft):
        club = as_club_bowler(case)
        if club is not None:
            return _in_club_words(turn_after(club, change, came_in, walk, ball, pattern))
        message = f"change is {change}; expected one after which the ball still turns. Make it smaller."
        raise_input_errors({"change": message})
    scene = QuestionScene(now, after, "balls", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(first.arrival_board)} {change_text(made, case.hand)} Where does your ball "
        "turn back now?",
        ask=(
            Choice("sooner", "sooner"),
            Choice("same", "about where it did"),
            Choice("later", "further down the lane"),
        ),
        accepts=_turns(later_ft, made, first, second),
        answer_text=_later_text(later_ft),
        why=_why_later(later_ft, made, first, second),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="On another pattern the same change may do more, or less.",
        source=SIMULATED,
        skills=("breakpoint",),
    )


def _in_club_words(question: Question) -> Question:
    return dataclasses.replace(question, prompt=CLUB_WORDS + question.prompt)


def _times(times: float) -> str:
    return "twice" if times == 2 else f"{boards_text(times)} times"


def _straight_case(case: Case, start: Session, at_ft: float) -> tuple[Session, float]:
    """Return a line near the start, and a distance at which its straight ball is on the lane still."""
    cases = []
    for feet, eyes in _MOVES:
        move = Move(feet_boards=float(feet), target_boards=float(eyes))
        line = line_if_it_fits(start.line, move, start.bowler)
        for one_ft in (at_ft,) if at_ft else _AT_FT:
            if line and LOW_EDGE_BOARD + 0.5 <= board_at(line, start.bowler, one_ft) <= HIGH_EDGE_BOARD - 0.5:
                cases.append((dataclasses.replace(start, line=line), one_ft))
    if not cases:
        message = f"at_ft is {at_ft:g}; expected a distance at which a straight ball is on the lane. Take 30."
        raise_input_errors({"at_ft": message})
    return case.pick(cases)


def _why_there(paths: LinePaths) -> str:
    """Return how the breakpoint lies to the end of the oil."""
    before_ft = paths.pattern.length_ft - paths.breakpoint_ft
    if before_ft >= 1.5:
        return (
            f"That is {before_ft:.0f} ft before the oil ends. Out on board "
            f"{half_text(paths.breakpoint_board)} there is so little oil that your ball already grips."
        )
    if before_ft > -1.5:
        return "That is about where the oil ends: on this line it is thick enough to slide until then."
    return f"That is {-before_ft:.0f} ft past the end of the oil: it slides on before it turns."


def _turns(later_ft: float, made: Change, first: LinePaths, second: LinePaths) -> tuple[Accepted, ...]:
    """Return the answers that count: the simulated one, one near by, and what is usually said of the hand."""
    best = "same" if abs(later_ft) < SAME_FT else "later" if later_ft > 0 else "sooner"
    accepts = [Accepted(best)]
    if SAME_FT / 2 < abs(later_ft) < 1.5 * SAME_FT:
        near = "same" if best != "same" else "later" if later_ft > 0 else "sooner"
        accepts.append(Accepted(near, 0.5, f"Half correct: {abs(later_ft):.1f} ft is hard to see."))
    ends_ft = float(second.path.roll_ft[0] - first.path.roll_ft[0])
    said = "later" if made.rotation_deg > 0 else "sooner"
    if made.rotation_deg and best != said and (ends_ft > 0) == (said == "later"):
        why = f"That is the rule of thumb. In the simulation it is the end of the hook that comes {said}, by "
        accepts.append(Accepted(said, 1.0, f"{why}{abs(ends_ft):.0f} ft. Its beginning hardly moves."))
    return tuple(accepts)


def _later_text(later_ft: float) -> str:
    if abs(later_ft) < SAME_FT:
        return "About where it did"
    return f"About {abs(later_ft):.0f} ft {'later' if later_ft > 0 else 'sooner'}"


def _why_later(later_ft: float, made: Change, first: LinePaths, second: LinePaths) -> str:
    ends_ft = float(second.path.roll_ft[0] - first.path.roll_ft[0])
    if made.rotation_deg and math.isfinite(ends_ft) and abs(ends_ft) >= 1:
        way = "later" if ends_ft > 0 else "sooner"
        return (
            "The oil decides where it begins to grip. What you changed is the end of the hook: "
            f"{abs(ends_ft):.0f} ft {way}."
        )
    if made.pattern:
        return (
            f"The oil on your line decides, not its length alone: {first.pattern.length_ft:g} ft before, "
            f"{second.pattern.length_ft:g} ft now."
        )
    if made.speed_mph:
        if made.speed_mph > 0:
            return "It is further down the lane before the oil has had the time to turn it."
        return "The oil has more time to turn it on the way."
    if made.games:
        return "The oil on your line has thinned where everybody rolls."
    if made.revs_rpm > 0:
        return "With more revs it pulls back more strongly."
    if made.revs_rpm < 0:
        return "With fewer revs it pulls back more weakly."
    if made.grit or made.is_polished or made.ball:
        what = "cover and surface grip" if made.ball else "surface grips"
        return f"Its {what} {'later' if later_ft > 0 else 'sooner'} on the same oil."
    return "The new line lies on other oil." if made.feet or made.eyes else "The ball grips otherwise."
