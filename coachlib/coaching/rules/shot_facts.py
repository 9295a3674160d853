"""What one ball tells the rulebook by itself: where it crossed, how it came in, what it left."""

from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import (
    SIDE_OF_CLASS,
    arrival_board,
    arrival_class,
    leave_key,
    miss_lever,
    missed_boards,
    on_target_boards,
    side_of,
    usual_spread_boards,
)
from coachlib.world.bowler import Bowler
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.line import Line
from coachlib.world.pins import is_split
from coachlib.world.shot import Shot

BACK_ROW = (7, 8, 9, 10)


def ball_facts(shot: Shot, line: Line, bowler: Bowler) -> dict[str, FactValue]:
    """Return what a ball tells by itself, by the names of the vocabulary's ``FACTS``."""
    return _crossing_facts(shot, line, bowler) | _arrival_facts(shot, line, bowler) | _pin_facts(shot)


def _crossing_facts(shot: Shot, line: Line, bowler: Bowler) -> dict[str, FactValue]:
    if shot.crossed_board is None:
        return {"has_crossing": False}
    miss = shot.crossed_board - line.target_board
    return {
        "has_crossing": True,
        "miss_boards": miss,
        "abs_miss_boards": abs(miss),
        "is_on_target": abs(miss) <= on_target_boards(bowler),
        "is_within_spread": on_target_boards(bowler) < abs(miss) <= usual_spread_boards(bowler),
        "is_missed": abs(miss) > usual_spread_boards(bowler),
    }


def _arrival_facts(shot: Shot, line: Line, bowler: Bowler) -> dict[str, FactValue]:
    board, named = arrival_board(shot), arrival_class(shot)
    if board is None or named is None:
        return {}
    err = board - POCKET_BOARD
    facts: dict[str, FactValue] = {
        "arrival_class": named,
        "side": SIDE_OF_CLASS[named],
        "err_boards": err,
        "abs_err_boards": abs(err),
    }
    if shot.crossed_board is not None:
        miss = shot.crossed_board - line.target_board
        expected = miss_lever(bowler, line.target_ft) * miss
        facts |= {
            "expected_err_boards": expected,
            "unexplained_boards": err - expected,
            "lane_part_boards": (err - expected) * (1 if err > 0 else -1),
            "is_miss_same_way_as_err": miss * err > 0,
        }
    is_off_mark = bool(missed_boards(shot, line, bowler))
    is_told = shot.arrival is not None or shot.crossed_board is not None
    is_open = shot.leave is not None and is_split(shot.leave)
    is_far = named in ("nose", "crossover", "past") or is_open
    facts["is_severe"] = is_told and is_far and not is_off_mark and not shot.is_strike
    facts["is_severe_light"] = is_told and named in ("far_light", "out") and not is_off_mark
    return facts


def _pin_facts(shot: Shot) -> dict[str, FactValue]:
    facts: dict[str, FactValue] = {
        "motion": shot.motion or "unknown",
        "hit": shot.hit or "unknown",
        "breakpoint_ft": shot.breakpoint_ft,
    }
    if shot.leave is None:
        return facts
    left = set(shot.leave)
    is_one_behind = len(left) == 1 and left <= set(BACK_ROW)
    return facts | {
        "leave_key": leave_key(shot.leave),
        "key_pin": min(left) if left else None,
        "is_strike": shot.is_strike,
        "is_single_tap": is_one_behind and side_of(shot) == "pocket",
        "is_open_split": is_split(shot.leave),
        "is_wide_split": is_split(shot.leave) and bool(left & {4, 7}) and bool(left & {6, 10}),
    }
