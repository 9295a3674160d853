"""Where the answer comes from: rule of thumb, model, other moves, and the trend of arrivals."""

import anywidget
import traitlets

from coachlib.views.panels.shared.scripts import joined


class Grounds(anywidget.AnyWidget):
    """The small print under the answer.

    Parameters
    ----------
    look : dict
        As the answer's, see :func:`coachlib.views.panels.lane_side.answer.answer_view`.
    trend : dict
        See :func:`coachlib.views.panels.shared.trend.trend_view`.
    """

    _esm = joined("shared/parts.js", "lane_side/cause.js", "shared/trend.js", "lane_side/grounds.js")

    look = traitlets.Dict().tag(sync=True)
    trend = traitlets.Dict().tag(sync=True)
