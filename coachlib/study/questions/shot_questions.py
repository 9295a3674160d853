"""Whose doing was it: reading balls that were seen, and how far good balls stray on a lane that stays.

Whose doing a ball was is the rulebook's own answer (:func:`coachlib.advise` without the simulation), where a
crossing read half a board off would not change it. After two balls of one side the trade already blames the
lane and this library waits for a third: there both answers are right.
"""

import dataclasses
from collections.abc import Callable
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.session.ball_reading import PocketSide, on_target_boards
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import count_text, rule_name, side_text, with_sides
from coachlib.errors import checked_choice, raise_input_errors
from coachlib.study.questions import shot_stories as stories
from coachlib.study.questions.asker import starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, Level, NumberAsk, Question, QuestionScene
from coachlib.study.questions.shot_stories import BallStory
from coachlib.study.questions.stray_balls import are_over_target, count_on_side
from coachlib.study.questions.what_changes import CAME_IN, HOUSE_PATTERNS, SIMULATED, coming_in
from coachlib.study.questions.worksheet_tasks import ReadTask, Whose, read_task
from coachlib.world.parsing import boards_text
from coachlib.world.shot import Shot
from coachlib.world.usual import as_usual

StoryMaker = Callable[[Case, Session], BallStory | None]

STORIES: Final[dict[str, StoryMaker]] = {
    "missed": stories.missed,
    "other_pace": stories.other_pace,
    "once": stories.once,
    "not_noted": stories.not_noted,
    "again": stories.again,
    "again_around_a_miss": stories.again_around_a_miss,
    "twice": stories.twice,
}
"""What the balls may have done, by name."""

_PLAIN = ("missed", "once", "again")
_LEVEL_STORIES: Final[dict[Level, tuple[str, ...]]] = {
    "lever": _PLAIN,
    "oil": _PLAIN,
    "wear": (*_PLAIN, "other_pace", "not_noted", "again_around_a_miss"),
    "thin": ("missed", "other_pace", "not_noted", "again_around_a_miss", "twice"),
}
_LEVEL_PATTERNS: Final[dict[Level, tuple[str, ...]]] = {
    "lever": ("house_40", "house_41"),
    "oil": HOUSE_PATTERNS,
    "wear": HOUSE_PATTERNS,
    "thin": ("flat_42", "long_44", "steps_39"),
}
_MOST_TRIES = 60

_CHOICES: Final = (
    Choice("bowler", "me"),
    Choice("lane", "the lane"),
    Choice("cannot tell", "cannot tell yet"),
)
_ANSWERS: Final[dict[Whose, str]] = {
    "bowler": "That was you",
    "lane": "That is probably the lane",
    "cannot tell": "You cannot tell yet",
}

SIDES: Final[tuple[PocketSide, ...]] = ("high", "pocket", "light")

WHY_TWO = "Two balls can be luck. The trade moves after two, we wait for a third."

N_OFF_FULL, N_OFF_HALF = 2.0, 4.0
"""Counts of twenty so far off are correct, or half correct (our choice) [balls]."""


def you_or_the_lane(case: Case, story: str = "", pattern: str = "") -> Question:
    """Return the question whether the last of some balls was the bowler's doing or the lane's.

    Parameters
    ----------
    story : str
        One of :data:`STORIES`; drawn by the level if left out.
    pattern : str
        The oil, by its name in the data; drawn by the level if left out.
    """
    name = checked_choice("story", story, tuple(STORIES)) if story else case.pick(_LEVEL_STORIES[case.level])
    told, task = _clear_story(case, name, pattern)
    last = told.shots[-1]
    scene = QuestionScene(
        told.lane, now_drawn="lines", next_drawn="nothing", seen=last, rows=_rows(told, case)
    )
    accepts: tuple[Accepted, ...]
    if task is None:
        also = Accepted("lane", 1.0, "The trade says so after two. We wait for a third.")
        accepts, why, source = (Accepted("cannot tell"), also), WHY_TWO, "Rule of thumb"
    else:
        numbers = task.advice.rule.numbers
        accepts = (Accepted(task.answer),)
        why = with_sides(task.rule.why, case.hand, numbers) if task.answer != "lane" else _why_lane(told)
        source = rule_name(task.rule, case.hand, numbers)
    return case.question(
        scene=scene,
        prompt=_asked(len(told.shots)),
        ask=_CHOICES,
        accepts=accepts,
        answer_text=_ANSWERS[task.answer if task else "cannot tell"],
        why=why,
        reveal=dataclasses.replace(scene, now_drawn="balls"),
        changes_text="Three balls over the target on one side: the lane. A missed target that fits: you.",
        source=source,
        skills=("reading",),
    )


