"""What a shot means: the facts of a session that rules may ask for.

"This line" is the present lane of the pair, ball and line, back to the last change of line or ball there, and
never beyond fresh oil. Spare balls are never read. An unknown fact is None, and no rule that needs it fires.
"""

import collections
import itertools
import math
from collections.abc import Mapping, Sequence
from statistics import stdev

from coachlib.coaching.rules.change_facts import (
    NEVER_CHANGED,
    did_not_miss,
    is_against_lever,
    mean_known,
    move_history,
    n_moves_same_side,
    other_lane_facts,
    was_changed,
)
from coachlib.coaching.rules.release_facts import release_facts
from coachlib.coaching.rules.shot_facts import ball_facts
from coachlib.coaching.rules.vocabulary import FactValue
from coachlib.coaching.session.ball_reading import (
    PocketSide,
    arrival_board,
    arrival_class,
    is_gutter_ball,
    leave_key,
    missed_boards,
    side_of,
)
from coachlib.coaching.session.lane_history import hits_among, lane_balls, line_balls, n_in_a_row
from coachlib.coaching.session.last_move import last_move
from coachlib.coaching.session.session import Session
from coachlib.coaching.session.setting import Observed
from coachlib.coaching.spares.spare_lines import split_facts
from coachlib.validation import thing
from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler
from coachlib.world.lane import POCKET_BOARD
from coachlib.world.pins import is_split
from coachlib.world.usual import with_hook_of

RECENT_BALLS = 5  # n_same is asked of this many on-target balls, so that an old miss is forgotten
SEVERE_BALLS = 3  # two very bad balls are looked for among this many: more of them far apart are no pattern
TREND_BALLS = 3
NO_ROOM_BOARDS = 1.0  # less room than this for the feet is none

RULE_OF_31_FT = 31.0
"""Length of the oil less this is the board at which the ball leaves it (in print, several pages) [ft]."""

SPARE_FEET_BOARDS = {2: 3.0, 4: 6.0, 7: 9.0, 3: -3.0, 6: -6.0, 10: -9.0}
"""Boards that three, six, nine asks of the feet to the outside, by the front pin (two club pages)."""


@thing
class Reading:
    """The facts about the present line, and the ball they were read off.

    Parameters
    ----------
    facts : mapping
        By the names of :data:`coachlib.coaching.rules.vocabulary.FACTS`.
    last : Observed or None
        The last first ball of this line.
    is_arrival_from_leave : bool
        Whether the arrival was not seen and is taken from the pins left.
    """

    facts: Mapping[str, FactValue]
    last: Observed | None = None
    is_arrival_from_leave: bool = False

    @property
    def side(self) -> PocketSide | None:
        """The side of the pocket of the last ball."""
        side = self.facts.get("side")
        return side if side in ("high", "light", "pocket") else None  # type: ignore[return-value]


def read_session(session: Session) -> Reading:
    """Return what the session's balls mean for the line being played.

    As long as no ball was thrown on this line, the facts are those of lane and bowler only.
    """
    on_lane, this_line, bowler = lane_balls(session), line_balls(session), session.bowler
    facts: dict[str, FactValue] = {"task": "first"} | _setting_facts(session) | move_history(session)
    facts |= {"n_shots": len(on_lane), "n_ok": 0, "n_same": 0, "is_severe": False}
    if not this_line:
        return Reading(facts)
    shot = this_line[-1].shot
    facts |= ball_facts(shot, session.line, with_hook_of(bowler, session.ball))
    facts |= _count_facts(this_line, session) | _pattern_facts(this_line, bowler)
    facts |= _trend_facts(this_line, bowler) | release_facts(this_line, session)
    facts |= _breakpoint_facts(on_lane, session) | _last_move_facts(session)
    facts |= other_lane_facts(this_line, session)
    side = str(facts.get("side"))
    facts["is_against_lever"] = is_against_lever(on_lane, session)
    facts["n_moves_same_side"] = n_moves_same_side(session, side)
    facts["is_feet_stuck"] = _is_feet_stuck(session, {"high": 1.0, "light": -1.0}.get(side, 0.0))
    return Reading(facts, this_line[-1], shot.arrival is None and arrival_class(shot) is not None)


