"""The simulator's loop: who may touch whom, forces, one step, and when nothing can change any more."""

import math

import numpy as np

from coachlib.physics.pins.rack.contact import (
    ACROSS,
    AT,
    AXIS,
    BALL_PIN,
    FORCE,
    MASS,
    PIN_PIN,
    SPIN,
    TORQUE,
    VELOCITY,
    rotated,
    touch,
)
from coachlib.physics.pins.rack.floor import Deck, touch_room_with_ball, touch_room_with_pin
from coachlib.physics.pins.rack.shape import BALL_PART, FIRST_HEAD_PART, N_PIN_PARTS, gap_between, rough_gap
from coachlib.physics.pins.rack.vectors import Array, Whole, compiled, cross, length, plus, row

N_PINS = 10
BALL = 10
G_MPS2 = 9.80665
ASLEEP, AWAKE, GONE = 0, 1, 2
_RELIST_S = 0.0005
_MARGIN_M = 0.006
_REACH_M = 0.2345
_MOST_TOUCHES = 2000
_FIRST_CHECK_S, _CHECK_S = 0.5, 0.005
_PIT_M, _BELOW_M = 0.35, -0.4


@compiled
def zone_of(part: int) -> int:
    """Return 0 for belly and ball, 1 for neck and head."""
    return 1 if FIRST_HEAD_PART <= part < N_PIN_PARTS else 0


@compiled
def fastest_mps(bodies: Array, index: int) -> float:
    """Return a speed that no point of a body exceeds."""
    turn = rotated(bodies, index, row(bodies, SPIN, index))
    return length(row(bodies, VELOCITY, index)) + _REACH_M * length(turn)


@compiled
def list_near(bodies: Array, parts: Array, state: Whole, near: Whole) -> int:
    """Write the pairs of parts that could touch before the next listing; the same pair of zones in a row."""
    n_near = 0
    for a in range(N_PINS + 1):
        for b in range(a):
            if state[a] == GONE or state[b] == GONE or (state[a] == ASLEEP and state[b] == ASLEEP):
                continue
            margin_m = _MARGIN_M + _RELIST_S * (fastest_mps(bodies, a) + fastest_mps(bodies, b))
            apart = plus(row(bodies, AT, a), -1.0, row(bodies, AT, b))
            if length(apart) > 2.0 * _REACH_M + margin_m:
                continue
            n_near = list_near_parts(bodies, parts, near, n_near, a, b, margin_m)
    return n_near


@compiled
def list_near_parts(
    bodies: Array, parts: Array, near: Whole, n_near: int, a: int, b: int, margin_m: float
) -> int:
    """Add the near pairs of parts of two bodies to the list."""
    at_a, axis_a = row(bodies, AT, a), row(bodies, AXIS, a)
    at_b, axis_b = row(bodies, AT, b), row(bodies, AXIS, b)
    for zone in range(4):
        for part_a in range(BALL_PART + 1):
            if (part_a == BALL_PART) != (a == BALL) or zone_of(part_a) != zone // 2:
                continue
            for part_b in range(N_PIN_PARTS):
                if zone_of(part_b) != zone % 2:
                    continue
                if rough_gap(parts, part_a, at_a, axis_a, part_b, at_b, axis_b) > margin_m:
                    continue
                gap_m, _, _ = gap_between(parts, part_a, at_a, axis_a, part_b, at_b, axis_b)
                if gap_m < margin_m and n_near < _MOST_TOUCHES:
                    near[n_near, 0], near[n_near, 1], near[n_near, 2] = a, b, zone
                    near[n_near, 3], near[n_near, 4] = part_a, part_b
                    n_near += 1
    return n_near


@compiled
def touch_each_other(
    bodies: Array, parts: Array, laws: Array, state: Whole, near: Whole, n_near: int
) -> None:
    """Let bodies touch, once a pair of zones: where they overlap most. Whoever is touched wakes."""
    item = 0
    while item < n_near:
        a, b, zone = near[item, 0], near[item, 1], near[item, 2]
        at_a, axis_a = row(bodies, AT, a), row(bodies, AXIS, a)
        at_b, axis_b = row(bodies, AT, b), row(bodies, AXIS, b)
        best_gap, best_normal, best_point = 0.0, axis_a, at_a
        while item < n_near and near[item, 0] == a and near[item, 1] == b and near[item, 2] == zone:
            part_a, part_b = near[item, 3], near[item, 4]
            gap_m, normal, point = gap_between(parts, part_a, at_a, axis_a, part_b, at_b, axis_b)
            if gap_m < best_gap:
                best_gap, best_normal, best_point = gap_m, normal, point
            item += 1
        if best_gap < 0.0:
            state[a] = AWAKE
            state[b] = AWAKE
            touch(bodies, a, b, laws, BALL_PIN if a == BALL else PIN_PIN, best_gap, best_normal, best_point)


