"""What a shot means: the facts of a session that rules may ask for.

"This line" is the present lane of the pair, ball and line, back to the last change of line or ball there.
Spare balls are never read. An unknown fact is None, and no rule that needs it fires.
"""

import itertools
import math
from collections.abc import Iterable, Mapping
from statistics import fmean, stdev

from coachlib.coaching.facts import FactValue
from coachlib.coaching.leaves import leave_key
from coachlib.coaching.levers import line_shift_boards, move_between, slide_foot_board
from coachlib.coaching.one_ball import Side, arrival_board, arrival_class, ball_facts, missed_boards, side_of
from coachlib.coaching.session import Changed, Observed, Session
from coachlib.things import thing
from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler
from coachlib.world.line import Move
from coachlib.world.pins import is_split
from coachlib.world.shot import Shot

RECENT_BALLS = 5  # n_same is asked of this many on-target balls, so that an old miss is forgotten
NEVER_CHANGED = 99
TREND_BALLS = 3
TURNS_EARLIER_FT = 1.5  # smaller differences are not seen by eye (our guess)
OWN_SPEED_BALLS = 4  # from then on the session's own mean speed counts, not the profile's


@thing
class Reading:
    """The facts about the present line, and the ball they were read off.

    Parameters
    ----------
    facts : mapping
        By the names of :data:`coachlib.coaching.facts.FACTS`.
    last : Observed or None
        The last first ball of this line.
    is_arrival_from_leave : bool
        Whether the arrival was not seen and is taken from the pins left.
    """

    facts: Mapping[str, FactValue]
    last: Observed | None = None
    is_arrival_from_leave: bool = False

    @property
    def side(self) -> Side | None:
        """The side of the pocket of the last ball."""
        side = self.facts.get("side")
        return side if side in ("high", "light", "pocket") else None  # type: ignore[return-value]


def read_session(session: Session) -> Reading:
    """Return what the session's balls mean for the line being played.

    Parameters
    ----------
    session : Session
        The session so far.

    Returns
    -------
    Reading
        With facts of lane and bowler only, as long as no ball was thrown on this line.
    """
    on_lane = [seen for seen in session.shots if seen.lane == session.lane and not seen.shot.is_spare]
    with_ball = [seen for seen in on_lane if seen.ball == session.ball]
    this_line = _this_line(session, on_lane)
    last = this_line[-1] if this_line else None
    facts: dict[str, FactValue] = {"task": "first"} | _setting_facts(session) | _move_history(session)
    facts |= {"n_shots": len(on_lane), "n_ok": 0, "n_same": 0, "is_severe": False}
    if last is not None:
        facts |= ball_facts(last.shot, session.line, session.bowler)
        facts |= _count_facts(this_line, session, facts)
        facts |= _pattern_facts(with_ball, session.bowler)
        facts |= _sequence_facts(this_line, on_lane, session)
        facts["n_moves_same_side"] = _n_moves_same_side(session, facts.get("side"))
    return Reading(facts, last, last is not None and _is_from_leave(last.shot))


def spare_facts(session: Session) -> Mapping[str, FactValue] | None:
    """Return the facts for the pins just left, or None when nothing is left to shoot at."""
    if not session.shots:
        return None
    shot = session.shots[-1].shot
    if shot.is_spare or not shot.leave:
        return None
    return {
        "task": "spare",
        "leave_key": leave_key(shot.leave),
        "key_pin": min(shot.leave),
        "is_open_split": is_split(shot.leave),
        **_setting_facts(session),
    }


def _this_line(session: Session, on_lane: list[Observed]) -> list[Observed]:
    def is_other(seen: Observed) -> bool:
        return seen.line != session.line or seen.ball != session.ball

    trailing = itertools.takewhile(lambda seen: not is_other(seen), reversed(on_lane))
    return list(trailing)[::-1]


def _did_not_miss(seen: Observed, bowler: Bowler) -> bool:
    return not missed_boards(seen.shot, seen.line, bowler)


def _is_from_leave(shot: Shot) -> bool:
    return shot.arrival is None and arrival_class(shot) is not None


