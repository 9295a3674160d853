"""How far the ball turns in all, from the hand to the pins: what changes it, and what only moves it sooner.

A ball that rolls before the pins has turned as far as its speed, revs, axis and build allow, see
:func:`coachlib.physics.motion.turn_when_rolled_deg`. Surface, oil and the line decide where it does.
"""

import dataclasses
import math
from collections.abc import Mapping
from typing import Any, Final

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import half_text
from coachlib.study.questions.asker import BALL
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, change_text, changed
from coachlib.study.questions.lane_draws import drawn_lane
from coachlib.study.questions.question import Accepted, Choice, Question, QuestionScene
from coachlib.study.questions.what_changes import SIMULATED, came_in_text
from coachlib.study.questions.why_changes import SEEN_TURN_FT
from coachlib.world.bowler import Walk
from coachlib.world.levers import line_angle_deg

SAME_DEG: Final = 0.25
"""Two balls whose turns differ by less than this turn as far (our choice) [deg]."""

_CHANGES: Final[tuple[dict[str, Any], ...]] = (
    {"grit": 500.0},
    {"grit": 1000.0},
    {"games": 2.0},
    {"games": 3.0},
    {"ball": "solid_1000"},
    {"ball": "pearl_polished"},
    {"speed_mph": 2.0},
    {"speed_mph": -2.0},
    {"revs_rpm": 60.0},
    {"revs_rpm": -60.0},
)


def total_turn_after(
    case: Case,
    change: Mapping[str, Any] | None = None,
    came_in: str = "pocket",
    walk: Walk = "slide",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question whether the ball turns more in all after a change.

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
    was_deg, is_deg = total_turn_deg(now), total_turn_deg(after)
    scene = QuestionScene(now, after, "balls", "nothing")
    return case.question(
        scene=scene,
        prompt=f"{came_in_text(line_paths(now, now.line).arrival_board)} {change_text(made, case.hand)} "
        "From your hand to the pins, does your ball turn more?",
        ask=(Choice("more", "more"), Choice("same", "just as much"), Choice("less", "less")),
        accepts=_turns(is_deg - was_deg),
        answer_text=_turn_text(was_deg, is_deg),
        why=_why_turn(made, now, after, is_deg - was_deg),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="A ball that still slips at the pins has not turned all it can.",
        source=SIMULATED,
        skills=("hook",),
    )


def total_turn_deg(session: Session) -> float:
    """Return how far the ball as meant turns from hand to pins, + inside [deg]."""
    entry_deg = float(line_paths(session, session.line).path.entry_deg[0])
    return entry_deg - line_angle_deg(session.line, session.bowler)


def _turns(more_deg: float) -> tuple[Accepted, ...]:
    best = "same" if abs(more_deg) < SAME_DEG else "more" if more_deg > 0 else "less"
    near = "same" if best != "same" else "more" if more_deg > 0 else "less"
    if SAME_DEG / 2 < abs(more_deg) < 1.5 * SAME_DEG:
        why = f"Half correct: the difference is {abs(more_deg):.1f} degrees, too little to see."
        return Accepted(best), Accepted(near, 0.5, why)
    return (Accepted(best),)


def _turn_text(was_deg: float, is_deg: float) -> str:
    if abs(is_deg - was_deg) < SAME_DEG:
        return f"Just as much: {half_text(is_deg)} degrees"
    return f"{'More' if is_deg > was_deg else 'Less'}: {is_deg:.1f} degrees, was {was_deg:.1f}"


def _why_turn(made: Change, now: Session, after: Session, more_deg: float) -> str:
    first, second = (line_paths(one, one.line) for one in (now, after))
    if not math.isfinite(float(second.path.roll_ft[0])):
        return "It still slips at the pins, so its turn is not finished."
    if abs(more_deg) < SAME_DEG:
        return _why_as_much(
            first.breakpoint_ft - second.breakpoint_ft, second.arrival_board - first.arrival_board
        )
    more, less = ("more", "less") if more_deg > 0 else ("less", "more")
    if made.speed_mph:
        return f"{less.capitalize()} speed, the same revs: they bend its way {more}."
    if made.revs_rpm:
        return f"{more.capitalize()} revs, the same speed: they bend its way {more}."
    if made.ball:
        return "The two are built differently. Where the weight lies decides how far a ball turns."
    return "Your hand gives it another turn."


def _why_as_much(sooner_ft: float, higher_boards: float) -> str:
    if not abs(sooner_ft) >= SEEN_TURN_FT:
        return "It rolls before the pins either way, so it has turned all that speed and revs allow."
    turn = f"It turns {abs(sooner_ft):.0f} ft {'sooner' if sooner_ft > 0 else 'later'}"
    not_what, hits = ("more", "higher") if higher_boards > 0 else ("less", "lighter")
    return f"{turn}, not {not_what}. So it hits {hits}, at the same angle."
