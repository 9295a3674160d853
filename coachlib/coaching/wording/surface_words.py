"""A ball's surface as a person says it: the word first, the grit behind it."""

from coachlib.coaching.wording.names import said_name
from coachlib.world.ball import Ball
from coachlib.world.surface import FINE_GRIT, MEDIUM_GRIT, grit_word

GRITS_HINT = (
    f"Coarse is under {MEDIUM_GRIT:.0f} grit, medium {MEDIUM_GRIT:.0f} to {FINE_GRIT - 1:.0f}, "
    f"fine {FINE_GRIT:.0f} and over: common practice, no source."
)
"""What the words mean, beside every place where they are chosen."""

_MOST_LETTERS = 60


def surface_text(ball: Ball) -> str:
    """Return a surface as it is read: ``medium, 1000 grit``, or ``polished``."""
    return "polished" if ball.is_polished else f"{grit_word(ball.grit)}, {ball.grit:g} grit"


def resurfaced_name(ball: Ball, now: Ball) -> str:
    """Return what a ball is called on another surface: ``hybrid at 500 grit``, ``polished hybrid``.

    Parameters
    ----------
    ball, now : Ball
        Before, under its own name, and after.
    """
    said = said_name(ball.name).removesuffix(", polished").removesuffix(f", {ball.grit:g} grit")
    base = said.replace(", ", " of ")
    return (f"polished {base}" if now.is_polished else f"{base} at {now.grit:g} grit")[:_MOST_LETTERS]
