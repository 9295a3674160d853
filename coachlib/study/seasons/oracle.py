"""The oracle: plays a hidden lane as one would who could read the film and the bowler.

It is the upper end of the scale on which ways of playing are judged, and out of reach for who only watches.
"""

from collections.abc import Sequence

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.candidate_lines import moves_within_reach
from coachlib.coaching.simulation.line_search import most_likely
from coachlib.errors import checked_thing
from coachlib.study.hidden_lane.practice import PracticeLane
from coachlib.study.hidden_lane.true_chances import N_KEPT, N_LOOK, N_SURE, Floats
from coachlib.world.ball import Ball
from coachlib.world.line import Line

LOOKS_EVERY = 4
"""It looks again after so many balls: as often as the others' balls change the lane."""

FULL_REACH, NEAR_REACH = (10, 7), (4, 3)
"""Boards of feet and eyes about the present line, at its first look and later on."""


class Oracle:
    """The policy that knows the truth.

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
