"""Made-up patterns with one thing changed at a time: how much more oil lies inside, over how many boards."""

import dataclasses

import numpy as np

from coachlib.errors import checked_number
from coachlib.units import N_BOARDS
from coachlib.world.film import film_rows
from coachlib.world.oil import OilPattern
from coachlib.world.oil_shape import STEP_FT, USUAL_VOLUME_ML


def ramp_pattern(
    ratio: float,
    ramp_boards: float = 6.0,
    middle_board: float = 11.0,
    length_ft: float = 41.0,
    volume_ml: float = USUAL_VOLUME_ML,
) -> OilPattern:
    """Return a pattern that rises evenly from little oil outside to much inside, alike on both sides.

    Parameters
    ----------
    ratio : float
        Film inside over film outside; 1 is the same film from gutter to gutter.
    ramp_boards : float, default 6
        Over how many boards it rises. [boards]
    middle_board : float, default 11
        Where the middle of the rise lies, at every distance. [board]
    length_ft : float, default 41
        Where the oil ends. [ft]
    volume_ml : float, default 25
        Oil on the lane. [mL]

    Raises
    ------
    InputError
        If a value is out of range.
    """
    ratio = checked_number("ratio", ratio, 1, 100, "", "Give film inside over film outside.")
    ramp_boards = checked_number("ramp_boards", ramp_boards, 0.5, 18, "boards")
    middle_board = checked_number("middle_board", middle_board, 3, 18, "boards")
    volume_ml = checked_number("volume_ml", volume_ml, 1, 60, "mL", "Usual are 18 to 30 mL.")
    from_side = np.minimum(np.arange(1.0, N_BOARDS + 1.0), N_BOARDS - np.arange(N_BOARDS))
    risen = np.clip((from_side - middle_board) / ramp_boards + 0.5, 0.0, 1.0)
    across = (1.0 + (ratio - 1.0) * risen) / ratio
    middle_ft = (np.arange(round(length_ft / STEP_FT)) + 0.5) * STEP_FT
    along = np.interp(middle_ft, (0.0, length_ft - 6.0, length_ft), (1.4, 0.75, 0.4))
    film = along[:, None] * across
    made = OilPattern(f"ramp {ratio:g} to 1", length_ft, "other", film_rows(film), STEP_FT)
    return dataclasses.replace(made, film_um=film_rows(film * volume_ml / made.volume_ml))
