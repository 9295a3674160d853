"""What a student's sessions show one after the other: aim, speed, arrival, spares, and what advice brought.

Each figure is counted from what was logged, with the number of balls behind it; where nothing was noted it is
None. No figure is guessed, and none is smoothed.

References
----------
.. [1] Classes of accuracy at the arrows: US Bowler, July 2012, p. 11, a test of ten balls at the arrows; see
   :data:`coachlib.world.bowler.ACCURACY_SD_BOARDS`. The test is a range of ten balls, the spread here one of
   all balls of a session, so a class is a rough comparison (the source itself: ±20 %).
"""

import itertools
import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any, NamedTuple

from coachlib.coaching.session.ball_reading import arrival_board
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.errors import InputError
from coachlib.records.log.entries import LoggedSession
from coachlib.records.log.logbook import Logbook
from coachlib.records.log.replay import Replay
from coachlib.records.students.students import Students
from coachlib.world.bowler import ACCURACY_SD_BOARDS
from coachlib.world.lane import ARROWS_FT, POCKET_BOARD
from coachlib.world.levers import target_on_line
from coachlib.world.line import Line, Move, after_move
from coachlib.world.pins import ALL_PINS

LIKELY_PROB = 0.90
"""How sure the bounds of a spread are: nine times in ten it lies between them."""

_ADVISED = ("line", "speed", "hand", "surface", "ball")


class MeasuredSpread(NamedTuple):
    """Mean and spread of what was noted of several balls, in the unit of the field that holds it.

    Parameters
    ----------
    n_balls : int
        How many.
    mean : float
        Their mean.
    sd, sd_low, sd_high : float or None
        Their spread, and the bounds between which it lies nine times in ten (chi-square, for balls that vary
        normally and independently); None for a single ball.
    """

    n_balls: int
    mean: float
    sd: float | None
    sd_low: float | None
    sd_high: float | None


class Count(NamedTuple):
    """So many of so many."""

    n_made: int
    n_tried: int


class Followed(NamedTuple):
    """Advice to move the feet and eyes, and what came of it.

    Parameters
    ----------
    n_given : int
        Balls after which a new line was advised and another ball followed on that lane.
    n_followed : int
        How often that ball was thrown on the line advised.
    err_before_boards, err_after_boards : float or None
        Mean distance from the pocket of the ball advised on and of the ball after, where both are known and
        the advice was followed. [boards]
    other_err_before_boards, other_err_after_boards : float or None
        The same where it was not followed. A ball far off is usually followed by a nearer one whatever is
        done, so the two halves are to be compared, not one with nothing. [boards]
    """

    n_given: int
    n_followed: int
    err_before_boards: float | None
    err_after_boards: float | None
    other_err_before_boards: float | None
    other_err_after_boards: float | None


class SessionTrend(NamedTuple):
    """The figures of one session.

    Parameters
    ----------
    key, started
        The session's; when, UTC.
    n_balls, n_first_balls : int
        All balls, and those at ten pins that are read for the line.
    arrow_miss_boards : MeasuredSpread or None
        Where the ball crossed, less the target, for targets at the arrows; + is inside. [boards]
    accuracy_class : str or None
        The published class whose spread is nearest; None for fewer than ten balls.
    speed_mph : MeasuredSpread or None
        At the hand. [mph]
    arrival_err_boards : mapping of str to MeasuredSpread
        Where the ball arrived less the pocket, by lane; + is high. A class of arrival counts as the board
        that stands for it. [boards]
    single_pin_spares : Count
        Of first balls that left one pin and whose spare ball was logged.
    first_ball_pins : MeasuredSpread or None
        Pins felled by first balls whose leave was noted. [pins]
    strikes : Count
        Of the same balls.
    advice : Followed
        What was advised and what came of it.
    drift_boards : MeasuredSpread or None
        Slide board less start board, of those who slide straight ahead; + is inside. [boards]
    entered_sd_boards : float or None
        The spread at the arrows that was entered for the bowler, or assumed where none was. [boards]
    is_accuracy_known : bool
        Whether that one was entered.
    """

    key: str
    started: datetime
    n_balls: int
    n_first_balls: int
    arrow_miss_boards: MeasuredSpread | None
    accuracy_class: str | None
    speed_mph: MeasuredSpread | None
    arrival_err_boards: Mapping[str, MeasuredSpread]
    single_pin_spares: Count
    first_ball_pins: MeasuredSpread | None
    strikes: Count
    advice: Followed
    drift_boards: MeasuredSpread | None = None
    entered_sd_boards: float | None = None
    is_accuracy_known: bool = False


def student_trends(logbook: Logbook, student_key: str) -> tuple[SessionTrend, ...]:
    """Return the figures of all sessions of a student, the oldest first.

    Raises
    ------
    InputError
        If there is no such student.
    DataFileError
        If a session cannot be read.
    """
    listed = Students(logbook).sessions(student_key)[::-1]
    replays = logbook.stories(row.key for row in listed)
    return tuple(session_trend(row, replay) for row, replay in zip(listed, replays, strict=True))


def session_trend(listed: LoggedSession, replay: Replay) -> SessionTrend:
    """Return the figures of one session: its line in the list, and it with what was advised in it."""
    return trend_of(replay.session, replay.advice, listed.key, listed.started)


