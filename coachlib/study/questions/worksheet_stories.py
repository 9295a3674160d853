"""Balls and moves made up for the tasks of a clinic paper, each from one random generator.

A story is a bowler on a line and what was seen of a few balls. It says nothing about the answer: that is
asked of the library afterwards, and a story whose answer is not the wanted one, or not clear, is thrown away.
People, balls and oil are the invented ones that come with the library.
"""

import dataclasses
import functools
from collections.abc import Callable, Sequence
from typing import Any, TypeVar

import numpy as np

from coachlib.coaching.session.session import Session, change, observe
from coachlib.world.ball import load_ball
from coachlib.world.bowler import Bowler, Walk, load_bowler
from coachlib.world.hand import Hand
from coachlib.world.lane import ArrivalClass
from coachlib.world.lane_conditions import Place
from coachlib.world.line import Line, Move, after_move
from coachlib.world.oil import load_pattern
from coachlib.world.shot import Motion, Shot

Draw = np.random.Generator
StoryMaker = Callable[[Draw, Hand], Session]
Arrival = ArrivalClass | float

BOWLER, BALL, PATTERN = "club_right", "hybrid_2000", "house_41"
_Any = TypeVar("_Any")


def pick(draw: Draw, choices: Sequence[_Any]) -> _Any:
    """Return one of the choices, all equally likely."""
    return choices[int(draw.integers(len(choices)))]


def clinic_bowler(hand: Hand, walk: Walk = "slide", **changes: Any) -> Bowler:
    """Return the bowler of all tasks: the demo's own, with the hand of the class and no usual drift."""
    return dataclasses.replace(
        load_bowler(BOWLER), name="", hand=hand, walk=walk, drift_boards=0.0, age_years=None, **changes
    )


def on_a_line(
    draw: Draw, hand: Hand, walk: Walk = "slide", games_on_lane: float = 0.0, place: Place | None = None
) -> Session:
    """Return a session on a line that a hooking ball may well be played on."""
    feet_board = int(draw.integers(18, 30))
    target_board = feet_board - int(draw.integers(9, 12))
    return Session(
        clinic_bowler(hand, walk),
        Line(float(feet_board), float(target_board)),
        ball=load_ball(BALL),
        pattern=load_pattern(PATTERN),
        games_on_lane=games_on_lane,
        place=place or Place(),
    )


def after_shots(session: Session, shots: Sequence[Shot]) -> Session:
    """Return the session with the shots observed, one after the other."""
    return functools.reduce(observe, shots, session)


def again(draw: Draw, session: Session, arrival: Arrival, **noted: Any) -> Session:
    """Return the session after three balls or four over the target, all alike."""
    return after_shots(session, [ball_seen(session, arrival, **noted)] * int(draw.integers(3, 5)))


def ball_seen(session: Session, arrival: Arrival, miss_boards: float = 0.0, **noted: Any) -> Shot:
    """Return a ball that crossed so far inside (+) or outside (-) of the target."""
    return Shot(crossed_board=session.line.target_board + miss_boards, arrival=arrival, **noted)


def good_balls(session: Session, draw: Draw, n_most: int, **noted: Any) -> list[Shot]:
    """Return none to a few balls from the pocket, struck or with one pin left."""
    leaves: list[tuple[int, ...]] = [(), (), (10,), (7,), (9,)]
    n_balls = int(draw.integers(0, n_most + 1))
    return [ball_seen(session, "pocket", leave=pick(draw, leaves), **noted) for _ in range(n_balls)]


_MISSES: tuple[tuple[float, tuple[ArrivalClass, ...]], ...] = (
    (2.5, ("high", "nose")),
    (3.0, ("nose", "crossover")),
    (-2.5, ("light", "far_light")),
    (-3.0, ("far_light", "out")),
)
"""How far a ball missed, and where such a miss may send it by itself."""

_SIDES: tuple[tuple[ArrivalClass, ArrivalClass, int, tuple[Motion, ...]], ...] = (
    ("high", "nose", 1, ("early", "even")),
    ("light", "out", -1, ("late", "even")),
)
"""A side, where three boards of miss to that side go (+ inside), and turns that leave no doubt there."""

_PACES: tuple[tuple[int, ArrivalClass], ...] = ((-1, "high"), (1, "light"), (-1, "nose"), (1, "far_light"))
"""Slower or faster than usual, and where that sends a ball."""

_CREEPING: tuple[tuple[ArrivalClass, ...], ...] = (
    ("pocket", "pocket", "high"),
    ("pocket", "high", "nose"),
    ("pocket", "high", "high"),
)

_HIGH_OR_LIGHT: tuple[ArrivalClass, ...] = ("high", "light")
_NOT_LATE: tuple[Motion, ...] = ("early", "even")


