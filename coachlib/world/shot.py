"""What was seen of one ball. Everything is optional but one of crossing, arrival and leave."""

from typing import Annotated, Literal

import pydantic

from coachlib.validation import Letters, Limits, thing
from coachlib.world.bowler import SpeedMph
from coachlib.world.lane import ArrivalClass, arrival_class, arrival_class_board
from coachlib.world.line import FeetBoard
from coachlib.world.pins import checked_pins

Motion = Literal["early", "even", "late", "skid_long", "over_hook", "roll_out"]
Hit = Literal["flat", "ringing"]
LaneBoard = Annotated[
    float, Limits(0, 40, "boards", "0 and 40 are the gutters; count from the bowler's own side.")
]
ArrivalBoard = Annotated[
    float, Limits(0, 40, "boards", "Count at the head pin from the bowler's own side; the pocket is 17.5.")
]

Leave = Annotated[tuple[int, ...], pydantic.BeforeValidator(checked_pins)]


@thing
class Shot:
    """One ball as seen from behind, in the own frame.

    Parameters
    ----------
    crossed_board : float or None
        Where it crossed at the target distance. [board]
    arrival : float or str or None
        Where it came into the pins, at the 60 ft plane: a board, or a class of :mod:`coachlib.world.lane`.
    leave : tuple of int or None
        Pins left standing, own frame (see :func:`coachlib.own_pins`); () is a strike, None was not seen.
    motion : str or None
        ``early`` (turns before its usual place), ``even``, ``late``, ``skid_long`` (hardly turns),
        ``over_hook`` (sharp, too much) or ``roll_out`` (turned, then lost its angle).
    speed_mph : float or None
        At the hand. [mph]
    breakpoint_board, breakpoint_ft : float or None
        Where it turned. [board], [ft]
    start_board, slide_board : float or None
        Where the stance and the slide foot really were. [board]
    hit : {"flat", "ringing"} or None
        How the last pin was missed: the neighbour pin fell flat beside it, or flew round it.
    is_spare : bool
        A ball at pins already left: logged, and not read for the line.
    note : str
        Anything else worth keeping.

    Raises
    ------
    InputError
        If a value is out of range, or crossing, arrival and leave are all missing.
    """

    crossed_board: LaneBoard | None = None
    arrival: ArrivalBoard | ArrivalClass | None = None
    leave: Leave | None = None
    motion: Motion | None = None
    speed_mph: SpeedMph | None = None
    breakpoint_board: LaneBoard | None = None
    breakpoint_ft: Annotated[float, Limits(10, 60, "ft", "Give the distance from the foul line.")] | None = (
        None
    )
    start_board: FeetBoard | None = None
    slide_board: FeetBoard | None = None
    hit: Hit | None = None
    is_spare: bool = False
    note: Annotated[str, Letters(2000)] = ""

    def _problems(self) -> dict[str, str]:
        if self.is_spare or (self.crossed_board, self.arrival, self.leave) != (None, None, None):
            return {}
        problem = (
            "crossed_board, arrival and leave are all missing; expected at least one of the three. "
            "Mark where the ball crossed, where it met the pins, or the pins it left."
        )
        return {"crossed_board": problem}

    @property
    def arrival_board(self) -> float | None:
        """The arrival as a number; a class counts as the board that stands for it [board]."""
        if isinstance(self.arrival, str):
            return arrival_class_board(self.arrival)
        return self.arrival

    @property
    def arrival_class(self) -> ArrivalClass | None:
        """The arrival as a class."""
        if isinstance(self.arrival, str):
            return self.arrival
        return None if self.arrival is None else arrival_class(self.arrival)

    @property
    def is_strike(self) -> bool:
        """Whether all ten fell on a first ball."""
        return self.leave == () and not self.is_spare
