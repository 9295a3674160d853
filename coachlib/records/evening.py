"""The balls of one session as a row: where each hit, which line it was on, and how each line did."""

import dataclasses
from typing import Literal

from coachlib.coaching.credit import credits_line, is_off_target
from coachlib.coaching.levers import move_between
from coachlib.coaching.one_ball import Side, arrival_board, on_target_boards, side_of, usual_spread_boards
from coachlib.coaching.session import Changed, Observed, Session
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.line import Line, Move

Doing = Literal["you", "the lane", "can’t tell"]
DOINGS: tuple[Doing, ...] = ("you", "the lane", "can’t tell")


@dataclasses.dataclass(frozen=True)
class EveningBall:
    """One first ball.

    Parameters
    ----------
    number : int
        Of the ball in the session.
    stretch : int
        Which of the evening's stretches it belongs to, from 0.
    err_boards : float or None
        Where it hit less the pocket, + is high; None where that was not noted. [boards]
    side : {"high", "light", "pocket"} or None
        The same in a word.
    is_strike, is_off_target : bool
        Whether all pins fell; whether it is known to have missed the target.
    doing : str or None
        Of a ball that missed the pocket: whose doing it was, one of :data:`DOINGS`.
    """

    number: int
    stretch: int
    err_boards: float | None
    side: Side | None
    is_strike: bool
    is_off_target: bool
    doing: Doing | None


@dataclasses.dataclass(frozen=True)
class Stretch:
    """Balls of one lane thrown on one line with one ball, until something was changed.

    Parameters
    ----------
    lane : str
        Where.
    line : Line
        Feet and target.
    ball : str
        Name of the ball in the hand; empty where none was named.
    move : Move or None
        What led from the lane's last stretch to this one; None for a lane's first, and on fresh oil.
    is_other_ball : bool
        Whether the ball was changed.
    first_number : int
        Its first ball, as numbered in the session.
    n_balls, n_noted : int
        First balls, and those of which it was noted where they hit or what they left.
    n_pocket, n_credited : int
        Those in the pocket, and those of them that did not miss the target.
    """

    lane: str
    line: Line
    ball: str
    move: Move | None
    is_other_ball: bool
    first_number: int
    n_balls: int = 0
    n_noted: int = 0
    n_pocket: int = 0
    n_credited: int = 0

    @property
    def credited_share(self) -> float:
        """Balls in the pocket over the target, of those noted; 0 where none was noted."""
        return self.n_credited / self.n_noted if self.n_noted else 0.0


def evening_balls(session: Session) -> tuple[tuple[EveningBall, ...], tuple[Stretch, ...]]:
    """Return the first balls of a session in order, and the stretches that they belong to."""
    balls: list[EveningBall] = []
    stretches: list[Stretch] = []
    now_on: dict[str, int] = {}
    for event in session.events:
        if isinstance(event, Changed) and event.is_oiled_anew:
            now_on.pop(event.now.lane, None)
        if not isinstance(event, Observed) or event.shot.is_spare:
            continue
        place = now_on.get(event.lane)
        if place is None or not _is_same(stretches[place], event):
            stretches.append(_begun(event, None if place is None else stretches[place]))
            place = now_on[event.lane] = len(stretches) - 1
        balls.append(_ball(event, place))
        stretches[place] = _counted(stretches[place], event)
    return tuple(balls), tuple(stretches)


def doing_of(seen: Observed) -> Doing | None:
    """Return whose doing a ball was that missed the pocket; None for one in the pocket or not noted.

    A target missed by more than your usual spread, to the side on which the ball then hit: you. On the target
    as marked: the lane, or the line on it. Anything else cannot be told. Grade: rule of thumb.
    """
    side, crossed_board = side_of(seen.shot), seen.shot.crossed_board
    if side in (None, "pocket"):
        return None
    if crossed_board is None:
        return "can’t tell"
    miss_boards = crossed_board - seen.line.target_board
    bowler = seen.setting.bowler
    if abs(miss_boards) > usual_spread_boards(bowler):
        return "you" if (miss_boards > 0) == (side == "high") else "can’t tell"
    return "the lane" if abs(miss_boards) <= on_target_boards(bowler) else "can’t tell"


def _is_same(stretch: Stretch, seen: Observed) -> bool:
    return stretch.line == seen.line and stretch.ball == _ball_name(seen)


def _begun(seen: Observed, last: Stretch | None) -> Stretch:
    move = None if last is None else move_between(last.line, seen.line)
    is_other_ball = last is not None and last.ball != _ball_name(seen)
    return Stretch(seen.lane, seen.line, _ball_name(seen), move, is_other_ball, seen.number)


def _counted(stretch: Stretch, seen: Observed) -> Stretch:
    side = side_of(seen.shot)
    return dataclasses.replace(
        stretch,
        n_balls=stretch.n_balls + 1,
        n_noted=stretch.n_noted + (side is not None),
        n_pocket=stretch.n_pocket + (side == "pocket"),
        n_credited=stretch.n_credited + credits_line(seen),
    )


def _ball(seen: Observed, stretch: int) -> EveningBall:
    board = arrival_board(seen.shot)
    return EveningBall(
        seen.number,
        stretch,
        None if board is None else board - POCKET_BOARD,
        side_of(seen.shot),
        seen.shot.is_strike,
        is_off_target(seen),
        doing_of(seen),
    )


def _ball_name(seen: Observed) -> str:
    return "" if seen.ball is None else seen.ball.name
