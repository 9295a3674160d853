"""Ball and one pin in a general-purpose engine (extra ``pins-check``): same shape, masses and contact law.

Pins and ball are frictionless; the deck may have friction.
"""

import math

import mujoco
import numpy as np

from coachlib.physics.pins.rack.numbers import RackNumbers, damping_ratio
from coachlib.physics.pins.rack.shape import _BELLY_IN, _HEAD_IN
from coachlib.units import IN_M, LB_KG

N = RackNumbers()
CG_M = N.pin_cg_in * IN_M


def law(restitution, touch_ms):
    """Return the engine's spring and damper for a restitution and a time in touch."""
    ratio = float(damping_ratio(np.array(restitution)))
    rate = math.pi / (touch_ms / 1000.0) / math.sqrt(1.0 - ratio**2)
    return f'solref="{-(rate**2)} {-2.0 * ratio * rate}" solimp="0.99 0.99 0.001"'


def pin_geoms():
    """Return the nine parts of a pin, massless."""
    height, radius, half = (value * IN_M for value in _BELLY_IN[0])
    geoms = [f'<geom type="ellipsoid" size="{radius} {radius} {half}" pos="0 0 {height - CG_M}"/>']
    for height_in, radius_in in _BELLY_IN[1:]:
        geoms.append(f'<geom type="sphere" size="{radius_in * IN_M}" pos="0 0 {height_in * IN_M - CG_M}"/>')
    for height_in, radius_in, slide_in in _HEAD_IN:
        kind = f'type="capsule" size="{radius_in * IN_M} {slide_in * IN_M}"' if slide_in else ""
        kind = kind or f'type="sphere" size="{radius_in * IN_M}"'
        geoms.append(f'<geom {kind} pos="0 0 {height_in * IN_M - CG_M}"/>')
    return "\n".join(geoms)


def ring_geoms(n_points=12):
    """Return the base ring as spheres; only they touch the deck."""
    thickness = 0.1 * IN_M
    radius = (
        N.pin_base_ring_in
        * (N.pin_cg_in - 0.1)
        / N.pin_cg_in
        * IN_M
        / math.sqrt(math.cos(math.pi / n_points))
    )
    angles = [2.0 * math.pi * number / n_points for number in range(n_points)]
    return "\n".join(
        f'<geom class="base" type="sphere" size="{thickness}" '
        f'pos="{radius * math.cos(angle)} {radius * math.sin(angle)} {thickness - CG_M}"/>'
        for angle in angles
    )


def model(
    deck_friction=0.0, step_ms=0.0125, weight_lb=15.0, has_deck=True, ball_at=(0.0, 0.0, 0.0), tilt_deg=0.0
):
    """Return the engine's model of a ball and the head pin."""
    pin_kg, ball_kg, ball_m = N.pin_mass_lb * LB_KG, weight_lb * LB_KG, N.ball_radius_in * IN_M
    across, along = (
        pin_kg * (N.pin_gyration_across_in * IN_M) ** 2,
        pin_kg * (N.pin_gyration_along_in * IN_M) ** 2,
    )
    ball_inertia = ball_kg * (N.ball_rg_in * IN_M) ** 2
    tilt = math.radians(tilt_deg)
    base_m = N.pin_base_ring_in * (N.pin_cg_in - 0.1) / N.pin_cg_in * IN_M
    height = (
        (N.pin_cg_in - 0.1) * IN_M * math.cos(tilt) + base_m * math.sin(tilt) + 0.1 * IN_M if tilt else CG_M
    )
    deck = f"""<geom type="plane" size="5 5 1" contype="4" conaffinity="4" priority="2"
        friction="{deck_friction} 0 0" {law(N.pin_deck_restitution, N.floor_ms)}/>"""
    return mujoco.MjModel.from_xml_string(f"""<mujoco>
      <option timestep="{step_ms / 1000.0}" gravity="0 0 {-9.80665 if has_deck else 0}" cone="elliptic"
        solver="Newton" iterations="20" tolerance="1e-8" integrator="Euler"/>
      <default>
        <geom condim="3" friction="0 0 0" contype="1" conaffinity="1" mass="0" {law(0.70, 1.0)}/>
        <default class="base"><geom contype="4" conaffinity="4"/></default>
      </default>
      <worldbody>{deck if has_deck else ""}
        <body name="pin" pos="0 0 {height}" euler="0 {tilt_deg} 0"><freejoint/>
          <inertial pos="0 0 0" mass="{pin_kg}" diaginertia="{across} {across} {along}"/>
          {pin_geoms()}{ring_geoms()}</body>
        <body name="ball" pos="{ball_at[0]} {ball_at[1]} {ball_at[2]}"><freejoint/>
          <inertial pos="0 0 0" mass="{ball_kg}" diaginertia="{ball_inertia} {ball_inertia} {ball_inertia}"/>
          <geom type="sphere" size="{ball_m}"/></body>
      </worldbody></mujoco>""")


def played(engine_model, ball_velocity, time_s):
    """Return the engine's state after a while: 6 speeds of pin (0-5) and ball (6-11) in qvel."""
    data = mujoco.MjData(engine_model)
    data.qvel[6:9] = ball_velocity
    while data.time < time_s:
        mujoco.mj_step(engine_model, data)
    assert not any(warning.number for warning in data.warning)
    return data
