"""The front page: the last session to go on with, and a door to every page, each with a small picture.

The lane of the session and the strike chance by board are drawn from the library's numbers; the other small
pictures are signs for what stands behind the door.
"""

from functools import cache

import numpy as np

from coachlib.coaching.session.session import Session
from coachlib.errors import DataFileError, InputError
from coachlib.physics.pins.carry import strike_prob
from coachlib.records.log.logbook import Logbook
from coachlib.units import in_to_boards
from coachlib.views.front.doors import DOORS, LANE_SIDE, LESSON_DOORS, WORDS
from coachlib.views.print.page import filled
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand, own_pins
from coachlib.world.lane import (
    ARROW_BOARDS,
    ARROWS_FT,
    DOT_BOARDS,
    DOTS_FT,
    HEAD_PIN_FT,
    HIGH_EDGE_BOARD,
    LOW_EDGE_BOARD,
)
from coachlib.world.levers import board_at
from coachlib.world.line import Line
from coachlib.world.parsing import board_text
from coachlib.world.pins import pin_board, pin_ft

BOARD_PX, FOOT_PX, FEET_PX = 6.4, 7.0, 84.0
DRAWN_TO_FT, DECK_FROM_FT = 40.0, 46.0
ARROWS = tuple(zip(ARROW_BOARDS, ARROWS_FT, strict=True))
USUAL_ARRIVAL = (5.0, 16.5, 15.0)  # entry [deg], speed at the pins [mph], ball [lb]: for the picture only


def front_page(logbook: Logbook, pages: str) -> str:
    """Return the front page as HTML.

    Parameters
    ----------
    logbook : Logbook
        The person's log; of it, only the session not ended that was written to last is shown.
    pages : str
        What stands before a page's name in its address, seen from the front page: ``"coach/page/"``.

    Returns
    -------
    str
        One page that fetches nothing. A log that cannot be read is said, and does no harm to the doors.
    """
    session, problem = _open_session(logbook)
    return filled(
        "front_page.html",
        title="Lane-play coach",
        session=session,
        problem=problem,
        lane=LaneDrawing(session),
        lane_side=LANE_SIDE,
        words=WORDS,
        doors=DOORS,
        pages=pages,
        curve=_strike_curve(),
    )


def lessons_page(pages: str) -> str:
    """Return the list of lessons as HTML; `pages` as for :func:`front_page`, seen from one level below."""
    return filled(
        "lessons_page.html", title="Lessons", doors=LESSON_DOORS, pages=pages, curve=_strike_curve()
    )


def _open_session(logbook: Logbook) -> tuple[Session | None, str]:
    """Return the session to go on with, if there is one, and what is wrong where the log cannot be read."""
    try:
        key = logbook.latest_open()
        return (None if key is None else logbook.replay(key)), ""
    except (DataFileError, InputError):
        return None, "Your log cannot be read as it is. Open the lane side: it says what is wrong."


class LaneDrawing:
    """The lane as one sees it turned a quarter: the bowler stands at the left end, left is up.

    Parameters
    ----------
    session : Session or None
        Its feet, target and straight line are drawn; without one the lane is empty.
    """

    def __init__(self, session: Session | None) -> None:
        self._hand: Hand = session.bowler.hand if session else "right"
        self.lane_px = round((HIGH_EDGE_BOARD - LOW_EDGE_BOARD) * BOARD_PX)
        self.foul_px = FEET_PX
        self.width_px = round(self.deck_px(10)) + 34
        self.arrows = [(self.along_px(ft), self.across_px(board)) for board, ft in ARROWS]
        self.dots = [(self.along_px(DOTS_FT), self.across_px(board)) for board in DOT_BOARDS]
        self.pins = [
            (pin, self.deck_px(pin), self.across_px(pin_board(self._own(pin)))) for pin in range(1, 11)
        ]
        self.feet_px = self.target_px = 0.0
        self.line: list[tuple[float, float]] = []
        self.feet_text = self.target_text = ""
        if session:
            self._draw_line(session.line, session.bowler)

    def _draw_line(self, line: Line, bowler: Bowler) -> None:
        self.feet_text, self.target_text = board_text(line.feet_board), board_text(line.target_board)
        self.feet_px, self.target_px = self.across_px(line.feet_board), self.across_px(line.target_board)
        self.target_along_px = self.along_px(line.target_ft)
        ends_ft = (0.0, line.target_ft, DRAWN_TO_FT)
        self.line = [(self.along_px(ft), self.across_px(board_at(line, bowler, ft))) for ft in ends_ft]
        is_rising = self.line[0][1] > self.line[-1][1]
        self.label_px = self.target_px + (32.0 if is_rising else -14.0)  # on the side the line does not take

    def _own(self, pin: int) -> int:
        return own_pins((pin,), self._hand)[0]

    def along_px(self, ft: float) -> float:
        """Return where a distance from the foul line is drawn, up to the deck."""
        return self.foul_px + ft * FOOT_PX

    def across_px(self, board: float) -> float:
        """Return where an own board is drawn, from the lane's left edge."""
        from_left = HIGH_EDGE_BOARD - board if self._hand == "right" else board - LOW_EDGE_BOARD
        return round(from_left * BOARD_PX, 1)

    def deck_px(self, pin: int) -> float:
        """Return where a pin is drawn: the deck follows in its true shape."""
        behind_boards = in_to_boards((pin_ft(pin) - HEAD_PIN_FT) * 12.0)
        return round(self.along_px(DECK_FROM_FT) + behind_boards * BOARD_PX, 1)


@cache
def _strike_curve() -> str:
    """Return the chance of a strike by board, of simulated racks, as points of a small picture."""
    boards = np.arange(14.0, 22.1, 0.25)
    chances = strike_prob(boards, *(np.full_like(boards, value) for value in USUAL_ARRIVAL))
    along_px, up_px = (boards - boards[0]) / np.ptp(boards) * 132.0, 60.0 - 60.0 * chances
    return " ".join(f"{x:.1f},{y:.1f}" for x, y in zip(along_px, up_px, strict=True))
