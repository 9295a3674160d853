"""The browser scripts of the panel's widgets, each put together to one module from the files it needs."""

from pathlib import Path

from coachlib.files import read_text

HERE = Path(__file__).parent
STYLE = HERE / "style.css"


def script(name: str) -> str:
    """Return a widget's script behind the small helpers that the form's widgets share."""
    return joined("parts.js", name)


def joined(*names: str) -> str:
    """Return some files as one module: a widget cannot import another file from the browser."""
    return "\n".join(read_text(HERE / name) for name in names)
