"""The browser scripts of the panel's widgets, with the small helpers they share in front."""

from pathlib import Path

from coachlib.files import read_text

HERE = Path(__file__).parent
STYLE = HERE / "style.css"


def script(name: str) -> str:
    """Return a widget's script as one module: a widget cannot import another file from the browser."""
    return read_text(HERE / "parts.js") + "\n" + read_text(HERE / name)
