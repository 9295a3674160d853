"""The shape of pin and ball for collisions, and the gap between two shapes.

A pin is nine smooth parts fitted to the published profile: at the published heights the radius is 0.05 in
off (rms), 0.105 in at most, just above the base. Every part is one thing: a sphere that slides along the
pin's axis and may change its radius on the way. A fixed sphere does not slide, a capsule slides without
changing, and an ellipsoid of half-width a and half-height c is the hull of spheres of radius
``a * sqrt(1 - s**2 / k)`` with ``k = c**2 - a**2`` and ``|s| <= k / c``.

The gap between two parts is the least of (distance of the centres - both radii) over the two slides. That
is a convex function of both, so taking steps in turn finds its only minimum.
"""

import math

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.rack.numbers import RackNumbers
from coachlib.physics.pins.rack.vectors import Array, Vector, compiled, dot, length, plus
from coachlib.units import IN_M

BALL_PART = 9
N_PIN_PARTS = 9
FIRST_HEAD_PART = 5
"""Parts 0 to 4 are the belly, 5 to 8 neck and head: at most one contact a zone, the deepest."""

CENTRE, SLIDE, RADIUS, TAPER = range(4)
_NO_TAPER_M2 = 1e6

_BELLY_IN = ((4.5, 2.383, 3.818), (5.897, 2.226), (7.107, 1.772), (8.42, 1.246), (1.956, 1.78))
_HEAD_IN = (
    (10.5125, 0.8985, 1.2755),
    (12.0785, 1.038, 0.4235),
    (13.0245, 1.22, 0.3235),
    (13.727, 1.273, 0.0),
)


def part_table(numbers: RackNumbers) -> NDArray[np.float64]:
    """Return the parts of a pin, the ball as the last: centre from the CG, slide, radius, taper [m, m2]."""
    height_in, half_width_in, half_height_in = _BELLY_IN[0]
    taper_in2 = half_height_in**2 - half_width_in**2
    rows = [(height_in, taper_in2 / half_height_in, half_width_in, taper_in2)]
    free_in2 = _NO_TAPER_M2 / IN_M**2
    rows += [(height_in, 0.0, radius_in, free_in2) for height_in, radius_in in _BELLY_IN[1:]]
    rows += [(height_in, slide_in, radius_in, free_in2) for height_in, radius_in, slide_in in _HEAD_IN]
    rows += [(numbers.pin_cg_in, 0.0, numbers.ball_radius_in, free_in2)]
    table = np.array(rows)
    table[:, CENTRE] -= numbers.pin_cg_in
    return table * np.array([IN_M, IN_M, IN_M, IN_M**2])


@compiled
def radius_at(parts: Array, part: int, slide_m: float) -> tuple[float, float, float]:
    """Return the radius of the sliding sphere, how it changes with the slide, and how that change bends."""
    inside = math.sqrt(1.0 - slide_m * slide_m / parts[part, TAPER])
    change = -parts[part, RADIUS] * slide_m / (parts[part, TAPER] * inside)
    bend = -parts[part, RADIUS] / (parts[part, TAPER] * inside**3)
    return parts[part, RADIUS] * inside, change, bend


@compiled
def one_slide(parts: Array, part: int, slide_m: float, along_m: float, distance_m: float) -> float:
    """Return the slide after one step towards the least gap; `along_m` is how far the other lies ahead."""
    _, change, bend = radius_at(parts, part, slide_m)
    moved = slide_m + (along_m / distance_m + change) / (1.0 / distance_m - bend)
    return min(max(moved, -parts[part, SLIDE]), parts[part, SLIDE])


@compiled
def gap_between(
    parts: Array, part_a: int, at_a: Vector, axis_a: Vector, part_b: int, at_b: Vector, axis_b: Vector
) -> tuple[float, Vector, Vector]:
    """Return the gap between two parts, the direction from b to a, and the point halfway in the overlap.

    `at` is where the part's body has its centre of gravity, `axis` where its top points.
    """
    start = plus(at_a, parts[part_a, CENTRE], axis_a)
    start = plus(plus(start, -1.0, at_b), -parts[part_b, CENTRE], axis_b)
    slide_a, slide_b = 0.0, 0.0
    apart = start
    distance_m = max(length(apart), 1e-9)
    if parts[part_a, SLIDE] > 0.0 or parts[part_b, SLIDE] > 0.0:
        for _ in range(12):
            was_a, was_b = slide_a, slide_b
            slide_a = one_slide(parts, part_a, slide_a, -dot(apart, axis_a), distance_m)
            apart = plus(plus(start, slide_a, axis_a), -slide_b, axis_b)
            distance_m = max(length(apart), 1e-9)
            slide_b = one_slide(parts, part_b, slide_b, dot(apart, axis_b), distance_m)
            apart = plus(plus(start, slide_a, axis_a), -slide_b, axis_b)
            distance_m = max(length(apart), 1e-9)
            if abs(slide_a - was_a) + abs(slide_b - was_b) < 1e-6:
                break
    radius_a, _, _ = radius_at(parts, part_a, slide_a)
    radius_b, _, _ = radius_at(parts, part_b, slide_b)
    gap_m = distance_m - radius_a - radius_b
    normal = (apart[0] / distance_m, apart[1] / distance_m, apart[2] / distance_m)
    point = plus(plus(at_b, parts[part_b, CENTRE] + slide_b, axis_b), radius_b + 0.5 * gap_m, normal)
    return gap_m, normal, point


@compiled
def farthest_point(parts: Array, part: int, at: Vector, axis: Vector, towards: Vector) -> Vector:
    """Return the point of a part that reaches farthest in the direction `towards`."""
    ahead = dot(axis, towards)
    taper, radius = parts[part, TAPER], parts[part, RADIUS]
    slide_m = ahead * taper / math.sqrt(radius * radius + ahead * ahead * taper)
    slide_m = min(max(slide_m, -parts[part, SLIDE]), parts[part, SLIDE])
    radius_m, _, _ = radius_at(parts, part, slide_m)
    return plus(plus(at, parts[part, CENTRE] + slide_m, axis), radius_m, towards)


@compiled
def rough_gap(
    parts: Array, part_a: int, at_a: Vector, axis_a: Vector, part_b: int, at_b: Vector, axis_b: Vector
) -> float:
    """Return a gap that is never more than the true one: each part inside a sphere round its centre."""
    apart = plus(plus(at_a, parts[part_a, CENTRE], axis_a), -1.0, at_b)
    apart = plus(apart, -parts[part_b, CENTRE], axis_b)
    reach = parts[part_a, SLIDE] + parts[part_a, RADIUS] + parts[part_b, SLIDE] + parts[part_b, RADIUS]
    return length(apart) - reach
