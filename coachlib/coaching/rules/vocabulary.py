"""The vocabulary of the rulebook: every fact that a rule's condition may ask for, in one table.

The reading of the shots fills these facts; the rulebook asks for them. A fact that is not known is None or
left out, and a condition on it is not fulfilled. Everything is in the own frame: ``+`` is inside. "This
line" means this lane of the pair with this ball and this line. The facts named ``move_…`` exist only
on the second pass, when a move is already under consideration and cautions are asked for.
"""

import math
import re
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

    @property
    def allowed(self) -> str:
        """What its value may be, in words."""
        if self.kind == "choice":
            return "one of " + ", ".join(map(repr, self.choices))
        return {"flag": "true or false", "text": "a text"}.get(
            self.kind, f"a number of {self.unit}".removesuffix(" of ")
        )


def _parsed(entry: str) -> Fact:
    """Return the fact of one entry of the table below."""
    name, kind, meaning = re.fullmatch(r"(\w+) \[(.+?)\]: (.+)", entry).groups()  # type: ignore[union-attr]
    if kind in ("flag", "text"):
        return Fact(name, kind, meaning)  # type: ignore[arg-type]
    if "|" in kind:
        return Fact(name, "choice", meaning, choices=tuple(one.strip(" '") for one in kind.split("|")))
    return Fact(name, "number", meaning, "" if kind == "count" else kind)