@compiled
def move(bodies: Array, index: int, step_s: float) -> None:
    """Advance one body: first the speeds, then with them the places (symplectic Euler)."""
    lift = bodies[index, MASS] * G_MPS2
    for direction in range(3):
        weight = lift if direction == 2 else 0.0
        bodies[index, VELOCITY + direction] += (
            step_s * (bodies[index, FORCE + direction] - weight) / bodies[index, MASS]
        )
        bodies[index, SPIN + direction] += step_s * bodies[index, TORQUE + direction]
        bodies[index, AT + direction] += step_s * bodies[index, VELOCITY + direction]
        bodies[index, FORCE + direction] = 0.0
        bodies[index, TORQUE + direction] = 0.0
    axis = row(bodies, AXIS, index)
    # Free of forces the axis circles the angular momentum at the rate (momentum / inertia across the axis).
    swing = cross(row(bodies, SPIN, index), axis)
    scale = step_s / bodies[index, ACROSS]
    again = cross(row(bodies, SPIN, index), swing)
    axis = plus(plus(axis, scale, swing), 0.5 * scale * scale, again)
    size = length(axis)
    for direction in range(3):
        bodies[index, AXIS + direction] = axis[direction] / size


@compiled
def is_upright(bodies: Array, pin: int, cg_m: float) -> bool:
    """Return whether a pin stands: upright, and on the deck."""
    return bodies[pin, AXIS + 2] > 0.9 and bodies[pin, AT + 2] > cg_m - 0.010


@compiled
def nothing_can_change(bodies: Array, state: Whole, room: Deck, cg_m: float) -> bool:
    """Return whether no pin stands, or all that stand are still and nothing loose can reach them."""
    n_upright = 0
    for pin in range(N_PINS):
        if state[pin] != GONE and is_upright(bodies, pin, cg_m):
            n_upright += 1
            turn = rotated(bodies, pin, row(bodies, SPIN, pin))
            if length(row(bodies, VELOCITY, pin)) > 0.03 or length(turn) > 0.3:
                return False
    if n_upright == 0:
        return True
    for body in range(N_PINS + 1):
        if state[body] != AWAKE or (body < N_PINS and is_upright(bodies, body, cg_m)):
            continue
        is_behind = bodies[body, AT + 0] > room.deck_edge
        is_back = bodies[body, VELOCITY + 0] < -0.12
        is_over_deck = bodies[body, AT + 2] > 0.0 and not is_behind
        if (is_over_deck and length(row(bodies, VELOCITY, body)) > 0.12) or (is_behind and is_back):
            return False
    return True


@compiled
def run(
    bodies: Array,
    parts: Array,
    room: Deck,
    laws: Array,
    state: Whole,
    cg_m: float,
    step_s: float,
    limit_s: float,
    stops_early: bool,
) -> tuple[float, bool]:
    """Advance all bodies in place; return the time reached and whether everything had come to an end."""
    near = np.empty((_MOST_TOUCHES, 5), dtype=np.int64)
    relist = max(1, round(_RELIST_S / step_s))
    check = max(1, round(_CHECK_S / step_s))
    n_near = 0
    for step in range(math.ceil(limit_s / step_s)):
        if step % relist == 0:
            n_near = list_near(bodies, parts, state, near)
        if stops_early and step % check == 0 and step * step_s >= _FIRST_CHECK_S:
            if nothing_can_change(bodies, state, room, cg_m):
                return step * step_s, True
        touch_each_other(bodies, parts, laws, state, near, n_near)
        for body in range(N_PINS + 1):
            if state[body] != AWAKE:
                continue
            if body == BALL:
                touch_room_with_ball(bodies, parts, room, laws, body)
            else:
                touch_room_with_pin(bodies, parts, room, laws, body)
            move(bodies, body, step_s)
            if bodies[body, AT + 0] > room.deck_edge + _PIT_M or bodies[body, AT + 2] < _BELOW_M:
                state[body] = GONE
                n_near = without(near, n_near, body)
    return limit_s, False


@compiled
def without(near: Whole, n_near: int, body: int) -> int:
    """Drop a body that is gone from the list of near pairs."""
    kept = 0
    for item in range(n_near):
        if near[item, 0] != body and near[item, 1] != body:
            near[kept] = near[item]
            kept += 1
    return kept
