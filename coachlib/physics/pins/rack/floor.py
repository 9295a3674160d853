"""What does not move: deck, flat gutters and kickbacks, and how pins and ball touch them."""

import math
from typing import NamedTuple

from coachlib.physics.pins.rack.contact import AT, AXIS, BALL_LANE, GUTTER, KICKBACK, NOTHING, PIN_DECK, touch
from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.physics.pins.rack.shape import BALL_PART, FIRST_HEAD_PART, N_PIN_PARTS, farthest_point
from coachlib.physics.pins.rack.vectors import Array, Vector, compiled, cross, dot, plus, row
from coachlib.units import IN_M

DOWN = (0.0, 0.0, -1.0)
_N_RING_POINTS = 12
_RING_THICKNESS_IN = 0.1
_UPRIGHT_ONLY_BASE = 0.4
"""With the axis this much upright only the base can reach the deck: belly and base edge lie 17 deg apart."""


class Deck(NamedTuple):
    """Where things end, in metres from the head-pin spot at deck height."""

    deck_edge: float
    gutter_edge: float
    kickback: float
    gutter_depth: float
    kickback_height: float
    kickback_start: float
    ring_below_cg: float
    ring_radius: float
    ring_thickness: float


def deck_of(numbers: RackNumbers) -> Deck:
    """Return the room in SI. The base ring is rounded and drawn in, so that a pin tips at the same angle."""
    below_in = numbers.pin_cg_in - _RING_THICKNESS_IN
    return Deck(
        deck_edge=numbers.deck_edge_in * IN_M,
        gutter_edge=numbers.gutter_edge_in * IN_M,
        kickback=numbers.kickback_in * IN_M,
        gutter_depth=numbers.gutter_depth_in * IN_M,
        kickback_height=numbers.kickback_height_in * IN_M,
        kickback_start=-0.6,
        ring_below_cg=below_in * IN_M,
        ring_radius=numbers.pin_base_ring_in * below_in / numbers.pin_cg_in * IN_M,
        ring_thickness=_RING_THICKNESS_IN * IN_M,
    )


@compiled
def surface_towards(room: Deck, point: Vector, towards: Vector) -> tuple[float, Vector, int]:
    """Return the gap from a point to what lies below or beside it, the direction out of that, and its law."""
    side = math.copysign(1.0, point[1])
    if towards[2] == 0.0:
        if point[2] > room.kickback_height or point[0] < room.kickback_start:
            return 1.0, (0.0, -side, 0.0), KICKBACK
        return room.kickback - abs(point[1]), (0.0, -side, 0.0), KICKBACK
    up = (0.0, 0.0, 1.0)
    if point[0] > room.deck_edge:
        return 1.0, up, GUTTER
    beside = abs(point[1]) - room.gutter_edge
    if beside > 0.0:
        return point[2] + room.gutter_depth, up, GUTTER
    if point[2] < beside:
        return beside, (0.0, side, 0.0), PIN_DECK
    return point[2], up, PIN_DECK


@compiled
def touch_base(bodies: Array, room: Deck, laws: Array, pin: int) -> None:
    """Let the base ring of a pin touch the deck: twelve points, turned so that one of them is the lowest."""
    axis = row(bodies, AXIS, pin)
    centre = plus(row(bodies, AT, pin), -room.ring_below_cg, axis)
    level = math.sqrt(max(0.0, 1.0 - axis[2] * axis[2]))
    if centre[2] - room.ring_radius * level - room.ring_thickness > 0.0:
        return
    lowest = (1.0, 0.0, 0.0)
    if level > 1e-9:
        lowest = (axis[0] * axis[2] / level, axis[1] * axis[2] / level, -level)
    aside = cross(axis, lowest)
    for number in range(_N_RING_POINTS):
        angle = number * (2.0 * math.pi / _N_RING_POINTS)
        point = plus(centre, room.ring_radius * math.cos(angle), lowest)
        point = plus(point, room.ring_radius * math.sin(angle), aside)
        point = plus(point, room.ring_thickness, DOWN)
        gap_m, normal, law = surface_towards(room, point, DOWN)
        if gap_m < 0.0:
            touch(bodies, pin, NOTHING, laws, law, gap_m, normal, point)


@compiled
def touch_with_parts(
    bodies: Array,
    parts: Array,
    room: Deck,
    laws: Array,
    body: int,
    first: int,
    last: int,
    towards: Vector,
) -> None:
    """Let the deepest of some parts of a body touch deck or gutter below it, or the kickback on its side."""
    at, axis = row(bodies, AT, body), row(bodies, AXIS, body)
    best_gap, best_normal, best_point, best_law = 0.0, towards, at, PIN_DECK
    for part in range(first, last):
        point = farthest_point(parts, part, at, axis, towards)
        gap_m, normal, law = surface_towards(room, point, towards)
        if gap_m < best_gap:
            best_gap, best_normal, best_point, best_law = gap_m, normal, point, law
    if best_gap < 0.0:
        if best_law == PIN_DECK and first == BALL_PART:
            best_law = BALL_LANE
        touch(bodies, body, NOTHING, laws, best_law, best_gap, best_normal, best_point)


@compiled
def touch_kickback_with_base(bodies: Array, room: Deck, laws: Array, pin: int, towards: Vector) -> None:
    """Let the base ring of a pin touch the kickback on its side."""
    at, axis = row(bodies, AT, pin), row(bodies, AXIS, pin)
    ahead = dot(axis, towards)
    level = math.sqrt(max(1e-12, 1.0 - ahead * ahead))
    outwards = plus((0.0, towards[1] / level, 0.0), -ahead / level, axis)
    point = plus(at, -room.ring_below_cg, axis)
    point = plus(plus(point, room.ring_radius, outwards), room.ring_thickness, towards)
    gap_m, normal, law = surface_towards(room, point, towards)
    if gap_m < 0.0:
        touch(bodies, pin, NOTHING, laws, law, gap_m, normal, point)


@compiled
def touch_room_with_pin(bodies: Array, parts: Array, room: Deck, laws: Array, pin: int) -> None:
    """Let one pin touch deck, gutter and kickback."""
    reach = 0.24
    if bodies[pin, AT + 2] < reach:
        touch_base(bodies, room, laws, pin)
        if bodies[pin, AXIS + 2] < _UPRIGHT_ONLY_BASE:
            touch_with_parts(bodies, parts, room, laws, pin, 0, FIRST_HEAD_PART, DOWN)
            touch_with_parts(bodies, parts, room, laws, pin, FIRST_HEAD_PART, N_PIN_PARTS, DOWN)
    if abs(bodies[pin, AT + 1]) > room.kickback - reach:
        aside = (0.0, math.copysign(1.0, bodies[pin, AT + 1]), 0.0)
        touch_with_parts(bodies, parts, room, laws, pin, 0, FIRST_HEAD_PART, aside)
        touch_with_parts(bodies, parts, room, laws, pin, FIRST_HEAD_PART, N_PIN_PARTS, aside)
        touch_kickback_with_base(bodies, room, laws, pin, aside)


@compiled
def touch_room_with_ball(bodies: Array, parts: Array, room: Deck, laws: Array, ball: int) -> None:
    """Let the ball touch lane, gutter and kickback."""
    aside = (0.0, math.copysign(1.0, bodies[ball, AT + 1]), 0.0)
    touch_with_parts(bodies, parts, room, laws, ball, BALL_PART, BALL_PART + 1, DOWN)
    touch_with_parts(bodies, parts, room, laws, ball, BALL_PART, BALL_PART + 1, aside)
