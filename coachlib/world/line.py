"""A line to play and a move between lines: feet, eyes, and the few other things a bowler can change."""

import dataclasses
from typing import Annotated, Literal

from coachlib.validation import Letters, Limits, thing
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, TARGET_FT

FEET_LOW_BOARD, FEET_HIGH_BOARD = -5.0, 45.0
FeetBoard = Annotated[
    float,
    Limits(
        FEET_LOW_BOARD,
        FEET_HIGH_BOARD,
        "boards",
        "Count boards from the bowler's own side; the approach ends there.",
    ),
]
TargetBoard = Annotated[
    float,
    Limits(FIRST_BOARD, LAST_BOARD, "boards", "Count boards from the bowler's own side; 20 is the centre."),
]
TargetFt = Annotated[
    float, Limits(5, 45, "ft", "Give the distance from the foul line; the arrows are at about 15 ft.")
]

SurfaceChange = Literal["", "duller", "smoother"]
BallChange = Literal["", "stronger", "weaker"]


@thing
class Line:
    """Where a bowler stands and what they look at.

    Parameters
    ----------
    feet_board : float
        Board of the stance, own frame; beyond the lane's edges stands beside it. [board]
    target_board : float
        Board looked at. [board]
    target_ft : float, default 15
        Distance of the target from the foul line. [ft]
    """

    feet_board: FeetBoard
    target_board: TargetBoard
    target_ft: TargetFt = TARGET_FT


@thing
class Move:
    """A difference between two ways of throwing; every field 0 or empty means "stay".

    Parameters
    ----------
    feet_boards, target_boards : float
        Change of stance and of target, ``+`` inside. [boards]
    target_ft : float
        Change of the distance at which the target is read, on the same line. [ft]
    speed_mph : float
        Change of speed at the hand. [mph]
    rotation_deg : float
        Change of axis rotation, ``+`` more round the side. [deg]
    surface, ball : str
        ``"duller"`` or ``"smoother"`` cover; ``"stronger"`` (turns earlier, more) or ``"weaker"`` ball.
    note : str
        What feet, eyes and the other fields cannot say, e.g. loft a little.
    """

    feet_boards: Annotated[float, Limits(-40, 40, "boards")] = 0.0
    target_boards: Annotated[float, Limits(-38, 38, "boards")] = 0.0
    target_ft: Annotated[float, Limits(-40, 40, "ft")] = 0.0
    speed_mph: Annotated[float, Limits(-5, 5, "mph")] = 0.0
    rotation_deg: Annotated[float, Limits(-45, 45, "deg")] = 0.0
    surface: SurfaceChange = ""
    ball: BallChange = ""
    note: Annotated[str, Letters(200)] = ""

    @property
    def is_stay(self) -> bool:
        """Whether nothing changes."""
        return self == Move()

    @property
    def size_boards(self) -> float:
        """How big a move is: boards of feet and of eyes together [board]."""
        return abs(self.feet_boards) + abs(self.target_boards)

    @property
    def is_feet_and_eyes(self) -> bool:
        """Whether stance or target board changes."""
        return self.feet_boards != 0 or self.target_boards != 0

    def __str__(self) -> str:
        """Return the move in the trade's short form and the own frame, e.g. ``2 and 1 inside``."""
        parts = [_feet_and_eyes(self.feet_boards, self.target_boards)] if self.is_feet_and_eyes else []
        changes = (
            (self.target_ft, "look {:g} ft {}", ("farther", "closer")),
            (self.speed_mph, "{:g} mph {}", ("faster", "slower")),
            (self.rotation_deg, "{:g} deg {} rotation", ("more", "less")),
        )
        parts += [text.format(abs(size), ways[size < 0]) for size, text, ways in changes if size]
        parts += [f"{self.surface} surface"] * bool(self.surface) + [f"{self.ball} ball"] * bool(self.ball)
        parts += [self.note] * bool(self.note)
        return ", ".join(parts) or "stay"


def after_move(line: Line, move: Move) -> Line:
    """Return the line after a move of feet and eyes.

    Raises
    ------
    InputError
        If the new stance or target lies outside what :class:`Line` allows.
    """
    return dataclasses.replace(
        line,
        feet_board=line.feet_board + move.feet_boards,
        target_board=line.target_board + move.target_boards,
    )


def _feet_and_eyes(feet_boards: float, target_boards: float) -> str:
    if feet_boards * target_boards >= 0:
        way = "inside" if feet_boards + target_boards > 0 else "outside"
        return f"{abs(feet_boards):g} and {abs(target_boards):g} {way}"
    return f"feet {_signed(feet_boards)}, eyes {_signed(target_boards)}"


def _signed(boards: float) -> str:
    return f"{abs(boards):g} {'inside' if boards > 0 else 'outside'}"