def hits_of_twenty(case: Case, pattern: str = "", side: PocketSide | Literal[""] = "") -> Question:
    """Return the question how many of twenty balls hit the pocket though nothing changes.

    Parameters
    ----------
    pattern : str
        The oil, by its name in the data; drawn by the level if left out.
    side : {"", "pocket", "high", "light"}
        Which of them are counted; drawn if left out.
    """
    checked_choice("side", side, ("", *SIDES))
    counted: PocketSide = case.pick(SIDES) if side == "" else side
    start = starting_session(case.bowler, pattern=pattern or case.pick(_LEVEL_PATTERNS[case.level]))
    now = coming_in(dataclasses.replace(start, seed=case.seed), CAME_IN["pocket"])
    n_hits = count_on_side(_boards(now), counted)
    scene = QuestionScene(now, now_drawn="lines", next_drawn="nothing")
    what = {"pocket": "hit the pocket", "high": "come in high", "light": "come in light"}[counted]
    near = Accepted(float(n_hits), 0.5, "Half correct: near.", within=N_OFF_HALF)
    return case.question(
        scene=scene,
        prompt="Your line meets the pocket. The lane stays as it is. You throw twenty balls. "
        f"How many {what}?",
        ask=NumberAsk("count", 0.0, float(N_TWENTY), 1.0, 10.0),
        accepts=(Accepted(float(n_hits), 1.0, within=N_OFF_FULL), near),
        answer_text=f"{n_hits} of 20 {what}",
        why=_why_stray(now),
        reveal=dataclasses.replace(scene, now_drawn="balls"),
        changes_text="Strikes are another count: some balls beside the pocket strike too. "
        "A steadier hand hits more.",
        source=SIMULATED,
        skills=("reading",),
    )


def _clear_story(case: Case, name: str, pattern: str) -> tuple[BallStory, ReadTask | None]:
    """Return balls whose answer is clear, and their task; none where two answers are right."""
    for _ in range(_MOST_TRIES):
        start = starting_session(case.bowler, pattern=pattern or case.pick(_LEVEL_PATTERNS[case.level]))
        told = STORIES[name](case, start)
        if told is None:
            continue
        if name == "twice":
            return told, None
        task = read_task(told.session)
        if task is not None and task.answer in _ANSWERS:
            return told, task
    message = f"story is {name!r}; expected one that is clear for this bowler on this oil. Choose another."
    raise_input_errors({"story": message})


def _asked(n_balls: int) -> str:
    if n_balls == 1:
        return "You throw one ball. Was it you, or the lane?"
    return f"You throw {count_text(n_balls)} balls on one line. Was the last one you, or the lane?"


def _rows(told: BallStory, case: Case) -> tuple[str, ...]:
    words = [_seen_words(told, shot, case) for shot in told.shots]
    return tuple(f"{one[0].upper()}{one[1:]}." for one in words)


def _seen_words(told: BallStory, shot: Shot, case: Case) -> str:
    """Return what was seen of a ball: ``hit your target and came in high``."""
    did = ARRIVAL_WORDS[shot.arrival_class].did if shot.arrival_class else ""
    if shot.crossed_board is None:
        return f"{did}. Nobody saw where it crossed"
    off = shot.crossed_board - told.lane.line.target_board
    if abs(off) > on_target_boards(told.lane.bowler):
        return f"crossed {boards_text(off)} {side_text(off, case.hand)} of your target and {did}"
    did = "the pocket" if shot.arrival_class == "pocket" else did
    return f"hit your target and {did}{_pace_words(told, shot)}"


def _pace_words(told: BallStory, shot: Shot) -> str:
    usual_mph = as_usual(told.lane.bowler, told.lane.ball).speed_mph
    if shot.speed_mph is None or usual_mph is None:
        return ""
    off = shot.speed_mph - usual_mph
    if abs(off) < 0.05:
        return ", at your usual speed"
    return f", {abs(off):.1f} mph {'faster' if off > 0 else 'slower'} than usual"


def _why_lane(told: BallStory) -> str:
    """Return how many balls went over the target, which all missed the pocket on one side."""
    target_board, near = told.lane.line.target_board, on_target_boards(told.lane.bowler)
    crossed = [shot.crossed_board for shot in told.shots if shot.crossed_board is not None]
    n_over = sum(abs(board - target_board) <= near for board in crossed)
    return (
        f"All {count_text(n_over)} balls over your target missed the pocket on the same side. "
        "Your line no longer fits."
    )


def _why_stray(now: Session) -> str:
    """Return how many of the twenty cross over the target, and how many of those miss the pocket."""
    is_over = are_over_target(now)
    n_over = int(is_over.sum())
    n_stray = n_over - count_on_side(_boards(now)[is_over], "pocket")
    return (
        "Your aim, speed and hand differ a little each time. "
        f"{n_over} of the twenty cross over your target, and {n_stray} of these miss the pocket all the same."
    )


def _boards(session: Session) -> NDArray[np.float64]:
    return line_paths(session, session.line).arrivals_board
