"""What one ball tells: where it crossed, where it met the pins, what it left, and what the miss explains."""

from typing import Literal

from coachlib.coaching.fact import FactValue
from coachlib.coaching.leaves import arrival_from_leave, leave_key
from coachlib.coaching.levers import aim_lever, is_hooking
from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler
from coachlib.world.lane import POCKET_BOARD, ArrivalClass, arrival_class_board
from coachlib.world.line import Line
from coachlib.world.pins import ALL_PINS, is_split
from coachlib.world.shot import Shot

Side = Literal["high", "light", "pocket"]

SIDE_OF_CLASS: dict[ArrivalClass, Side] = {
    "out": "light",
    "far_light": "light",
    "light": "light",
    "pocket": "pocket",
    "high": "high",
    "nose": "high",
    "crossover": "high",
    "past": "high",
}
ON_TARGET_BOARDS = 1.0
KEEN_ON_TARGET_BOARDS = 0.5  # accuracy classes 220+ and better: half a board is told apart
USUAL_SPREADS = 1.645
"""Nine balls of ten cross within so many standard deviations of the target (normal distribution)."""
HOOKING_LEVER_SHARE = 0.5  # a hooking ball gives back about half of a straight line's lever (rule of thumb)
BACK_ROW = (7, 8, 9, 10)


def arrival_board(shot: Shot) -> float | None:
    """Return where a ball met the pins, or where its leave says it did [board]."""
    if shot.arrival_board is not None:
        return shot.arrival_board
    named = arrival_class(shot)
    return None if named is None else arrival_class_board(named)


def arrival_class(shot: Shot) -> ArrivalClass | None:
    """Return the class of the arrival, or the one its leave tells of."""
    if shot.arrival_class is not None or shot.leave is None:
        return shot.arrival_class
    return arrival_from_leave(shot.leave)


def is_gutter_ball(shot: Shot) -> bool:
    """Return whether a first ball ended in the gutter: out on the own side, and no pin taken."""
    return shot.arrival == "out" and shot.leave == ALL_PINS and not shot.is_spare


def side_of(shot: Shot) -> Side | None:
    """Return on which side of the pocket a ball came in."""
    named = arrival_class(shot)
    return None if named is None else SIDE_OF_CLASS[named]


def on_target_boards(bowler: Bowler) -> float:
    """Return how far from the target, as marked, a ball still counts as on it [boards]."""
    is_keen = bowler.arrow_sd_boards <= ACCURACY_SD_BOARDS["220+"]
    return KEEN_ON_TARGET_BOARDS if is_keen else ON_TARGET_BOARDS


def usual_spread_boards(bowler: Bowler) -> float:
    """Return how far from the target nine of ten balls of a bowler cross, at least the mark [boards].

    Grade: derived from the bowler's accuracy, see :data:`coachlib.world.bowler.ACCURACY_SD_BOARDS`.
    """
    return max(on_target_boards(bowler), USUAL_SPREADS * bowler.arrow_sd_boards)


def miss_lever(bowler: Bowler, target_ft: float) -> float:
    """Return how many boards at the pins one board of miss at the target is worth.

    60 / target distance on a straight line; half of it for a ball of more than 200 rpm or unknown revs, since
    the lane takes back part of the miss. Grade: rule of thumb.
    """
    return aim_lever(target_ft) * (HOOKING_LEVER_SHARE if is_hooking(bowler) else 1.0)


def missed_boards(shot: Shot, line: Line, bowler: Bowler) -> float | None:
    """Return the miss of a ball off the mark, 0.0 of one on it, None where it was not noted [boards].

    A ball off the mark may still be within the bowler's usual spread: then it is weak evidence.
    """
    if shot.crossed_board is None:
        return None
    miss = shot.crossed_board - line.target_board
    return miss if abs(miss) > on_target_boards(bowler) else 0.0


def ball_facts(shot: Shot, line: Line, bowler: Bowler) -> dict[str, FactValue]:
    """Return what a ball tells by itself, by the names of :data:`coachlib.coaching.facts.FACTS`."""
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
