"""Ways of playing, from never moving to knowing the truth, to be compared on the same lanes."""

import functools
from collections.abc import Callable, Mapping

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.rules.rule_voice import line_after, move_problems
from coachlib.coaching.session.ball_reading import side_of
from coachlib.coaching.session.session import Session
from coachlib.errors import checked_choice
from coachlib.study.hidden_lane.practice import PracticeLane
from coachlib.study.seasons.oracle import Oracle
from coachlib.study.seasons.season import Policy
from coachlib.world.ball import Ball
from coachlib.world.line import Line, Move

rule_of_thumb = functools.partial(advise, model_on=False)
"""Advice without the model, which the rule's voice does not hang on."""

FOLLOW_BOARDS = 2.0
"""Boards of feet after every miss, by who follows the miss."""


class NeverMove:
    """Stay where practice ended."""

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the line being played."""
        return session.line, session.ball


class FollowTheMiss:
    """Move the feet two boards after every ball that missed the pocket, whoever's doing it was."""

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the line two boards inside after a high ball and two outside after a light one."""
        side = side_of(session.shots[-1].shot) if session.shots else None
        if side in (None, "pocket"):
            return session.line, session.ball
        move = Move(feet_boards=FOLLOW_BOARDS if side == "high" else -FOLLOW_BOARDS)
        return _after(session, move), session.ball


class RulebookPolicy:
    """Do what the rule of thumb says, as far as it is a move of feet and eyes that fits."""

    def __init__(self, advisor: Callable[[Session], Advice] = rule_of_thumb) -> None:
        self._advisor = advisor

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the line after the rule's move, or the one being played."""
        return _after(session, self._advisor(session).rule.move), session.ball


class FollowTheAdvice:
    """Do what the whole advice says: its new line, with the ball in the hand."""

    def __init__(self, advisor: Callable[[Session], Advice] = advise) -> None:
        self._advisor = advisor

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the advised line."""
        return self._advisor(session).new_line, session.ball


Advisor = Callable[[Session], Advice]

POLICIES: Mapping[str, Callable[[PracticeLane, Advisor], Policy]] = {
    "never move": lambda world, advisor: NeverMove(),
    "follow the miss": lambda world, advisor: FollowTheMiss(),
    "rulebook": lambda world, advisor: RulebookPolicy(),
    "advice": lambda world, advisor: FollowTheAdvice(advisor),
    "oracle": lambda world, advisor: Oracle(world),
}
"""Every way of playing by its name, made for the world that it plays on; only the oracle reads that."""


def policy(name: str, world: PracticeLane, advisor: Advisor = advise) -> Policy:
    """Return a way of playing by its name.

    Parameters
    ----------
    name : str
        One of :data:`POLICIES`.
    world : PracticeLane
        Where it is played; only the oracle reads it.
    advisor : callable, optional
        From a session to an advice, for who follows the whole advice.

    Raises
    ------
    InputError
        For an unknown name; lists the known ones.
    """
    return POLICIES[checked_choice("policy", name, tuple(POLICIES))](world, advisor)


def _after(session: Session, move: Move) -> Line:
    """Return the line after a move of feet and eyes that fits; else the line being played."""
    if not move.is_feet_and_eyes or move_problems(session, move):
        return session.line
    return line_after(session, move)
