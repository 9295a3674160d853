"""Balls to read, thrown by the simulation: what was seen of the last few balls, and what was different.

Where a ball hits after a miss or at another pace is simulated with the learner's own numbers. Whose doing the
last ball was is not decided here: that is asked of the rulebook.
"""

import dataclasses
import functools
import math
from collections.abc import Sequence
from typing import Final

from coachlib.coaching.session.ball_reading import side_of
from coachlib.coaching.session.session import Session, observe
from coachlib.coaching.simulation.paths import line_paths
from coachlib.study.questions.case import Case
from coachlib.study.questions.changes import Change, changed
from coachlib.study.questions.what_changes import CAME_IN, HIGH_BOARD, LOW_BOARD, coming_in
from coachlib.world.shot import Shot
from coachlib.world.usual import as_usual

STRAY_BOARDS: Final = {"high": (18.5, 19.0), "light": (15.5, 16.0)}
"""Where a good ball of a line that meets the pocket may end up without any change of the lane [board]."""

_OFF_BOARDS = (-0.5, 0.0, 0.5)
_MISSES_BOARDS = (-3.0, -2.5, 2.5, 3.0)
_PACES_MPH = (-1.5, -1.2, 1.2, 1.5)


@dataclasses.dataclass(frozen=True)
class BallStory:
    """Some balls of one line.

    Parameters
    ----------
    lane : Session
        Who throws what on which line: the lane as it really is.
    shots : tuple of Shot
        What was seen of the balls, first one first.
    last : Change
        What was different with the last ball; nothing where it was thrown as meant.
    """

    lane: Session
    shots: tuple[Shot, ...]
    last: Change = dataclasses.field(default_factory=Change)

    @property
    def session(self) -> Session:
        """The session after these balls."""
        return functools.reduce(observe, self.shots, self.lane)


def missed(case: Case, start: Session) -> BallStory | None:
    """Return a ball that missed the target, on a line that meets the pocket."""
    return _thrown_otherwise(case, start, Change(miss=case.pick(_MISSES_BOARDS)))


def other_pace(case: Case, start: Session) -> BallStory | None:
    """Return a ball over the target that was slower or faster than usual, on a line that meets the pocket."""
    return _thrown_otherwise(case, start, Change(speed_mph=case.pick(_PACES_MPH)))


def once(case: Case, start: Session) -> BallStory:
    """Return one ball over the target that missed the pocket, on a line that meets it."""
    lane = coming_in(start, CAME_IN["pocket"])
    return BallStory(lane, (_seen(lane, case.pick(_OFF_BOARDS), _stray_board(case)),))


def not_noted(case: Case, start: Session) -> BallStory:
    """Return a ball or two of which nobody saw where they crossed, on a line that meets the pocket."""
    lane = coming_in(start, CAME_IN["pocket"])
    shot = Shot(arrival=_stray_board(case))
    return BallStory(lane, (shot,) * int(case.draw.integers(1, 3)))


def again(case: Case, start: Session) -> BallStory:
    """Return three balls or four over the target, all on one side, on a line that no longer fits."""
    return _all_on_one_side(case, start, int(case.draw.integers(3, 5)))


def twice(case: Case, start: Session) -> BallStory:
    """Return two balls over the target on one side, on a line that no longer fits."""
    return _all_on_one_side(case, start, 2)


def again_around_a_miss(case: Case, start: Session) -> BallStory | None:
    """Return the same as :func:`again`, with a ball among them that missed the target."""
    story = again(case, start)
    miss = case.pick(_MISSES_BOARDS)
    board = _hit(story.lane, Change(miss=miss))
    if not LOW_BOARD <= board <= HIGH_BOARD:
        return None
    at = int(case.draw.integers(1, len(story.shots)))
    shots = (*story.shots[:at], _seen(story.lane, miss, board), *story.shots[at:])
    return dataclasses.replace(story, shots=shots)


def _thrown_otherwise(case: Case, start: Session, last: Change) -> BallStory | None:
    """Return none to two good balls and one thrown otherwise; None where it ends far off."""
    lane = coming_in(start, CAME_IN["pocket"])
    usual_mph = as_usual(lane.bowler, lane.ball).speed_mph if last.speed_mph else None
    board = _hit(lane, last)
    if not LOW_BOARD <= board <= HIGH_BOARD:
        return None
    good = _seen(lane, 0.0, _hit(lane, Change()), usual_mph)
    last_mph = None if usual_mph is None else round(usual_mph + last.speed_mph, 1)
    n_good = int(case.draw.integers(0, 3))
    return BallStory(lane, (*((good,) * n_good), _seen(lane, last.miss, board, last_mph)), last)


def _all_on_one_side(case: Case, start: Session, n_balls: int) -> BallStory:
    lane = coming_in(start, CAME_IN[case.pick(("high", "light"))])
    meant = _seen(lane, 0.0, _hit(lane, Change()))
    shots = []
    for _ in range(n_balls):
        off = case.pick(_OFF_BOARDS)
        shot = _seen(lane, off, _hit(lane, Change(miss=off)))
        shots.append(shot if side_of(shot) == side_of(meant) else meant)
    return BallStory(lane, tuple(shots))


def _stray_board(case: Case) -> float:
    sides: Sequence[float] = STRAY_BOARDS[case.pick(tuple(STRAY_BOARDS))]
    return float(case.pick(sides))


def _seen(lane: Session, off_boards: float, hit_board: float, speed_mph: float | None = None) -> Shot:
    """Return what is seen of a ball that crossed so far off the target: boards to the half."""
    crossed = lane.line.target_board + off_boards
    return Shot(crossed_board=crossed, arrival=round(2 * hit_board) / 2, speed_mph=speed_mph)


def _hit(lane: Session, change: Change) -> float:
    after = changed(lane, change)
    board = line_paths(after, after.line).arrival_board
    return board if math.isfinite(board) else -1.0
