"""The browser scripts of the panel's widgets, each put together to one module from the files it needs."""

from pathlib import Path

from coachlib.files import read_text
from coachlib.views.font import font_face

HERE = Path(__file__).parent


def script(name: str) -> str:
    """Return a widget's script behind the small helpers that the form's widgets share."""
    return joined("parts.js", name)


def styled(*names: str) -> str:
    """Return style sheets as one behind the packed font; one widget of a panel brings it for all of them."""
    return font_face() + "\n".join(read_text(HERE / name) for name in names)


def joined(*names: str) -> str:
    """Return some files as one module: a widget cannot import another file from the browser."""
    return "\n".join(read_text(HERE / name) for name in names)
