"""Straight lines on paper, reckoned here again and not asked of the library.

Two walks, as in the walk test of coaching pages. Slide: the slide foot moves as far as the stance. Walk: the
bowler walks along the line from stance to target, so that from 15 ft behind the foul line, with the target
15 ft past it, the slide foot moves half as far.
"""

from coachlib import Bowler, Line, Move, Session

TARGET_FT, HEAD_PIN_FT, ROW_FT = 15.0, 60.0, 12.0 * 3.0**0.5 / 2.0 / 12.0
POCKET_BOARD, CENTRE_BOARD = 17.5, 20.0
PIN_STEP_BOARDS = 12.0 * 39.0 / 41.5  # pins stand 12 in apart; the lane is 41½ in and 39 boards wide
NEAR_ENOUGH_BOARDS = 4.5
"""So near the middle of a pin a spare line must pass: ball and pin together are 6.3 boards to either side."""

_ROWS = ((1,), (2, 3), (4, 5, 6), (7, 8, 9, 10))


def way_of_feet(move: Move) -> str:
    """Return which way the feet go; "eyes only" where they stay and the target moves."""
    if move.feet_boards:
        return "inside" if move.feet_boards > 0 else "outside"
    return "eyes only" if move.target_boards else "none"


def straight_shift(move: Move, bowler: Bowler, at_ft: float = HEAD_PIN_FT) -> float:
    """Return how far a straight line shifts at the pins, + inside [boards]."""
    feet, eyes = move.feet_boards, move.target_boards
    if bowler.walk == "slide":
        return feet + (eyes - feet) * at_ft / TARGET_FT
    return eyes + (feet - eyes) * (TARGET_FT - at_ft) / (TARGET_FT + bowler.stance_ft)


def pin_place(pin: int) -> tuple[float, float]:
    """Return board and distance of a pin in the own frame, a right-hander's numbers [board], [ft]."""
    number = next(number for number, row in enumerate(_ROWS) if pin in row)
    across = _ROWS[number].index(pin) - number / 2.0
    return CENTRE_BOARD - across * PIN_STEP_BOARDS, HEAD_PIN_FT + number * ROW_FT


def reaches(session: Session, line: tuple[float, float], pin: int) -> bool:
    """Return whether a spare line meets a pin: thrown straight, or as the strike line swung over."""
    pin_board, pin_ft = pin_place(pin)
    boards = (_thrown_straight(session.bowler, line, pin_ft), _swung(session, line))
    return any(abs(board - pin_board) <= NEAR_ENOUGH_BOARDS and 0.5 <= board <= 39.5 for board in boards)


def _thrown_straight(bowler: Bowler, line: tuple[float, float], at_ft: float) -> float:
    feet, target = line
    back = bowler.stance_ft / (TARGET_FT + bowler.stance_ft)
    beside = feet - bowler.laydown_offset_boards  # the ball is carried beside the feet, all the way
    laydown = beside if bowler.walk == "slide" else beside + (target - beside) * back
    return laydown + (target - laydown) * at_ft / TARGET_FT


def _swung(session: Session, line: tuple[float, float]) -> float:
    played: Line = session.line
    move = Move(feet_boards=line[0] - played.feet_board, target_boards=line[1] - played.target_board)
    return POCKET_BOARD + straight_shift(move, session.bowler)
