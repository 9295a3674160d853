"""The two widgets of the students' panel: what was, and what comes of it. They hold nothing that matters."""

import anywidget
import traitlets

from coachlib.views.panels.shared.parts import script, styled


class Desk(anywidget.AnyWidget):
    """Which student, which session, which ball, and what was said then; see :mod:`students_view`."""

    _esm = script("students/students.js")
    _css = styled("shared/style.css", "students/students.css")

    look = traitlets.Dict().tag(sync=True)
    errors = traitlets.Dict().tag(sync=True)


class Report(anywidget.AnyWidget):
    """Figures, the one thing to work on, own numbers and the handout.

    Parameters
    ----------
    look : dict
        What is shown.
    errors : dict
        What went wrong, by part.
    page : str
        The handout as it will be printed, empty before it was asked for.
    file : dict
        What the browser is to save: ``name``, ``mime``, ``content`` (base64), a ``number`` that counts up,
        the words ``told`` to who asked, and the ``part`` of the panel that tells them.
    """

    _esm = script("students/students_report.js")

    look = traitlets.Dict().tag(sync=True)
    errors = traitlets.Dict().tag(sync=True)
    page = traitlets.Unicode().tag(sync=True)
    file = traitlets.Dict().tag(sync=True)