def missed_and_it_fits(draw: Draw, hand: Hand) -> Session:
    """Return a ball that missed the target and went where the miss sends it."""
    session = on_a_line(draw, hand)
    miss_boards, arrivals = pick(draw, _MISSES)
    last = ball_seen(session, pick(draw, arrivals), miss_boards)
    return after_shots(session, [*good_balls(session, draw, 2), last])


def thrown_at_another_pace(draw: Draw, hand: Hand) -> Session:
    """Return a ball over the target that was slow and high, or fast and light, after usual ones."""
    session = on_a_line(draw, hand)
    usual_mph = session.bowler.speed_mph or 0.0
    sign, arrival = pick(draw, _PACES)
    last = ball_seen(session, arrival, speed_mph=round(usual_mph + sign * pick(draw, (1.0, 1.2, 1.5)), 1))
    return after_shots(session, [*good_balls(session, draw, 2, speed_mph=usual_mph), last])


def feet_went_elsewhere(draw: Draw, hand: Hand) -> Session:
    """Return a ball over the target from another slide board than the feet of the line ask for."""
    session = on_a_line(draw, hand)
    off_boards = pick(draw, (-4.0, -3.0, 3.0, 4.0))
    arrival: ArrivalClass = "high" if off_boards < 0 else "light"
    slide = session.line.feet_board
    last = ball_seen(session, arrival, slide_board=slide + off_boards)
    return after_shots(session, [*good_balls(session, draw, 2, slide_board=slide), last])


def same_side_again(draw: Draw, hand: Hand) -> Session:
    """Return three balls or four over the target that all came in on the same side."""
    session = on_a_line(draw, hand)
    arrival, _, _, motions = pick(draw, _SIDES)
    return again(draw, session, arrival, motion=pick(draw, motions))


def same_side_again_around_a_miss(draw: Draw, hand: Hand) -> Session:
    """Return balls over the target on the same side, one missed one among them."""
    session = on_a_line(draw, hand)
    arrival, missed, sign, motions = pick(draw, _SIDES)
    shots = [ball_seen(session, arrival, motion=pick(draw, motions)) for _ in range(int(draw.integers(3, 5)))]
    shots.insert(int(draw.integers(0, len(shots) - 1)), ball_seen(session, missed, sign * 3.0))
    return after_shots(session, shots)


def only_once(draw: Draw, hand: Hand) -> Session:
    """Return one ball over the target that did not find the pocket."""
    session = on_a_line(draw, hand)
    arrival: ArrivalClass = pick(draw, ("high", "light", "far_light"))
    return observe(session, ball_seen(session, arrival, motion=pick(draw, (None, "even"))))


def crossing_not_noted(draw: Draw, hand: Hand) -> Session:
    """Return one ball or two on one side, and nobody saw where they crossed."""
    session = on_a_line(draw, hand)
    shot = Shot(arrival=pick(draw, _HIGH_OR_LIGHT), motion="even")
    return after_shots(session, [shot] * int(draw.integers(1, 3)))


def pulled_and_more(draw: Draw, hand: Hand) -> Session:
    """Return a ball that missed inside and went so far across that the miss explains only a part of it."""
    session = on_a_line(draw, hand)
    last = ball_seen(session, pick(draw, (25.5, 26.0)), 2.5)
    return after_shots(session, [*good_balls(session, draw, 2), last])


def high_again(draw: Draw, hand: Hand, walk: Walk = "slide") -> Session:
    """Return three balls or four over the target, all high."""
    return again(draw, on_a_line(draw, hand, walk), "high", motion=pick(draw, _NOT_LATE))


def high_again_for_a_walker(draw: Draw, hand: Hand) -> Session:
    """Return the same for a bowler who walks the target line."""
    return high_again(draw, hand, "walk")


def light_again(draw: Draw, hand: Hand) -> Session:
    """Return three balls or four over the target, all light, none of them turning early."""
    session, motion = on_a_line(draw, hand), pick(draw, ("even", "late"))
    return again(draw, session, pick(draw, ("light", "far_light")), motion=motion)


def struck_or_tapped(draw: Draw, hand: Hand) -> Session:
    """Return balls from the pocket, the last one a strike or with one pin left."""
    session = on_a_line(draw, hand)
    leave = pick(draw, ((), (10,), (7,), (9,)))
    last = ball_seen(session, "pocket", pick(draw, (0.0, -2.0, 2.0)), leave=leave)
    return after_shots(session, [*good_balls(session, draw, 2), last])