def spare_facts(session: Session) -> Mapping[str, FactValue] | None:
    """Return the facts for the pins just left, or None when nothing is left to shoot at."""
    if not session.shots:
        return None
    shot = session.shots[-1].shot
    if shot.is_spare or not shot.leave:
        return None
    key_pin = min(shot.leave)
    return {
        "task": "spare",
        "leave_key": leave_key(shot.leave),
        "n_pins_left": len(shot.leave),
        "key_pin": key_pin,
        "is_open_split": is_split(shot.leave),
        **split_facts(shot.leave),
        **_setting_facts(session),
        "is_feet_stuck": _is_feet_stuck(session, -SPARE_FEET_BOARDS.get(key_pin, 0.0)),
    }


def _is_feet_stuck(session: Session, wanted_boards: float) -> bool:
    """Return whether the feet cannot move: as told, or for want of room to the inside (+) or outside (-)."""
    bowler, feet = session.bowler, session.line.feet_board
    room = bowler.feet_high_board - feet if wanted_boards > 0 else feet - bowler.feet_low_board
    return session.place.is_feet_stuck or room < abs(wanted_boards) * NO_ROOM_BOARDS


def _setting_facts(session: Session) -> dict[str, FactValue]:
    bowler, pattern, ball = session.bowler, session.pattern, session.ball
    is_far_in = bowler.comfort_board is not None and session.line.feet_board > bowler.comfort_board
    return {
        "phase": session.phase,
        "games_on_lane": session.games_now,
        "oil_length_ft": None if pattern is None else pattern.length_ft,
        "oil_volume_ml": pattern.volume_ml if pattern is not None and pattern.has_film else None,
        "is_house_pattern": None if pattern is None else pattern.kind == "house",
        "scoring_started": session.scoring_started,
        "hand": bowler.hand,
        "walk": bowler.walk,
        "is_two_handed": bowler.is_two_handed,
        "rev_rate_rpm": bowler.rev_rate_rpm,
        "bowler_speed_mph": bowler.speed_mph,
        "age_years": bowler.age_years,
        "has_pain": bowler.has_pain,
        "is_stopped": session.is_stopped,
        "is_beginner": bowler.arrow_sd_boards > max(ACCURACY_SD_BOARDS.values()),
        "has_others_on_line": session.place.has_others_on_line,
        "is_own_side_quiet": session.place.is_own_side_quiet,
        "has_weather_turned": session.place.has_weather_turned,
        "is_approach_bad": session.place.is_approach_bad,
        "is_feet_stuck": session.place.is_feet_stuck,
        "is_beyond_comfort": is_far_in,
        "is_plastic_ball": None if ball is None else ball.cover == "plastic",
        "is_dull_or_strong_ball": None if ball is None else ball.is_dull_or_strong,
        "shots_needed": math.ceil(round((1.645 * bowler.arrow_sd_boards) ** 2, 9)),
    }


