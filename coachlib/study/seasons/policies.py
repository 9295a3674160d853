"""Ways of playing, from never moving to knowing the truth, to be compared on the same lanes."""

import functools
from collections.abc import Callable, Mapping, Sequence

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.session.ball_reading import side_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import moves_within_reach
from coachlib.coaching.simulation.line_search import most_likely
from coachlib.errors import checked_choice, checked_thing
from coachlib.study.hidden_lane.hidden_bowler import N_KEPT, N_LOOK, N_SURE
from coachlib.study.hidden_lane.hidden_law import Floats
from coachlib.study.hidden_lane.practice import PracticeLane
from coachlib.study.seasons.season import Policy, after_fitting
from coachlib.world.ball import Ball
from coachlib.world.line import Line, Move

Advisor = Callable[[Session], Advice]

rule_of_thumb = functools.partial(advise, model_on=False)
"""Advice without the model, which the rule's voice does not hang on."""

FOLLOW_BOARDS = 2.0
"""Boards of feet after every miss, by who follows the miss."""

LOOKS_EVERY = 4
"""It looks again after so many balls: as often as the others' balls change the lane."""

FULL_REACH, NEAR_REACH = (10, 7), (4, 3)
"""Boards of feet and eyes about the present line, at its first look and later on."""


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
        feet_boards = {"high": FOLLOW_BOARDS, "light": -FOLLOW_BOARDS}.get(side or "", 0.0)
        return after_fitting(session, Move(feet_boards)), session.ball


class RulebookPolicy:
    """Do what the rule of thumb says, as far as it is a move of feet and eyes that fits."""

    def __init__(self, advisor: Advisor = rule_of_thumb) -> None:
        self._advisor = advisor

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the line after the rule's move, or the one being played."""
        return after_fitting(session, self._advisor(session).rule.move), session.ball


class FollowTheAdvice:
    """Do what the whole advice says: its new line, with the ball in the hand."""

    def __init__(self, advisor: Advisor = advise) -> None:
        self._advisor = advisor

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the advised line."""
        return self._advisor(session).new_line, session.ball


class Oracle:
    """Play as one would who could read the film and the bowler: out of reach for who only watches.

    Parameters
    ----------
    world : PracticeLane
        The lane that is played; the oracle reads it and never throws.
    """

    def __init__(self, world: PracticeLane) -> None:
        self._world = checked_thing("world", world, PracticeLane)
        self._looked_at: int | None = None

    def next_line(self, session: Session) -> tuple[Line, Ball | None]:
        """Return the whole-board line with the best true chance, looked for now and then."""
        n_thrown = self._world.n_thrown
        is_first = self._looked_at is None or n_thrown < self._looked_at
        if not is_first and n_thrown % LOOKS_EVERY:
            return session.line, session.ball
        self._looked_at = n_thrown
        reach = FULL_REACH if is_first else NEAR_REACH
        lines = [line for _, line in moves_within_reach(session.line, session.bowler, *reach)]

        def chances(some: Sequence[Line], n_balls: int) -> Floats:
            return self._world.strike_probs(some, session.ball, n_balls)

        return most_likely(lines, chances, N_LOOK, N_SURE, N_KEPT), session.ball


POLICIES: Mapping[str, Callable[[PracticeLane, Advisor], Policy]] = {
    "never move": lambda world, advisor: NeverMove(),
    "follow the miss": lambda world, advisor: FollowTheMiss(),
    "rulebook": lambda world, advisor: RulebookPolicy(),
    "advice": lambda world, advisor: FollowTheAdvice(advisor),
    "oracle": lambda world, advisor: Oracle(world),
}
"""Every way of playing by its name, made for the world that it plays on; only the oracle reads that."""


def policy(name: str, world: PracticeLane, advisor: Advisor = advise) -> Policy:
    """Return one of :data:`POLICIES`; `advisor` is asked by who follows the whole advice.

    Raises
    ------
    InputError
        For an unknown name; lists the known ones.
    """
    return POLICIES[checked_choice("policy", name, tuple(POLICIES))](world, advisor)
