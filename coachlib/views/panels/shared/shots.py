"""The balls of the session, newest first, each with what was seen and what was answered."""

from collections.abc import Mapping
from typing import Any

import anywidget
import traitlets

from coachlib.coaching.session.ball_reading import is_gutter_ball
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Corrected, Observed
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import line_text
from coachlib.views.panels.shared.form import GUTTER, leave_text
from coachlib.views.panels.shared.parts import script
from coachlib.views.panels.shared.typed import written_number
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.oil import OilPattern
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot


class Shots(anywidget.AnyWidget):
    """The table of balls; `look` holds its rows, see :func:`shots_view`."""

    _esm = script("shared/shots.js")

    look = traitlets.Dict().tag(sync=True)


def shots_view(session: Session, answers: Mapping[int, str]) -> dict[str, Any]:
    """Return the rows of the table.

    Parameters
    ----------
    session : Session
        Whose events are listed.
    answers : mapping of int to str
        What was answered to each ball, by its number.
    """
    return {
        "rows": [
            _row(event, answers) for event in reversed(session.events) if not isinstance(event, Corrected)
        ]
    }


def seen_words(shot: Shot, hand: Hand) -> str:
    """Return in short what was seen: ``12½ · high · 4``."""
    arrival = (
        ARRIVAL_WORDS[shot.arrival].short
        if isinstance(shot.arrival, str)
        else written_number(shot.arrival_board)
    )
    pins = leave_text(shot.leave, hand)
    arrival = GUTTER if is_gutter_ball(shot) else arrival
    parts = [
        written_number(shot.crossed_board),
        arrival,
        "all ten stand" if shot.leave == ALL_PINS else f"pins {pins}" if shot.leave else pins,
        shot.motion or "",
    ]
    words = " · ".join(part.replace("_", " ") for part in parts if part)
    spare = "spare ball" if shot.is_spare else ""
    return " · ".join(part for part in (spare, words, shot.note) if part)


def undone_words(before: Session, after: Session) -> str:
    """Return what an undo took back, for the status line."""
    if len(after.shots) < len(before.shots):
        return f"ball {len(before.shots)} taken back"
    changed = [was.number for was, now in zip(before.shots, after.shots, strict=False) if was != now]
    return f"correction of ball {changed[0]} taken back" if changed else "change taken back"


def _row(event: Observed | Changed, answers: Mapping[int, str]) -> dict[str, Any]:
    if isinstance(event, Changed):
        return {"text": changed_words(event)}
    line, hand = event.line, event.setting.bowler.hand
    return {
        "number": event.number,
        "lane": event.lane,
        "line": f"{written_number(line.feet_board)}, {written_number(line.target_board)}",
        "seen": seen_words(event.shot, hand),
        "answer": answers.get(event.number, ""),
    }


def changed_words(event: Changed) -> str:
    """Return what was changed, in a few words; fresh oil is named as that, with what goes along with it."""
    was, now = event.was, event.now
    is_same_lane = now.lane == was.lane
    words = [] if is_same_lane else [f"lane {now.lane}"]
    words += [line_text(now.line)] if now.line != was.line else []
    words += [f"ball {_name(now.ball)}"] if now.ball != was.ball else []
    words += [f"oil {_name(now.pattern)}"] if now.pattern != was.pattern else []
    words += ["bowler"] if now.bowler != was.bowler else []
    words += _scoring_words(event)
    words += ["go on, with pain noted"] if now.goes_on_with_pain > was.goes_on_with_pain else []
    words += ["what was told of the lane"] if now.place != was.place else []
    is_restated = is_same_lane and now.games_on_lane != was.games_on_lane and not event.is_oiled_anew
    words += ["games on the lane"] if is_restated else []
    changed = "Changed: " + ", ".join(words) if words else ""
    return ". ".join(filter(None, ("Fresh oil" if event.is_oiled_anew else "", changed)))


def _scoring_words(event: Changed) -> list[str]:
    """Return that scoring started or ended; fresh oil ends it without a word."""
    was, now = event.was.scoring_started, event.now.scoring_started
    if was == now or (event.is_oiled_anew and not now):
        return []
    return ["scoring started" if now else "practice, no scoring yet"]


def _name(thing: Ball | OilPattern | None) -> str:
    return thing.name.replace("_", " ") if thing else "not entered"
