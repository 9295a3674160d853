"""The trend of arrivals on the present lane: ball across, board up, the pocket as a band, moves as rules."""

import dataclasses
from collections.abc import Mapping, Sequence
from itertools import pairwise
from typing import Any

from coachlib.coaching.session.arrivals import Arrived, arrivals
from coachlib.coaching.session.ball_reading import arrival_board
from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.callouts import line_text, move_text
from coachlib.world.lane import POCKET_HIGH_BOARD, POCKET_LOW_BOARD
from coachlib.world.levers import move_between
from coachlib.world.parsing import board_text

MOST_OF_SESSION = 60
"""So many last first balls of a session are drawn in one row."""

LOW_BOARD, HIGH_BOARD = 13.0, 22.0
"""What the chart shows; balls farther off stand at its edge. [board]"""


def trend_view(session: Session) -> dict[str, Any]:
    """Return the chart of a session's present lane.

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
    balls = [
        Arrived(ball.number, arrival_board(ball.shot), ball.shot.is_strike, ball.line)
        for ball in session.first_balls[-MOST_OF_SESSION:]
    ]
    ended = dataclasses.replace(session, line=balls[-1].line) if balls else session
    return _view("Every first ball, where it hit", ended, balls)


def _view(title: str, session: Session, balls: Sequence[Arrived]) -> dict[str, Any]:
    lines = [*(ball.line for ball in balls), session.line]
    moves: dict[int, str] = {}  # by the ball that came after it
    for at, (was, now) in enumerate(pairwise(lines), start=1):
        if now != was:
            move = move_between(was, now)
            moves[at] = line_text(now) if move.target_ft else move_text(move, session.bowler.hand)
    return {
        "title": title,
        "balls": [
            {"number": ball.number, "board": _drawn(ball.board), "is_strike": ball.is_strike}
            for ball in balls
        ],
        "moves": [{"before": at, "words": words} for at, words in moves.items()],
        "range_board": [LOW_BOARD, HIGH_BOARD],
        "pocket_board": [POCKET_LOW_BOARD, POCKET_HIGH_BOARD],
        "alt": _alt(balls, moves, session.lane),
    }


def _drawn(board: float | None) -> float | None:
    return None if board is None else min(max(board, LOW_BOARD), HIGH_BOARD)


def _alt(balls: Sequence[Arrived], moves: Mapping[int, str], lane: str) -> str:
    words = [move for at, ball in enumerate(balls) for move in (moves.get(at), _ball_words(ball))]
    listed = "; ".join(filter(None, [*words, moves.get(len(balls))]))
    return f"Hits on lane {lane}, oldest first: {listed}." if balls else ""


def _ball_words(ball: Arrived) -> str:
    where = "not seen" if ball.board is None else f"board {board_text(ball.board)}"
    return f"ball {ball.number} {where}{', strike' if ball.is_strike else ''}"
