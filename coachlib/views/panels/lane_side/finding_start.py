"""The part of the lane side that suggests a starting line, and never puts it over one that was typed."""

import dataclasses
from typing import Any

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.plan.plan import starting_line
from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.callouts import line_text, lowered
from coachlib.coaching.wording.plan_words import start_text
from coachlib.errors import InputError
from coachlib.views.panels.lane_side.lane_side_base import LaneSideBase
from coachlib.views.panels.lane_side.set_up_form import SetUp, set_up_from
from coachlib.views.panels.shared.panel import action
from coachlib.views.panels.shared.typed import Answers, written_number
from coachlib.world.line import Line
from coachlib.world.parsing import read_number

CLEARLY_MORE = 2
"""So many strikes in 20 more before a suggested starting line is spoken of again (our guess)."""


class FindingStart(LaneSideBase):
    """A starting line asked for in the form, and taken or not; the lane side is one of these."""

    @action("who")
    def find_start(self, typed: Answers) -> None:
        """Fill feet and target of the form with the starting line for its bowler, ball and pattern."""
        self.who.typed = dict(typed)
        shown = self.shown
        shown.n_starts, shown.start_words, shown.start_line = shown.n_starts + 1, "", None
        self.who.typed, shown.start_words, shown.start_line = with_starting_line(typed, self.session)
        shown.passed_start = None
        if shown.start_line is None:
            self._plan_for(self.who.typed)
        else:
            feet, target = (float(read_number(board) or 0.0) for board in shown.start_line)
            shown.passed_start = Line(feet, target)

    @action("who")
    def take_start(self, typed: Answers) -> None:
        """Take the starting line that was offered beside another one."""
        if self.shown.start_line is not None:
            self.who.typed = _with_line(typed, self.shown.start_line)
            self.shown.start_line = self.shown.passed_start = None
            self._plan_for(self.who.typed)

    def _plan_for(self, typed: Answers) -> None:
        known = self.session.bowler if self.session else None
        self.shown.planned = set_up_from(typed, known, self.session)


def with_starting_line(
    typed: Answers, session: Session | None
) -> tuple[dict[str, Any], str, tuple[str, str] | None]:
    """Return the form with the starting line of its bowler, ball and pattern, and what is said of it.

    Feet and target are filled where both are empty, and never overwritten: where others are typed already,
    those of the starting line are returned as third, to be taken by a tap, or not.

    Raises
    ------
    InputError
        If no pattern is chosen, another field is wrong, or no line fits this bowler.
    """
    known = session.bowler if session else None
    wanted = set_up_from({**typed, "feet": "20", "target": "15"}, known, session).setting
    if wanted.pattern is None:
        message = "Choose the oil pattern of this lane first. Without one there is no starting line to find."
        raise InputError(message, {"pattern": message})
    found = starting_line(
        Session(wanted.bowler, wanted.line, wanted.ball, wanted.pattern, games_on_lane=wanted.games_on_lane)
    )
    line = (written_number(found.line.feet_board), written_number(found.line.target_board))
    there = tuple(str(typed.get(name) or "").strip() for name in ("feet", "target"))
    if not any(there) or tuple(map(read_number, there)) == tuple(map(read_number, line)):
        return _with_line(typed, line), start_text(found), None
    return dict(typed), start_text(found), line


def _with_line(typed: Answers, line: tuple[str, str]) -> dict[str, Any]:
    """Return the form with these feet and this target."""
    return {**typed, "feet": line[0], "target": line[1]}


def passed_start_text(session: Session, advice: Advice, passed: Line | None) -> str:
    """Return that a suggested starting line strikes more than the one taken, until the first ball is thrown.

    Parameters
    ----------
    session, advice
        As it stands, and its answer; without the simulation's chances nothing is said.
    passed : Line or None
        The line that was suggested and not taken.
    """
    model = advice.model
    if passed is None or session.first_balls or passed == session.line or model is None:
        return ""
    offered = advise(dataclasses.replace(session, line=passed)).model
    if offered is None or not advice.is_counted:
        return ""
    now, better = (n_of_twenty(one.stay.strike_prob) for one in (model, offered))
    if better - now < CLEARLY_MORE:
        return ""
    return f"The line we suggested is better: {lowered(line_text(passed))}, about {better} strikes in 20."


def is_planned(session: Session, planned: SetUp | None) -> bool:
    """Return whether a session plays the starting line that was found, with the ball and oil it was for."""
    if planned is None:
        return False
    then = planned.setting
    return (session.line, session.ball, session.pattern) == (then.line, then.ball, then.pattern)