def _setting_facts(session: Session) -> dict[str, FactValue]:
    bowler, pattern, ball = session.bowler, session.pattern, session.ball
    is_far_in = bowler.comfort_board is not None and session.line.feet_board > bowler.comfort_board
    return {
        "phase": session.phase,
        "games_on_lane": session.games_now,
        "oil_length_ft": None if pattern is None else pattern.length_ft,
        "is_house_pattern": None if pattern is None else pattern.kind == "house",
        "scoring_started": session.scoring_started,
        "hand": bowler.hand,
        "walk": bowler.walk,
        "is_two_handed": bowler.is_two_handed,
        "rev_rate_rpm": bowler.rev_rate_rpm,
        "bowler_speed_mph": bowler.speed_mph,
        "age_years": bowler.age_years,
        "has_pain": bool(bowler.pain.strip()),
        "is_beginner": bowler.arrow_sd_boards > max(ACCURACY_SD_BOARDS.values()),
        "is_beyond_comfort": is_far_in,
        "is_dull_or_strong_ball": None if ball is None else ball.is_dull_or_strong,
        "shots_needed": math.ceil(round((1.645 * bowler.arrow_sd_boards) ** 2, 9)),
    }


def _count_facts(
    this_line: list[Observed], session: Session, facts: Mapping[str, FactValue]
) -> dict[str, FactValue]:
    bowler, last = session.bowler, this_line[-1].shot
    hits = [seen for seen in this_line if _did_not_miss(seen, bowler)]
    recent = [side_of(seen.shot) for seen in hits[-RECENT_BALLS:]]
    misses = [missed_boards(seen.shot, seen.line, bowler) or 0.0 for seen in reversed(this_line)]
    in_a_row = itertools.takewhile(lambda miss: miss * misses[0] > 0, misses)
    return {
        "n_ok": len(hits),
        "n_same": recent.count(side_of(last)) if side_of(last) else 0,
        "n_ok_high": recent.count("high"),
        "n_ok_light": recent.count("light"),
        "n_same_leave": sum(last.leave is not None and seen.shot.leave == last.leave for seen in hits),
        "n_since_change": len(hits) if _was_changed(session) else NEVER_CHANGED,
        "n_miss_same_way": sum(1 for _ in in_a_row),
    }


def _pattern_facts(with_ball: list[Observed], bowler: Bowler) -> dict[str, FactValue]:
    """Return counts of misses that came in high, light or in the pocket, on this lane and ball."""
    pairs = [(missed_boards(seen.shot, seen.line, bowler) or 0.0, side_of(seen.shot)) for seen in with_ball]
    crossings = [
        seen.shot.crossed_board - seen.line.target_board
        for seen in with_ball
        if seen.shot.crossed_board is not None
    ]
    return {
        "miss_sd_boards": stdev(crossings) if len(crossings) >= 4 else None,
        "n_inside_light": sum(miss > 0 and side == "light" for miss, side in pairs),
        "n_inside_high": sum(miss > 0 and side == "high" for miss, side in pairs),
        "n_outside_high": sum(miss < 0 and side == "high" for miss, side in pairs),
        "n_pocket_inside": sum(miss > 0 and side == "pocket" for miss, side in pairs),
        "n_pocket_outside": sum(miss < 0 and side == "pocket" for miss, side in pairs),
    }


def _sequence_facts(
    this_line: list[Observed], on_lane: list[Observed], session: Session
) -> dict[str, FactValue]:
    last, earlier = this_line[-1], this_line[:-1]
    facts = _trend_facts(this_line, session.bowler) | _release_facts(last, session)
    facts |= _other_lane_facts(this_line, session)
    facts["is_turning_earlier"] = _is_turning_earlier(last.shot, [seen.shot for seen in earlier])
    facts["n_high_pocket_warnings"] = _n_warnings(on_lane)
    boards = [seen.shot.breakpoint_board for seen in on_lane[:-1] if seen.ball == session.ball]
    usual = _mean(boards)
    if usual is not None and last.shot.breakpoint_board is not None:
        facts["abs_breakpoint_diff_boards"] = abs(last.shot.breakpoint_board - usual)
    return facts


def _trend_facts(this_line: list[Observed], bowler: Bowler) -> dict[str, FactValue]:
    boards = [arrival_board(seen.shot) for seen in this_line if _did_not_miss(seen, bowler)]
    recent = [board for board in boards if board is not None][-TREND_BALLS:]
    if len(recent) < TREND_BALLS:
        return {"n_trend": len(recent)}
    is_rising = all(later >= earlier for earlier, later in itertools.pairwise(recent))
    slope = (recent[-1] - recent[0]) / (TREND_BALLS - 1)
    return {
        "n_trend": len(recent),
        "trend_boards_per_shot": slope,
        "is_trend_inward": is_rising and recent[-1] - recent[0] >= 1.0,
    }


