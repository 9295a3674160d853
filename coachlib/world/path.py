"""Where balls went: one column a shot, in the own frame."""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.interpolation import between_rows
from coachlib.units import FT_M, mps_to_mph
from coachlib.world.lane import HEAD_PIN_FT

PATH_FT = np.arange(0.0, HEAD_PIN_FT + 1.0)
"""Where board and time of a path are kept [ft]."""


@dataclasses.dataclass(frozen=True, eq=False)
class Path:
    """Where each shot went; all rows have one entry a shot, NaN where something did not happen.

    Attributes
    ----------
    along_ft : ndarray, shape (61,)
        Distances of `path_board` and `path_time_s`. [ft]
    path_board : ndarray, shape (61, n_shots)
        Board at each foot; NaN from where the ball is in the gutter; no rows where paths were not kept.
        [board]
    path_time_s : ndarray, shape (61, n_shots)
        Time since the foul line there; NaN and no rows as for the board. [s]
    arrival_board : ndarray
        Board on the head-pin plane, the path carried on as if no pin stood there. [board]
    entry_deg : ndarray
        Heading there, positive towards the inside. [deg]
    speed_at_pins_mph : ndarray
        Speed there. [mph]
    time_s : ndarray
        From the foul line to there. [s]
    hook_ft : ndarray
        Where skid ends and hook begins: the heading has turned 1 degree from the launch (our definition; no
        definition was found published). [ft]
    roll_ft : ndarray
        Where hook ends and roll begins: no slip is left. NaN if it still slips at the pins. [ft]
    breakpoint_ft, breakpoint_board : ndarray
        Where the path is farthest out. NaN if it was launched less than 1 degree to the outside (then the
        distance hangs on nothing but chance: boards of one foot look alike) or does not turn back. [ft],
        [board]
    breakpoint_turn_deg_per_ft : ndarray
        How sharply the heading turns there. [deg/ft]
    gutter : ndarray of bool
        Whether it left the lane before the pins; then everything at the pins is NaN.
    """

    path_board: NDArray[np.float32]
    path_time_s: NDArray[np.float32]
    arrival_board: NDArray[np.float64]
    entry_deg: NDArray[np.float64]
    speed_at_pins_mph: NDArray[np.float64]
    time_s: NDArray[np.float64]
    hook_ft: NDArray[np.float64]
    roll_ft: NDArray[np.float64]
    breakpoint_ft: NDArray[np.float64]
    breakpoint_board: NDArray[np.float64]
    breakpoint_turn_deg_per_ft: NDArray[np.float64]
    gutter: NDArray[np.bool_]
    along_ft: NDArray[np.float64] = dataclasses.field(default_factory=PATH_FT.copy)

    @property
    def n_shots(self) -> int:
        """How many shots these are."""
        return int(self.arrival_board.size)

    @property
    def mean_speed_mph(self) -> NDArray[np.float64]:
        """Mean speed along the lane, as a clock at both ends would show it [mph]."""
        return HEAD_PIN_FT * mps_to_mph(FT_M) / self.time_s

    def board_at(self, at_ft: float) -> NDArray[np.float64]:
        """Return the board of each shot at some distance, straight between two feet [board]."""
        return between_rows(self.path_board, at_ft)
