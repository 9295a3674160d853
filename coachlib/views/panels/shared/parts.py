"""What a panel is put together from: scripts and style sheets, the box of its parts, a bar of progress."""

import base64
from pathlib import Path
from typing import Any

import anywidget
import ipywidgets as W
import traitlets

from coachlib.files import read_text
from coachlib.views.font import font_face
from coachlib.views.look import shared

PANELS = Path(__file__).parents[1]
"""Names of scripts and styles are paths below this folder."""


class View(anywidget.AnyWidget):
    """A widget that draws what its `look` holds, and nothing else."""

    look = traitlets.Dict().tag(sync=True)


class Form(View):
    """A widget to fill in: `typed` is what stands in it, `errors` the message under each wrong field."""

    typed = traitlets.Dict().tag(sync=True)
    errors = traitlets.Dict().tag(sync=True)


def script(name: str) -> str:
    """Return a widget's script behind the small helpers that the form's widgets share."""
    return joined("shared/parts.js", name)


def styled(*names: str) -> str:
    """Return style sheets as one behind font and look; one widget of a panel brings it for all of them."""
    return font_face() + shared("look.css") + joined(*names)


def joined(*names: str) -> str:
    """Return some files as one module: a widget cannot import another file from the browser."""
    return "\n".join(read_text(PANELS / name) for name in names)


def composed(**parts: W.DOMWidget) -> W.Box:
    """Return the panel, its parts in reading order; the style sheet lays them out by the room there is."""
    for name, widget in parts.items():
        widget.add_class(f"coach-part-{name}")
    grid = W.Box(list(parts.values())).add_class("coach-grid")
    return W.Box([grid]).add_class("coach")


def browser_file(name: str, mime: str, content: bytes, number: int, words: str) -> dict[str, Any]:
    """Return what a browser is to save, the `number` of it counting up, and the words to who asked."""
    text = base64.b64encode(content).decode()
    return {"name": name, "mime": mime, "content": text, "number": number, "told": words}


class ProgressBar(W.HBox):
    """A bar to hand to whatever tells its progress: ``evaluate_bag(…, progress=bar.step)``.

    Parameters
    ----------
    label : str
        What is being done; it stands before the bar and names it for a screen reader.
    """

    def __init__(self, label: str) -> None:
        self.bar = W.IntProgress(0, 0, 1, description=label, style={"description_width": "initial"})
        self.words = W.Label("not begun")
        super().__init__([self.bar, self.words])

    def step(self, n_done: int, n_all: int) -> None:
        """Show that so many of so many are done."""
        self.bar.max, self.bar.value = n_all, n_done
        self.words.value = f"{n_done} of {n_all}" if n_done < n_all else f"all {n_all} done"
