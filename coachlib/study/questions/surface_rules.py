"""Whether a surface may be changed now: the rule of competition, and the care it asks for."""

import dataclasses
from typing import Final

from coachlib.coaching.rules.rulebook import fired_rules, load_rulebook
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.errors import checked_choice
from coachlib.study.questions.asker import BALL, starting_session
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import Accepted, Choice, Question, QuestionScene
from coachlib.world.line import SurfaceChange

TIMES: Final = ("practice", "scoring")
"""Before the first scored ball, or after it."""

WAYS: Final[tuple[SurfaceChange, ...]] = ("duller", "smoother")
_LAWFUL = "surface_lawful"


def may_change_surface(case: Case, when: str = "", way: str = "", ball: str = BALL) -> Question:
    """Return the question what may be done to a ball's surface now; the rulebook answers.

    Parameters
    ----------
    when : {"practice", "scoring"}
        Before the first scored ball or after it; drawn if left out.
    way : {"duller", "smoother"}
        What is wanted; drawn if left out.
    ball : str
        A name in the data.
    """
    time = checked_choice("when", when, TIMES) if when else case.pick(TIMES)
    if way:
        checked_choice("way", way, WAYS)
    wanted = next((one for one in WAYS if one == way), case.pick(WAYS))
    has_started = time == "scoring"
    is_lawful, said = _lawful(wanted, has_started)
    now = dataclasses.replace(starting_session(case.bowler, ball), scoring_started=has_started)
    verb = "sand" if wanted == "duller" else "polish"
    choices = (
        Choice("whole", f"{verb} the whole ball, if the local rules allow it"),
        Choice("strip", f"{verb} only the strip that touches the lane"),
        Choice("towel", "wipe it with a dry towel, no more"),
    )
    order = case.draw.permutation(len(choices))
    return case.question(
        scene=QuestionScene(now, now_drawn="lines"),
        prompt=f"{_when_words(case, has_started)} You want a {wanted} surface. What is the most you may do?",
        ask=tuple(choices[int(at)] for at in order),
        accepts=(Accepted("whole" if is_lawful else "towel"),),
        answer_text=f"{verb.capitalize()} the whole ball" if is_lawful else "A dry towel, no more",
        why=said,
        reveal=QuestionScene(now, now_drawn="lines"),
        changes_text="Practice and open play are freer; local rules decide.",
        source="Rule of competition, as the rulebook has it",
        skills=("surface",),
    )


def _lawful(way: SurfaceChange, has_started: bool) -> tuple[bool, str]:
    """Return whether the surface may be changed, and what the rulebook says."""
    facts: dict[str, FactValue] = {"task": "first", "move_surface": way, "scoring_started": has_started}
    fired = next(one for one in fired_rules(load_rulebook(), facts) if one.rule.id == _LAWFUL)
    return fired.kind != "reject", fired.text


def _when_words(case: Case, has_started: bool) -> str:
    if has_started:
        return f"Frame {int(case.draw.integers(2, 10))} of a league game."
    return "Practice, before the first scored ball."
