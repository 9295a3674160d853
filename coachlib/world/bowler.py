"""Who throws: hand, speed, revs, the axis, how they aim and how they walk."""

import statistics
from collections.abc import Sequence
from typing import Annotated, Any, Literal

import numpy as np

from coachlib.errors import checked_number, raise_input_errors, shown
from coachlib.files import data_path, read_table, thing_from_row
from coachlib.validation import Letters, Limits, thing
from coachlib.world.hand import Hand
from coachlib.world.line import FeetBoard

Walk = Literal["slide", "walk"]
Hook = Literal["straight", "some", "big"]
_KMH = "If this is km/h, convert it with units.kmh_to_mph."
SpeedMph = Annotated[float, Limits(8, 25, "mph", _KMH)]

WALK_SLOPES = (0.25, 1.25)
"""Slide boards a board of stance that a walk test can be read by (our guess: 1/2 and 1, measured roughly)."""

ACCURACY_SD_BOARDS = {"160": 1.46, "180": 1.30, "200": 0.97, "220": 0.65, "tour": 0.46}
"""Spread at the arrows by the average a bowler has about, and on tour [boards]: range of ten shots
(US Bowler, July 2012, p. 11) over 3.0775."""

USUAL_ACCURACY = "200"
"""What a bowler is taken for whose accuracy nobody entered (our choice)."""


_NO_PAIN = frozenset({"", "no", "none", "nothing", "na", "0", "nil", "nowhere", "nopain"})


def notes_pain(text: str) -> bool:
    """Return whether what was noted about pain says that something hurts.

    Parameters
    ----------
    text : str
        As typed. "none", "no", "-", "nothing", "n/a", "0" and the like say that nothing does; letter case,
        spaces and punctuation do not matter. Any other text is taken as pain.
    """
    return "".join(letter for letter in text.casefold() if letter.isalnum()) not in _NO_PAIN


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
        Spread where the ball crosses the target distance, see :data:`ACCURACY_SD_BOARDS`; that of
        :data:`USUAL_ACCURACY` where nobody entered it. [boards]
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
        Where it hurts, if it was said; see :func:`notes_pain`.
    hook : {"straight", "some", "big"} or None
        How much the ball hooks, as one says it who does not know the revs; not asked where they are known.
    is_usual_accuracy_entered : bool
        That a spread which is the usual one was entered, and is not assumed; see :attr:`is_accuracy_known`.
    """

    name: Annotated[str, Letters(80)] = ""
    hand: Hand = "right"
    speed_mph: SpeedMph | None = None
    speed_sd_mph: Annotated[float, Limits(0, 5, "mph")] = 0.5
    rev_rate_rpm: Annotated[float, Limits(0, 700, "rpm")] | None = None
    axis_rotation_deg: Annotated[float, Limits(0, 110, "deg")] | None = None
    axis_tilt_deg: Annotated[float, Limits(-10, 60, "deg")] | None = None
    arrow_sd_boards: Annotated[float, Limits(0.1, 6, "boards")] = ACCURACY_SD_BOARDS[USUAL_ACCURACY]
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
    hook: Hook | None = None
    is_usual_accuracy_entered: bool = False

    @property
    def is_accuracy_known(self) -> bool:
        """Whether the spread at the arrows was entered or measured; another than the usual one always was."""
        is_usual = self.arrow_sd_boards == ACCURACY_SD_BOARDS[USUAL_ACCURACY]
        return self.is_usual_accuracy_entered or not is_usual

    @property
    def has_pain(self) -> bool:
        """Whether it was said that something hurts or is numb."""
        return notes_pain(self.pain)

    def _problems(self) -> dict[str, str]:
        if self.feet_low_board <= self.feet_high_board:
            return {}
        return {
            "feet_low_board": f"feet_low_board is {self.feet_low_board:g}; expected at most "
            f"feet_high_board, {self.feet_high_board:g} boards. Give the outermost stance first."
        }


def accuracy_of(bowler: Bowler) -> str:
    """Return the class of accuracy entered for a bowler; empty where it is another number, or not known."""
    known = ACCURACY_SD_BOARDS.items() if bowler.is_accuracy_known else ()
    return next((name for name, sd_boards in known if sd_boards == bowler.arrow_sd_boards), "")


def accuracy_fields(sd_boards: float) -> dict[str, Any]:
    """Return the fields of a bowler whose spread at the arrows is known [boards]."""
    is_usual = sd_boards == ACCURACY_SD_BOARDS[USUAL_ACCURACY]
    return {"arrow_sd_boards": sd_boards, "is_usual_accuracy_entered": is_usual}


def walk_from_test(stance_boards: Sequence[float], slide_boards: Sequence[float]) -> Walk:
    """Return how a bowler walks from the two-minute test: stand on three boards, note the slide boards.

    Parameters
    ----------
    stance_boards, slide_boards : sequence of float
        Where they stood and where the slide foot ended, same length, at least two different stances. [board]

    Returns
    -------
    {"slide", "walk"}
        ``slide`` if the slide board follows the stance with a slope nearer 1, ``walk`` if nearer 1/2.

    Raises
    ------
    InputError
        If one is no board, the two differ in length, all stances are the same, or the slide follows neither
        way (:data:`WALK_SLOPES`).
    """
    stances = _checked_boards("stance_boards", stance_boards)
    slides = _checked_boards("slide_boards", slide_boards)
    if len(stances) != len(slides) or len(set(stances)) < 2:
        message = (
            "Walk test: stand on at least two different boards, e.g. 20, 25 and 30, and note the slide board "
            f"of each. slide_boards holds {len(slides)} for {len(stances)} stances, {len(set(stances))} of "
            "them different."
        )
        raise_input_errors({"slide_boards": message})
    slope = statistics.linear_regression(stances, slides).slope
    if not WALK_SLOPES[0] <= slope <= WALK_SLOPES[1]:
        message = (
            "Walk test: measure again, three stances and the slide board of each. A board of stance moves "
            f"slide_boards by {slope:.2f} boards; we can use {WALK_SLOPES[0]:g} to {WALK_SLOPES[1]:g}."
        )
        raise_input_errors({"slide_boards": message})
    return "slide" if slope > 0.75 else "walk"


def bowler_names() -> tuple[str, ...]:
    """Return the names of the bowlers that come with the library, all invented."""
    return tuple(row.cells["name"] for row in read_table(data_path("bowlers.csv")))


def load_bowler(name: str) -> Bowler:
    """Return a bowler that comes with the library, one of :func:`bowler_names`.

    Raises
    ------
    InputError
        Listing the names, if there is no such bowler.
    DataFileError
        If the file is damaged.
    """
    return thing_from_row(Bowler, data_path("bowlers.csv"), name)


def _checked_boards(name: str, boards: object) -> tuple[float, ...]:
    fix = "Count boards from the bowler's own side; the approach ends there."
    if isinstance(boards, np.ndarray):
        boards = boards.tolist()
    if not isinstance(boards, list | tuple):
        message = f"{name} is {shown(boards)}; expected a list of boards. Give e.g. (20, 25, 30)."
        raise_input_errors({name: message})
    return tuple(checked_number(name, board, -5, 45, "boards", fix) for board in boards)
