"""Making a question: a kind, a level, a seed and who is asked always give the same one."""

import inspect
import zlib
from collections.abc import Callable
from typing import Any

import numpy as np

from coachlib.errors import checked_choice, checked_thing, raise_input_errors
from coachlib.study.questions import (
    ball_choice,
    lever_questions,
    light_ball,
    miss_questions,
    move_back,
    move_questions,
    pin_questions,
    rule_of_31_questions,
    shot_questions,
    speed_questions,
    surface_rules,
    total_turn,
    turn_questions,
    what_changes,
    which_change,
)
from coachlib.study.questions.asker import usual_learner
from coachlib.study.questions.case import Case
from coachlib.study.questions.question import LEVELS, Level, Question
from coachlib.world.bowler import Bowler

Maker = Callable[..., Question]

KINDS: dict[str, Maker] = {
    "where_lines_cross": lever_questions.where_lines_cross,
    "move_on_paper": lever_questions.move_on_paper,
    "hit_after": what_changes.hit_after,
    "way_after": what_changes.way_after,
    "line_runs_on": turn_questions.line_runs_on,
    "where_it_turns": turn_questions.where_it_turns,
    "turn_after": turn_questions.turn_after,
    "miss_on_paper": miss_questions.miss_on_paper,
    "hit_after_miss": miss_questions.hit_after_miss,
    "room_at_target": miss_questions.room_at_target,
    "rule_of_31": rule_of_31_questions.rule_of_31,
    "past_the_rule": rule_of_31_questions.past_the_rule,
    "which_change": which_change.which_change,
    "speed_or_lane": speed_questions.speed_or_lane,
    "strikes_after": speed_questions.strikes_after,
    "total_turn_after": total_turn.total_turn_after,
    "move_back": move_back.move_back,
    "light_ball": light_ball.light_ball,
    "turns_first": ball_choice.turns_first,
    "do_the_same": ball_choice.do_the_same,
    "strikes_of_ball": ball_choice.strikes_of_ball,
    "ball_for_oil": ball_choice.ball_for_oil,
    "may_change_surface": surface_rules.may_change_surface,
    "hit_from_pins": pin_questions.hit_from_pins,
    "you_or_the_lane": shot_questions.you_or_the_lane,
    "name_the_move": move_questions.name_the_move,
    "hits_of_twenty": shot_questions.hits_of_twenty,
}
"""Every kind of question and what makes it."""


def make_question(
    kind: str, level: Level = "oil", seed: int = 0, bowler: Bowler | None = None, **options: Any
) -> Question:
    """Return a question.

    Parameters
    ----------
    kind : str
        One of :data:`KINDS`.
    level : {"lever", "oil", "wear", "thin"}
        What the case needs.
    seed : int
        The same number gives everybody the same question.
    bowler : Bowler, optional
        Who is asked; by default a right-handed club bowler.
    **options
        What a lesson fixes instead of leaving it to the seed; what a kind takes stands in its own docstring.

    Raises
    ------
    InputError
        If the kind, the level or an option is unknown, or the seed is no whole number from 0.
    """
    maker = KINDS[checked_choice("kind", kind, tuple(KINDS))]
    checked_choice("level", level, LEVELS)
    if isinstance(seed, bool) or not isinstance(seed, int | np.integer) or seed < 0:
        message = f"seed is {seed!r}; expected a whole number from 0. Give one, e.g. seed=7."
        raise_input_errors({"seed": message})
    learner = usual_learner() if bowler is None else checked_thing("bowler", bowler, Bowler)
    known = option_names(maker)
    for name in options:
        checked_choice("option", name, known)
    draw = np.random.default_rng([int(seed), zlib.crc32(kind.encode()), LEVELS.index(level)])
    case = Case(kind, level, int(seed), learner, draw)
    return maker(case, **options)


def option_names(maker: Maker) -> tuple[str, ...]:
    """Return what a kind lets a lesson fix."""
    return tuple(list(inspect.signature(maker).parameters)[1:])
