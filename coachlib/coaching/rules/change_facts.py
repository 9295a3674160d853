"""What was changed on a lane, and how its other lines and the other lane of the pair answered."""

from collections.abc import Iterable, Sequence
from statistics import fmean

from coachlib.coaching.rules.other_moves import pins_shift_boards
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import arrival_board, missed_boards
from coachlib.coaching.session.lane_history import balls_by_oil, events_on_oil, n_in_a_row, oil_of
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Changed, Observed
from coachlib.world.bowler import Bowler
from coachlib.world.levers import move_between
from coachlib.world.line import Line, Move

NEVER_CHANGED = 99
LINE_BALLS = 2  # so many on-target balls make the answer of a line
TELLING_BOARDS = 1.0  # a smaller difference between two lines is not read (our guess)


def did_not_miss(event: Observed, bowler: Bowler) -> bool:
    """Return whether a ball is not known to have crossed off the mark."""
    return not missed_boards(event.shot, event.line, bowler)


def mean_known(values: Iterable[float | None]) -> float | None:
    """Return the mean of what is known, or None if nothing is."""
    known = [value for value in values if value is not None]
    return fmean(known) if known else None


def was_changed(session: Session) -> bool:
    """Return whether line or ball changed on this lane since it was oiled."""
    return any(isinstance(event, Changed) and event.is_move for event in events_on_oil(session))


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
    moves = reversed(_moves_on_lane(session))
    return n_in_a_row(wanted * pins_shift_boards(move, session.line, session.bowler) > 0 for move in moves)


def other_lane_facts(this_line: Sequence[Observed], session: Session) -> dict[str, FactValue]:
    """Return how the other lane of the pair answers the same line and ball."""
    balls = balls_by_oil(session)
    there = [
        event
        for lane in {lane for lane, _ in balls} - {session.lane}
        for event in balls.get(oil_of(session, lane), ())
        if event.line == session.line and event.ball == session.ball and did_not_miss(event, session.bowler)
    ]
    ours = _mean_arrival(event for event in this_line if did_not_miss(event, session.bowler))
    theirs = _mean_arrival(there)
    gap = None if ours is None or theirs is None else abs(ours - theirs)
    return {"n_ok_other_lane": len(there), "lane_gap_boards": gap}


def is_against_lever(on_lane: Sequence[Observed], session: Session) -> bool | None:
    """Return whether another line of this lane and ball differs the other way than the straight line would.

    None where no two lines can be compared: two on-target balls each, the same target distance, and a board
    or more between them on paper.
    """
    ours = _answer_of(session.line, on_lane, session)
    others = {event.line for event in on_lane if event.line.target_ft == session.line.target_ft}
    answers: list[bool] = []
    for line in others - {session.line}:
        theirs = _answer_of(line, on_lane, session)
        paper = pins_shift_boards(move_between(line, session.line), session.line, session.bowler)
        if ours is not None and theirs is not None and abs(paper) >= TELLING_BOARDS:
            answers.append((ours - theirs) * paper < 0 and abs(ours - theirs) >= TELLING_BOARDS)
    return any(answers) if answers else None


def _answer_of(line: Line, on_lane: Sequence[Observed], session: Session) -> float | None:
    """Return where the on-target balls of a line came in, or None if they are too few."""
    balls = [event for event in on_lane if event.line == line and event.ball == session.ball]
    hits = [event for event in balls if did_not_miss(event, session.bowler)]
    hits = [event for event in hits if arrival_board(event.shot) is not None]
    return _mean_arrival(hits) if len(hits) >= LINE_BALLS else None


def _mean_arrival(balls: Iterable[Observed]) -> float | None:
    return mean_known(arrival_board(event.shot) for event in balls)


def _moves_on_lane(session: Session) -> list[Move]:
    """Return the changes of line on this lane with this ball since it was oiled, oldest first."""
    return [
        move_between(event.was.line, event.now.line)
        for event in events_on_oil(session)
        if isinstance(event, Changed)
        and event.was.ball == event.now.ball == session.ball
        and event.was.line != event.now.line
    ]
