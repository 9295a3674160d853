"""The vocabulary of the rulebook: every fact that a rule's condition may ask for, in one table.

The reading of the shots fills these facts; the rulebook asks for them. A fact that is not known is None or
left out, and a condition on it is not fulfilled. Everything is in the own frame: ``+`` is inside. "This
line" means this lane of the pair with this ball and this line. The facts named ``move_…`` exist only
on the second pass, when a move is already under consideration and cautions are asked for.
"""

from collections.abc import Mapping

from coachlib.coaching.rules.fact import Fact, FactValue, choice, count, flag, number, value_problem
from coachlib.errors import checked_choice, choice_message, raise_input_errors
from coachlib.world.lane import ARRIVAL_CLASSES

_MOTIONS = ("early", "even", "late", "skid_long", "over_hook", "roll_out", "unknown")
_PHASES = ("fresh", "blending", "opening", "worn")

_SHOTS = (
    choice(
        "task",
        ("first", "spare"),
        "what is asked: a first ball's line, or the pins just left (then leave_key are those)",
    ),
    count("n_shots", "first balls thrown on this lane so far, this one included; 0 before the first"),
    count(
        "n_ok",
        "first balls of this line not known to be off the mark; a ball whose crossing was not noted counts",
    ),
    count(
        "n_same",
        "how many of the n_ok balls came in on the same side of the pocket as this ball (same sign of err)",
    ),
    count(
        "n_same_sign", "how many of the last n_ok balls came in on this ball's side of 17.5, pocket or not"
    ),
    count(
        "n_same_run",
        "how many balls in a row, of those noted to hit the target on this line, came in on this ball's side",
    ),
    count("n_severe_high", "how many of the last three n_ok balls were severe and high"),
    count("n_severe_light", "how many of the last three n_ok balls were far light or missed the head pin"),
    count("n_balls_thrown", "all balls of this session so far, spare balls too"),
    count("n_ok_high", "how many of the n_ok balls came in high, in the nose or across"),
    count("n_ok_light", "how many of the n_ok balls came in light, far light or missed the head pin"),
    count("n_early", "how many of the last n_ok balls turned early or rolled out"),
    count("n_same_leave", "how many balls of this line left just the pins this ball left, this one included"),
    count(
        "n_since_change",
        "balls that did not miss the target since line or ball last changed; 99 when nothing was changed",
    ),
    count(
        "n_moves_same_side",
        "changes of line in a row that answered the same side of the pocket, with this ball on this lane",
    ),
    number(
        "last_move_feet_boards",
        "boards",
        "feet of the last change of line on this lane; unknown when none was made",
    ),
    number(
        "last_move_target_boards",
        "boards",
        "eyes of the last change of line on this lane; unknown when none was made",
    ),
    choice("last_move_answered", ("high", "light"), "the side that the last change of line answered"),
    count("n_hits_since_move", "n_ok balls since that change; unknown when none was made"),
    count("n_too_far", "the last of these in a row that came in on the other side than it answered"),
    count("n_fell_short", "the last of these in a row that still came in on the side it answered"),
    count("n_balls_since_move", "first balls since that change, on the mark or not"),
    number(
        "sum_inside_moves_boards", "boards", "sum of the feet moves to the inside on this lane with this ball"
    ),
    flag("is_beyond_comfort", "the stance is farther inside than the bowler's comfort board"),
)

_CROSSING = (
    flag("has_crossing", "the crossing at the target was noted"),
    flag(
        "is_on_target",
        "the crossing is within a board of the target as marked, half a board for a keen eye; "
        "unknown when not noted",
    ),
    flag(
        "is_within_spread",
        "off the mark, yet within the bowler's usual spread (nine balls of ten): weak evidence",
    ),
    flag("is_missed", "the crossing lies beyond the bowler's usual spread; unknown when not noted"),
    number("miss_boards", "boards", "crossing minus target"),
    number("abs_miss_boards", "boards", "size of miss_boards"),
    number(
        "miss_sd_boards",
        "boards",
        "spread of miss_boards on this lane, gutter balls left out; unknown below four crossings",
    ),
    count(
        "n_miss_same_way",
        "balls in a row, up to this one, that missed the target to the same side; 0 when it was hit",
    ),
    count(
        "shots_needed",
        "balls without a crossing that are needed to tell one board of shift: (1.645 sd)^2, rounded up",
    ),
    count("n_inside_light", "balls of this line that missed the target inside and came in light"),
    count("n_outside_high", "balls of this line that missed the target outside and came in high"),
    count("n_inside_high", "balls of this line that missed the target inside and came in high"),
    count(
        "n_pocket_inside",
        "balls of this line that missed the target inside and still found the pocket",
    ),
    count(
        "n_pocket_outside",
        "balls of this line that missed the target outside and still found the pocket",
    ),
)

