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
from coachlib.study.questions.lane_draws import CLUB_WORDS, as_club_bowler, drawn_lane
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
        As for :func:`coachlib.study.questions.lane_draws.drawn_lane`; with the goal
        "pocket" the ball comes in high or light.
    """
    checked_choice("goal", goal, GOALS)
    if goal == "pocket" and not came_in:
        came_in = case.pick(("high", "light")) if changes is None else "high"
    now = drawn_lane(case, came_in, ball=ball, pattern=pattern)
    sets = [changes] if changes is not None else _drawn_sets(case, goal, came_in == "light")
    ranking = next((one for one in (_ranked(now, goal, given) for given in sets) if one.differ), None)
    if ranking is None:
        club = as_club_bowler(case)
        if club is not None:
            asked_as_club = which_change(club, goal, changes, came_in, ball, pattern)
            return dataclasses.replace(asked_as_club, prompt=CLUB_WORDS + asked_as_club.prompt)
        message = f"changes are {sets[0]}; expected some that differ by half a board. Choose others."
        raise_input_errors({"changes": message})
    best, hits = ranking.order[0], ranking.hits
    asked = [ranking.order[int(at)] for at in case.draw.permutation(len(ranking.order))]
    return case.question(
        scene=QuestionScene(now),
        prompt=f"{came_in_text(_hit(now))} {_ASKED[goal]}",
        ask=tuple(Choice(_id(one), short_change(one, case.hand)) for one in asked),
        accepts=(
            Accepted(_id(best)),
            *(Accepted(_id(one), 1.0, _as_good(case, one, hits)) for one in ranking.as_good),
        ),
        answer_text=_first_upper(short_change(best, case.hand)),
        why=" ".join(_hit_words(case, one, hits) for one in ranking.order),
        reveal=QuestionScene(now, changed(now, best), "balls", "balls"),
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


@dataclasses.dataclass(frozen=True)
class _Ranking:
    """Changes, the best first, where each of them hits, and those that do as well as the best."""

    order: list[Change]
    hits: dict[Change, float]
    as_good: list[Change]

    @property
    def differ(self) -> bool:
        return len(self.as_good) + 1 < len(self.order)


def _ranked(now: Session, goal: Goal, given: Sequence[Mapping[str, Any]]) -> _Ranking:
    made, was = [change_of(one) for one in given], _hit(now)
    hits = {one: _hit(changed(now, one)) for one in made}
    order = sorted(made, key=_worth(goal, was, hits))
    best = hits[order[0]]
    return _Ranking(
        order, hits, [one for one in order[1:] if _lost(goal, was, best, hits[one]) < SAME_BOARDS]
    )


def _drawn_sets(case: Case, goal: Goal, is_light: bool) -> list[tuple[dict[str, float], ...]]:
    """Return the sets in a drawn order; for a light ball those that bring it back go the other way."""
    sets = [_SETS[goal][int(at)] for at in case.draw.permutation(len(_SETS[goal]))]
    if goal != "pocket" or not is_light:
        return sets
    return [tuple({name: -size for name, size in one.items()} for one in given) for given in sets]


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
    where = arrival_text(board) if is_at_head_pin(board) else "misses the head pin"
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
