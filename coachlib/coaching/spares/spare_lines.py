"""Where to stand and what to look at for the pins left: by geometry, for this bowler's walk and room.

What can be made with one ball is read off the pins' spots. Pins that stand behind each other are one group,
hit by its front pin. Several groups are made where one ball touches the front pin of each (a gap), or where
the foremost pin can be thrown across to the other group; else the most pins that stand together are the sure
ones.
Everything is in the own frame.

References
----------
.. [1] Pins 12 in apart in an equilateral triangle, head pin at 60 ft, ball up to 8.595 in, belly of a pin
   4.766 in: federation specification, quoted second-hand. The windows follow from them (derived): 12.6 boards
   for a pin, 8.9 for a corner pin beside the gutter.
.. [2] The corner pins across the lane with a straight ball: French coaching articles and federation tips.
"""

import dataclasses
import itertools
import math
from collections.abc import Iterable, Mapping
from typing import Literal

from coachlib.coaching.session.session import Session
from coachlib.units import in_to_boards
from coachlib.world.bowler import Bowler
from coachlib.world.lane import (
    FIRST_BOARD,
    HIGH_EDGE_BOARD,
    LAST_BOARD,
    LOW_EDGE_BOARD,
    POCKET_BOARD,
    TARGET_FT,
)
from coachlib.world.levers import board_at, is_hooking, laydown_board
from coachlib.world.line import FEET_HIGH_BOARD, FEET_LOW_BOARD, Line, Move, after_move
from coachlib.world.pins import ALL_PINS, BALL_TO_PIN_IN, are_neighbours, pin_board, pin_ft

Way = Literal["pin", "gap", "across", "part", "rack"]

CONTACT_BOARDS = in_to_boards(BALL_TO_PIN_IN)
"""A ball whose centre is so far from a pin's centre just touches it [boards]."""

MOST_ACROSS_DEG = 62.0
"""A pin is thrown across at most so far to the side; 5 to a corner: 60, 4 to 10: 71 (our guess) [deg]."""

TARGETS = (20.0, 19.5, 20.5, 19.0, 21.0)
"""Targets of a straight ball in the order in which they are taken: about the centre arrow [board]."""

MOST_OFF_BOARDS = 1.0
"""So far from its aim a line of half boards may lead at the pins (our guess) [boards]."""


@dataclasses.dataclass(frozen=True)
class Aim:
    """Which pins a ball can make, and where its centre has to be for it.

    Parameters
    ----------
    way : {"pin", "gap", "across", "part", "rack"}
        At a pin, between pins, thin so that a pin slides across, at a part of the pins, at a full rack.
    pins : tuple of int
        The pins that are to fall.
    fronts : tuple of int
        The pin or pins hit by the ball; for ``across`` the one hit and the one it shall take.
    board, ft : float
        Where the ball's centre shall pass, and how far down the lane. [board], [ft]
    room_boards : float
        How far it may be off to either side. [boards]
    """

    way: Way
    pins: tuple[int, ...]
    fronts: tuple[int, ...]
    board: float
    ft: float
    room_boards: float


@dataclasses.dataclass(frozen=True)
class SpareLine:
    """The line for the pins left.

    Parameters
    ----------
    aim : Aim
        What it is aimed at.
    line : Line
        Feet and target.
    is_straight : bool
        Whether it is for a straight ball; else for the strike ball.
    is_feet_end : bool
        Whether the feet had no room for the usual line, so that the eyes make the rest.
    """

    aim: Aim
    line: Line
    is_straight: bool
    is_feet_end: bool = False


def pin_window(pin: int) -> tuple[float, float]:
    """Return between which boards the centre of a ball on the lane touches a pin [board]."""
    board = pin_board(pin)
    return max(LOW_EDGE_BOARD, board - CONTACT_BOARDS), min(HIGH_EDGE_BOARD, board + CONTACT_BOARDS)


