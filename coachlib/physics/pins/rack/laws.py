"""From restitution, friction and time in touch to the spring and damper of each kind of contact."""

import functools

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.pins.rack.numbers import RackNumbers

_LEAST, _MOST = 0.16, 0.98


def restitution_of(damping_ratio: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the share of speed a spring and damper keeps that may push but not pull.

    Solution of the linear contact that ends when its force reaches zero: ``e = exp(-z a / s)`` with
    ``s = sqrt(1 - z**2)`` and ``a = pi - atan2(2 z s, 1 - 2 z**2)`` for ``z < 0.7071``.
    """
    z = np.asarray(damping_ratio, dtype=float)
    s = np.sqrt(1.0 - z**2)
    return np.exp(-z / s * (np.pi - np.arctan2(2.0 * z * s, 1.0 - 2.0 * z**2)))


@functools.cache
def _damping_grid() -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    ratios = np.linspace(0.0, 0.7071, 20_001)
    return restitution_of(ratios)[::-1], ratios[::-1]


def damping_ratio(restitution: NDArray[np.float64]) -> NDArray[np.float64]:
    """Return the damping ratio that keeps this share of the closing speed."""
    kept, ratios = _damping_grid()
    return np.interp(np.clip(restitution, _LEAST, _MOST), kept, ratios)


def law_table(
    numbers: RackNumbers, restitution_shift: float = 0.0, friction_factor: float = 1.0
) -> NDArray[np.float64]:
    """Return stiffness [1/s2], damping [1/s], friction and grip time [s], one row a kind of contact.

    Both are per mass: :mod:`coachlib.physics.pins.rack.contact` multiplies by the mass that gives way.
    """
    n = numbers
    rows = (
        (n.pin_pin_restitution, n.pin_pin_friction, n.hit_ms, n.hit_grip_ms),
        (n.ball_pin_restitution, n.ball_pin_friction, n.hit_ms, n.hit_grip_ms),
        (n.pin_deck_restitution, n.pin_deck_friction, n.floor_ms, n.floor_grip_ms),
        (n.gutter_restitution, n.pin_deck_friction, n.floor_ms, n.floor_grip_ms),
        (n.kickback_restitution, n.kickback_friction, n.floor_ms, n.floor_grip_ms),
        (n.ball_lane_restitution, n.ball_lane_friction, n.floor_ms, n.floor_grip_ms),
    )
    kept, friction, touch_ms, grip_ms = np.array(rows).T
    ratio = damping_ratio(kept + restitution_shift)
    rate = np.pi / (touch_ms / 1000.0) / np.maximum(np.sqrt(1.0 - ratio**2), 0.5)
    return np.column_stack([rate**2, 2.0 * ratio * rate, friction * friction_factor, grip_ms / 1000.0])
