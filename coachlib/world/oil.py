"""The oil on the lane, as far as a rule of thumb asks for it."""

from typing import Annotated, Literal

from coachlib.errors import checked_choice
from coachlib.files import data_path, read_rows
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


def pattern_names() -> tuple[str, ...]:
    """Return the names of the invented patterns that come with the library."""
    return tuple(row["name"] for row in read_rows(data_path("patterns.csv")))


def load_pattern(name: str) -> OilPattern:
    """Return one of the invented patterns that come with the library.

    Raises
    ------
    InputError
        For an unknown name; lists the known ones.
    """
    rows = {row["name"]: row for row in read_rows(data_path("patterns.csv"))}
    row = rows[checked_choice("pattern", name, rows)]
    return OilPattern(name, float(row["length_ft"]), row["kind"])  # type: ignore[arg-type]