def four_pin_left(draw: Draw, hand: Hand) -> Session:
    """Return a high ball over the target that left the 4-pin alone, own frame."""
    session = on_a_line(draw, hand)
    return after_shots(session, [*good_balls(session, draw, 2), ball_seen(session, "high", leave=(4,))])


def nose_again(draw: Draw, hand: Hand) -> Session:
    """Return two balls over the target through the nose."""
    session = on_a_line(draw, hand)
    last = [ball_seen(session, "nose", motion=pick(draw, _NOT_LATE))] * 2
    return after_shots(session, [*good_balls(session, draw, 1), *last])


def still_high_after_a_move(draw: Draw, hand: Hand) -> Session:
    """Return balls that came in high, then a 2-and-1, then balls still high."""
    session = _moved(on_a_line(draw, hand), "high")
    return after_shots(session, [ball_seen(session, "high", motion="even")] * 3)


def just_moved(draw: Draw, hand: Hand) -> Session:
    """Return a move made, and one ball since that did not find the pocket."""
    session = _moved(on_a_line(draw, hand), pick(draw, _HIGH_OR_LIGHT))
    return observe(session, ball_seen(session, pick(draw, _HIGH_OR_LIGHT), motion="even"))


def _moved(session: Session, arrival: ArrivalClass) -> Session:
    """Return the session after three balls on one side and the 2-and-1 that answers them."""
    session = after_shots(session, [ball_seen(session, arrival, motion="even")] * 3)
    sign = 1 if arrival == "high" else -1
    return change(session, line=after_move(session.line, Move(sign * 2, sign)))


def burnt_up(draw: Draw, hand: Hand) -> Session:
    """Return light balls over the target that turned early on a played lane."""
    session = on_a_line(draw, hand, games_on_lane=pick(draw, (1.0, 2.0, 3.0)))
    return again(draw, session, "light", motion=pick(draw, ("early", "roll_out")))


def creeping_in(draw: Draw, hand: Hand) -> Session:
    """Return balls over the target that came in higher one by one on a lane that opens up."""
    session = on_a_line(draw, hand, games_on_lane=pick(draw, (1.0, 1.5, 2.0)))
    return after_shots(
        session, [ball_seen(session, arrival, motion="early") for arrival in pick(draw, _CREEPING)]
    )


def flat_corner_pin(draw: Draw, hand: Hand) -> Session:
    """Return two pocket hits with the flat own corner pin, seen to turn early or late."""
    return _flat_corner_pin(draw, hand, pick(draw, ("early", "late")))


def flat_corner_pin_and_no_turn_seen(draw: Draw, hand: Hand) -> Session:
    """Return the same, and nobody saw where the balls turned."""
    return _flat_corner_pin(draw, hand, None)


def _flat_corner_pin(draw: Draw, hand: Hand, motion: Motion | None) -> Session:
    session = on_a_line(draw, hand)
    last = [ball_seen(session, "pocket", leave=(10,), hit="flat", motion=motion)] * 2
    return after_shots(session, [*good_balls(session, draw, 1), *last])


def outside_and_high(draw: Draw, hand: Hand) -> Session:
    """Return two balls that missed outside and still came in high."""
    session = on_a_line(draw, hand)
    arrival: ArrivalClass = pick(draw, ("high", "nose"))
    last = [ball_seen(session, arrival, pick(draw, (-2.0, -2.5, -3.0))) for _ in range(2)]
    return after_shots(session, [*good_balls(session, draw, 1), *last])


def feet_have_no_room(draw: Draw, hand: Hand) -> Session:
    """Return balls high or light over the target where the feet cannot move."""
    session = on_a_line(draw, hand, place=Place(is_feet_stuck=True))
    return again(draw, session, pick(draw, _HIGH_OR_LIGHT), motion="even")


def straight_line_to_move(
    draw: Draw, hand: Hand, walk: Walk = "slide", target_ft: float = 15.0, stance_ft: float = 15.0
) -> Session:
    """Return a line of whole boards whose straight line may stay on the lane as far as the pins."""
    feet_board, offset_boards = int(draw.integers(16, 28)), float(draw.integers(6, 8))
    steep = int(draw.integers(-3, 1))
    bowler = clinic_bowler(hand, walk, laydown_offset_boards=offset_boards, stance_ft=stance_ft)
    line = Line(float(feet_board), feet_board - offset_boards + steep, target_ft)
    return Session(bowler, line, ball=load_ball(BALL), pattern=load_pattern(PATTERN))


def move_either_way(draw: Draw, sizes: Sequence[tuple[float, float]]) -> Move:
    """Return a move of one of the sizes, to the inside or the outside."""
    feet, eyes = pick(draw, sizes)
    sign = pick(draw, (-1, 1))
    return Move(sign * feet + 0.0, sign * eyes + 0.0)
