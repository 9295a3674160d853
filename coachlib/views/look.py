"""The look that panels and pages share: colours, light and dark, sizes of type, the bar on every page."""

from pathlib import Path
from typing import Final

from coachlib.files import read_text

SHARE: Final = Path(__file__).parents[1] / "share"
"""What our own pages share with those that Voilà runs."""


def shared(name: str) -> str:
    """Return one of the shared files as text; ``look.css`` tells which variables a style sheet uses.

    Parameters
    ----------
    name : str
        ``look.css``, ``page_bar.css``, ``page_look.html`` (in the head of a page) or ``page_switches.html``.

    Raises
    ------
    DataFileError
        If there is no such file.
    """
    return read_text(SHARE / name)
