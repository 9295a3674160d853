"""What became of a move: whether it worked, fell short, or went too far.

Judged are the next balls that were not known to be off the mark, the first few only: what comes later is the
lane that changes, not the move. :func:`move_outcome` is the one judgement, at the lane and in every report.
"""

import dataclasses
import math
from collections.abc import Sequence
from typing import Literal

from coachlib.coaching.session.ball_reading import PocketSide, missed_boards, side_of
from coachlib.coaching.session.lane_history import events_on_oil, line_balls, n_in_a_row
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Event, Observed
from coachlib.world.levers import move_between
from coachlib.world.line import Line, Move

JUDGING_BALLS = 4
"""A move is judged by so many balls at most (our guess)."""
FEWEST_JUDGING = 2
"""A move is judged by so many balls at least: one can be luck (rule of thumb)."""

_SMALLEST_BOARDS = 1.0

AnsweredSide = Literal["high", "light"]
MoveOutcome = Literal["open", "worked", "short", "far"]


@dataclasses.dataclass(frozen=True)
class LastMove:
    """The last change of line on this lane with this ball, and the balls since.

    Parameters
    ----------
    move : Move
        Feet and eyes.
    old_line : Line
        The line that was left.
    answered : {"high", "light"} or None
        The side of the pocket that it answered; None where no ball told one.
    hits : tuple of Observed
        First balls since that were not known to be off the mark, oldest first.
    n_balls : int
        All first balls since.
    is_half_back : bool
        Whether it took back half of the move before it: then nothing is taken back again.
    """

    move: Move
    old_line: Line
    answered: AnsweredSide | None
    hits: tuple[Observed, ...]
    n_balls: int
    is_half_back: bool = False

    @property
    def is_judged(self) -> bool:
        """Whether the balls since still speak of the move."""
        return self.answered is not None and 1 <= len(self.hits) <= JUDGING_BALLS

    @property
    def n_too_far(self) -> int:
        """How many balls came in on the other side than the move answered, if all since the move did."""
        n_far = self._n_in_a_row("light" if self.answered == "high" else "high")
        return n_far if n_far == len(self.hits) and not self.is_half_back else 0

    @property
    def n_fell_short(self) -> int:
        """How many of the last balls in a row came in on the side that the move answered."""
        return self._n_in_a_row(self.answered or "")

    @property
    def outcome(self) -> MoveOutcome:
        """What the balls say of the move, see :func:`move_outcome`; later balls change it no more."""
        return move_outcome(self.answered, [side_of(event.shot) for event in self.hits])

    def _n_in_a_row(self, side: str) -> int:
        sides = (side_of(event.shot) for event in reversed(self.hits))
        return n_in_a_row(one == side for one in sides) if self.is_judged else 0


def move_outcome(answered: AnsweredSide | None, sides: Sequence[PocketSide | None]) -> MoveOutcome:
    """Return what the balls after a move say of it.

    Parameters
    ----------
    answered : {"high", "light"} or None
        The side of the pocket that the move answered; None where no ball showed one.
    sides : sequence of {"high", "light", "pocket"} or None
        On which side each ball since came in that was not known to be off the mark, oldest first.

    Returns
    -------
    {"open", "worked", "short", "far"}
        What more than half of the first :data:`JUDGING_BALLS` did: hit the pocket, still came in on the side
        answered, or on the other one. ``open`` where there is no such half, or fewer than
        :data:`FEWEST_JUDGING` balls were.
    """
    first = sides[:JUDGING_BALLS]
    if len(first) < FEWEST_JUDGING:
        return "open"
    named: tuple[tuple[PocketSide, MoveOutcome], ...] = (("pocket", "worked"),)
    if answered is not None:
        named += ((answered, "short"), ("light" if answered == "high" else "high", "far"))
    return next((outcome for side, outcome in named if 2 * first.count(side) > len(first)), "open")


def outcome_between(before: Sequence[Observed], after: Sequence[Observed]) -> MoveOutcome:
    """Return what became of a move from the balls on the lane before it and those on the new line.

    Parameters
    ----------
    before, after : sequence of Observed
        First balls, oldest first: all on the old line's lane and oil before the move; on the new line since.
    """
    answered = _answered(list(before), before[-1].line) if before else None
    hits = [one for one in after if not missed_boards(one.shot, one.line, one.setting.bowler)]
    return move_outcome(answered, [side_of(one.shot) for one in hits])


def last_move(session: Session) -> LastMove | None:
    """Return the last change of feet or eyes on this lane since it was oiled, or None.

    None too where the ball in the hand was changed since, or the target distance with the line.
    """
    events = events_on_oil(session)
    numbers = [number for number, event in enumerate(events) if isinstance(event, Changed) and event.is_move]
    if not numbers:
        return None
    first_number, first, last = _last_step(events, numbers)
    if last.now.line != session.line or last.now.ball != session.ball:
        return None
    move = move_between(first.was.line, last.now.line)
    if first.was.ball != last.now.ball or move.target_ft or move.is_stay:
        return None
    since = [event for event in line_balls(session) if event in events[numbers[-1] :]]
    before = [one for one in events[: numbers[-1]] if isinstance(one, Observed) and not one.shot.is_spare]
    earlier = [number for number in numbers if number < first_number]
    is_half_back = False
    if earlier:
        _, first_before, last_before = _last_step(events, earlier)
        is_half_back = move == half_back(move_between(first_before.was.line, last_before.now.line))
    return LastMove(
        move=move,
        old_line=first.was.line,
        answered=_answered(before, first.was.line),
        hits=tuple(event for event in since if not missed_boards(event.shot, event.line, session.bowler)),
        n_balls=len(since),
        is_half_back=is_half_back,
    )


def _last_step(events: tuple[Event, ...], numbers: list[int]) -> tuple[int, Changed, Changed]:
    """Return where the last changes between two balls begin, the first of them and the last.

    Feet and eyes may come one after the other.
    """
    begin = numbers[-1]
    while begin - 1 in numbers:
        begin -= 1
    return begin, events[begin], events[numbers[-1]]  # type: ignore[return-value]  # both are changes


def half_back(move: Move) -> Move:
    """Return the way back by half of a move, rounded to half boards towards the old line.

    Of 2 and 1 it is 1 and ½, so that the straight line at the pins comes back by half as well; a move of one
    board is taken back whole.
    """
    is_small = max(abs(move.feet_boards), abs(move.target_boards)) <= _SMALLEST_BOARDS
    feet, eyes = (
        boards if is_small else math.copysign(math.ceil(abs(boards)) / 2.0, boards)
        for boards in (move.feet_boards, move.target_boards)
    )
    return Move(feet_boards=0.0 - feet, target_boards=0.0 - eyes)


def _answered(before: list[Observed], old_line: Line) -> AnsweredSide | None:
    """Return the side of the last ball on the old line that missed the pocket."""
    for event in reversed(before):
        if event.line != old_line:
            return None
        side = side_of(event.shot)
        if side == "high" or side == "light":
            return side
    return None
