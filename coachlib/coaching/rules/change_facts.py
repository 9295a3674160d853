"""What was changed on a lane, and how its other lines and the other lane of the pair answered."""

import itertools
from collections.abc import Iterable, Sequence
from statistics import fmean

from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import arrival_board, missed_boards
from coachlib.coaching.session.lane_history import balls_by_oil, events_on_oil, oil_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Observed
from coachlib.world.bowler import Bowler
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.levers import line_shift_boards, move_between
from coachlib.world.line import Line, Move

NEVER_CHANGED = 99
LINE_BALLS = 2  # so many on-target balls make the answer of a line
TELLING_BOARDS = 1.0  # a smaller difference between two lines is not read (our guess)


def did_not_miss(seen: Observed, bowler: Bowler) -> bool:
    """Return whether a ball is not known to have crossed off the mark."""
    return not missed_boards(seen.shot, seen.line, bowler)


def mean_known(values: Iterable[float | None]) -> float | None:
    """Return the mean of what is known, or None if nothing is."""
    known = [value for value in values if value is not None]
    return fmean(known) if known else None


def was_changed(session: Session) -> bool:
    """Return whether line or ball changed on this lane since it was oiled."""
    return any(isinstance(event, Changed) and _changes_line(event) for event in events_on_oil(session))


def move_history(session: Session) -> dict[str, FactValue]:
    """Return the facts about the changes of line on this lane with this ball since it was oiled."""
    moves = _moves_on_lane(session)
    facts: dict[str, FactValue] = {
        "sum_inside_moves_boards": max(0.0, sum(move.feet_boards for move in moves)),
        "n_since_change": 0 if was_changed(session) else NEVER_CHANGED,
    }
    if moves:
        facts["last_move_feet_boards"] = moves[-1].feet_boards
        facts["last_move_target_boards"] = moves[-1].target_boards
    return facts


def n_moves_same_side(session: Session, side: FactValue) -> int:
    """Return how many of the last changes of line in a row answered this side of the pocket."""
    wanted = {"high": -1.0, "light": 1.0}.get(str(side), 0.0)
    answers = (wanted * _shift_boards(session, move) > 0 for move in reversed(_moves_on_lane(session)))
    return sum(1 for _ in itertools.takewhile(bool, answers))


def other_lane_facts(this_line: Sequence[Observed], session: Session) -> dict[str, FactValue]:
    """Return how the other lane of the pair answers the same line and ball."""
    here = [seen for seen in this_line if did_not_miss(seen, session.bowler)]
    balls = balls_by_oil(session)
    there = [
        seen
        for lane in {lane for lane, _ in balls} - {session.lane}
        for seen in balls.get(oil_of(session, lane), ())
        if seen.line == session.line and seen.ball == session.ball and did_not_miss(seen, session.bowler)
    ]
    ours, theirs = _arrival_of(here), _arrival_of(there)
    gap = None if ours is None or theirs is None else abs(ours - theirs)
    return {"n_ok_other_lane": len(there), "lane_gap_boards": gap}


def is_against_lever(on_lane: Sequence[Observed], session: Session) -> bool | None:
    """Return whether another line of this lane and ball differs the other way than the straight line would.

    None where no two lines can be compared: two on-target balls each, the same target distance, and a board
    or more between them on paper.
    """
    ours = _answer_of(session.line, on_lane, session)
    others = {seen.line for seen in on_lane if seen.line.target_ft == session.line.target_ft} - {session.line}
    told: list[bool] = []
    for line in others:
        theirs, paper = _answer_of(line, on_lane, session), _shift_from(line, session)
        if ours is not None and theirs is not None and abs(paper) >= TELLING_BOARDS:
            told.append((ours - theirs) * paper < 0 and abs(ours - theirs) >= TELLING_BOARDS)
    return any(told) if told else None


def _answer_of(line: Line, on_lane: Sequence[Observed], session: Session) -> float | None:
    """Return where the on-target balls of a line came in, or None if they are too few."""
    hits = [seen for seen in on_lane if seen.line == line and seen.ball == session.ball]
    hits = [
        seen for seen in hits if did_not_miss(seen, session.bowler) and arrival_board(seen.shot) is not None
    ]
    return _arrival_of(hits) if len(hits) >= LINE_BALLS else None


def _arrival_of(balls: Iterable[Observed]) -> float | None:
    return mean_known(arrival_board(seen.shot) for seen in balls)


def _shift_from(line: Line, session: Session) -> float:
    return _shift_boards(session, move_between(line, session.line))


def _shift_boards(session: Session, move: Move) -> float:
    bowler = session.bowler
    return line_shift_boards(move, HEAD_PIN_FT, bowler.walk, session.line.target_ft, bowler.stance_ft)


def _changes_line(event: Changed) -> bool:
    return event.was.line != event.now.line or event.was.ball != event.now.ball


def _moves_on_lane(session: Session) -> list[Move]:
    """Return the changes of line on this lane with this ball since it was oiled, oldest first."""
    return [
        move_between(event.was.line, event.now.line)
        for event in events_on_oil(session)
        if isinstance(event, Changed)
        and event.was.ball == event.now.ball == session.ball
        and event.was.line != event.now.line
    ]
