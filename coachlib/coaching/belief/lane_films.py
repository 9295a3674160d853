"""The films of many possible lanes side by side, so that one march throws on all of them at once.

The march reads a film that is linear between places across the lane. Here the lanes of a block lie beside
one another on that axis, each between wide margins of its own outermost film; a ball of lane 3 starts three
lanes farther over, and none reaches its neighbour's film.
"""

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.belief.particles import Particles
from coachlib.interpolation import between_rows, cell_of
from coachlib.physics.kinematics import Ground
from coachlib.physics.motion import BOARD_M, STEP_FT
from coachlib.units import FT_M, N_BOARDS
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.oil import OilPattern

Floats = NDArray[np.float64]
_BESIDE = 32
KNOTS = N_BOARDS + 2 * _BESIDE
_CENTRE = 0.5 * (N_BOARDS + 1)


def ground_of_lanes(particles: Particles, block: slice, pattern: OilPattern, hand: Hand) -> Ground:
    """Return some possible lanes side by side as the march reads them.

    Parameters
    ----------
    particles : Particles
        How each lane differs from the sheet.
    block : slice
        Which of them.
    pattern : OilPattern
        The sheet, with film.
    hand : {"right", "left"}
        The bowling hand: it turns the sheet.
    """
    edges_ft = np.linspace(0.0, HEAD_PIN_FT, round(HEAD_PIN_FT / STEP_FT) + 1)
    laid = _laid(pattern, hand)
    longer = 1.0 + particles.length_ft[block] / pattern.length_ft
    reached = between_rows(laid, edges_ft[:, None] / longer / pattern.step_ft)
    means = np.maximum(np.diff(reached, axis=0), 0.0) * (longer[:, None] * pattern.step_ft / STEP_FT)
    film = _shifted(means, particles.ramp_boards[block]) * particles.film_frac[block, None]
    padded = np.pad(film, ((0, 0), (0, 0), (_BESIDE, _BESIDE)), mode="edge")
    return Ground(edges_ft * FT_M, padded.reshape(len(film), -1), BOARD_M)


def start_m(n_lanes: int) -> Floats:
    """Return how far over each lane of a block starts [m]."""
    return (np.arange(n_lanes, dtype=float) * KNOTS + _BESIDE - 1.0) * BOARD_M


def _laid(pattern: OilPattern, hand: Hand) -> Floats:
    """Return the film summed up from the foul line, shape (n_rows + 1, 39)."""
    film = pattern.own_film_um(hand)
    laid = np.zeros((len(film) + 1, film.shape[1]))
    np.cumsum(film, axis=0, out=laid[1:])
    return laid


def _shifted(film: Floats, inward_boards: Floats) -> Floats:
    """Return each lane's film moved inward on both sides by its own amount, shape as given."""
    board = np.arange(1.0, N_BOARDS + 1.0)
    side = np.sign(_CENTRE - board)
    below, share = cell_of(board - side * inward_boards[:, None] - 1.0, N_BOARDS)
    lanes = np.arange(film.shape[1])[:, None]
    return np.asarray(film[:, lanes, below] * (1.0 - share) + film[:, lanes, below + 1] * share, dtype=float)
