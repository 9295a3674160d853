"""The two widgets of the students' panel: what was, and what comes of it. They hold nothing that matters."""

import traitlets

from coachlib.views.panels.shared.parts import View, script, styled


class Desk(View):
    """Which student, which session, which ball, and what was said then; see :mod:`students_view`."""

    _esm = script("students/students.js")
    _css = styled("shared/style.css", "students/students.css")

    errors = traitlets.Dict().tag(sync=True)


class Report(View):
    """Figures, the one thing to work on, own numbers and the handout.

    Parameters
    ----------
    errors : dict
        What went wrong, by part.
    page : str
        The handout as it will be printed, empty before it was asked for.
    file : dict
        What the browser is to save, see :func:`~coachlib.views.panels.shared.parts.browser_file`, and the
        ``part`` of the panel that tells who asked.
    """

    _esm = script("students/students_report.js")

    errors = traitlets.Dict().tag(sync=True)
    page = traitlets.Unicode().tag(sync=True)
    file = traitlets.Dict().tag(sync=True)
