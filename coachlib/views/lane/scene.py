"""What is to be drawn of a lane, as plain numbers and short words, for live and printed pictures alike.

Nothing is drawn here and nothing decided; the straight lines come from :mod:`coachlib.world.levers`, the
balls beside an answer from :mod:`coachlib.coaching.belief.believed_balls` (they learn from every ball seen),
those of lessons and plans from :mod:`coachlib.coaching.simulation.paths` (they know the oil sheet alone).
Boards keep the own frame (see :mod:`coachlib.world.lane`); the scene carries the hand, and whoever draws
turns the page by it. Left and right stand in its words only. All of it is JSON: lists, numbers, texts, None.
"""

import dataclasses
from collections.abc import Sequence
from typing import TYPE_CHECKING

from coachlib.coaching.advice.answer_balls import AnswerBalls, answer_balls
from coachlib.coaching.session.ball_reading import is_gutter_ball
from coachlib.coaching.session.lane_history import last_ball
from coachlib.coaching.simulation.paths import LinePaths
from coachlib.coaching.wording.arrival_words import contact_in
from coachlib.errors import InputError, ModelError
from coachlib.views.lane.scene_parts import DrawnPin, LaneScene, LastBall
from coachlib.views.lane.scene_paths import (
    SHIFTS_AT_FT,
    drawn_deck,
    drawn_line,
    drawn_oil,
    drawn_paths,
    drawn_pivot,
    drawn_shift,
    rounded,
    simulated_shift_text,
    thrown_on,
)
from coachlib.views.lane.scene_words import assumed_words, note_of, summary_of
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand, inside_side, own_pins
from coachlib.world.lane import (
    ARROW_BOARDS,
    ARROWS_FT,
    DOT_BOARDS,
    DOTS_FT,
    FIRST_BOARD,
    HEAD_PIN_FT,
    LAST_BOARD,
    MISSES_HEAD_PIN,
    POCKET_HIGH_BOARD,
    POCKET_LOW_BOARD,
)
from coachlib.world.line import Line
from coachlib.world.oil import OilPattern
from coachlib.world.parsing import board_text
from coachlib.world.pins import ALL_PINS, BALL_RADIUS_IN, PIN_RADIUS_IN, pin_board, pin_ft
from coachlib.world.shot import Shot

if TYPE_CHECKING:
    from coachlib.coaching.advice.advice import Advice
    from coachlib.coaching.session.session import Session
    from coachlib.coaching.session.setting import Observed


PIT_BEHIND_IN = 34.19  # head-pin centre to pit: a lane-measurement article quoting the rules


def lane_scene(
    session: "Session", advice: "Advice | None" = None, voice: "Advice | None" = None
) -> LaneScene:
    """Return the scene of a session: the line played, the line to play next, and the last ball on this lane.

    Its balls are drawn from what is believed now, so many of them strikes as the answer tells. Where the
    model tells no chance (it is not ready, was not asked, or what was seen fits none of its lanes) no ball is
    drawn and nothing counted: the lines are the aim, on paper.

    Parameters
    ----------
    session : Session
        Its line, bowler, pattern and balls are drawn.
    advice : Advice, optional
        Its new line is drawn as the line to play next. Without one, or when the advice is to stay, a line
        changed since the last ball is: the old line stays visible until the next ball.
    voice : Advice, optional
        What tells the chances where `advice` does not: before a ball, and after a move.
    """
    seen = last_ball(session)
    if session.is_stopped:  # no ball and no next line until the coach says to go on
        return lines_scene(session.bowler, session.line, seen=seen, pattern=session.pattern, is_plain=True)
    played, advised = session.line, advice.new_line if advice is not None else None
    if advised in (None, played) and seen is not None:
        played, advised = seen.line, session.line
    balls, problem = AnswerBalls([], None), ""
    try:
        balls = answer_balls(session, voice or advice, _lines(played, advised))
    except (InputError, ModelError) as error:
        problem = str(error)
    bowler, oil, thrown = session.bowler, session.pattern, balls.thrown
    scene = lines_scene(bowler, played, advised, seen=seen, pattern=oil, thrown=thrown, is_plain=True)
    scene["sheet_text"] = "" if balls.sheet is None else balls.sheet.text
    if advice is not None and advice.model is not None and not advice.is_counted:
        scene["note"] = f"Rule of thumb alone, so no balls are drawn. {scene['note']}"
    return _finished(scene, problem, thrown)


def simulated_scene(
    session: "Session",
    played: Line,
    advised: Line | None = None,
    *,
    seen: "Observed | None" = None,
    n_told: Sequence[int] = (),
) -> LaneScene:
    """Return the scene of one line or two, with balls thrown on the oil sheet where that can be.

    For lessons and plans: the balls seen teach it nothing, and its note says so. The lines are straight where
    no pattern is known, and where a ball can not be thrown on one of them; then the note says why.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and seed count; its own line and its balls do not.
    played, advised : Line
        Now, and next; the same line twice counts as once.
    seen : Observed, optional
        The last ball.
    n_told : sequence of int
        How many of twenty strike on each line, where that is told beside the picture; by the balls' own
        chances if left out.
    """
    thrown, problem = thrown_on(session, _lines(played, advised))
    for at, n in enumerate(n_told[: len(thrown)]):
        thrown[at] = dataclasses.replace(thrown[at], n_told=n)
    scene = lines_scene(session.bowler, played, advised, seen=seen, pattern=session.pattern, thrown=thrown)
    return _finished(scene, problem)


def _lines(played: Line, advised: Line | None) -> list[Line]:
    return [played] if advised is None or advised == played else [played, advised]


