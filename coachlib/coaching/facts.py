"""The vocabulary of the rulebook: every fact that a rule's condition may ask for, in one table.

The reading of the shots fills these facts; the rulebook asks for them. A fact that is not known is None or
left out, and a condition on it is not fulfilled. Everything is in the own frame: ``+`` is inside. "This
line" means this lane of the pair with this ball and this line. The facts named ``move_…`` exist only
on the second pass, when a move is already under consideration and cautions are asked for.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from coachlib.errors import checked_choice, choice_message, raise_input_errors, shown
from coachlib.world.lane import ARRIVAL_CLASSES

FactKind = Literal["number", "flag", "choice", "text"]
FactValue = float | bool | str | None


@dataclass(frozen=True)
class Fact:
    """One thing that a condition may ask for.

    Parameters
    ----------
    name : str
        As written in a rule.
    kind : {"number", "flag", "choice", "text"}
        What its value is.
    meaning : str
        One line for the person who writes a rule.
    unit : str
        Of a number; empty for a count or a pure number.
    choices : tuple of str
        Of a choice.
    """

    name: str
    kind: FactKind
    meaning: str
    unit: str = ""
    choices: tuple[str, ...] = ()


def _number(name: str, unit: str, meaning: str) -> Fact:
    return Fact(name, "number", meaning, unit)


def _count(name: str, meaning: str) -> Fact:
    return Fact(name, "number", meaning)


def _flag(name: str, meaning: str) -> Fact:
    return Fact(name, "flag", meaning)


def _choice(name: str, choices: tuple[str, ...], meaning: str) -> Fact:
    return Fact(name, "choice", meaning, "", choices)


_MOTIONS = ("early", "even", "late", "skid_long", "over_hook", "roll_out", "unknown")
_PHASES = ("fresh", "blending", "opening", "worn")

_SHOTS = (
    _choice(
        "task",
        ("first", "spare"),
        "what is asked: a first ball's line, or the pins just left (then leave_key are those)",
    ),
    _count("n_shots", "first balls thrown on this lane so far, this one included; 0 before the first"),
    _count(
        "n_ok",
        "first balls of this line that did not miss the target; a ball whose crossing was not noted counts",
    ),
    _count(
        "n_same",
        "how many of the n_ok balls came in on the same side of the pocket as this ball (same sign of err)",
    ),
    _count("n_ok_high", "how many of the n_ok balls came in high, in the nose or across"),
    _count("n_ok_light", "how many of the n_ok balls came in light, far light or missed the head pin"),
    _count(
        "n_same_leave", "how many balls of this line left just the pins this ball left, this one included"
    ),
    _count(
        "n_since_change",
        "balls that did not miss the target since line or ball last changed; 99 when nothing was changed",
    ),
    _count(
        "n_moves_same_side",
        "changes of line in a row that answered the same side of the pocket, with this ball on this lane",
    ),
    _number(
        "last_move_feet_boards",
        "boards",
        "feet of the last change of line on this lane; unknown when none was made",
    ),
    _number(
        "last_move_target_boards",
        "boards",
        "eyes of the last change of line on this lane; unknown when none was made",
    ),
    _number(
        "sum_inside_moves_boards", "boards", "sum of the feet moves to the inside on this lane with this ball"
    ),
    _flag("is_beyond_comfort", "the stance is farther inside than the bowler's comfort board"),
)

_CROSSING = (
    _flag("has_crossing", "the crossing at the target was noted"),
    _flag(
        "is_on_target",
        "the crossing lies within the bowler's own limit of the target; unknown when not noted",
    ),
    _number("miss_boards", "boards", "crossing minus target"),
    _number("abs_miss_boards", "boards", "size of miss_boards"),
    _number("miss_sd_boards", "boards", "spread of miss_boards on this lane; unknown below four crossings"),
    _count(
        "n_miss_same_way",
        "balls in a row, up to this one, that missed the target to the same side; 0 when it was hit",
    ),
    _count(
        "shots_needed",
        "balls without a crossing that are needed to tell one board of shift: (1.645 sd)^2, rounded up",
    ),
    _count("n_inside_light", "balls on this lane and ball that missed the target inside and came in light"),
    _count("n_outside_high", "balls on this lane and ball that missed the target outside and came in high"),
    _count("n_inside_high", "balls on this lane and ball that missed the target inside and came in high"),
    _count(
        "n_pocket_inside",
        "balls on this lane and ball that missed the target inside and still found the pocket",
    ),
    _count(
        "n_pocket_outside",
        "balls on this lane and ball that missed the target outside and still found the pocket",
    ),
)

_ARRIVAL = (
    _choice("arrival_class", tuple(ARRIVAL_CLASSES), "where the ball met the pins"),
    _choice(
        "side",
        ("high", "light", "pocket"),
        "high: high, nose, crossover; light: light, far_light, out; pocket",
    ),
    _number(
        "err_boards",
        "boards",
        "arrival minus 17.5, + is high; a class counts as the board that stands for it",
    ),
    _number("abs_err_boards", "boards", "size of err_boards"),
    _number(
        "expected_err_boards",
        "boards",
        "the part of err_boards that the missed target explains: lever times miss",
    ),
    _number("unexplained_boards", "boards", "err_boards minus expected_err_boards"),
    _number(
        "lane_part_boards",
        "boards",
        "part of the error, counted along it, that the missed target leaves unexplained; below 0: none",
    ),
    _flag("is_miss_same_way_as_err", "miss_boards and err_boards have the same sign"),
    _flag(
        "is_severe", "nose, crossover or an open split by a ball that did not miss the target; never unknown"
    ),
)

_PINS = (
    Fact(
        "leave_key", "text", "pins left, own frame, rising, e.g. '4 9'; '' is a strike; unknown when not seen"
    ),
    _count("key_pin", "front pin of the leave, own frame: the lowest number"),
    _flag("is_strike", "all ten fell"),
    _flag("is_single_tap", "a ball in the pocket left one pin of the back row: 7, 8, 9 or 10"),
    _flag("is_open_split", "the pins left are a split"),
    _flag("is_wide_split", "a split with one of 4 and 7 and one of 6 and 10 in it"),
    _choice(
        "hit",
        ("flat", "ringing", "unknown"),
        "how the last pin was missed: its neighbour fell flat, or flew round it",
    ),
    _count("n_high_pocket_warnings", "of the last three strikes, how many came in high or across"),
)

_MOTION = (
    _choice("motion", _MOTIONS, "where the ball turned against its usual place; unknown when not seen"),
    _flag(
        "is_turning_earlier",
        "motion or breakpoint says that the ball turns earlier than on the first balls of this line",
    ),
    _number("breakpoint_ft", "ft", "where this ball turned"),
    _number(
        "abs_breakpoint_diff_boards",
        "boards",
        "this ball's breakpoint board against the mean of the earlier ones on this lane and ball",
    ),
    _number(
        "trend_boards_per_shot",
        "boards",
        "slope of the arrivals over the last on-target balls of this line, + is inward",
    ),
    _count("n_trend", "on-target balls of this line that the trend rests on"),
    _flag("is_trend_inward", "three or more on-target balls and their arrivals creep inward"),
)

_RELEASE = (
    _number("speed_diff_mph", "mph", "speed minus the bowler's own mean"),
    _number("abs_speed_diff_mph", "mph", "size of speed_diff_mph"),
    _flag("is_speed_fitting", "the speed explains the result: slower came in high, faster came in light"),
    _number("slide_diff_boards", "boards", "slide board minus the bowler's own usual one"),
    _number("abs_slide_diff_boards", "boards", "size of slide_diff_boards"),
)

_LANE = (
    _choice("phase", _PHASES, "how far the lane has changed, by games on it: below 0.7, 1.5, 2.5, and after"),
    _number("games_on_lane", "games", "games played on this lane since it was oiled"),
    _number("oil_length_ft", "ft", "length of the oil; unknown for 'I don't know'"),
    _flag("is_house_pattern", "the oil is a house pattern"),
    _flag("scoring_started", "the first scored ball was thrown"),
    _number(
        "lane_gap_boards",
        "boards",
        "size of the difference of the mean arrivals of the two lanes on the same line",
    ),
    _count("n_ok_other_lane", "balls on the other lane, same line and ball, that did not miss the target"),
    _count("n_strong_others", "other bowlers with strong balls on these boards, if told"),
    _number(
        "own_side_frac",
        "0 to 1",
        "share of all balls on this lane thrown from the bowler's own side, if told",
    ),
)

_BOWLER = (
    _choice("hand", ("right", "left"), "the bowling hand"),
    _choice(
        "walk",
        ("slide", "walk"),
        "slide: the slide board moves as much as the stance; walk: they walk the line",
    ),
    _flag("is_two_handed", "both hands stay on the ball"),
    _number("rev_rate_rpm", "rpm", "turns a minute"),
    _number("bowler_speed_mph", "mph", "own usual speed at the hand"),
    _number("age_years", "years", "age"),
    _flag("has_pain", "the bowler said that something hurts or is numb"),
    _flag("is_beginner", "accuracy of a beginner: spread at the arrows above that of the widest class"),
    _flag("is_feet_stuck", "the feet cannot move: ball return, drift or the edge of the approach, if told"),
    _flag("is_dull_or_strong_ball", "the ball takes hold early; unknown without a ball"),
)

_MOVE = (
    _number("move_feet_boards", "boards", "feet of the move under consideration"),
    _number("move_target_boards", "boards", "eyes of the move under consideration"),
    _number("move_target_ft", "ft", "change of the distance at which the target is read"),
    _number("move_inside_boards", "boards", "how far the feet go inside; 0 when they go outside"),
    _number("move_speed_mph", "mph", "change of speed"),
    _number("move_rotation_deg", "deg", "change of axis rotation"),
    _choice("move_surface", ("", "duller", "smoother"), "change of the cover"),
    _choice("move_ball", ("", "stronger", "weaker"), "change of ball"),
    _flag(
        "has_move_note",
        "the move has a note; in the rulebook a note always asks something of the body, e.g. loft",
    ),
    _flag("is_move_off_lane", "the line after the move does not fit the lane, the approach or the bowler"),
)

FACTS: dict[str, Fact] = {
    fact.name: fact
    for fact in (*_SHOTS, *_CROSSING, *_ARRIVAL, *_PINS, *_MOTION, *_RELEASE, *_LANE, *_BOWLER, *_MOVE)
}
"""Every fact by its name."""


def value_problem(fact: Fact, value: object) -> str:
    """Return what is wrong with a value of a fact in three parts, or an empty text.

    Parameters
    ----------
    fact : Fact
        The fact that is to have the value.
    value : object
        Any value but None.
    """
    if fact.kind == "choice":
        is_right, allowed = value in fact.choices, "one of " + ", ".join(map(repr, fact.choices))
    elif fact.kind == "flag":
        is_right, allowed = isinstance(value, bool), "true or false"
    elif fact.kind == "text":
        is_right, allowed = isinstance(value, str), "a text"
    else:
        is_right = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
        allowed = f"a number {'of ' + fact.unit if fact.unit else ''}".rstrip()
    return "" if is_right else f"{fact.name} is {shown(value)}; expected {allowed}."


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
                "fact", name, FACTS, "Use a name of coachlib.coaching.facts.FACTS."
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
