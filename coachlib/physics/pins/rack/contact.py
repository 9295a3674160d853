"""One touch between two bodies: from overlap and closing speed to force and turning force.

The law, in full, for one point at which a touches b (or something that does not move):

1. ``opening``: speed of a against b along the normal, positive when they part.
2. ``inverse mass``: how fast the two give way to a push there, turning included:
   ``1 / m + (r x n) . I^-1 (r x n)`` for each.
3. ``press = (stiffness * overlap - damping * opening) / inverse mass``, never a pull. Divided so, the share
   of speed kept (restitution) and the time in touch are the same whatever the masses and the speed.
4. ``drag`` against the slip: Coulomb's ``friction * press``, but not more than stops the slip within the grip
   time. It only ever acts along the surface, and does not change the press.
"""

from coachlib.physics.pins.rack.vectors import Array, Vector, add_to, compiled, cross, dot, length, plus, row

STIFFNESS, DAMPING, FRICTION, GRIP = range(4)
PIN_PIN, BALL_PIN, PIN_DECK, GUTTER, KICKBACK, BALL_LANE = range(6)
NOTHING = -1
"""Stands for b where b is deck, gutter or wall."""

# Bodies are one array: pins 1 to 10 in rows 0 to 9, the ball in row 10; SI; triples are (along the lane from
# the head-pin spot, towards the inside, up). SPIN is the angular momentum about the centre of gravity.
AT, VELOCITY, AXIS, SPIN, FORCE, TORQUE = range(0, 18, 3)
MASS, ACROSS, ALONG = 18, 19, 20
N_COLUMNS = 21


@compiled
def rotated(bodies: Array, index: int, a: Vector) -> Vector:
    """Return the inverse inertia applied to a triple: from angular momentum to turn rate."""
    axis = row(bodies, AXIS, index)
    extra = (1.0 / bodies[index, ALONG] - 1.0 / bodies[index, ACROSS]) * dot(a, axis)
    across = bodies[index, ACROSS]
    return plus((a[0] / across, a[1] / across, a[2] / across), extra, axis)


@compiled
def velocity_at(bodies: Array, index: int, arm: Vector) -> Vector:
    """Return the velocity of the point of a body that is `arm` away from its centre of gravity."""
    turn = rotated(bodies, index, row(bodies, SPIN, index))
    return plus(row(bodies, VELOCITY, index), 1.0, cross(turn, arm))


@compiled
def inverse_mass_at(bodies: Array, index: int, arm: Vector, direction: Vector) -> float:
    """Return how fast a body gives way, at a point, to a push in a direction [1/kg]."""
    lever = cross(arm, direction)
    return 1.0 / bodies[index, MASS] + dot(lever, rotated(bodies, index, lever))


@compiled
def touch(
    bodies: Array, a: int, b: int, laws: Array, law: int, gap_m: float, normal: Vector, point: Vector
) -> None:
    """Add the forces of one touch to both bodies; `normal` points from b to a."""
    arm_a = plus(point, -1.0, row(bodies, AT, a))
    arm_b = arm_a
    relative = velocity_at(bodies, a, arm_a)
    inverse_mass = inverse_mass_at(bodies, a, arm_a, normal)
    if b != NOTHING:
        arm_b = plus(point, -1.0, row(bodies, AT, b))
        relative = plus(relative, -1.0, velocity_at(bodies, b, arm_b))
        inverse_mass += inverse_mass_at(bodies, b, arm_b, normal)
    opening = dot(relative, normal)
    press = max(0.0, (-laws[law, STIFFNESS] * gap_m - laws[law, DAMPING] * opening) / inverse_mass)
    slip = plus(relative, -opening, normal)
    slip_mps = length(slip)
    force = (press * normal[0], press * normal[1], press * normal[2])
    if slip_mps > 1e-9:
        way = (slip[0] / slip_mps, slip[1] / slip_mps, slip[2] / slip_mps)
        inverse_mass = inverse_mass_at(bodies, a, arm_a, way)
        if b != NOTHING:
            inverse_mass += inverse_mass_at(bodies, b, arm_b, way)
        drag = min(laws[law, FRICTION] * press, slip_mps / (inverse_mass * laws[law, GRIP]))
        force = plus(force, -drag, way)
    add_to(bodies, FORCE, a, 1.0, force)
    add_to(bodies, TORQUE, a, 1.0, cross(arm_a, force))
    if b != NOTHING:
        add_to(bodies, FORCE, b, -1.0, force)
        add_to(bodies, TORQUE, b, -1.0, cross(arm_b, force))