def _finished(scene: LaneScene, problem: str, thrown: Sequence[LinePaths] = ()) -> LaneScene:
    """Return a scene that says why nothing is simulated, and in its summary what is taken as usual."""
    if problem:
        scene["note"] = f"{scene['note']} No ball is simulated: {problem}"
    more = assumed_words(thrown[0].assumed) if thrown else []
    scene["summary"] = " ".join([summary_of(scene), *more])
    return scene


def spare_scene(session: "Session", seen: "Observed", stood: str) -> LaneScene:
    """Return the scene of a spare ball: where it went is not logged, so no ball and no advice is drawn.

    Bowler and pattern of the session count; `stood` says in words which pins stood before the ball.
    """
    scene = lines_scene(session.bowler, seen.line, seen=seen, pattern=session.pattern)
    scene["note"] = (
        f"A spare ball: {stood}. No ball is drawn. The straight line is your first balls’, not its own."
    )
    scene["summary"] = summary_of(scene)
    return scene


def lines_scene(
    bowler: Bowler,
    played: Line,
    advised: Line | None = None,
    *,
    seen: "Observed | None" = None,
    pattern: OilPattern | None = None,
    thrown: Sequence[LinePaths] = (),
    is_plain: bool = False,
) -> LaneScene:
    """Return the scene of one line, or of two and what lies between them.

    Parameters
    ----------
    bowler : Bowler
        Hand, walk and laydown offset count.
    played, advised, seen
        As for :func:`simulated_scene`.
    pattern : OilPattern, optional
        The oil, if known.
    thrown : sequence of LinePaths, optional
        The balls simulated on each line drawn; without them the lines are straight.
    is_plain : bool, default False
        Without what only a lesson names, see :class:`coachlib.views.lane.scene_parts.LaneScene`.
    """
    advised = None if advised == played else advised
    leave = None if seen is None else seen.shot.leave
    balls, is_short = drawn_paths(thrown), is_plain and not thrown
    if is_plain and seen is not None and _missed_text(seen.shot):  # a ball at the pins would be taken for it
        balls = [path | {"contact": None} for path in balls]
    scene: LaneScene = {
        "source": ("believed" if thrown[0].is_believed else "sheet") if thrown else "lines",
        "is_plain": is_plain,
        "is_asked": False,
        "hand": bowler.hand,
        "left_gutter_text": _gutter_text("left", bowler.hand),
        "right_gutter_text": _gutter_text("right", bowler.hand),
        "played": drawn_line(played, bowler, balls[0] if balls else None, is_short),
        "advised": drawn_line(advised, bowler, balls[1] if balls else None, is_short) if advised else None,
        "shifts": [drawn_shift(played, advised, bowler, ft) for ft in SHIFTS_AT_FT] if advised else [],
        "simulated_text": simulated_shift_text(thrown, bowler.hand),
        "deck": drawn_deck(thrown, bowler.hand),
        "pivot": drawn_pivot(played, advised, bowler) if advised else None,
        "last": _last_ball(seen) if seen else None,
        "pins": [_drawn_pin(pin, leave or (), bowler.hand) for pin in ALL_PINS],
        "pins_seen": leave is not None,
        "oil_end_ft": pattern.length_ft if pattern else None,
        "oil": drawn_oil(pattern),
        "arrows": [list(place) for place in zip(ARROWS_FT, map(float, ARROW_BOARDS), strict=True)],
        "dots": [[DOTS_FT, float(board)] for board in DOT_BOARDS],
        "pocket_board": [POCKET_LOW_BOARD, POCKET_HIGH_BOARD],
        "ball_radius_in": BALL_RADIUS_IN,
        "pin_radius_in": PIN_RADIUS_IN,
        "pit_behind_in": PIT_BEHIND_IN,
        "note": "",
        "sheet_text": "",
        "summary": "",
    }
    scene["note"] = note_of(scene, thrown)
    scene["summary"] = summary_of(scene)
    return scene


def _gutter_text(side: str, hand: Hand) -> str:
    return f"bowler’s {side} · board {LAST_BOARD if side == inside_side(hand) else FIRST_BOARD}"


def _last_ball(seen: "Observed") -> LastBall:
    shot, missed = seen.shot, _missed_text(seen.shot)
    arrival_board = None if shot.is_spare or missed else shot.arrival_board
    crossed_board = None if shot.is_spare else shot.crossed_board
    is_class = isinstance(shot.arrival, str)
    words = str(shot.arrival).replace("far_", "very ") if is_class else board_text(arrival_board or 0.0)
    return {
        "number": seen.number,
        "crossed_ft": seen.line.target_ft,
        "crossed_board": crossed_board,
        "crossed_text": "" if crossed_board is None else f"crossed {board_text(crossed_board)}",
        "arrival_board": arrival_board,
        "arrival_text": "" if arrival_board is None else words,
        "missed_text": missed,
        "before_head_pin_in": 0.0 if arrival_board is None else rounded(contact_in(arrival_board)),
    }


def _missed_text(shot: Shot) -> str:
    """Return what became of a first ball that missed the head pin; empty for one that met it."""
    if shot.is_spare or shot.arrival_class not in MISSES_HEAD_PIN:
        return ""
    if is_gutter_ball(shot):
        return "ended in the gutter"
    return "missed the head pin" if shot.arrival_class == "out" else "went past the head pin"


def _drawn_pin(pin: int, leave: tuple[int, ...], hand: Hand) -> DrawnPin:
    return {
        "number": own_pins((pin,), hand)[0],
        "board": rounded(pin_board(pin)),
        "behind_in": rounded((pin_ft(pin) - HEAD_PIN_FT) * 12.0),
        "is_left": pin in leave,
    }