# name [flag, text, count, the unit of a number, or the choices]: meaning; what is indented goes on with it.
_TABLE = """
task [first | spare]: what is asked: a first ball's line, or the pins just left (then leave_key are those)
n_shots [count]: first balls thrown on this lane so far, this one included; 0 before the first
n_ok [count]: first balls of this line not known to be off the mark; a ball whose crossing was not noted
  counts
n_same [count]: how many of the n_ok balls came in on the same side of the pocket as this ball (same sign of
  err)
n_same_sign [count]: how many of the last n_ok balls came in on this ball's side of 17.5, pocket or not
n_same_run [count]: how many balls in a row, of those noted to hit the target on this line, came in on this
  ball's side
n_severe_high [count]: how many of the last three n_ok balls were severe and high
n_severe_light [count]: how many of the last three n_ok balls were far light or missed the head pin
n_balls_thrown [count]: all balls of this session so far, spare balls too
n_ok_high [count]: how many of the n_ok balls came in high, in the nose or across
n_ok_light [count]: how many of the n_ok balls came in light, far light or missed the head pin
n_early [count]: how many of the last n_ok balls turned early or rolled out
n_same_leave [count]: how many balls of this line left just the pins this ball left, this one included
n_since_change [count]: balls that did not miss the target since line or ball last changed; 99 when nothing
  was changed
n_moves_same_side [count]: changes of line in a row that answered the same side of the pocket, with this
  ball on this lane
last_move_feet_boards [boards]: feet of the last change of line on this lane; unknown when none was made
last_move_target_boards [boards]: eyes of the last change of line on this lane; unknown when none was made
last_move_answered [high | light]: the side that the last change of line answered
n_hits_since_move [count]: n_ok balls since that change; unknown when none was made
n_too_far [count]: the last of these in a row that came in on the other side than it answered
n_fell_short [count]: the last of these in a row that still came in on the side it answered
n_balls_since_move [count]: first balls since that change, on the mark or not
sum_inside_moves_boards [boards]: sum of the feet moves to the inside on this lane with this ball
is_beyond_comfort [flag]: the stance is farther inside than the bowler's comfort board

has_crossing [flag]: the crossing at the target was noted
is_on_target [flag]: the crossing is within a board of the target as marked, half a board for a keen eye;
  unknown when not noted
is_within_spread [flag]: off the mark, yet within the bowler's usual spread (nine balls of ten): weak
  evidence
is_missed [flag]: the crossing lies beyond the bowler's usual spread; unknown when not noted
miss_boards [boards]: crossing minus target
abs_miss_boards [boards]: size of miss_boards
miss_sd_boards [boards]: spread of miss_boards on this lane, gutter balls left out; unknown below four
  crossings
n_miss_same_way [count]: balls in a row, up to this one, that missed the target to the same side; 0 when it
  was hit
shots_needed [count]: balls without a crossing that are needed to tell one board of shift: (1.645 sd)^2,
  rounded up
n_inside_light [count]: balls of this line that missed the target inside and came in light
n_outside_high [count]: balls of this line that missed the target outside and came in high
n_inside_high [count]: balls of this line that missed the target inside and came in high
n_pocket_inside [count]: balls of this line that missed the target inside and still found the pocket
n_pocket_outside [count]: balls of this line that missed the target outside and still found the pocket

arrival_class [{arrivals}]: where the ball met the pins
side [high | light | pocket]: high: high, nose, crossover, past; light: light, far_light, out; pocket
err_boards [boards]: arrival minus 17.5, + is high; a class counts as the board that stands for it
abs_err_boards [boards]: size of err_boards
expected_err_boards [boards]: the part of err_boards that the missed target explains: lever times miss
unexplained_boards [boards]: err_boards minus expected_err_boards
lane_part_boards [boards]: part of the error, counted along it, that the missed target leaves unexplained;
  below 0: none
is_miss_same_way_as_err [flag]: miss_boards and err_boards have the same sign
is_severe [flag]: nose, crossover, past or an open split by a ball not known to be off the mark; never
  unknown
is_severe_light [flag]: far light or past the head pin, by a ball not known to be off the mark

leave_key [text]: pins left, own frame, rising, e.g. '4 9'; '' is a strike; unknown when not seen
n_pins_left [count]: how many pins were left
split_way [gap | across | part]: pins that stand apart: one ball touches all, a pin goes across, or only a
  part can be made; unknown for all other leaves
n_pins_sure [count]: how many of the pins that stand apart can be made; unknown for other leaves
key_pin [count]: front pin of the leave, own frame: the lowest number
is_strike [flag]: all ten fell
is_single_tap [flag]: a ball in the pocket left one pin of the back row: 7, 8, 9 or 10
is_open_split [flag]: the pins left are a split
is_wide_split [flag]: a split with one of 4 and 7 and one of 6 and 10 in it
hit [flat | ringing | unknown]: how the last pin was missed: its neighbour fell flat, or flew round it
n_high_pocket_warnings [count]: of the last three strikes on this line, how many came in high or across

motion [early | even | late | skid_long | over_hook | roll_out | unknown]: where the ball turned against its
  usual place; unknown when not seen
is_turning_earlier [flag]: motion or breakpoint says that the ball turns earlier than on the first balls of
  this line
breakpoint_ft [ft]: where this ball turned
abs_breakpoint_diff_boards [boards]: this ball's breakpoint board against the mean of the earlier ones on
  this lane and ball
breakpoint_past_exit_boards [boards]: this ball's breakpoint board minus the exit (length of the oil less
  31), + farther inside
trend_boards_per_shot [boards]: slope of the arrivals over the last on-target balls of this line, + is
  inward
n_trend [count]: on-target balls of this line that the trend rests on
is_trend_inward [flag]: three or more on-target balls and their arrivals creep inward

speed_down_mph [mph]: how far the last three first balls or more were under the own speed; unknown where
  they were not
speed_diff_mph [mph]: speed minus the bowler's own mean
abs_speed_diff_mph [mph]: size of speed_diff_mph
is_speed_fitting [flag]: the speed explains the result: slower came in high, faster came in light
drift_range_boards [boards]: slide minus start board of the last five balls of this line, largest less
  smallest; unknown below 3
slide_diff_boards [boards]: slide board minus the bowler's own usual one
abs_slide_diff_boards [boards]: size of slide_diff_boards

phase [fresh | blending | opening | worn]: how far the lane has changed, by games on it: below 0.7, 1.5,
  2.5, and after
games_on_lane [games]: games played on this lane since it was oiled
oil_length_ft [ft]: length of the oil; unknown for 'I don't know'
oil_volume_ml [mL]: oil on the lane; unknown without a film
is_house_pattern [flag]: the oil is a house pattern
is_approach_bad [flag]: the approach is sticky or wet, as told
scoring_started [flag]: the first scored ball was thrown
lane_gap_boards [boards]: size of the difference of the mean arrivals of the two lanes on the same line
n_ok_other_lane [count]: balls on the other lane, same line and ball, that did not miss the target
has_others_on_line [flag]: two or more others throw strong balls on these boards, as told
is_own_side_quiet [flag]: fewer than one in four balls on this lane come from the bowler's own side; unknown
  when not told
has_weather_turned [flag]: the hall is colder or drier than the last time, as told
is_against_lever [flag]: this line and an earlier one, two on-target balls each, differ a board or more the
  other way than the straight line; unknown without two such lines

hand [right | left]: the bowling hand
walk [slide | walk]: slide: the slide board moves as much as the stance; walk: they walk the line
is_two_handed [flag]: both hands stay on the ball
rev_rate_rpm [rpm]: turns a minute
bowler_speed_mph [mph]: own usual speed at the hand
age_years [years]: age
has_pain [flag]: the bowler said that something hurts or is numb
is_stopped [flag]: pain was noted, and the coach has not said yet to go on
is_beginner [flag]: accuracy of a beginner: spread at the arrows above that of the widest class
is_feet_stuck [flag]: the feet cannot move: as told, or no board is left to the side that this ball or spare
  asks for
is_plastic_ball [flag]: the shell is plastic, made to go straight; unknown without a ball
is_dull_or_strong_ball [flag]: the ball takes hold early; unknown without a ball

move_feet_boards [boards]: feet of the move under consideration
move_target_boards [boards]: eyes of the move under consideration
move_target_ft [ft]: change of the distance at which the target is read
move_inside_boards [boards]: how far the feet go inside; 0 when they go outside
move_speed_mph [mph]: change of speed
move_rotation_deg [deg]: change of axis rotation
move_surface ['' | duller | smoother]: change of the cover
move_ball ['' | stronger | weaker]: change of ball
has_move_note [flag]: the move has a note; in the rulebook a note always asks something of the body, e.g.
  loft
is_move_off_lane [flag]: the line after the move does not fit the lane, the approach or the bowler
""".replace("{arrivals}", " | ".join(ARRIVAL_CLASSES))