def _count_facts(this_line: Sequence[Observed], session: Session) -> dict[str, FactValue]:
    bowler, last = session.bowler, this_line[-1].shot
    side, err = side_of(last), (arrival_board(last) or POCKET_BOARD) - POCKET_BOARD
    hits = [event for event in this_line if did_not_miss(event, bowler)]
    recent = hits[-RECENT_BALLS:]
    sides = [side_of(event.shot) for event in recent]
    errs = [(arrival_board(event.shot) or POCKET_BOARD) - POCKET_BOARD for event in recent]
    severe = [ball_facts(event.shot, event.line, bowler) for event in hits[-SEVERE_BALLS:]]
    on_target = [side_of(event.shot) for event in reversed(hits_among(this_line, bowler))]
    misses = [missed_boards(event.shot, event.line, bowler) or 0.0 for event in reversed(this_line)]
    return {
        "n_ok": len(hits),
        "n_same": sides.count(side) if side else 0,
        "n_same_sign": sum(one * err > 0 for one in errs),
        "n_same_run": n_in_a_row(one == side for one in on_target) if side in ("high", "light") else 0,
        "n_severe_high": sum(one.get("is_severe") is True and one.get("side") == "high" for one in severe),
        "n_severe_light": sum(one.get("is_severe_light") is True for one in severe),
        "n_ok_high": sides.count("high"),
        "n_ok_light": sides.count("light"),
        "n_early": sum(event.shot.motion in ("early", "roll_out") for event in recent),
        "n_same_leave": sum(last.leave is not None and event.shot.leave == last.leave for event in hits),
        "n_since_change": len(hits) if was_changed(session) else NEVER_CHANGED,
        "n_miss_same_way": n_in_a_row(miss * misses[0] > 0 for miss in misses),
    }


def _pattern_facts(this_line: Sequence[Observed], bowler: Bowler) -> dict[str, FactValue]:
    """Return counts of misses by where they came in, their spread, and strikes that came in high."""
    misses = [missed_boards(event.shot, event.line, bowler) or 0.0 for event in this_line]
    pairs = zip(misses, (side_of(event.shot) for event in this_line), strict=True)
    counts = collections.Counter(((miss > 0) - (miss < 0), side) for miss, side in pairs)
    crossings = [
        event.shot.crossed_board - event.line.target_board
        for event in this_line
        if event.shot.crossed_board is not None and not is_gutter_ball(event.shot)
    ]
    strikes = [event.shot for event in this_line if event.shot.is_strike][-3:]
    return {
        "miss_sd_boards": stdev(crossings) if len(crossings) >= 4 else None,
        "n_inside_light": counts[1, "light"],
        "n_inside_high": counts[1, "high"],
        "n_outside_high": counts[-1, "high"],
        "n_pocket_inside": counts[1, "pocket"],
        "n_pocket_outside": counts[-1, "pocket"],
        "n_high_pocket_warnings": sum(side_of(strike) == "high" for strike in strikes),
    }


def _trend_facts(this_line: Sequence[Observed], bowler: Bowler) -> dict[str, FactValue]:
    boards = [arrival_board(event.shot) for event in this_line if did_not_miss(event, bowler)]
    recent = [board for board in boards if board is not None][-TREND_BALLS:]
    if len(recent) < TREND_BALLS:
        return {"n_trend": len(recent)}
    is_rising = all(later >= earlier for earlier, later in itertools.pairwise(recent))
    return {
        "n_trend": len(recent),
        "trend_boards_per_shot": (recent[-1] - recent[0]) / (TREND_BALLS - 1),
        "is_trend_inward": is_rising and recent[-1] - recent[0] >= 1.0,
    }


def _breakpoint_facts(on_lane: Sequence[Observed], session: Session) -> dict[str, FactValue]:
    facts: dict[str, FactValue] = {}
    turned_board = on_lane[-1].shot.breakpoint_board
    usual = mean_known(one.shot.breakpoint_board for one in on_lane[:-1] if one.ball == session.ball)
    if turned_board is not None and usual is not None:
        facts["abs_breakpoint_diff_boards"] = abs(turned_board - usual)
    if turned_board is not None and session.pattern is not None:
        facts["breakpoint_past_exit_boards"] = turned_board - (session.pattern.length_ft - RULE_OF_31_FT)
    return facts


def _last_move_facts(session: Session) -> dict[str, FactValue]:
    """Return what the balls since the last change of line say of it."""
    moved = last_move(session)
    if moved is None:
        return {}
    return {
        "last_move_answered": moved.answered,
        "n_hits_since_move": len(moved.hits),
        "n_too_far": moved.n_too_far,
        "n_fell_short": moved.n_fell_short,
        "n_balls_since_move": moved.n_balls,
    }