def aim_at(leave: Iterable[int]) -> Aim:
    """Return which pins of a leave one ball can make, and how.

    Parameters
    ----------
    leave : iterable of int
        Pins left, own frame, at least one.
    """
    pins = tuple(sorted(leave))
    if pins == ALL_PINS:
        low, high = pin_window(1)
        return Aim("rack", pins, (1,), POCKET_BOARD, pin_ft(1), (high - low) / 2.0)
    groups = _groups(pins)
    if len(groups) == 1:
        return _one_group(pins)
    return _together(pins, groups) or _across(pins, groups) or _part(groups)


def split_facts(leave: Iterable[int]) -> Mapping[str, str | float]:
    """Return what the rules of spares may ask about pins that stand apart; empty for all others."""
    pins = tuple(sorted(leave))
    if len(_groups(pins)) < 2:
        return {}
    aim = aim_at(pins)
    return {"split_way": aim.way, "n_pins_sure": len(aim.pins)}


def spare_line(session: Session, leave: Iterable[int], move: Move) -> SpareLine:
    """Return the line for the pins left.

    Parameters
    ----------
    session : Session
        Its line is that of the strike ball; bowler and room for the feet count.
    leave : iterable of int
        Pins left, own frame, at least one.
    move : Move
        What the spare system moves the strike line by; all zero where it says nothing.

    Returns
    -------
    SpareLine
        The strike ball for a full rack and for pins behind a front pin; a straight ball for all others, and
        for who throws none but straight balls.
    """
    aim = aim_at(leave)
    is_group = aim.way == "pin" and len(aim.pins) > 1
    if aim.way == "rack" or (is_group and is_hooking(session.bowler)):
        return SpareLine(aim, after_move(session.line, move), is_straight=False)
    return straight_line(aim, session)


def straight_line(aim: Aim, session: Session) -> SpareLine:
    """Return the straight ball's line over the centre arrow, or as near to it as the feet have room."""
    bowler, played = session.bowler, session.line
    low, high = max(bowler.feet_low_board, FEET_LOW_BOARD), min(bowler.feet_high_board, FEET_HIGH_BOARD)
    if session.place.is_feet_stuck:
        low = high = played.feet_board
    stances = [_half(stance_for(aim.board, aim.ft, target, bowler)) for target in TARGETS]
    lines = [
        Line(min(max(feet, FEET_LOW_BOARD), FEET_HIGH_BOARD), target, TARGET_FT)
        for feet, target in zip(stances, TARGETS, strict=True)
    ]
    fits = [line for line in lines if low <= line.feet_board <= high]
    if not fits:
        feet = min(max(lines[0].feet_board, low), high)
        start, start_ft = feet - bowler.laydown_offset_boards, _start_ft(bowler)
        target = start + (aim.board - start) * (TARGET_FT - start_ft) / (aim.ft - start_ft)
        line = Line(feet, min(max(_half(target), FIRST_BOARD), LAST_BOARD), TARGET_FT)
        return SpareLine(aim, line, is_straight=True, is_feet_end=True)
    tolerance = min(MOST_OFF_BOARDS, 0.4 * aim.room_boards)
    near = (line for line in fits if _off_boards(line, aim, bowler) <= tolerance)
    best = next(near, None) or min(fits, key=lambda line: _off_boards(line, aim, bowler))
    return SpareLine(aim, best, is_straight=True)


def stance_for(aim_board: float, aim_ft: float, target_board: float, bowler: Bowler) -> float:
    """Return the stance from which a straight ball over a target reaches a board down the lane [board]."""
    slope = (aim_board - target_board) / (aim_ft - TARGET_FT)
    return target_board + slope * (_start_ft(bowler) - TARGET_FT) + bowler.laydown_offset_boards


def _start_ft(bowler: Bowler) -> float:
    """Return where the straight line of the ball begins: the foul line, or a walker's stance [ft]."""
    return 0.0 if bowler.walk == "slide" else -bowler.stance_ft