_ARRIVAL = (
    choice("arrival_class", tuple(ARRIVAL_CLASSES), "where the ball met the pins"),
    choice(
        "side",
        ("high", "light", "pocket"),
        "high: high, nose, crossover, past; light: light, far_light, out; pocket",
    ),
    number(
        "err_boards",
        "boards",
        "arrival minus 17.5, + is high; a class counts as the board that stands for it",
    ),
    number("abs_err_boards", "boards", "size of err_boards"),
    number(
        "expected_err_boards",
        "boards",
        "the part of err_boards that the missed target explains: lever times miss",
    ),
    number("unexplained_boards", "boards", "err_boards minus expected_err_boards"),
    number(
        "lane_part_boards",
        "boards",
        "part of the error, counted along it, that the missed target leaves unexplained; below 0: none",
    ),
    flag("is_miss_same_way_as_err", "miss_boards and err_boards have the same sign"),
    flag(
        "is_severe",
        "nose, crossover, past or an open split by a ball not known to be off the mark; never unknown",
    ),
    flag("is_severe_light", "far light or past the head pin, by a ball not known to be off the mark"),
)

_PINS = (
    Fact(
        "leave_key", "text", "pins left, own frame, rising, e.g. '4 9'; '' is a strike; unknown when not seen"
    ),
    count("n_pins_left", "how many pins were left"),
    choice(
        "split_way",
        ("gap", "across", "part"),
        "pins that stand apart: one ball touches all, a pin goes across, or only a part can be made; "
        "unknown for all other leaves",
    ),
    count("n_pins_sure", "how many of the pins that stand apart can be made; unknown for other leaves"),
    count("key_pin", "front pin of the leave, own frame: the lowest number"),
    flag("is_strike", "all ten fell"),
    flag("is_single_tap", "a ball in the pocket left one pin of the back row: 7, 8, 9 or 10"),
    flag("is_open_split", "the pins left are a split"),
    flag("is_wide_split", "a split with one of 4 and 7 and one of 6 and 10 in it"),
    choice(
        "hit",
        ("flat", "ringing", "unknown"),
        "how the last pin was missed: its neighbour fell flat, or flew round it",
    ),
    count(
        "n_high_pocket_warnings", "of the last three strikes on this line, how many came in high or across"
    ),
)

_MOTION = (
    choice("motion", _MOTIONS, "where the ball turned against its usual place; unknown when not seen"),
    flag(
        "is_turning_earlier",
        "motion or breakpoint says that the ball turns earlier than on the first balls of this line",
    ),
    number("breakpoint_ft", "ft", "where this ball turned"),
    number(
        "abs_breakpoint_diff_boards",
        "boards",
        "this ball's breakpoint board against the mean of the earlier ones on this lane and ball",
    ),
    number(
        "breakpoint_past_exit_boards",
        "boards",
        "this ball's breakpoint board minus the exit (length of the oil less 31), + farther inside",
    ),
    number(
        "trend_boards_per_shot",
        "boards",
        "slope of the arrivals over the last on-target balls of this line, + is inward",
    ),
    count("n_trend", "on-target balls of this line that the trend rests on"),
    flag("is_trend_inward", "three or more on-target balls and their arrivals creep inward"),
)

_RELEASE = (
    number(
        "speed_down_mph",
        "mph",
        "how far the last three first balls or more were under the own speed; unknown where they were not",
    ),
    number("speed_diff_mph", "mph", "speed minus the bowler's own mean"),
    number("abs_speed_diff_mph", "mph", "size of speed_diff_mph"),
    flag("is_speed_fitting", "the speed explains the result: slower came in high, faster came in light"),
    number(
        "drift_range_boards",
        "boards",
        "slide minus start board of the last five balls of this line, largest less smallest; unknown below 3",
    ),
    number("slide_diff_boards", "boards", "slide board minus the bowler's own usual one"),
    number("abs_slide_diff_boards", "boards", "size of slide_diff_boards"),
)

