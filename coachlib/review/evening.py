"""The balls of one session: where each hit, on which line, how each line did, and spares by their kind."""

import dataclasses
from collections.abc import Mapping, Sequence
from typing import Any, Literal, NamedTuple

from coachlib.coaching.advice.advice import advise
from coachlib.coaching.session.arrivals import credits_line, is_off_target
from coachlib.coaching.session.ball_reading import ON_TARGET_BOARDS, PocketSide, side_of
from coachlib.coaching.session.lane_history import Oil, balls_with_oil
from coachlib.coaching.session.last_move import MoveOutcome, outcome_between
from coachlib.coaching.session.session import Session, session_at
from coachlib.coaching.session.setting import Observed
from coachlib.review.trends import err_boards, miss_boards, spares_after
from coachlib.world.levers import move_between
from coachlib.world.line import Line, Move
from coachlib.world.pins import is_split

Doing = Literal["you", "the lane", "you and the lane", "too early to say"]
DOINGS: tuple[Doing, ...] = ("you", "the lane", "you and the lane", "too early to say")
_DOING_OF: dict[str, Doing] = {"bowler": "you", "lane": "the lane", "both": "you and the lane"}
SPARE_KINDS = ("one pin", "the 7 or the 10", "two or more", "splits")


@dataclasses.dataclass(frozen=True)
class EveningBall:
    """One first ball.

    Parameters
    ----------
    number, stretch : int
        Of the ball in the session; which of the evening's stretches it belongs to, from 0.
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
    lane, line
        Where.
    ball, is_other_ball
        Name of the ball in the hand, empty where none was named; whether it was changed.
    move : Move or None
        What led from the lane's last stretch to this one; None for a lane's first, and on fresh oil.
    first_number : int
        Its first ball, as numbered in the session.
    n_balls, n_noted : int
        First balls, and those of which it was noted where they hit or what they left.
    n_pocket, n_credited : int
        Those in the pocket, and those of them that did not miss the target.
    outcome : {"open", "worked", "short", "far"}
        What became of the move, see :func:`coachlib.coaching.session.last_move.move_outcome`.
    """

    lane: str
    line: Line
    ball: str
    move: Move | None
    is_other_ball: bool
    first_number: int
    n_balls: int
    n_noted: int
    n_pocket: int
    n_credited: int
    outcome: MoveOutcome = "open"


class SpareCount(NamedTuple):
    """Spares of one kind: one of :data:`SPARE_KINDS`, how many were made, of how many tried."""

    kind: str
    n_made: int
    n_tried: int


def evening_balls(
    session: Session, advice: Mapping[int, Mapping[str, Any]] | None = None
) -> tuple[tuple[EveningBall, ...], tuple[Stretch, ...]]:
    """Return the first balls of a session in order, and the stretches that they belong to.

    Parameters
    ----------
    advice : mapping of int to mapping, optional
        What was answered at the lane, by the number of the ball; it says whose doing a miss was. A ball of
        which nothing was kept is answered by the rule of thumb.
    """
    balls: list[EveningBall] = []
    together: list[list[Observed]] = []
    before: list[list[Observed]] = []
    now_on: dict[Oil, int] = {}
    for oil, ball in balls_with_oil(session):
        at = now_on.get(oil)
        earlier = [] if at is None else together[at]
        if at is None or (earlier[-1].line, _ball_name(earlier[-1])) != (ball.line, _ball_name(ball)):
            at = now_on[oil] = len(together)
            together.append([])
            before.append(earlier)
        together[at].append(ball)
        err, side, strike = err_boards(ball), side_of(ball.shot), ball.shot.is_strike
        doing = _doing(session, ball, advice or {})
        balls.append(EveningBall(ball.number, at, err, side, strike, is_off_target(ball), doing))
    return tuple(balls), tuple(map(_stretch, together, before))


def _doing(session: Session, ball: Observed, advice: Mapping[int, Mapping[str, Any]]) -> Doing | None:
    """Return whose doing a ball was that missed the pocket; None for one in the pocket or not noted.

    A ball known to have missed the target by more than a board is never the lane's alone. Grade: rule of
    thumb.
    """
    if side_of(ball.shot) in (None, "pocket"):
        return None
    verdict = advice.get(ball.number, {}).get("verdict")
    if not isinstance(verdict, str):
        verdict = advise(session_at(session, ball.number), model_on=False).cause.verdict
    doing = _DOING_OF.get(verdict, "too early to say")
    miss = miss_boards(ball)
    is_off = miss is not None and abs(miss) > ON_TARGET_BOARDS
    return "too early to say" if is_off and doing == "the lane" else doing


def _stretch(together: Sequence[Observed], earlier: Sequence[Observed]) -> Stretch:
    first, sides = together[0], [side_of(ball.shot) for ball in together]
    before = earlier[-1] if earlier else None
    return Stretch(
        lane=first.lane,
        line=first.line,
        ball=_ball_name(first),
        move=None if before is None else move_between(before.line, first.line),
        is_other_ball=before is not None and _ball_name(before) != _ball_name(first),
        first_number=first.number,
        n_balls=len(together),
        n_noted=len(sides) - sides.count(None),
        n_pocket=sides.count("pocket"),
        n_credited=sum(map(credits_line, together)),
        outcome="open"
        if before and _ball_name(before) != _ball_name(first)
        else outcome_between(earlier, together),
    )


def _ball_name(ball: Observed) -> str:
    return "" if ball.ball is None else ball.ball.name


def spares_tried(shots: Sequence[Observed]) -> tuple[SpareCount, ...]:
    """Return the spares made of those tried, in the order of :data:`SPARE_KINDS`, only kinds that were tried.

    Counted is a first ball with its pins left and the spare ball right after it, of which the pins left were
    noted too. A corner pin is counted as that and not as one pin, and a split as that alone.
    """
    tried: dict[str, list[bool]] = {kind: [] for kind in SPARE_KINDS}
    for first, spare in spares_after(shots):
        if first.lane == spare.lane:
            tried[spare_kind(first.shot.leave or ())].append(not spare.shot.leave)
    return tuple(SpareCount(kind, sum(made), len(made)) for kind, made in tried.items() if made)


def spare_kind(leave: tuple[int, ...]) -> str:
    """Return the kind of a leave, one of :data:`SPARE_KINDS`."""
    if is_split(leave):
        return "splits"
    if len(leave) > 1:
        return "two or more"
    return "the 7 or the 10" if leave in ((7,), (10,)) else "one pin"
