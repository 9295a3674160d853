"""Which of several changes moves the hit most, or least, or brings the ball back to the pocket."""

import dataclasses
from collections.abc import Callable, Mapping, Sequence
from typing import Any, Final, Literal

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.paths import line_paths
from coachlib.coaching.wording.arrival_words import arrival_text, is_at_head_pin
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import checked_choice, raise_input_errors
from coachlib.study.questions.asker import BALL
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, change_of, changed
from coachlib.study.questions.lane_draws import drawn_lane
from coachlib.study.questions.question import Accepted, Choice, Question, QuestionScene
from coachlib.study.questions.what_changes import SAME_BOARDS, SIMULATED, came_in_text
from coachlib.world.hand import Hand
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.parsing import boards_text

Goal = Literal["most", "least", "pocket"]
"""What is asked for: the largest or the smallest change of the hit, or the hit nearest the pocket."""

GOALS: Final = ("most", "least", "pocket")
_SETS: Final[dict[str, tuple[tuple[dict[str, float], ...], ...]]] = {
    "most": (
        ({"rotation_deg": 10}, {"tilt_deg": 10}, {"speed_mph": -0.5}),
        ({"revs_rpm": 50}, {"speed_mph": -0.5}, {"tilt_deg": 5}),
        ({"speed_mph": 2}, {"rotation_deg": 5}, {"tilt_deg": 5}),
        ({"feet": 4, "eyes": 2}, {"speed_mph": 0.5}, {"tilt_deg": 5}),
        ({"rotation_deg": -10}, {"speed_mph": 0.5}, {"feet": 1, "eyes": 1}),
    ),
    "least": (
        ({"tilt_deg": 5}, {"revs_rpm": 50}, {"rotation_deg": 10}),
        ({"speed_mph": -0.5}, {"rotation_deg": 15}, {"revs_rpm": -50}),
        ({"feet": 1, "eyes": 1}, {"rotation_deg": 15}, {"speed_mph": -1}),
    ),
    "pocket": (
        ({"feet": 2, "eyes": 1}, {"rotation_deg": -15}, {"revs_rpm": -75}),
        ({"feet": 2, "eyes": 1}, {"speed_mph": 2}, {"rotation_deg": -15}),
        ({"speed_mph": 0.5}, {"feet": 6, "eyes": 2}, {"revs_rpm": -75}),
    ),
}
_ASKED: Final = {
    "most": "Which of these changes where it hits most?",
    "least": "Which of these changes where it hits least?",
    "pocket": "Which of these brings the next one nearest 17½?",
}


def which_change(
    case: Case,
    goal: Goal = "most",
    changes: Sequence[Mapping[str, Any]] | None = None,
    came_in: str = "",
    ball: str = BALL,
    pattern: str = "",
) -> Question:
    """Return the question which change does most, does least, or brings the ball back.

    Parameters
    ----------
    goal : {"most", "least", "pocket"}
        What is asked for.
    changes : sequence of mapping, optional
        Two to four, each with fields of :class:`coachlib.study.questions.changes.Change`; drawn if left out.
    came_in, ball, pattern
        As for :func:`coachlib.study.questions.lane_draws.drawn_lane`; with "pocket" the ball comes in high.
    """
    checked_choice("goal", goal, GOALS)
    now = drawn_lane(case, came_in or ("high" if goal == "pocket" else ""), ball=ball, pattern=pattern)
    was = line_paths(now, now.line).arrival_board
    given = (
        [_SETS[goal][int(at)] for at in case.draw.permutation(len(_SETS[goal]))]
        if changes is None
        else [changes]
    )
    for one_set in given:
        made = [change_of(one) for one in one_set]
        hits = {one: _hit(changed(now, one)) for one in made}
        ranked = sorted(made, key=_worth(goal, was, hits))
        best = ranked[0]
        near = [one for one in ranked[1:] if _lost(goal, was, hits[best], hits[one]) < SAME_BOARDS]
        if len(near) + 1 < len(made):
            break
    else:
        message = f"changes are {given[0]}; expected some that differ by half a board. Choose others."
        raise_input_errors({"changes": message})
    order = [made[int(at)] for at in case.draw.permutation(len(made))]
    scene = QuestionScene(now, changed(now, best), "balls", "nothing")
    return case.question(
        scene=dataclasses.replace(scene, next=None),
        prompt=f"{came_in_text(was)} {_ASKED[goal]}",
        ask=tuple(Choice(_id(one), short_change(one, case.hand)) for one in order),
        accepts=(Accepted(_id(best)), *(Accepted(_id(one), 1.0, _as_good(case, one, hits)) for one in near)),
        answer_text=_first_upper(short_change(best, case.hand)),
        why=" ".join(_hit_words(case, one, hits) for one in ranked),
        reveal=dataclasses.replace(scene, next_drawn="balls"),
        changes_text="On other oil the sizes differ.",
        source=SIMULATED,
        skills=("changes",),
    )


def short_change(change: Change, hand: Hand) -> str:
    """Return a change in a few words: ``10 degrees more rotation``, ``feet 2 left, eyes 1 left``."""
    parts = [
        _moved("feet", change.feet, hand),
        _moved("eyes", change.eyes, hand),
        _sized(change.speed_mph, "mph", ("faster", "slower")),
        _sized(change.rotation_deg, "degrees", ("more rotation", "less rotation")),
        _sized(change.tilt_deg, "degrees", ("more tilt", "less tilt")),
        _sized(change.revs_rpm, "revs", ("more", "fewer")),
    ]
    text = ", ".join(part for part in parts if part)
    if not text:
        message = (
            f"change is {change}; expected one of feet, eyes, speed, rotation, tilt or revs. Choose one."
        )
        raise_input_errors({"changes": message})
    return text


def _hit(session: Session) -> float:
    return line_paths(session, session.line).arrival_board


def _worth(goal: Goal, was: float, hits: Mapping[Change, float]) -> Callable[[Change], float]:
    """Return what sorts the best change first."""
    if goal == "pocket":
        return lambda one: abs(hits[one] - POCKET_BOARD)
    return lambda one: abs(hits[one] - was) * (1 if goal == "least" else -1)


def _lost(goal: Goal, was: float, best: float, other: float) -> float:
    """Return by how many boards a change does what is asked for less well than the best."""
    middle = POCKET_BOARD if goal == "pocket" else was
    return abs(abs(other - middle) - abs(best - middle))


def _hit_words(case: Case, change: Change, hits: Mapping[Change, float]) -> str:
    board = hits[change]
    where = arrival_text(board) if is_at_head_pin(board) else "no head pin"
    return f"{_first_upper(short_change(change, case.hand))}: {where}."


def _as_good(case: Case, change: Change, hits: Mapping[Change, float]) -> str:
    return f"{_hit_words(case, change, hits)} That is within half a board of the best one."


def _moved(name: str, boards: float, hand: Hand) -> str:
    return f"{name} {boards_text(boards)} {side_text(boards, hand)}" if boards else ""


def _sized(size: float, unit: str, ways: tuple[str, str]) -> str:
    return f"{boards_text(size)} {unit} {ways[size < 0]}" if size else ""


def _id(change: Change) -> str:
    changed_fields = [(one.name, getattr(change, one.name)) for one in dataclasses.fields(change)]
    return " ".join(
        f"{name}={value:g}" for name, value in changed_fields if value and not isinstance(value, str)
    )


def _first_upper(text: str) -> str:
    return text[0].upper() + text[1:]