def _off_boards(line: Line, aim: Aim, bowler: Bowler) -> float:
    """Return how far from its aim a line leads; endless where it is laid down off the lane."""
    if not FIRST_BOARD <= laydown_board(line, bowler) <= LAST_BOARD:
        return math.inf
    return abs(board_at(line, bowler, aim.ft) - aim.board)


def _half(board: float) -> float:
    return round(2.0 * board) / 2.0


def _groups(pins: tuple[int, ...]) -> list[tuple[int, ...]]:
    """Return the pins by groups of pins one behind the other, each group sorted."""
    groups: list[set[int]] = []
    for pin in pins:
        joined = [group for group in groups if any(are_neighbours(pin, other) for other in group)]
        merged = {pin}.union(*joined)
        groups = [group for group in groups if group not in joined] + [merged]
    return sorted(tuple(sorted(group)) for group in groups)


def _fronts(group: tuple[int, ...]) -> tuple[int, ...]:
    """Return the pins of a group with none of it ahead of them."""
    return tuple(
        pin
        for pin in group
        if not any(are_neighbours(pin, other) and pin_ft(other) < pin_ft(pin) for other in group)
    )


def _together(pins: tuple[int, ...], groups: list[tuple[int, ...]]) -> Aim | None:
    """Return the aim at which one ball touches every front pin, or None."""
    fronts = tuple(pin for group in groups for pin in _fronts(group))
    low = max(pin_window(pin)[0] for pin in fronts)
    high = min(pin_window(pin)[1] for pin in fronts)
    if low >= high:
        return None
    is_alone = len(fronts) == 1
    board = pin_board(fronts[0]) if is_alone and len(pins) > 1 else (low + high) / 2.0
    ft = min(pin_ft(pin) for pin in fronts)
    return Aim("pin" if is_alone else "gap", pins, fronts, board, ft, (high - low) / 2.0)


def _one_group(pins: tuple[int, ...]) -> Aim:
    """Return the aim at pins that stand behind each other: all their front pins, or the foremost alone."""
    aim = _together(pins, [pins])
    return aim or dataclasses.replace(_one_group(pins[:1]), pins=pins)


def _across(pins: tuple[int, ...], groups: list[tuple[int, ...]]) -> Aim | None:
    """Return the aim at which the foremost pin slides over to the other group, the ball taking the rest."""
    if len(groups) != 2:
        return None
    own, other = sorted(groups, key=lambda group: pin_ft(group[0]))
    key, taken = own[0], other[0]
    along_in = 12.0 * (pin_ft(taken) - pin_ft(key))
    side_boards = pin_board(taken) - pin_board(key)
    turn = math.atan2(abs(side_boards), in_to_boards(along_in))
    to_ball = -math.copysign(1.0, side_boards)
    is_clear = all((pin_board(pin) - pin_board(key)) * to_ball > 0 for pin in own[1:])
    if along_in <= 0 or math.degrees(turn) > MOST_ACROSS_DEG or not is_clear:
        return None
    off = CONTACT_BOARDS * math.sin(turn)
    board = pin_board(key) + to_ball * off
    return Aim("across", pins, (key, taken), board, pin_ft(key), CONTACT_BOARDS - off)


def _part(groups: list[tuple[int, ...]]) -> Aim:
    """Return the aim at the most pins that one ball makes; of equals the roomier, then nearer the pocket."""
    parts = (
        tuple(sorted(itertools.chain(*some)))
        for n_groups in range(1, len(groups))
        for some in itertools.combinations(groups, n_groups)
    )
    aims = [_one_group(part) if part in groups else _together(part, _groups(part)) for part in parts]
    best = max(
        filter(None, aims),
        key=lambda aim: (len(aim.pins), round(aim.room_boards, 6), -abs(aim.board - POCKET_BOARD)),
    )
    return dataclasses.replace(best, way="part")
