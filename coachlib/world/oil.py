"""The oil on the lane, as far as a rule of thumb asks for it."""

from typing import Annotated, Literal

from coachlib.things import Letters, Limits, thing

PatternKind = Literal["house", "flat", "other"]


@thing
class OilPattern:
    """An oil pattern known by its length and kind; a session without one says "I don't know".

    Parameters
    ----------
    name : str
        What it is: ``house_41``.
    length_ft : float
        Where the oil ends. [ft]
    kind : {"house", "flat", "other"}
        ``house``: much oil in the middle, little outside. ``flat``: much the same across.
    """

    name: Annotated[str, Letters(60)]
    length_ft: Annotated[float, Limits(20, 55, "ft", "Read it off the pattern sheet; usually 32 to 47 ft.")]
    kind: PatternKind = "house"