_LANE = (
    choice("phase", _PHASES, "how far the lane has changed, by games on it: below 0.7, 1.5, 2.5, and after"),
    number("games_on_lane", "games", "games played on this lane since it was oiled"),
    number("oil_length_ft", "ft", "length of the oil; unknown for 'I don't know'"),
    number("oil_volume_ml", "mL", "oil on the lane; unknown without a film"),
    flag("is_house_pattern", "the oil is a house pattern"),
    flag("is_approach_bad", "the approach is sticky or wet, as told"),
    flag("scoring_started", "the first scored ball was thrown"),
    number(
        "lane_gap_boards",
        "boards",
        "size of the difference of the mean arrivals of the two lanes on the same line",
    ),
    count("n_ok_other_lane", "balls on the other lane, same line and ball, that did not miss the target"),
    flag("has_others_on_line", "two or more others throw strong balls on these boards, as told"),
    flag(
        "is_own_side_quiet",
        "fewer than one in four balls on this lane come from the bowler's own side; unknown when not told",
    ),
    flag("has_weather_turned", "the hall is colder or drier than the last time, as told"),
    flag(
        "is_against_lever",
        "this line and an earlier one, two on-target balls each, differ a board or more the other way "
        "than the straight line; unknown without two such lines",
    ),
)

_BOWLER = (
    choice("hand", ("right", "left"), "the bowling hand"),
    choice(
        "walk",
        ("slide", "walk"),
        "slide: the slide board moves as much as the stance; walk: they walk the line",
    ),
    flag("is_two_handed", "both hands stay on the ball"),
    number("rev_rate_rpm", "rpm", "turns a minute"),
    number("bowler_speed_mph", "mph", "own usual speed at the hand"),
    number("age_years", "years", "age"),
    flag("has_pain", "the bowler said that something hurts or is numb"),
    flag("is_stopped", "pain was noted, and the coach has not said yet to go on"),
    flag("is_beginner", "accuracy of a beginner: spread at the arrows above that of the widest class"),
    flag(
        "is_feet_stuck",
        "the feet cannot move: as told, or no board is left to the side that this ball or spare asks for",
    ),
    flag("is_plastic_ball", "the shell is plastic, made to go straight; unknown without a ball"),
    flag("is_dull_or_strong_ball", "the ball takes hold early; unknown without a ball"),
)

_MOVE = (
    number("move_feet_boards", "boards", "feet of the move under consideration"),
    number("move_target_boards", "boards", "eyes of the move under consideration"),
    number("move_target_ft", "ft", "change of the distance at which the target is read"),
    number("move_inside_boards", "boards", "how far the feet go inside; 0 when they go outside"),
    number("move_speed_mph", "mph", "change of speed"),
    number("move_rotation_deg", "deg", "change of axis rotation"),
    choice("move_surface", ("", "duller", "smoother"), "change of the cover"),
    choice("move_ball", ("", "stronger", "weaker"), "change of ball"),
    flag(
        "has_move_note",
        "the move has a note; in the rulebook a note always asks something of the body, e.g. loft",
    ),
    flag("is_move_off_lane", "the line after the move does not fit the lane, the approach or the bowler"),
)

FACTS: dict[str, Fact] = {
    fact.name: fact
    for fact in (*_SHOTS, *_CROSSING, *_ARRIVAL, *_PINS, *_MOTION, *_RELEASE, *_LANE, *_BOWLER, *_MOVE)
}
"""Every fact by its name."""


def checked_facts(facts: Mapping[str, FactValue]) -> Mapping[str, FactValue]:
    """Return `facts`, or raise if one is not in the vocabulary or has a value of the wrong kind.

    Raises
    ------
    InputError
        Naming every wrong fact.
    """
    problems: dict[str, str] = {}
    for name, value in facts.items():
        if name not in FACTS:
            problems[name] = choice_message(
                "fact", name, FACTS, "Use a name of coachlib.coaching.rules.vocabulary.FACTS."
            )
        elif value is not None and (problem := value_problem(FACTS[name], value)):
            problems[name] = f"{problem} Give that, or None when it is not known."
    if problems:
        raise_input_errors(problems)
    return facts


def described(name: str) -> str:
    """Return one line about a fact: its name, unit or choices, and meaning.

    Raises
    ------
    InputError
        If there is no such fact.
    """
    fact = FACTS[checked_choice("fact", name, FACTS)]
    kind = fact.unit or " | ".join(repr(choice) for choice in fact.choices) or fact.kind
    return f"{name} [{kind}]: {fact.meaning}"