def _release_facts(last: Observed, session: Session) -> dict[str, FactValue]:
    facts: dict[str, FactValue] = {}
    shot, others = last.shot, [seen for seen in session.shots if seen.number < last.number]
    if shot.speed_mph is not None:
        speeds = [seen.shot.speed_mph for seen in others if seen.shot.speed_mph is not None]
        own_mph = fmean(speeds) if len(speeds) >= OWN_SPEED_BALLS else session.bowler.speed_mph
        facts |= {} if own_mph is None else _speed_facts(shot.speed_mph - own_mph, side_of(shot))
    drift = _usual_drift_boards(others, session.bowler)
    if shot.slide_board is not None and drift is not None:
        off = shot.slide_board - slide_foot_board(last.line, session.bowler) - drift
        facts["slide_diff_boards"], facts["abs_slide_diff_boards"] = off, abs(off)
    return facts


def _speed_facts(diff_mph: float, side: Side | None) -> dict[str, FactValue]:
    return {
        "speed_diff_mph": diff_mph,
        "abs_speed_diff_mph": abs(diff_mph),
        "is_speed_fitting": (diff_mph < 0 and side == "high") or (diff_mph > 0 and side == "light"),
    }


def _usual_drift_boards(others: list[Observed], bowler: Bowler) -> float | None:
    if bowler.drift_boards is not None:
        return bowler.drift_boards
    return _mean(
        seen.shot.slide_board - slide_foot_board(seen.line, bowler)
        for seen in others
        if seen.shot.slide_board is not None
    )


def _other_lane_facts(this_line: list[Observed], session: Session) -> dict[str, FactValue]:
    here = [seen for seen in this_line if _did_not_miss(seen, session.bowler)]
    there = [
        seen
        for seen in session.shots
        if seen.lane != session.lane and seen.line == session.line and seen.ball == session.ball
        if not seen.shot.is_spare and _did_not_miss(seen, session.bowler)
    ]
    ours = _mean(arrival_board(seen.shot) for seen in here)
    theirs = _mean(arrival_board(seen.shot) for seen in there)
    gap = None if ours is None or theirs is None else abs(ours - theirs)
    return {"n_ok_other_lane": len(there), "lane_gap_boards": gap}


def _is_turning_earlier(shot: Shot, earlier: list[Shot]) -> bool | None:
    usual_ft = _mean(before.breakpoint_ft for before in earlier)
    if shot.breakpoint_ft is not None and usual_ft is not None:
        return shot.breakpoint_ft < usual_ft - TURNS_EARLIER_FT
    motions = [before.motion for before in earlier if before.motion is not None]
    if shot.motion is None or not motions:
        return None
    return shot.motion in ("early", "roll_out") and motions[0] not in ("early", "roll_out")


def _n_warnings(on_lane: list[Observed]) -> int:
    strikes = [seen.shot for seen in on_lane if seen.shot.is_strike][-3:]
    return sum(side_of(strike) == "high" for strike in strikes)


def _was_changed(session: Session) -> bool:
    return any(isinstance(event, Changed) and _changes_line(event, session.lane) for event in session.events)


def _changes_line(event: Changed, lane: str) -> bool:
    is_same_lane = event.was.lane == event.now.lane == lane
    return is_same_lane and (event.was.line != event.now.line or event.was.ball != event.now.ball)


def _moves_on_lane(session: Session) -> list[Move]:
    """Return the changes of line on this lane with this ball, oldest first."""
    return [
        move_between(event.was.line, event.now.line)
        for event in session.events
        if isinstance(event, Changed)
        and event.was.lane == event.now.lane == session.lane
        and event.was.ball == event.now.ball == session.ball
        and event.was.line != event.now.line
    ]


def _move_history(session: Session) -> dict[str, FactValue]:
    moves = _moves_on_lane(session)
    facts: dict[str, FactValue] = {
        "sum_inside_moves_boards": max(0.0, sum(move.feet_boards for move in moves)),
        "n_since_change": 0 if _was_changed(session) else NEVER_CHANGED,
    }
    if moves:
        facts["last_move_feet_boards"] = moves[-1].feet_boards
        facts["last_move_target_boards"] = moves[-1].target_boards
    return facts


def _n_moves_same_side(session: Session, side: FactValue) -> int:
    """Return how many of the last changes of line in a row answered this side of the pocket."""
    wanted = {"high": -1.0, "light": 1.0}.get(str(side), 0.0)

    def answers(move: Move) -> bool:
        return wanted * line_shift_boards(move, 60.0, session.bowler.walk, session.line.target_ft) > 0

    return sum(1 for _ in itertools.takewhile(answers, reversed(_moves_on_lane(session))))


def _mean(values: Iterable[float | None]) -> float | None:
    known = [value for value in values if value is not None]
    return fmean(known) if known else None
