"""What was told of lane and hall by those who are there: it cannot be seen in a ball."""

from coachlib.validation import thing


@thing
class Place:
    """Small things worth telling; each holds until it is told otherwise.

    Parameters
    ----------
    has_others_on_line : bool
        Whether two or more others throw strong balls on the boards of this line.
    is_own_side_quiet : bool or None
        Whether fewer than one in four of the balls on this lane come from the own side; None: not told.
    is_feet_stuck : bool
        Whether the feet cannot move here: the ball return, a step, or the edge of the approach.
    has_weather_turned : bool
        Whether the hall is colder or drier than the last time.
    is_approach_bad : bool
        Whether the approach is sticky or wet.
    """

    has_others_on_line: bool = False
    is_own_side_quiet: bool | None = None
    is_feet_stuck: bool = False
    has_weather_turned: bool = False
    is_approach_bad: bool = False