def trend_of(
    session: Session, advice: Mapping[int, dict[str, Any]], key: str, started: datetime
) -> SessionTrend:
    """Return the figures of a session that need not be in the log.

    Parameters
    ----------
    advice : mapping of int to dict
        What was answered, by the number of the ball.
    key, started
        What the session is called, and when it was.
    """
    shots, first = session.shots, session.first_balls
    misses = [miss for ball in first if is_at_arrows(ball.line) and (miss := miss_boards(ball)) is not None]
    singles = [spare.shot.leave for one, spare in spares_after(shots) if len(one.shot.leave or ()) == 1]
    known = [ball.shot.leave for ball in first if ball.shot.leave is not None]
    return SessionTrend(
        key=key,
        started=started,
        n_balls=len(shots),
        n_first_balls=len(first),
        arrow_miss_boards=spread(misses),
        accuracy_class=accuracy_class(misses),
        speed_mph=spread([ball.shot.speed_mph for ball in first if ball.shot.speed_mph is not None]),
        arrival_err_boards=_by_lane(first),
        single_pin_spares=Count(singles.count(()), len(singles)),
        first_ball_pins=spread([float(len(ALL_PINS) - len(leave)) for leave in known]),
        strikes=Count(known.count(()), len(known)),
        advice=_followed(shots, advice),
        drift_boards=spread(_drifts_boards(shots)),
        entered_sd_boards=session.bowler.arrow_sd_boards,
        is_accuracy_known=session.bowler.is_accuracy_known,
    )


def is_at_arrows(line: Line) -> bool:
    """Return whether the target of a line lies at the arrows."""
    return min(ARROWS_FT) <= line.target_ft <= max(ARROWS_FT)


def miss_boards(ball: Observed) -> float | None:
    """Return by how much a ball crossed inside (+) of its target; None where that was not noted [boards]."""
    board = ball.shot.crossed_board
    return None if board is None else board - ball.line.target_board


def err_boards(ball: Observed) -> float | None:
    """Return where a ball hit less the pocket, + is high; None where that was not noted [boards]."""
    board = arrival_board(ball.shot)
    return None if board is None else board - POCKET_BOARD


def spares_after(shots: Sequence[Observed]) -> Iterator[tuple[Observed, Observed]]:
    """Yield each first ball that left pins with the spare ball right after it, if its pins were noted too."""
    for first, spare in itertools.pairwise(shots):
        if (
            first.shot.leave
            and not first.shot.is_spare
            and spare.shot.is_spare
            and spare.shot.leave is not None
        ):
            yield first, spare


def spread(values: Sequence[float]) -> MeasuredSpread | None:
    """Return mean and spread of some values, with bounds of the spread; None for no value."""
    if not values:
        return None
    n, mean = len(values), math.fsum(values) / len(values)
    if n == 1:
        return MeasuredSpread(n, mean, None, None, None)
    from scipy.special import chdtri

    squares = math.fsum((value - mean) ** 2 for value in values)
    outside = (1.0 - LIKELY_PROB) / 2.0
    low, high = (math.sqrt(squares / float(chdtri(n - 1, part))) for part in (outside, 1.0 - outside))
    return MeasuredSpread(n, mean, math.sqrt(squares / (n - 1)), low, high)


def accuracy_class(misses_boards: Sequence[float]) -> str | None:
    """Return the published class of accuracy nearest to a spread at the arrows; None below ten balls.

    Parameters
    ----------
    misses_boards : sequence of float
        Where balls crossed less their target, at the arrows. [boards]
    """
    found = spread(misses_boards)
    if found is None or found.sd is None or found.n_balls < 10:
        return None
    measured = max(found.sd, 1e-9)
    return min(ACCURACY_SD_BOARDS, key=lambda name: abs(math.log(measured / ACCURACY_SD_BOARDS[name])))


def _drifts_boards(shots: Iterable[Observed]) -> list[float]:
    """Return how far inside of the start each slide board was, of those who slide straight ahead."""
    noted = [
        (ball.shot.start_board, ball.shot.slide_board)
        for ball in shots
        if ball.setting.bowler.walk == "slide"
    ]
    return [slide - start for start, slide in noted if start is not None and slide is not None]


def _by_lane(first: Iterable[Observed]) -> dict[str, MeasuredSpread]:
    errs: dict[str, list[float]] = {}
    for ball in first:
        if (err := err_boards(ball)) is not None:
            errs.setdefault(ball.lane, []).append(err)
    return {lane: found for lane, values in errs.items() if (found := spread(values)) is not None}


def _followed(shots: Sequence[Observed], advice: Mapping[int, dict[str, Any]]) -> Followed:
    """Return how often the next ball on the lane was thrown on the line advised, and what it brought."""
    is_followed: list[bool] = []
    errs: dict[bool, list[tuple[float, float]]] = {True: [], False: []}
    for ball in shots:
        line = _advised_line(ball, advice.get(ball.number, {}))
        later = (one for one in shots[ball.number :] if not one.shot.is_spare and one.lane == ball.lane)
        after = next(later, None)
        if line is None or after is None:
            continue
        is_followed.append(after.line == line)
        err_before, err_after = err_boards(ball), err_boards(after)
        if err_before is not None and err_after is not None:
            errs[is_followed[-1]].append((abs(err_before), abs(err_after)))
    return Followed(len(is_followed), sum(is_followed), *_means(errs[True]), *_means(errs[False]))


def _means(pairs: Sequence[tuple[float, float]]) -> tuple[float | None, float | None]:
    if not pairs:
        return None, None
    before, after = (math.fsum(errs) / len(pairs) for errs in zip(*pairs, strict=True))
    return before, after


def _advised_line(ball: Observed, advice: Mapping[str, Any]) -> Line | None:
    """Return the line that was advised after a ball; None where no other line was, or it cannot be read."""
    fields = advice.get("move")
    if advice.get("kind") not in _ADVISED or not isinstance(fields, dict):
        return None
    try:
        move = Move(**fields)
        line = after_move(ball.line, move)
        if move.target_ft:
            line = target_on_line(line, ball.setting.bowler, line.target_ft + move.target_ft)
    except InputError:
        return None
    return None if line == ball.line else line
