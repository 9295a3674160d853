"""What a scene draws, as numbers and short words: simulated balls, oil, straight lines and their shifts."""

import itertools
from collections.abc import Sequence
from typing import TYPE_CHECKING

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.simulation.leave_forecast import likely_leaves, standing_text
from coachlib.coaching.simulation.outcomes import N_TWENTY
from coachlib.coaching.simulation.paths import N_BALLS, LinePaths, known_film, line_paths
from coachlib.coaching.wording.arrival_words import arrival_text, contact_in, half_text, is_at_head_pin
from coachlib.coaching.wording.callouts import side_text
from coachlib.errors import InputError, ModelError
from coachlib.views.lane.oil_tint import oil_image, oil_to_ft
from coachlib.views.lane.scene_parts import (
    Breakpoint,
    DeckLine,
    DrawnLine,
    DrawnPath,
    OilTint,
    Pivot,
    RollingBall,
    Shift,
)
from coachlib.world import levers
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, HIGH_EDGE_BOARD, LOW_EDGE_BOARD, POCKET_BOARD
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text

if TYPE_CHECKING:
    from coachlib.coaching.session.session import Session

DOT_BOARDS = 1.4
"""Arrivals within so many boards stand in one row of dots; the middle row is the pocket."""

NAMES = ("now", "next")
_LOW_ROW = -int((POCKET_BOARD - LOW_EDGE_BOARD) / DOT_BOARDS)
_HIGH_ROW = int((HIGH_EDGE_BOARD - POCKET_BOARD) / DOT_BOARDS)
SHIFTS_AT_FT = (30.0, 45.0, 60.0)
"""Where a move is told as boards across. [ft]"""

OTHERS_HEAD = "Balls that do not strike, simulated:"


def thrown_on(session: "Session", lines: Sequence[Line]) -> tuple[list[LinePaths], str]:
    """Return the balls of a session on some lines, one entry a line, or none and why.

    Without a pattern there are none, and no reason needs to be told. Either all lines get balls or none, so
    that a picture never mixes two kinds of line.
    """
    if session.pattern is None:
        return [], ""
    try:
        return [line_paths(session, line) for line in lines], ""
    except (InputError, ModelError) as error:
        return [], str(error)


def drawn_paths(thrown: Sequence[LinePaths]) -> list[DrawnPath]:
    """Return the balls of one line or two, ready to be drawn; the last one's count says of how many."""
    names = [f"{name} " for name in NAMES] if len(thrown) > 1 else [""]
    ends = [""] * (len(thrown) - 1) + [f" of {N_TWENTY}"]
    return [
        drawn_path(paths, f"{name}{paths.n_strikes}{end}")
        for paths, name, end in zip(thrown, names, ends, strict=False)
    ]


def drawn_path(paths: LinePaths, count_text: str = "") -> DrawnPath:
    """Return the balls of one line, ready to be drawn; `count_text` tells how many of them strike."""
    arrivals, meant = paths.arrivals_board, paths.arrival_board
    return {
        "meant_board": _on_lane(paths.meant_board),
        "balls_board": [_on_lane(ball) for ball in paths.balls_board.T],
        "dots": _dots(arrivals, [outcome.kind == "strike" for outcome in paths.outcomes]),
        "n_lost": N_BALLS - int(np.isfinite(arrivals).sum()),
        "n_strikes": paths.n_strikes,
        "count_text": count_text,
        "contact": [rounded(meant), rounded(contact_in(meant))] if is_at_head_pin(meant) else None,
        "arrival_text": arrival_text(meant),
        "breakpoint": _breakpoint(paths),
        "rolling": _rolling(paths),
    }


def drawn_oil(pattern: OilPattern | None) -> OilTint | None:
    """Return the film as a picture; None where nothing is known of it."""
    film = known_film(pattern)
    return None if film is None else {"image": oil_image(film), "to_ft": rounded(oil_to_ft(film))}


def shift_text(shift_boards: float, hand: Hand) -> str:
    """Return a shift as the bowler sees it: ``2 left``, ``½ right``, or ``same`` below .05 board."""
    if abs(shift_boards) < 0.05:
        return "same"
    return f"{board_text(abs(shift_boards))} {side_text(shift_boards, hand)}"


def simulated_shift_text(thrown: Sequence[LinePaths], hand: Hand) -> str:
    """Return how far the ball as meant arrives from the one of the first line, to half a board."""
    arrivals = [paths.arrival_board for paths in thrown]
    if len(arrivals) < 2 or not all(map(is_at_head_pin, arrivals)):
        return ""
    return shift_text(round(2 * (arrivals[1] - arrivals[0])) / 2, hand)


def drawn_deck(thrown: Sequence[LinePaths], hand: Hand) -> list[DeckLine]:
    """Return what the drawn balls of each line leave that do not strike."""
    names = NAMES if len(thrown) > 1 else ("",)
    return [
        {"head": head, "name": name, "text": standing_text(likely_leaves(paths), hand)}
        for head, name, paths in zip((OTHERS_HEAD, ""), names, thrown, strict=False)
    ]


def rounded(number: float) -> float:
    """Return a number to .01, so that another processor's last digit changes no picture; never -0.0."""
    return round(float(number), 2) + 0.0


BEYOND_TARGET_FT = 10.0
"""So far past its target an aiming line is drawn that would end in a gutter (our choice). [ft]"""


