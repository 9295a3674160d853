"""The surface of a ball in the four words people use: coarse, medium, fine, polished.

A word is a range of grits of the last pad (common practice, no source): coarse is under 1000 grit, medium
1000 to under 3000, fine 3000 and over; polished is any of them with polish put on last. Who knows the grit
gives the number, any in the range of :class:`coachlib.world.ball.Ball`; who does not gives the word.
"""

from typing import Literal, get_args

from coachlib.errors import checked_choice
from coachlib.world.ball import Ball, resurfaced

Surface = Literal["coarse", "medium", "fine", "polished"]
SURFACES: tuple[Surface, ...] = get_args(Surface)

MEDIUM_GRIT, FINE_GRIT = 1000.0, 3000.0
"""Where medium begins, and where fine does (common practice, no source) [grit]."""

WORD_GRITS: dict[Surface, float] = {"coarse": 500.0, "medium": 1500.0, "fine": 4000.0}
"""The grit that a word alone is taken for (our choice, within its range) [grit]."""


def grit_word(grit: float) -> Surface:
    """Return the word for a grit, no polish on it."""
    if grit < MEDIUM_GRIT:
        return "coarse"
    return "medium" if grit < FINE_GRIT else "fine"


def surface_of(ball: Ball) -> Surface:
    """Return the surface of a ball as a word."""
    return "polished" if ball.is_polished else grit_word(ball.grit)


def with_surface(ball: Ball, surface: Surface) -> Ball:
    """Return the ball with a surface given as a word; polish leaves the grit below it as it is.

    Parameters
    ----------
    ball : Ball
        Before; one whose surface is called so already stays as it is.
    surface : {"coarse", "medium", "fine", "polished"}
        A pad is taken as the grit of :data:`WORD_GRITS`.

    Raises
    ------
    InputError
        If it is none of the four.
    """
    checked_choice("surface", surface, SURFACES)
    if surface == surface_of(ball):
        return ball
    if surface == "polished":
        return resurfaced(ball, ball.grit, is_polished=True)
    return resurfaced(ball, WORD_GRITS[surface])
