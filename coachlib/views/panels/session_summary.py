"""What a session was, shown before it is left: balls, lines and whether they worked, one thing, next start.

Calm on purpose: no score, no average, no percentage, no rank. All of it comes from the log of the session.
"""

from collections.abc import Sequence
from datetime import datetime
from typing import Any

import anywidget
import traitlets

from coachlib.coaching.callouts import line_text
from coachlib.coaching.one_ball import missed_boards, side_of
from coachlib.coaching.session import Observed, Session
from coachlib.records.logbook import Logbook
from coachlib.records.take_home import FEWEST_BALLS, LineRecord, MoveMade, TakeHome, line_records, take_home
from coachlib.records.take_home import moves_made as all_moves_made
from coachlib.views.panels.answer import choice
from coachlib.views.panels.scripts import joined
from coachlib.views.panels.trend import session_trend_look

MOST_LINES = 6
"""More lines do not fit beside each other; the last ones are told."""

NOTHING = "Nothing stands out"
"""The headline of :func:`coachlib.records.work_on.work_on` where no figure lies beyond its yardstick."""

NOTHING_YET = "No line came in as wanted yet"


class SessionSummary(anywidget.AnyWidget):
    """The summary; `look` is empty while a session goes on, see :func:`summary_look`."""

    _esm = joined("parts.js", "trend.js", "session_summary.js")

    look = traitlets.Dict().tag(sync=True)


def summary_look(logbook: Logbook, key: str, *, is_running: bool = True) -> dict[str, Any] | None:
    """Return the summary of a session of the log; None where it has no first ball.

    Parameters
    ----------
    logbook : Logbook
        The log.
    key : str
        The session's place there.
    is_running : bool
        Whether one may go back to it.

    Raises
    ------
    DataFileError
        If the session cannot be read.
    """
    told = logbook.story(key)
    first = _first_balls(told.session)
    if not first:
        return None
    listed = next(one for one in logbook.sessions() if one.key == key)
    home = take_home(listed, told)
    records = line_records(told.session)
    moves = all_moves_made(told.session, told.advice)
    back = choice("keep_going", "Back to the lane" if is_running else "Not now")
    return {
        "title": f"{home.name or 'This session'}, {_day(listed.started)}",
        "about": _about(told.session, first),
        "worked": _worked(records, moves, home),
        "trend": session_trend_look(told.session),
        "lines": _lines(records, moves)[-MOST_LINES:],
        "causes": _causes(first),
        "spares": _spares(told.session),
        "one_thing": [f"{home.drill.title}. {home.drill.do}", _why_this(home.drill_why)],
        "next_start": [line_text(home.start) if home.start else "", home.start_why],
        "cautions": list(home.cautions),
        "choices": [choice("close_session", "Done: end this session", is_main=True), back],
    }


def _first_balls(session: Session) -> list[Observed]:
    return [seen for seen in session.shots if not seen.shot.is_spare]


def _about(session: Session, first: Sequence[Observed]) -> str:
    lanes = list(dict.fromkeys(seen.lane for seen in first))
    things = [thing.name.replace("_", " ") for thing in (session.pattern, session.ball) if thing is not None]
    n_strikes = sum(seen.shot.is_strike for seen in first)
    balls = f"{_count(len(first), 'first ball')}, {_count(n_strikes, 'strike')}"
    return " · ".join([f"lane{'s' * (len(lanes) > 1)} {' and '.join(lanes)}", *things, balls])


def _worked(records: Sequence[LineRecord], moves: Sequence[MoveMade], home: TakeHome) -> str:
    """Return the one sentence on top: the move that worked, or the line, or that none did yet."""
    best = max((one for one in records if one.has_worked), key=lambda one: one.n_worked, default=None)
    if best is None:
        return f"{NOTHING_YET}."
    led = next((one for one in reversed(moves) if _leads_to(one, best)), None)
    if led is not None and led.words:
        return f"What worked: {_lower(led.words)}, before ball {led.before_ball}."
    return f"What worked: {_lower(line_text(best.line))}."


def _why_this(headline: str) -> str:
    """Return why this is the one thing; where no figure stands out the next thing is reading the lane."""
    return f"{headline}: work on reading the lane." if headline == NOTHING else headline


def _lines(records: Sequence[LineRecord], moves: Sequence[MoveMade]) -> list[dict[str, str]]:
    """Return each line in the order of play: how one came to it, what it brought, whether it helped."""
    told, before = [], dict[str, LineRecord]()
    for one in records:
        led = next((move for move in moves if _leads_to(move, one)), None)
        was = before.get(one.lane)
        head = _moved_words(led) if led else f"start on lane {one.lane}"
        told.append(
            {
                "head": head,
                "line": line_text(one.line),
                "count": f"{one.n_worked} of {one.n_balls} in the pocket or a strike",
                "verdict": _verdict(one, was if led else None),
                "is_move": "move" if led else "",
            }
        )
        before[one.lane] = one
    return told


def _leads_to(move: MoveMade, one: LineRecord) -> bool:
    return move.lane == one.lane and move.words.lower().endswith(line_text(one.line).lower())


def _moved_words(move: MoveMade) -> str:
    return move.words.rpartition(": ")[0] or move.words


def _verdict(one: LineRecord, was: LineRecord | None) -> str:
    """Return whether a line worked; a move is held against the line it left."""
    if one.n_balls < FEWEST_BALLS:
        return "One ball: too few to tell."
    if was is None or was.n_balls < FEWEST_BALLS:
        return "It worked." if one.has_worked else "It did not bring the pocket often."
    gain = one.n_worked * was.n_balls - was.n_worked * one.n_balls
    then = f"{was.n_worked} of {was.n_balls} before the move"
    if gain > 0:
        return f"The move helped: {then}."
    return f"About the same: {then}." if gain == 0 else f"The move did not help: {then}."


def _causes(first: Sequence[Observed]) -> dict[str, Any]:
    """Return whose the balls were that missed the pocket: target missed, target hit, or nobody noted it."""
    missed = [seen for seen in first if side_of(seen.shot) not in ("pocket", None)]
    misses = [missed_boards(seen.shot, seen.line, seen.setting.bowler) for seen in missed]
    counts = [
        ["target missed", sum(bool(miss) for miss in misses)],
        ["on target: the lane", sum(miss == 0.0 for miss in misses)],
        ["crossing not noted", sum(miss is None for miss in misses)],
    ]
    return {"words": f"{_count(len(missed), 'ball')} missed the pocket.", "counts": counts}


def _spares(session: Session) -> list[list[Any]]:
    """Return made and tried spares, of single pins and of more; a spare without its pins does not count."""
    tried: dict[str, list[bool]] = {"one pin": [], "two or more": []}
    for before, seen in zip(session.shots, session.shots[1:], strict=False):
        leave = before.shot.leave
        if not seen.shot.is_spare or before.shot.is_spare or not leave or seen.shot.leave is None:
            continue
        tried["one pin" if len(leave) == 1 else "two or more"].append(seen.shot.leave == ())
    return [[name, sum(made), len(made)] for name, made in tried.items() if made]


def _day(when: datetime) -> str:
    local = when.astimezone()
    return f"{local:%A}, {local.day} {local:%B}"


def _count(n: int, word: str) -> str:
    return f"{n} {word}{'s' * (n != 1)}"


def _lower(words: str) -> str:
    return words[:1].lower() + words[1:]
