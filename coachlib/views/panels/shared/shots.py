"""What was seen of the balls of a session: in short in a table, newest first, or all of one ball."""

from collections.abc import Mapping, Sequence
from typing import Any

from coachlib.coaching.session.ball_reading import is_gutter_ball
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Corrected, Observed
from coachlib.coaching.wording.arrival_words import ARRIVAL_WORDS
from coachlib.coaching.wording.callouts import line_text
from coachlib.coaching.wording.names import short_name
from coachlib.views.panels.shared.form import GUTTER, HIT_WORDS, leave_text
from coachlib.views.panels.shared.parts import View, script
from coachlib.views.panels.shared.typed import raised, written_number
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

MOTION_WORDS = {"skid_long": "skidded long", "over_hook": "over-hooked", "roll_out": "rolled out"}


class Shots(View):
    """The table of balls, see :func:`shots_view`."""

    _esm = script("shared/shots.js")


def shots_view(session: Session, answers: Mapping[int, str]) -> dict[str, Any]:
    """Return the rows of the table, with what was answered to each ball, by its number."""
    events = reversed(session.events)
    return {"rows": [_row(event, answers) for event in events if not isinstance(event, Corrected)]}


def _row(event: Observed | Changed, answers: Mapping[int, str]) -> dict[str, Any]:
    if isinstance(event, Changed):
        return {"text": changed_words(event)}
    return {
        "number": event.number,
        "lane": event.lane,
        "line": f"{written_number(event.line.feet_board)}, {written_number(event.line.target_board)}",
        "seen": seen_words(event.shot, event.setting.bowler.hand),
        "answer": answers.get(event.number, ""),
    }


def changed_words(event: Changed) -> str:
    """Return what was changed, in a few words; fresh oil is named as that, with what goes along with it."""
    was, now, is_oiled = event.was, event.now, event.is_oiled_anew
    scoring = "scoring started" if now.scoring_started else "practice, no scoring yet"
    is_scoring_news = now.scoring_started != was.scoring_started and not (
        is_oiled and not now.scoring_started
    )
    is_restated = now.lane == was.lane and now.games_on_lane != was.games_on_lane and not is_oiled
    changes = {
        f"lane {now.lane}": now.lane != was.lane,
        line_text(now.line): now.line != was.line,
        f"ball {_name(now.ball)}": now.ball != was.ball,
        f"oil {_name(now.pattern)}": now.pattern != was.pattern,
        "bowler": now.bowler != was.bowler,
        scoring: is_scoring_news,  # fresh oil ends scoring without a word
        "going on with pain noted": now.goes_on_with_pain > was.goes_on_with_pain,
        "what you said of the lane": now.place != was.place,
        "games on the lane": is_restated,
    }
    named = ", ".join(words for words, is_so in changes.items() if is_so)
    return ". ".join(filter(None, ("Fresh oil" * is_oiled, f"Changed: {named}" if named else "")))


def _name(thing: Ball | OilPattern | None) -> str:
    return short_name(thing.name) if thing else "not entered"


def undone_words(before: Session, after: Session) -> str:
    """Return what an undo took back, for the status line."""
    if len(after.shots) < len(before.shots):
        return f"ball {len(before.shots)} taken back"
    changed = [was.number for was, now in zip(before.shots, after.shots, strict=False) if was != now]
    return f"correction of ball {changed[0]} taken back" if changed else "change taken back"


def seen_words(shot: Shot, hand: Hand) -> str:
    """Return in short what was seen: ``12½ · high · 4``."""
    arrival = written_number(shot.arrival_board)
    if isinstance(shot.arrival, str):
        arrival = GUTTER if is_gutter_ball(shot) else ARRIVAL_WORDS[shot.arrival].short
    pins = leave_text(shot.leave, hand)
    pins = "all ten stand" if shot.leave == ALL_PINS else f"pins {pins}" if shot.leave else pins
    parts = (written_number(shot.crossed_board), arrival, pins, shot.motion or "")
    words = " · ".join(part.replace("_", " ") for part in parts if part)
    return " · ".join(filter(None, ("spare ball" * shot.is_spare, words, shot.note)))


def all_seen_words(shot: Shot, hand: Hand) -> str:
    """Return all that was noted of a ball, e.g. ``"Crossed board 12, came in high, pins 4 left, 15.2 mph"``.

    Boards are told as a bowler counts them, pins as numbered on the lane. A sentence or two, the note as it
    was written last; empty where nothing was noted.
    """
    crossed, *way = way_seen(shot)
    pins = leave_text(shot.leave, hand)
    pins = f"pin{'s' * (len(shot.leave) > 1)} {pins} left" if shot.leave else pins
    start = "" if shot.start_board is None else f"started on board {board_text(shot.start_board)}"
    slide = "" if shot.slide_board is None else f"slid on board {board_text(shot.slide_board)}"
    hit = HIT_WORDS.get(shot.hit or "", "")
    words = ", ".join(filter(None, (crossed, _came_in(shot), pins, hit, *way, start, slide)))
    sentence = f"{raised(words)}." if words else ""
    return " ".join(filter(None, (sentence, f"Noted: {shot.note}" if shot.note else "")))


def way_seen(shot: Shot) -> tuple[str, str, str, str]:
    """Return crossing, turn, breakpoint and speed of a ball in words; each empty where it was not seen."""
    crossed = "" if shot.crossed_board is None else f"crossed board {board_text(shot.crossed_board)}"
    turned = "" if shot.motion is None else MOTION_WORDS.get(shot.motion, f"turned {shot.motion}")
    board = "" if shot.breakpoint_board is None else f" on board {board_text(shot.breakpoint_board)}"
    along = "" if shot.breakpoint_ft is None else f" at {shot.breakpoint_ft:.0f} ft"
    speed = "" if shot.speed_mph is None else f"{shot.speed_mph:.1f} mph at the hand"
    return crossed, turned, f"farthest out{board}{along}" if board or along else "", speed


def _came_in(shot: Shot) -> str:
    if shot.arrival is None:
        return ""
    if not isinstance(shot.arrival, str):
        return f"hit board {board_text(shot.arrival)}"
    return "ended in the gutter" if is_gutter_ball(shot) else ARRIVAL_WORDS[shot.arrival].did


def stood_words(shots: Sequence[Observed], number: int) -> str:
    """Return which pins stood before a spare ball: ``"pins 3 6 10 stood before it"``.

    `number` is that of the spare ball, 1 for the first of all the session's `shots`.
    """
    spare_ball = shots[number - 1]
    before = shots[number - 2] if number > 1 else None
    if before is None or before.lane != spare_ball.lane or before.shot.is_spare or not before.shot.leave:
        return "nobody noted which pins stood before it"
    pins = leave_text(before.shot.leave, spare_ball.setting.bowler.hand)
    return f"pin{'s' * (len(before.shot.leave) > 1)} {pins} stood before it"
