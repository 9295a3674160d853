"""Set-ups for tests of the pin simulator: a few bodies placed by hand, and what became of them."""

import dataclasses

import numpy as np

from coachlib.physics.pins.rack.contact import ACROSS, AT, AXIS, MASS, SPIN, VELOCITY
from coachlib.physics.pins.rack.floor import deck_of
from coachlib.physics.pins.rack.loop import AWAKE, BALL, GONE, run
from coachlib.physics.pins.rack.numbers import RackNumbers, law_table
from coachlib.physics.pins.rack.shape import CENTRE, N_PIN_PARTS, RADIUS, SLIDE, part_table
from coachlib.physics.pins.rack.throw import still_bodies
from coachlib.units import IN_M, LB_KG

HIGH_M = 50.0
"""So far above the deck that nothing is touched but the other body."""
FRICTIONLESS = dataclasses.replace(
    RackNumbers(), pin_pin_friction=0.0, ball_pin_friction=0.0, pin_deck_friction=0.0, ball_lane_friction=0.0
)


def pin_as_sphere(numbers):
    """Return parts in which the pin's belly is a sphere round its centre of gravity, and the rest a speck."""
    parts = part_table(numbers)
    parts[:N_PIN_PARTS, [CENTRE, SLIDE]] = 0.0
    parts[:N_PIN_PARTS, RADIUS] = 1e-4
    parts[0, RADIUS] = 2.383 * IN_M
    return parts


def alone(bodies, *rows):
    """Return the state in which only some bodies are there."""
    state = np.full(len(bodies), GONE)
    state[list(rows)] = AWAKE
    return state


def advance(bodies, state, numbers, time_s, step_ms=0.01, parts=None):
    """Let time pass; bodies and state change in place."""
    parts = part_table(numbers) if parts is None else parts
    run(
        bodies,
        parts,
        deck_of(numbers),
        law_table(numbers),
        state,
        numbers.pin_cg_in * IN_M,
        step_ms / 1e3,
        time_s,
        False,
    )


def ball_meets_pin(
    numbers, weight_lb=15.0, board=17.5, entry_deg=6.0, as_disc=False, step_ms=0.01, rolls=True
):
    """Return velocities of ball and head pin after an isolated hit at 17.0 mph in free fall.

    `board` is where the ball's centre is at first contact with the pin's belly (the plane of the disc check).
    """
    bodies = still_bodies(numbers, numbers.pin_mass_lb, weight_lb)
    parts = part_table(numbers)
    ball_height_in = numbers.ball_radius_in - numbers.pin_cg_in
    if as_disc:
        parts = pin_as_sphere(numbers)
        ball_height_in = 0.0
    offset_m = (board - 20.0) * 41.5 / 39.0 * IN_M
    angle = np.radians(entry_deg)
    ahead = np.array([np.cos(angle), np.sin(angle), 0.0])
    touch_m = (2.383 + numbers.ball_radius_in) * IN_M
    contact = np.array([-np.sqrt(touch_m**2 - offset_m**2), offset_m, ball_height_in * IN_M])
    bodies[:, AT + 2] = HIGH_M
    bodies[BALL, AT : AT + 3] += contact - 0.002 * ahead
    bodies[BALL, VELOCITY : VELOCITY + 3] = 7.6 * ahead
    if rolls:
        turn = np.array([-ahead[1], ahead[0], 0.0]) * 7.6 / (numbers.ball_radius_in * IN_M)
        bodies[BALL, SPIN : SPIN + 3] = bodies[BALL, ACROSS] * turn
    before = momentum(bodies)
    advance(bodies, alone(bodies, 0, BALL), numbers, 0.006, step_ms, parts)
    return bodies, before


def momentum(bodies):
    """Return the momentum of ball and head pin."""
    rows = bodies[[0, BALL]]
    return (rows[:, [MASS]] * rows[:, VELOCITY : VELOCITY + 3]).sum(axis=0)


def heading_deg(bodies, row):
    """Return the direction in which a body moves."""
    return float(np.degrees(np.arctan2(bodies[row, VELOCITY + 1], bodies[row, VELOCITY])))


def spheres_meet(restitution, speed_mps=7.0, step_ms=0.025, start_mm=1.0):
    """Return the share of speed kept by a ball against a pin-mass sphere, head on."""
    numbers = dataclasses.replace(FRICTIONLESS, ball_pin_restitution=restitution)
    bodies = still_bodies(numbers, 3.5, 15.0)
    parts = pin_as_sphere(numbers)
    bodies[:, AT + 2] = HIGH_M
    bodies[BALL, AT] = -(2.383 + numbers.ball_radius_in) * IN_M - start_mm / 1000.0
    bodies[BALL, VELOCITY] = speed_mps
    advance(bodies, alone(bodies, 0, BALL), numbers, 0.006, step_ms, parts)
    return float(bodies[0, VELOCITY] - bodies[BALL, VELOCITY]) / speed_mps


def bellies_meet(step_ms=0.025):
    """Return the share of energy two pins keep that meet belly to belly at 7 m/s."""
    numbers = FRICTIONLESS
    bodies = still_bodies(numbers, 3.5, 15.0)
    bodies[:, AT + 2] = HIGH_M
    bodies[1, AT] = -2 * 2.383 * IN_M - 0.001
    bodies[1, VELOCITY] = 7.0
    before = energy(bodies, (0, 1))
    advance(bodies, alone(bodies, 0, 1), numbers, 0.004, step_ms)
    bodies[:2, VELOCITY + 2] = 0.0  # what gravity gave in free fall
    return energy(bodies, (0, 1)) / before


def energy(bodies, rows):
    """Return the energy of motion of some bodies whose turn is across their axis."""
    mass, across = 3.5 * LB_KG, 3.5 * LB_KG * (3.62 * IN_M) ** 2
    speeds = bodies[list(rows), VELOCITY : VELOCITY + 3]
    spins = bodies[list(rows), SPIN : SPIN + 3]
    return float(0.5 * mass * (speeds**2).sum() + 0.5 * (spins**2).sum() / across)


def tilted_pin_angle_deg(tilt_deg, time_s=0.6):
    """Return how far a pin that starts tilted on its base edge leans after a while."""
    numbers = RackNumbers()
    bodies = still_bodies(numbers, numbers.pin_mass_lb, 15.0)
    tilt, room = np.radians(tilt_deg), deck_of(numbers)
    bodies[0, AXIS : AXIS + 3] = [np.sin(tilt), 0.0, np.cos(tilt)]
    bodies[0, AT + 2] = (
        room.ring_below_cg * np.cos(tilt) + room.ring_radius * np.sin(tilt) + room.ring_thickness
    )
    bodies[0, AT] = 0.3
    advance(bodies, alone(bodies, 0), numbers, time_s, 0.025)
    return float(np.degrees(np.arccos(bodies[0, AXIS + 2])))
