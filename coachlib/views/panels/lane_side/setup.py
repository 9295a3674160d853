"""Who throws, on which line and lane: the bar on top and the form behind it."""

import os
from collections.abc import Sequence
from typing import Any

import anywidget
import traitlets

from coachlib.coaching.session.session import Session
from coachlib.coaching.wording.accuracy_words import average_text
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import said_name
from coachlib.views.panels.lane_side.lane_side_base import Shown
from coachlib.views.panels.lane_side.set_up_form import current_setup
from coachlib.views.panels.shared.form import written_speed
from coachlib.views.panels.shared.parts import Form, joined, script, styled
from coachlib.views.panels.shared.typed import SPEED_UNITS, counted
from coachlib.world.ball import Ball, ball_names
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from coachlib.world.oil import OilPattern, pattern_names

ACCURACY_WORDS = {
    "160": "4½ boards",
    "180": "4 boards",
    "200": "3 boards",
    "220": "2 boards",
    "tour": "1½ boards",
}
"""Range of ten shots at the arrows by average: US Bowler, July 2012, p. 11 (1.5 in is 1.4 boards)."""


LINKS = (("Students", "20_students.ipynb"),)
"""Pages beside this one, words and address, as a notebook server finds them; a page for a tablet has none."""


class WhoAndLine(Form):
    """The bar and the form, see :func:`set_up_view`; it also carries the panel's style sheet."""

    _esm = script("lane_side/setup.js")
    _css = styled("shared/style.css")


class MyBowlers(anywidget.AnyWidget):
    """The link "My bowlers"; a page without the students' panel beside it shows nothing.

    Parameters
    ----------
    is_live : bool
        Whether the notebooks were opened by ``python -m coachlib``, which runs each one that is opened.
    """

    _esm = joined("lane_side/my_bowlers.js")
    _css = joined("lane_side/my_bowlers.css")

    is_live = traitlets.Bool().tag(sync=True)

    def __init__(self) -> None:
        super().__init__(is_live=os.environ.get("COACHLIB_LIVE") == "1")


def set_up_view(
    session: Session | None,
    shown: Shown,
    students: Sequence[Sequence[str]] = (),
    turns: Sequence[dict[str, Any]] = (),
) -> dict[str, Any]:
    """Return how bar and form look.

    Parameters
    ----------
    session : Session or None
        None before the first start.
    shown : Shown
        What is shown beside it.
    students : sequence of (key, name)
        Whom a session may be kept under.
    turns : sequence of dict
        Who throws in turn, see :func:`coachlib.views.panels.lane_side.turns.turn_choices`.
    """
    set_up = current_setup(session, shown.preferences) if session else shown.preferences
    speed_mph, line = set_up.setting.bowler.speed_mph, shown.start_line
    offered = "" if line is None else f"Use feet {line[0]}, target {line[1]} instead"
    return {
        "is_started": session is not None,
        "is_open": shown.is_open or session is None,
        "line": one_line(session) if session else "",
        "status": shown.status,
        "start": [shown.n_starts, shown.start_words, offered],
        "lanes": list(set_up.lanes),
        "lane": session.lane if session else "",
        "balls": _choices(ball_names(), session.ball if session else None),
        "patterns": _choices(pattern_names(), session.pattern if session else None),
        "accuracies": [
            [name, f"{average_text(name)}: {ACCURACY_WORDS[name]}"] for name in ACCURACY_SD_BOARDS
        ],
        "speeds": {unit: written_speed(speed_mph, unit) for unit in SPEED_UNITS},
        "offer": shown.offer,
        "students": [list(one) for one in students],
        "turns": list(turns),
        "links": [list(one) for one in LINKS],
    }


def _choices(names: Sequence[str], held: Ball | OilPattern | None) -> list[list[str]]:
    """Return the names to choose from with what is shown for them, that of the session included."""
    listed = [*names, *([held.name] if held and held.name not in names else [])]
    return [[name, said_name(name)] for name in listed]


def one_line(session: Session) -> str:
    """Return who, line and lane as one line of text."""
    bowler, line = session.bowler, session.line
    parts = [bowler.name, f"{bowler.hand}-handed", f"{line_text(line)}"]
    parts += [said_name(thing.name) for thing in (session.ball, session.pattern) if thing is not None]
    n_games = int(session.games_now)  # a game counts when it is played, not from its middle on
    games = f", {counted(n_games, 'game')}" if n_games else ""
    return " · ".join([part for part in parts if part] + [f"lane {session.phase}{games}"])
