"""The balls of one session as a row: where each hit, which line it was on, and how each line did."""

import dataclasses
from collections.abc import Mapping
from typing import Any, Literal

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.arrivals import credits_line, is_off_target
from coachlib.coaching.session.ball_reading import ON_TARGET_BOARDS, PocketSide, arrival_board, side_of
from coachlib.coaching.session.lane_history import Oil, balls_with_oil
from coachlib.coaching.session.session import Session, session_at
from coachlib.coaching.session.setting import Observed
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.levers import move_between
from coachlib.world.line import Line, Move

Doing = Literal["you", "the lane", "you and the lane", "too early to say"]
DOINGS: tuple[Doing, ...] = ("you", "the lane", "you and the lane", "too early to say")
_DOING_OF: dict[str, Doing] = {"bowler": "you", "lane": "the lane", "both": "you and the lane"}


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
    side: PocketSide | None
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


def evening_balls(
    session: Session, advice: Mapping[int, Mapping[str, Any]] | None = None
) -> tuple[tuple[EveningBall, ...], tuple[Stretch, ...]]:
    """Return the first balls of a session in order, and the stretches that they belong to.

    Parameters
    ----------
    session : Session
        As it stands.
    advice : mapping of int to mapping, optional
        What was answered at the lane, by the number of the ball; it says whose doing a miss was. A ball of
        which nothing was kept is answered by the rule of thumb.
    """
    balls: list[EveningBall] = []
    stretches: list[Stretch] = []
    now_on: dict[Oil, int] = {}
    for oil, seen in balls_with_oil(session):
        place = now_on.get(oil)
        if place is None or not _is_same(stretches[place], seen):
            stretches.append(_begun(seen, None if place is None else stretches[place]))
            place = now_on[oil] = len(stretches) - 1
        balls.append(_ball(seen, place, doing_of(seen, _verdict(session, seen, advice or {}))))
        stretches[place] = _counted(stretches[place], seen)
    return tuple(balls), tuple(stretches)


def doing_of(seen: Observed, verdict: str) -> Doing | None:
    """Return whose doing a ball was that missed the pocket; None for one in the pocket or not noted.

    Parameters
    ----------
    seen : Observed
        The ball.
    verdict : str
        What was answered at the lane, one of :data:`coachlib.coaching.rules.rule_advice.Verdict`.

    Notes
    -----
    A ball known to have missed the target by more than a board is never the lane's alone. Grade: rule of
    thumb.
    """
    if side_of(seen.shot) in (None, "pocket"):
        return None
    doing = _DOING_OF.get(verdict, "too early to say")
    crossed_board = seen.shot.crossed_board
    is_off = crossed_board is not None and abs(crossed_board - seen.line.target_board) > ON_TARGET_BOARDS
    return "too early to say" if is_off and doing == "the lane" else doing


def _verdict(session: Session, seen: Observed, advice: Mapping[int, Mapping[str, Any]]) -> str:
    """Return what was answered then; the rule of thumb's verdict where that was not kept."""
    kept = advice.get(seen.number, {}).get("verdict")
    if isinstance(kept, str):
        return kept
    return advise(session_at(session, seen.number), model_on=False).cause.verdict


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


def _ball(seen: Observed, stretch: int, doing: Doing | None) -> EveningBall:
    board = arrival_board(seen.shot)
    return EveningBall(
        seen.number,
        stretch,
        None if board is None else board - POCKET_BOARD,
        side_of(seen.shot),
        seen.shot.is_strike,
        is_off_target(seen),
        doing,
    )


def _ball_name(seen: Observed) -> str:
    return "" if seen.ball is None else seen.ball.name
