"""Straight lines as a scene draws them: where they start and end, how far they shift, where they cross."""

from coachlib.views.lane.scene_parts import (
    DrawnLine,
    DrawnPath,
    Pivot,
    Shift,
)
from coachlib.views.lane.scene_paths import (
    rounded,
    shift_text,
)
from coachlib.world import levers
from coachlib.world.bowler import Bowler
from coachlib.world.lane import (
    HEAD_PIN_FT,
    HIGH_EDGE_BOARD,
    LOW_EDGE_BOARD,
)
from coachlib.world.line import Line
from coachlib.world.parsing import board_text

SHIFTS_AT_FT = (30.0, 45.0, 60.0)
"""Where a move is told as boards across. [ft]"""


def drawn_line(line: Line, bowler: Bowler, path: DrawnPath | None) -> DrawnLine:
    """Return a line as numbers for the picture, with the path of its ball where one was thrown."""
    start_ft, end_ft = on_lane_ft(line, bowler)
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
        "leaves_ft": rounded(end_ft) if end_ft < HEAD_PIN_FT else None,
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
