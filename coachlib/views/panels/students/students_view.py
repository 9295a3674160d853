"""What the students' panel shows: lists, one ball of a session, figures and numbers. No widget in here."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import Any

from coachlib.coaching.bowler_profile.own_numbers import OwnNumber
from coachlib.coaching.session.session import session_at
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.simulation.outcomes import n_of_twenty
from coachlib.coaching.wording.accuracy_words import like_text
from coachlib.coaching.wording.callouts import line_text, lowered
from coachlib.errors import InputError
from coachlib.records.log.advice_record import headline_of, why_of
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.replay import Replay
from coachlib.records.students.students import ListedStudent
from coachlib.review.trends import Count, Followed, MeasuredSpread, SessionTrend
from coachlib.review.work_on import WorkOn
from coachlib.views.charts.trends_chart import short_day_text
from coachlib.views.lane.scene import lines_scene, spare_scene
from coachlib.views.lane.scene_parts import LaneScene
from coachlib.views.panels.shared.shots import all_seen_words, stood_words
from coachlib.views.panels.shared.typed import counted
from coachlib.world.line import Line

NOBODY = "nobody"
"""Stands for the sessions that belong to no student."""

TREND_COLUMNS = {
    "Session": "",
    "Balls": "",
    "At the arrows": "boards",
    "Speed": "mph",
    "Hit": "boards from the pocket",
    "Singles": "one pin",
    "Strikes": "of first balls",
    "Advice": "moves followed",
}
"""The heads of the table of figures, and their units."""


def students_view(listed: Sequence[ListedStudent], n_of_nobody: int) -> list[list[str]]:
    """Return the choices of the list of students: key and words."""
    choices = [[one.key, f"{one.shown_name}, {counted(one.n_sessions, 'session')}"] for one in listed]
    if n_of_nobody:
        choices.append([NOBODY, f"No student, {counted(n_of_nobody, 'session')}"])
    return choices


def sessions_view(listed: Iterable[LoggedSession]) -> list[list[str]]:
    """Return the choices of the list of sessions: key and words, the newest first.

    A session of no student bears the name that was typed, if one was.
    """
    choices = []
    for one in listed:
        name = one.bowler_name if one.student_key is None else ""
        words = (_day(one.started), counted(one.n_shots, "ball"), name)
        choices.append([one.key, ", ".join(filter(None, words))])
    return choices


def replay_view(replay: Replay, number: int) -> dict[str, Any]:
    """Return one ball of a session: what was seen, what was advised then, and what came next.

    `number` is 1 for the first ball, 0 where there is none.
    """
    shots = replay.session.shots
    if not 1 <= number <= len(shots):
        return {"number": 0, "n_balls": len(shots), "title": "No ball was logged in this session."}
    ball, advice = shots[number - 1], replay.advice.get(number, {})
    return {
        "number": number,
        "n_balls": len(shots),
        "title": f"Ball {number} of {len(shots)}, lane {ball.lane}",
        "line": line_text(ball.line),
        "seen": _seen(shots, ball),
        "advice": headline_of(advice),
        "why": why_of(advice),
        "chances": _chances(advice),
        "after": _after(shots, ball, advised_line(advice)),
    }


def replay_scene(replay: Replay, number: int) -> LaneScene:
    """Return the lane as it was at a ball: the line played, the line advised then, and the ball.

    No ball is simulated: the count told then belongs to what was believed then, not to a picture made now. Of
    a spare ball only what stood before it and what it left is known.
    """
    shots, then = replay.session.shots, session_at(replay.session, number)
    ball = shots[number - 1]
    if ball.shot.is_spare:
        return spare_scene(then, ball, stood_words(shots, number))
    advised = advised_line(replay.advice.get(number, {}))
    return lines_scene(then.bowler, ball.line, advised, seen=ball, pattern=then.pattern)


def advised_line(advice: Mapping[str, Any]) -> Line | None:
    """Return the line that was advised; None where none was, or it cannot be read."""
    kept = advice.get("new_line")
    if not isinstance(kept, dict):
        return None
    try:
        return Line(**kept)
    except InputError:
        return None


def trend_rows(trends: Sequence[SessionTrend]) -> list[list[str]]:
    """Return the table of figures, the newest session first, under :data:`TREND_COLUMNS`."""
    return [_trend_row(one) for one in reversed(trends)]


def work_on_view(worth: WorkOn) -> dict[str, Any]:
    """Return the one thing to work on, with its drill."""
    drill = worth.drill
    return {
        "headline": worth.headline,
        "why": worth.why,
        "drill": drill.title,
        "do": drill.do,
        "marked_by": drill.marked_by,
        "takes": f"About {drill.minutes:.0f} minutes. You need {drill.takes}. How sure: {drill.grade}.",
        "caution": drill.caution,
    }


def numbers_view(numbers: Iterable[OwnNumber]) -> list[dict[str, Any]]:
    """Return the own numbers: words, what is kept now, and whether it may be taken over."""
    return [
        {
            "field": one.field,
            "words": one.words,
            "kept": f"Saved now: {_written(one.kept)}." if one.is_offered else "",
            "is_offered": one.is_offered,
        }
        for one in numbers
    ]


def _trend_row(one: SessionTrend) -> list[str]:
    errs = {lane: f"{err.mean:+.1f}".replace("-", "−") for lane, err in one.arrival_err_boards.items()}
    accuracy = "" if one.accuracy_class is None else f", {like_text(one.accuracy_class)}"
    return [
        short_day_text(one),
        str(one.n_balls),
        _spread(one.arrow_miss_boards) + accuracy,
        _spread(one.speed_mph, is_mean=True),
        "; ".join(f"lane {lane} {err}" for lane, err in errs.items()) or "–",
        _of(one.single_pin_spares),
        _of(one.strikes) + ("" if one.first_ball_pins is None else f", {one.first_ball_pins.mean:.1f} pins"),
        _followed(one.advice),
    ]


def _spread(found: MeasuredSpread | None, *, is_mean: bool = False) -> str:
    if found is None:
        return "–"
    spread = "" if found.sd is None else f"± {found.sd:.1f}"
    return f"{found.mean:.1f} {spread}".strip() if is_mean else spread or "–"


def _of(count: Count) -> str:
    return f"{count.n_made} of {count.n_tried}" if count.n_tried else "–"


def _followed(advice: Followed) -> str:
    if not advice.n_given:
        return "–"
    words = f"{advice.n_followed} of {advice.n_given}"
    if advice.err_before_boards is None or advice.err_after_boards is None:
        return words
    return (
        f"{words}. Before the move the ball hit {advice.err_before_boards:.1f} boards from the pocket, "
        f"after it {advice.err_after_boards:.1f}"
    )


def _chances(advice: Mapping[str, Any]) -> str:
    stay, move = advice.get("stay_strike_prob"), advice.get("move_strike_prob")
    if not isinstance(stay, float) or not isinstance(move, float):
        return ""
    now, then = n_of_twenty(stay), n_of_twenty(move)
    if advice.get("kind") in ("stay", "watch"):
        return f"Simulated then: about {now} strikes in 20 on this line."
    return f"Simulated then: about {now} strikes in 20 if you stay, {then} with the move."


def _after(shots: Sequence[Observed], ball: Observed, advised: Line | None) -> str:
    """Return what the next first ball on the lane did, and on which line."""
    later = (one for one in shots[ball.number :] if one.lane == ball.lane and not one.shot.is_spare)
    after = next(later, None)
    if after is None:
        return "No other first ball on this lane."
    words = _seen(shots, after)
    if after.line == ball.line:
        how = "on the same line"
    elif after.line == advised:
        how = "on the line advised"
    else:
        how = f"on {lowered(line_text(after.line))}"
    return f"Ball {after.number}, {how}: {lowered(words)}"


def _seen(shots: Sequence[Observed], ball: Observed) -> str:
    words = all_seen_words(ball.shot, ball.setting.bowler.hand) or "Nothing noted."
    return f"A spare ball: {stood_words(shots, ball.number)}. {words}" if ball.shot.is_spare else words


def _day(when: datetime) -> str:
    local = when.astimezone()
    return f"{local.day} {local:%b %Y %H:%M}"


def _written(kept: float | str | None) -> str:
    if kept is None:
        return "nothing yet"
    return kept if isinstance(kept, str) else f"{kept:g}"
