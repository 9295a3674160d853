"""The ball in the hand, as far as a rule of thumb asks for it."""

from typing import Annotated, Literal

from coachlib.errors import checked_choice
from coachlib.files import data_path, read_rows
from coachlib.things import Letters, Limits, thing

Cover = Literal["plastic", "urethane", "pearl", "hybrid", "solid"]


@thing
class Ball:
    """A ball described by what can be read off it or measured.

    Parameters
    ----------
    name : str
        What it is, never a maker's name: ``hybrid_2000``.
    cover : {"plastic", "urethane", "pearl", "hybrid", "solid"}
        Kind of shell, least to most friction on oil.
    grit : float
        Grit of the last pad used on it; a higher number is smoother.
    is_polished : bool
        Whether polish was put on last.
    weight_lb : float
        At most 16 lb in competition. [lb]
    """

    name: Annotated[str, Letters(60)]
    cover: Cover = "hybrid"
    grit: Annotated[float, Limits(180, 6000, "grit", "Give the number printed on the last pad used.")] = (
        2000.0
    )
    is_polished: bool = False
    weight_lb: Annotated[float, Limits(6, 16, "lb", "If this is kg, convert it with units.kg_to_lb.")] = 15.0

    @property
    def is_dull_or_strong(self) -> bool:
        """Whether it takes hold early: a solid shell, or 1500 grit and coarser without polish (our guess)."""
        return self.cover == "solid" or (
            self.grit <= 1500 and not self.is_polished and self.cover != "plastic"
        )


def ball_names() -> tuple[str, ...]:
    """Return the names of the invented balls that come with the library."""
    return tuple(row["name"] for row in read_rows(data_path("balls.csv")))


def load_ball(name: str) -> Ball:
    """Return one of the invented balls that come with the library.

    Raises
    ------
    InputError
        For an unknown name; lists the known ones.
    """
    rows = {row["name"]: row for row in read_rows(data_path("balls.csv"))}
    row = rows[checked_choice("ball", name, rows)]
    return Ball(
        name,
        cover=row["cover"],  # type: ignore[arg-type]
        grit=float(row["grit"]),
        is_polished=row["is_polished"] == "yes",
        weight_lb=float(row["weight_lb"]),
    )
