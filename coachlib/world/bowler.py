"""Who throws: hand, speed, revs, the axis, how they aim and how they walk."""

from typing import Annotated, Literal

from coachlib.errors import InputError
from coachlib.files import data_path, read_table
from coachlib.things import Letters, Limits, thing
from coachlib.world.hand import Hand
from coachlib.world.line import FeetBoard
from coachlib.world.rows import thing_from_row

Walk = Literal["slide", "walk"]
_KMH = "If this is km/h, convert it with units.kmh_to_mph."
SpeedMph = Annotated[float, Limits(8, 25, "mph", _KMH)]

ACCURACY_SD_BOARDS = {"elite": 0.46, "220+": 0.65, "200+": 0.97, "180+": 1.30, "160+": 1.46}
"""Spread at the arrows by class [boards]: range of ten shots (US Bowler, July 2012, p. 11) over 3.0775."""


@thing
class Bowler:
    """A bowler as far as they are known; None means "I don't know" and is given a wide default where needed.

    Parameters
    ----------
    name : str
        As it shall be shown; an alias will do.
    hand : {"right", "left"}
        The bowling hand.
    speed_mph : float or None
        Own usual speed at the hand. [mph]
    speed_sd_mph : float
        Its spread from ball to ball. [mph]
    rev_rate_rpm, axis_rotation_deg, axis_tilt_deg : float or None
        Turns a minute; how far the spin is turned from straight ahead; how far its axis leans up.
    rev_rate_sd_rpm, axis_rotation_sd_deg, axis_tilt_sd_deg : float
        Their spread from ball to ball (our guess: none was found published).
    arrow_sd_boards : float
        Spread where the ball crosses the target distance, see :data:`ACCURACY_SD_BOARDS`. [boards]
    walk : {"slide", "walk"}
        ``slide``: the slide board moves as much as the stance. ``walk``: the bowler walks the target line.
    stance_ft : float
        How far behind the foul line they stand. [ft]
    laydown_offset_boards : float
        How far outside the slide foot the ball is laid down. [boards]
    drift_boards : float or None
        How far inside of the straight walk the slide foot usually ends; a constant drift is fine. [boards]
    usual_breakpoint_ft : float or None
        Where the ball usually turns. [ft]
    is_two_handed : bool
        Whether both hands stay on the ball.
    age_years : float or None
        Only for the cautions.
    feet_low_board, feet_high_board : float
        Outermost and innermost stance the approach or the bowler allows. [board]
    comfort_board : float or None
        Innermost stance at which they still trust their aim. [board]
    pain : str
        Where it hurts, if it was said; any text stops advice on hand, weight and speed.
    """

    name: Annotated[str, Letters(80)] = ""
    hand: Hand = "right"
    speed_mph: SpeedMph | None = None
    speed_sd_mph: Annotated[float, Limits(0, 5, "mph")] = 0.5
    rev_rate_rpm: Annotated[float, Limits(0, 700, "rpm")] | None = None
    axis_rotation_deg: Annotated[float, Limits(0, 110, "deg")] | None = None
    axis_tilt_deg: Annotated[float, Limits(-10, 60, "deg")] | None = None
    arrow_sd_boards: Annotated[float, Limits(0.1, 6, "boards")] = 0.97
    walk: Walk = "slide"
    stance_ft: Annotated[
        float, Limits(3, 18, "ft", "Measure from the foul line to the toes in the stance.")
    ] = 15.0
    laydown_offset_boards: Annotated[
        float, Limits(-2, 15, "boards", "Usually 6 to 7, the ball outside the slide foot.")
    ] = 6.5
    drift_boards: Annotated[float, Limits(-15, 15, "boards")] | None = None
    usual_breakpoint_ft: Annotated[float, Limits(15, 60, "ft")] | None = None
    is_two_handed: bool = False
    age_years: Annotated[float, Limits(4, 110, "years")] | None = None
    feet_low_board: FeetBoard = 1.0
    feet_high_board: FeetBoard = 45.0
    comfort_board: FeetBoard | None = None
    pain: Annotated[str, Letters(200)] = ""
    rev_rate_sd_rpm: Annotated[float, Limits(0, 150, "rpm")] = 15.0
    axis_rotation_sd_deg: Annotated[float, Limits(0, 30, "deg")] = 4.0
    axis_tilt_sd_deg: Annotated[float, Limits(0, 20, "deg")] = 2.0

    def _problems(self) -> dict[str, str]:
        if self.feet_low_board <= self.feet_high_board:
            return {}
        return {
            "feet_low_board": f"feet_low_board is {self.feet_low_board:g}; expected at most "
            f"feet_high_board, {self.feet_high_board:g} boards. Give the outermost stance first."
        }


def walk_from_test(stance_boards: tuple[float, ...], slide_boards: tuple[float, ...]) -> Walk:
    """Return how a bowler walks from the two-minute test: stand on three boards, note the slide boards.

    Parameters
    ----------
    stance_boards, slide_boards : tuple of float
        Where they stood and where the slide foot ended, same length, at least two different stances. [board]

    Returns
    -------
    {"slide", "walk"}
        ``slide`` if the slide board follows the stance with a slope nearer 1, ``walk`` if nearer 1/2.

    Raises
    ------
    InputError
        If the two differ in length or all stances are the same.
    """
    n_balls = len(stance_boards)
    if n_balls != len(slide_boards) or len(set(stance_boards)) < 2:
        message = (
            f"the walk test has {n_balls} stances and {len(slide_boards)} slide boards; expected as many "
        )
        message += "of both and at least two different stances. Stand on three boards, e.g. 20, 25 and 30."
        raise InputError(message)
    stance_mean, slide_mean = sum(stance_boards) / n_balls, sum(slide_boards) / n_balls
    across = sum(
        (x - stance_mean) * (y - slide_mean) for x, y in zip(stance_boards, slide_boards, strict=True)
    )
    slope = across / sum((x - stance_mean) ** 2 for x in stance_boards)
    return "slide" if slope > 0.75 else "walk"


def bowler_names() -> tuple[str, ...]:
    """Return the names of the bowlers that come with the library, all invented."""
    return tuple(row.cells["name"] for row in read_table(data_path("bowlers.csv")))


def load_bowler(name: str) -> Bowler:
    """Return a bowler that comes with the library.

    Parameters
    ----------
    name : str
        One of :func:`bowler_names`.

    Raises
    ------
    InputError
        Listing the names, if there is no such bowler.
    DataFileError
        If the file is damaged.
    """
    return thing_from_row(Bowler, data_path("bowlers.csv"), name)
