"""What leaves the hand, one shot or many."""

import dataclasses
from typing import Annotated, get_type_hints

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_number
from coachlib.units import ft_to_boards
from coachlib.validation import thing, types_in
from coachlib.world.array_field import Many, ManyLimits
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, TARGET_FT
from coachlib.world.usual import as_usual


@thing
class Release:
    """The ball as it leaves the hand; each field one number, or a row of numbers of the same length.

    Parameters
    ----------
    laydown_board : float or ndarray
        Where the ball touches down at the foul line, own frame. [board]
    launch_deg : float or ndarray
        Heading there against the boards, negative to the outside. [deg]
    speed_mph : float or ndarray
        At the hand. [mph]
    rev_rate_rpm : float or ndarray
        Turns a minute. [rpm]
    axis_rotation_deg : float or ndarray
        How far the spin is turned from the direction of travel (not from the boards), to the inside. [deg]
    axis_tilt_deg : float or ndarray
        How far the axis leans up. [deg]

    Raises
    ------
    InputError
        If a number is out of range or no number, or rows differ in length.
    """

    laydown_board: Annotated[
        Many, ManyLimits("laydown_board", 1, 39, "boards", "Count boards from the bowler's own side.")
    ]
    launch_deg: Annotated[
        Many, ManyLimits("launch_deg", -10, 10, "deg", "Negative is outside; usual are -3 to 0.")
    ]
    speed_mph: Annotated[
        Many, ManyLimits("speed_mph", 8, 25, "mph", "If this is km/h, convert it with units.kmh_to_mph.")
    ]
    rev_rate_rpm: Annotated[Many, ManyLimits("rev_rate_rpm", 0, 700, "rpm", "Give turns a minute.")]
    axis_rotation_deg: Annotated[
        Many, ManyLimits("axis_rotation_deg", 0, 110, "deg", "0 is end over end, 90 side spin.")
    ]
    axis_tilt_deg: Annotated[Many, ManyLimits("axis_tilt_deg", -10, 60, "deg", "Usual are 5 to 20.")]

    def _problems(self) -> dict[str, str]:
        sizes = {field.name: getattr(self, field.name).shape for field in dataclasses.fields(self)}
        rows = {name: shape[0] for name, shape in sizes.items() if shape}
        if len(set(rows.values())) <= 1:
            return {}
        lengths = ", ".join(f"{name} {n_shots}" for name, n_shots in rows.items())
        problem = f"rows differ in length: {lengths}; expected one length. Give one number for each shot."
        return {next(iter(rows)): problem}

    @property
    def n_shots(self) -> int:
        """How many shots these are."""
        return max(int(getattr(self, field.name).size) for field in dataclasses.fields(self))

    def __eq__(self, other: object) -> bool:
        """Return whether all numbers are the same."""
        if not isinstance(other, Release):
            return NotImplemented
        names = [field.name for field in dataclasses.fields(self)]
        return all(np.array_equal(getattr(self, name), getattr(other, name)) for name in names)

    __hash__ = None  # type: ignore[assignment]


_LIMITS = {
    name: next(part for part in types_in(hint) if isinstance(part, ManyLimits))
    for name, hint in get_type_hints(Release, include_extras=True).items()
}


def within_limits(name: str, values: Many) -> NDArray[np.float64]:
    """Return numbers for a field of a release; those beyond what it may be are put at the limit."""
    return np.clip(np.asarray(values), _LIMITS[name].low, _LIMITS[name].high)


def release_on_line(
    bowler: Bowler, laydown_board: float, target_board: float, target_ft: float = TARGET_FT
) -> Release:
    """Return a bowler's usual release from the laydown board towards a target.

    Parameters
    ----------
    bowler : Bowler
        Speed, revs and axis; what is unknown is taken as usual, see :func:`coachlib.world.usual.as_usual`.
    laydown_board, target_board : float
        The straight line through both is the launch. [board]
    target_ft : float, default 15
        Distance of the target. [ft]

    Raises
    ------
    InputError
        If a value is out of range.
    """
    laydown_board = checked_number("laydown_board", laydown_board, FIRST_BOARD, LAST_BOARD, "boards")
    target_board = checked_number("target_board", target_board, FIRST_BOARD, LAST_BOARD, "boards")
    target_ft = checked_number("target_ft", target_ft, 5, 45, "ft", "The arrows are at about 15 ft.")
    launch_rad = np.arctan((target_board - laydown_board) / ft_to_boards(target_ft))
    meant = as_usual(bowler)
    names = ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")
    return Release(laydown_board, np.degrees(launch_rad), *(float(getattr(meant, name)) for name in names))