def drawn_line(line: Line, bowler: Bowler, path: DrawnPath | None, is_short: bool = False) -> DrawnLine:
    """Return a line as numbers for the picture, with the path of its ball where one was thrown.

    With `is_short` a line that leaves the lane before the pins ends soon after its target: no ball rolls on
    straight into the gutter there.
    """
    start_ft, leaves_ft = on_lane_ft(line, bowler)
    is_leaving = leaves_ft < HEAD_PIN_FT
    end_ft = min(leaves_ft, line.target_ft + BEYOND_TARGET_FT) if is_short and is_leaving else leaves_ft
    return {
        "feet_board": line.feet_board,
        "target_board": line.target_board,
        "target_ft": line.target_ft,
        "laydown_board": rounded(levers.laydown_board(line, bowler)),
        "feet_text": board_text(line.feet_board),
        "target_text": board_text(line.target_board),
        "start_ft": rounded(start_ft),
        "start_board": rounded(levers.board_at(line, bowler, start_ft)),
        "end_ft": rounded(end_ft),
        "end_board": rounded(levers.board_at(line, bowler, end_ft)),
        "leaves_ft": rounded(leaves_ft) if is_leaving else None,
        "path": path,
    }


def on_lane_ft(line: Line, bowler: Bowler) -> tuple[float, float]:
    """Return from and to which ft the straight line lies on the lane; its target always does."""
    laydown = levers.laydown_board(line, bowler)
    slope = (line.target_board - laydown) / line.target_ft
    if slope == 0:
        return 0.0, HEAD_PIN_FT
    edges_ft = sorted((edge - laydown) / slope for edge in (LOW_EDGE_BOARD, HIGH_EDGE_BOARD))
    return max(0.0, edges_ft[0]), min(HEAD_PIN_FT, edges_ft[1])


def drawn_shift(played: Line, advised: Line, bowler: Bowler, at_ft: float) -> Shift:
    """Return how far the straight line shifts at a distance, in numbers and words."""
    was, will_be = levers.board_at(played, bowler, at_ft), levers.board_at(advised, bowler, at_ft)
    return {
        "at_ft": at_ft,
        "shift_boards": rounded(will_be - was),
        "text": shift_text(will_be - was, bowler.hand),
        "played_board": rounded(was) if is_on_lane(was) else None,
        "advised_board": rounded(will_be) if is_on_lane(will_be) else None,
    }


def drawn_pivot(played: Line, advised: Line, bowler: Bowler) -> Pivot | None:
    """Return where the lines cross; None if they do not between foul line and head pin, on the lane."""
    move = levers.move_between(played, advised)
    if move.target_ft:
        return None
    at_ft = levers.pivot_ft(move, bowler.walk, played.target_ft, bowler.stance_ft)
    if not 0 < at_ft < HEAD_PIN_FT:
        return None
    board = levers.board_at(played, bowler, at_ft)
    if not is_on_lane(board):
        return None
    is_apart = abs(at_ft - played.target_ft) > 1
    text = f"pivot {at_ft:.0f} ft"
    return {"at_ft": rounded(at_ft), "board": rounded(board), "text": text, "is_apart": is_apart}


def is_on_lane(board: float) -> bool:
    """Return whether a board lies between the lane's edges."""
    return LOW_EDGE_BOARD <= board <= HIGH_EDGE_BOARD


def _on_lane(boards: NDArray[np.float32]) -> list[float]:
    """Return a path's boards, one a foot, up to where the ball left the lane."""
    return [rounded(board) for board in boards[np.isfinite(boards)].tolist()]


def _dots(arrivals_board: NDArray[np.float64], strikes: Sequence[bool]) -> list[list[float]]:
    """Return where each arrival's dot stands: a board, its place in the row there, and whether it strikes.

    Strikes come first in their row; every row's middle lies on the lane.
    """
    rows = np.clip(np.rint((arrivals_board - POCKET_BOARD) / DOT_BOARDS), _LOW_ROW, _HIGH_ROW)
    placed = sorted((row, not struck) for row, struck in zip(rows, strikes, strict=True) if np.isfinite(row))
    return [
        [rounded(POCKET_BOARD + row * DOT_BOARDS), float(rank), float(not is_left)]
        for row, group in itertools.groupby(placed, key=lambda dot: dot[0])
        for rank, (_, is_left) in enumerate(group)
    ]


def _breakpoint(paths: LinePaths) -> Breakpoint | None:
    at_ft, board = paths.breakpoint_ft, paths.breakpoint_board
    if not np.isfinite(at_ft):
        return None
    return {"at_ft": rounded(at_ft), "board": rounded(board), "text": f"breakpoint {half_text(board)}"}


def _rolling(paths: LinePaths) -> RollingBall | None:
    meant = paths.arrival_board
    if not np.isfinite(meant):
        return None
    hook_ft, roll_ft = (rounded(ft) if np.isfinite(ft) else None for ft in (paths.hook_ft, paths.roll_ft))
    before_ft = contact_in(meant) / 12.0 if is_at_head_pin(meant) else 0.0
    return {
        "time_s": [_to_ms(time_s) for time_s in paths.meant_time_s.tolist()],
        "hook_ft": hook_ft,
        "roll_ft": roll_ft,
        "end_ft": rounded(HEAD_PIN_FT - before_ft),
    }


def _to_ms(time_s: float) -> float:
    """Return a time to a thousandth of a second: a foot takes about forty."""
    return round(time_s, 3)