_ENTRIES = re.sub(r"\n +", " ", _TABLE).splitlines()
FACTS: dict[str, Fact] = {fact.name: fact for fact in map(_parsed, filter(None, _ENTRIES))}
"""Every fact by its name."""


def value_problem(fact: Fact, value: object) -> str:
    """Return what is wrong with a value, not None, of a fact in three parts, or an empty text."""
    if fact.kind == "choice":
        is_right = value in fact.choices
    elif fact.kind == "flag":
        is_right = isinstance(value, bool)
    elif fact.kind == "text":
        is_right = isinstance(value, str)
    else:
        is_right = isinstance(value, int | float) and not isinstance(value, bool) and math.isfinite(value)
    return "" if is_right else f"{fact.name} is {shown(value)}; expected {fact.allowed}."


def checked_facts(facts: Mapping[str, FactValue]) -> Mapping[str, FactValue]:
    """Return `facts`, or raise an InputError that names each unknown one and each with a wrong value."""
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
    """Return one line about a fact: its name, unit or choices, and meaning; an error for an unknown name."""
    fact = FACTS[checked_choice("fact", name, FACTS)]
    kind = fact.unit or " | ".join(repr(choice) for choice in fact.choices) or fact.kind
    return f"{name} [{kind}]: {fact.meaning}"
