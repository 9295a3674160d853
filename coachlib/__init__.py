"""Lane-play coaching: read a shot, weigh the moves of feet and eyes, say and draw the answer.

This is the whole public face; everything else may change. Boards are counted from the bowler's own side, see
:mod:`coachlib.world.lane`.
"""

from coachlib.coaching.advice.advice import Advice, advise
from coachlib.coaching.advice.change_values import Worth, worth
from coachlib.coaching.plan.plan import Plan, plan
from coachlib.coaching.rules.rulebook import load_rulebook
from coachlib.coaching.session.session import Session, change, correct, observe, undo
from coachlib.coaching.wording.advice_text import Said, say
from coachlib.coaching.wording.plan_words import SaidPlan, say_plan
from coachlib.errors import DataFileError, InputError, ModelError
from coachlib.physics.motion import simulate
from coachlib.physics.pins.carry import leave_probs, strike_prob
from coachlib.study.hidden_lane.practice import PracticeLane
from coachlib.world.ball import Ball, ball_names, load_ball
from coachlib.world.bowler import Bowler, bowler_names, load_bowler, walk_from_test
from coachlib.world.hand import own_pins
from coachlib.world.lane_conditions import Place
from coachlib.world.levers import line_shift_boards, pivot_ft
from coachlib.world.line import Line, Move
from coachlib.world.oil import OilPattern, load_pattern, pattern_names, read_pattern
from coachlib.world.path import Path
from coachlib.world.release import Release
from coachlib.world.shot import Shot

__all__ = [
    "Advice",
    "Ball",
    "Bowler",
    "DataFileError",
    "InputError",
    "Line",
    "ModelError",
    "Move",
    "OilPattern",
    "Path",
    "Place",
    "Plan",
    "PracticeLane",
    "Release",
    "Said",
    "SaidPlan",
    "Session",
    "Shot",
    "Worth",
    "advise",
    "ball_names",
    "bowler_names",
    "change",
    "correct",
    "leave_probs",
    "line_shift_boards",
    "load_ball",
    "load_bowler",
    "load_pattern",
    "load_rulebook",
    "observe",
    "own_pins",
    "pattern_names",
    "pivot_ft",
    "plan",
    "read_pattern",
    "say",
    "say_plan",
    "simulate",
    "strike_prob",
    "undo",
    "walk_from_test",
    "worth",
]
