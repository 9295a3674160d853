"""From the who-and-line form to a session, and what the form shows of a running one."""

import dataclasses
from collections.abc import Sequence
from typing import Any

from coachlib.coaching.plan.plan import starting_line
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import fields_of
from coachlib.coaching.wording.plan_words import start_text
from coachlib.errors import InputError
from coachlib.views.panels.lane_side.set_up_form import SetUp, set_up_from
from coachlib.views.panels.shared.typed import Answers, written_number
from coachlib.world.ball import ball_names
from coachlib.world.oil import pattern_names
from coachlib.world.parsing import read_number


def started(wanted: SetUp) -> Session:
    """Return the session that a filled form starts, on the first lane named."""
    return Session(**fields_of(wanted.setting))


def with_starting_line(
    typed: Answers, session: Session | None
) -> tuple[dict[str, Any], str, tuple[str, str] | None]:
    """Return the form with the starting line of its bowler, ball and pattern, and what is said of it.

    Parameters
    ----------
    typed : mapping
        The form; feet and target are filled where both are empty, and never overwritten.
    session : Session or None
        The running one, None before the first start.

    Returns
    -------
    form : dict
        As it should stand now.
    words : str
        What is said of the line.
    offered : tuple of two str, or None
        Feet and target where others are typed already: to be taken by a tap, or not.

    Raises
    ------
    InputError
        If no pattern is chosen, another field is wrong, or no line fits this bowler.
    """
    known = session.bowler if session else None
    wanted = set_up_from({**typed, "feet": "20", "target": "15"}, known, session).setting
    if wanted.pattern is None:
        message = "pattern is not chosen; expected one of the list. Choose the oil of this lane first."
        raise InputError(message, {"pattern": message})
    found = starting_line(
        Session(wanted.bowler, wanted.line, wanted.ball, wanted.pattern, games_on_lane=wanted.games_on_lane)
    )
    line = (written_number(found.line.feet_board), written_number(found.line.target_board))
    there = tuple(str(typed.get(name) or "").strip() for name in ("feet", "target"))
    if not any(there) or tuple(map(read_number, there)) == tuple(map(read_number, line)):
        return with_line(typed, line), start_text(found), None
    return dict(typed), start_text(found), line


def with_line(typed: Answers, line: tuple[str, str]) -> dict[str, Any]:
    """Return the form with these feet and this target."""
    return {**typed, "feet": line[0], "target": line[1]}


def is_planned(session: Session, planned: SetUp | None) -> bool:
    """Return whether a session plays the starting line that was found, with the ball and oil it was for."""
    if planned is None:
        return False
    then = planned.setting
    return (session.line, session.ball, session.pattern) == (then.line, then.ball, then.pattern)


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
