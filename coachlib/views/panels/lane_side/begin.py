"""From the who-and-line form to a session, and what the form shows of a running one."""

import dataclasses
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import fields_of
from coachlib.views.panels.lane_side.set_up_form import SetUp
from coachlib.world.ball import ball_names
from coachlib.world.oil import pattern_names


def started(wanted: SetUp) -> Session:
    """Return the session that a filled form starts, on the first lane named."""
    return Session(**fields_of(wanted.setting))


def changes_wanted(session: Session, wanted: SetUp) -> dict[str, Any]:
    """Return what a filled form changes of a running session; empty where it says what holds already."""
    stated = fields_of(session) | {"games_on_lane": session.games_now}
    return {name: value for name, value in fields_of(wanted.setting).items() if value != stated[name]}


def current_setup(session: Session, preferences: SetUp) -> SetUp:
    """Return what the form shows of a running session; lanes, unit and listener are the panel's own."""
    lanes = preferences.lanes
    now = dataclasses.replace(session.setting, games_on_lane=session.games_now)
    return dataclasses.replace(
        preferences, setting=now, lanes=lanes if session.lane in lanes else (session.lane,)
    )


def known_names(session: Session | None) -> tuple[Sequence[str], Sequence[str]]:
    """Return the balls and the patterns to choose from, those of the session included."""
    balls, patterns = list(ball_names()), list(pattern_names())
    if session and session.ball and session.ball.name not in balls:
        balls.append(session.ball.name)
    if session and session.pattern and session.pattern.name not in patterns:
        patterns.append(session.pattern.name)
    return balls, patterns
