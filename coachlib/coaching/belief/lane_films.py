"""The films of many possible lanes side by side, so that one march throws on all of them at once.

The march reads a film that is linear between places across the lane. Here the lanes of a block lie beside
one another on that axis, each between wide margins of its own outermost film; a ball of lane 3 starts three
lanes farther over, and none reaches its neighbour's film.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.particles import Particles
from coachlib.interpolation import between_rows, cell_of
from coachlib.physics.friction import grip_of
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground, Landed
from coachlib.physics.motion import BOARD_M, STEP_FT, launch_of
from coachlib.units import FT_M, N_BOARDS
from coachlib.world.ball import Ball
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.oil import OilPattern
from coachlib.world.release import Release

Floats = NDArray[np.float64]
_BESIDE = 32
KNOTS = N_BOARDS + 2 * _BESIDE
_CENTRE = 0.5 * (N_BOARDS + 1)


def ground_of_lanes(particles: Particles, block: slice, pattern: OilPattern, hand: Hand) -> Ground:
    """Return some possible lanes side by side as the march reads them.

    `block` says which of the particles; the hand turns the sheet, which has a film.
    """
    edges_ft = np.linspace(0.0, HEAD_PIN_FT, round(HEAD_PIN_FT / STEP_FT) + 1)
    film = pattern.own_film_um(hand)
    laid = np.cumsum(np.vstack([np.zeros(film.shape[1]), film]), axis=0)  # from the foul line on
    longer = 1.0 + particles.length_ft[block] / pattern.length_ft
    reached = between_rows(laid, edges_ft[:, None] / longer / pattern.step_ft)
    means = np.maximum(np.diff(reached, axis=0), 0.0) * (longer[:, None] * pattern.step_ft / STEP_FT)
    film = _shifted(means, particles.ramp_boards[block]) * particles.film_frac[block, None]
    padded = np.pad(film, ((0, 0), (0, 0), (_BESIDE, _BESIDE)), mode="edge")
    return Ground(edges_ft * FT_M, padded.reshape(len(film), -1), BOARD_M)


def start_m(n_lanes: int) -> Floats:
    """Return how far over each lane of a block starts [m]."""
    return (np.arange(n_lanes, dtype=float) * KNOTS + _BESIDE - 1.0) * BOARD_M


def march_on_lanes(
    release: Release,
    ball: Ball,
    ground: Ground,
    particles: Particles,
    lane: NDArray[np.intp],
    row_every: int = 0,
) -> Landed:
    """Return where shots land that each roll on one of `particles`, `lane` being its number among them.

    Few long calls, so that two threads seldom wait for a turn.
    """
    launch, grip, over = launch_of(release, ball), grip_of(ball), start_m(particles.n_particles)[lane]
    own_grip = dataclasses.replace(
        grip,
        dry_coef=grip.dry_coef * particles.dry_frac[lane],
        wet_coef=grip.wet_coef * particles.wet_frac[lane],
    )
    moved_over = dataclasses.replace(launch, across_m=launch.across_m + over)
    landed = march(moved_over, ground, own_grip, row_every, chunk=over.size)
    return dataclasses.replace(
        landed,
        across_m=landed.across_m - over,
        turn_across_m=landed.turn_across_m - over,
        rows_m=(landed.rows_m - over).astype(np.float32),
    )


def _shifted(film: Floats, inward_boards: Floats) -> Floats:
    """Return each lane's film moved inward on both sides by its own amount, shape as given."""
    board = np.arange(1.0, N_BOARDS + 1.0)
    side = np.sign(_CENTRE - board)
    below, share = cell_of(board - side * inward_boards[:, None] - 1.0, N_BOARDS)
    lanes = np.arange(film.shape[1])[:, None]
    return np.asarray(film[:, lanes, below] * (1.0 - share) + film[:, lanes, below + 1] * share, dtype=float)
