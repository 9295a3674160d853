"""The shape of a scene: what the builder fills and the pictures read, all of it JSON.

Boards are in the own frame (see :mod:`coachlib.world.lane`), distances from the foul line. Texts are ready to
be shown: halves are written ½, and left and right are meant as seen from behind the bowler.
"""

from typing import Literal, TypedDict

from coachlib.world.hand import Hand

Source = Literal["believed", "sheet", "lines", "hidden"]
"""Where the balls of a scene come from."""


class Breakpoint(TypedDict):
    """Where a simulated ball is farthest out."""

    at_ft: float
    board: float
    text: str


class RollingBall(TypedDict):
    """How a simulated ball runs along its path: when it passes each foot, and where its phases begin.

    It skids up to `hook_ft`, hooks up to `roll_ft` and rolls from there; None where a phase never begins, so
    that a ball without a hook skids until it rolls. `end_ft` is where its centre is when it meets the head
    pin.
    """

    time_s: list[float]
    hook_ft: float | None
    roll_ft: float | None
    end_ft: float


class DrawnPath(TypedDict):
    """Simulated balls on one line: boards at each foot from the foul line, up to where a ball left the lane.

    `dots` are the arrivals at the head-pin plane: a board, its place in the row of dots there, and 1 for a
    strike. `contact` is where the thick line's ball meets the head pin, as a board and inches before it; None
    where it does not. `arrival_text` says where that ball ends, never by a number off the lane. `rolling` is
    how that ball runs; None where it ends in the gutter.
    """

    meant_board: list[float]
    balls_board: list[list[float]]
    dots: list[list[float]]
    n_lost: int
    n_strikes: int
    count_text: str
    contact: list[float] | None
    arrival_text: str
    breakpoint: Breakpoint | None
    rolling: RollingBall | None


class OilTint(TypedDict):
    """The film as a picture, from the foul line to `to_ft`, the lane's left edge on top."""

    image: str
    to_ft: float


class DrawnLine(TypedDict):
    """A straight line from laydown through target, cut where it leaves the lane; `path` where simulated."""

    feet_board: float
    target_board: float
    target_ft: float
    laydown_board: float
    feet_text: str
    target_text: str
    start_ft: float
    start_board: float
    end_ft: float
    end_board: float
    leaves_ft: float | None
    path: DrawnPath | None


class Shift(TypedDict):
    """How far the new line lies from the old one at some distance; the boards are None where off the lane."""

    at_ft: float
    shift_boards: float
    text: str
    played_board: float | None
    advised_board: float | None


class Pivot(TypedDict):
    """Where the two lines cross on the lane; `is_apart` from the target, so that a mark can be seen."""

    at_ft: float
    board: float
    text: str
    is_apart: bool


class LastBall(TypedDict):
    """What was seen of the last ball on this lane.

    A ball that missed the head pin is not drawn at the pins: then `missed_text` says what became of it, and
    the arrival is left out.
    """

    number: int
    crossed_ft: float
    crossed_board: float | None
    crossed_text: str
    arrival_board: float | None
    arrival_text: str
    missed_text: str
    before_head_pin_in: float


class DrawnPin(TypedDict):
    """One pin, with the number painted on the lane's chart for everybody."""

    number: int
    board: float
    behind_in: float
    is_left: bool


class DeckLine(TypedDict):
    """What the balls of one line leave that do not strike, to be written in a row: `head`, `name`, `text`.

    `head` is empty but for the first line, `name` is now or next and empty for a line alone.
    """

    head: str
    name: str
    text: str


class LaneScene(TypedDict):
    """One picture of a lane: `advised` is None when nothing moves, `oil_end_ft` when nobody knows.

    `source` says where its balls come from: what is believed after the balls seen, the oil sheet, nowhere, or
    a hidden lane shown after the game.
    `simulated_text` says how far apart the simulated balls of the two lines arrive, `deck` what they leave;
    both are empty where no ball is simulated. `sheet_text` says where the oil sheet and the balls seen
    disagree, and is empty where they do not. `is_plain` leaves out what only a lesson names: shifts, pivot,
    breakpoint and the words at the last ball; its crossing is a ring there too. `is_asked` says that the next
    line is a question still: only its aim is drawn.
    """

    source: Source
    is_plain: bool
    is_asked: bool
    hand: Hand
    left_gutter_text: str
    right_gutter_text: str
    played: DrawnLine
    advised: DrawnLine | None
    shifts: list[Shift]
    simulated_text: str
    deck: list[DeckLine]
    pivot: Pivot | None
    last: LastBall | None
    pins: list[DrawnPin]
    pins_seen: bool
    oil_end_ft: float | None
    oil: OilTint | None
    arrows: list[list[float]]
    dots: list[list[float]]
    pocket_board: list[float]
    ball_radius_in: float
    pin_radius_in: float
    pit_behind_in: float
    note: str
    sheet_text: str
    summary: str
