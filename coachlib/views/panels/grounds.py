"""Where the answer comes from: rule of thumb, model, other moves, and the trend of arrivals."""

import anywidget
import traitlets

from coachlib.views.panels.scripts import joined


class Grounds(anywidget.AnyWidget):
    """The small print under the answer.

    Parameters
    ----------
    look : dict
        As the answer's, see :func:`coachlib.views.panels.answer.answer_look`.
    trend : dict
        See :func:`coachlib.views.panels.trend.trend_look`.
    """

    _esm = joined("parts.js", "cause.js", "trend.js", "grounds.js")

    look = traitlets.Dict().tag(sync=True)
    trend = traitlets.Dict().tag(sync=True)
