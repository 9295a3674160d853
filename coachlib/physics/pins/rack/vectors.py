"""Arithmetic on triples (along the lane, towards the inside, up), for compiled code."""

import math

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.rack.jit import compiled

Vector = tuple[float, float, float]
Array = NDArray[np.float64]
Whole = NDArray[np.int64]


@compiled
def row(bodies: Array, column: int, index: int) -> Vector:
    """Return the triple of a body that starts at a column."""
    return bodies[index, column], bodies[index, column + 1], bodies[index, column + 2]


@compiled
def add_to(bodies: Array, column: int, index: int, scale: float, a: Vector) -> None:
    """Add `scale` times a triple to the triple of a body that starts at a column."""
    bodies[index, column] += scale * a[0]
    bodies[index, column + 1] += scale * a[1]
    bodies[index, column + 2] += scale * a[2]


@compiled
def dot(a: Vector, b: Vector) -> float:
    """Return the scalar product."""
    return a[0] * b[0] + a[1] * b[1] + a[2] * b[2]


@compiled
def cross(a: Vector, b: Vector) -> Vector:
    """Return the vector product."""
    return a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]


@compiled
def plus(a: Vector, scale: float, b: Vector) -> Vector:
    """Return ``a + scale * b``."""
    return a[0] + scale * b[0], a[1] + scale * b[1], a[2] + scale * b[2]


@compiled
def length(a: Vector) -> float:
    """Return the length of a triple."""
    return math.sqrt(a[0] * a[0] + a[1] * a[1] + a[2] * a[2])
