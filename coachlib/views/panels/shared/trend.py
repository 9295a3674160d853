"""The trend of arrivals on the present lane: ball across, board up, the pocket as a band, moves as rules."""

import dataclasses
from typing import Any

from coachlib.coaching.session.arrivals import Arrived, arrivals
from coachlib.coaching.session.ball_reading import arrival_board
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.callouts import line_text, move_text
from coachlib.world.hand import Hand
from coachlib.world.lane import POCKET_HIGH_BOARD, POCKET_LOW_BOARD
from coachlib.world.levers import move_between
from coachlib.world.line import Line
from coachlib.world.parsing import board_text

MOST_OF_SESSION = 60
"""So many last first balls of a session are drawn in one row."""

LOW_BOARD, HIGH_BOARD = 13.0, 22.0
"""What the chart shows; balls farther off stand at its edge. [board]"""


def trend_view(session: Session) -> dict[str, Any]:
    """Return the chart of a session's present lane.

    Parameters
    ----------
    session : Session
        The session so far.

    Returns
    -------
    dict
        ``title``, ``balls`` (``number``, ``board`` or None, ``is_strike``), ``moves`` (before which ball, in
        words), the range of boards, the pocket, and ``alt``; without balls none of them is drawn.
    """
    balls = arrivals(session)
    title = f"Hits on lane {session.lane}" + (f", last {len(balls)} balls" if len(balls) > 1 else "")
    return _view(title, session, balls)


def session_trend_view(session: Session) -> dict[str, Any]:
    """Return the chart of all first balls of a session, on whichever lane; keys as :func:`trend_view`."""
    balls = tuple(
        Arrived(seen.number, arrival_board(seen.shot), seen.shot.is_strike, seen.line)
        for seen in session.first_balls
    )[-MOST_OF_SESSION:]
    ended = dataclasses.replace(session, line=balls[-1].line) if balls else session
    return _view("Every first ball, where it hit", ended, balls)


def _view(title: str, session: Session, balls: tuple[Arrived, ...]) -> dict[str, Any]:
    hand = session.bowler.hand
    moves = _moves(balls, session, hand)
    return {
        "title": title,
        "balls": [
            {"number": one.number, "board": _drawn(one.board), "is_strike": one.is_strike} for one in balls
        ],
        "moves": moves,
        "range_board": [LOW_BOARD, HIGH_BOARD],
        "pocket_board": [POCKET_LOW_BOARD, POCKET_HIGH_BOARD],
        "alt": _alt(balls, moves, session.lane),
    }


def _moves(balls: tuple[Arrived, ...], session: Session, hand: Hand) -> list[dict[str, Any]]:
    lines = [*(one.line for one in balls), session.line]
    return [
        {"before": at, "words": _move_words(lines[at - 1], lines[at], hand)}
        for at in range(1, len(lines))
        if lines[at] != lines[at - 1]
    ]


def _move_words(was: Line, now: Line, hand: Hand) -> str:
    move = move_between(was, now)
    return line_text(now) if move.target_ft else move_text(move, hand)


def _drawn(board: float | None) -> float | None:
    return None if board is None else min(max(board, LOW_BOARD), HIGH_BOARD)


def _alt(balls: tuple[Arrived, ...], moves: list[dict[str, Any]], lane: str) -> str:
    told = []
    for at, one in enumerate(balls):
        told += [move["words"] for move in moves if move["before"] == at]
        told.append(_ball_words(one))
    told += [move["words"] for move in moves if move["before"] == len(balls)]
    return f"Hits on lane {lane}, oldest first: {'; '.join(told)}." if balls else ""


def _ball_words(one: Arrived) -> str:
    where = "not seen" if one.board is None else f"board {board_text(one.board)}"
    return f"ball {one.number} {where}{', strike' if one.is_strike else ''}"
