"""Others who play on a hidden lane, and what they do to its oil.

Who they are is drawn by the lane's seed: club bowlers with a usual ball, most of them on the side of the one
who practises. They find a line into the pocket, and a new one each game. Their spreads are *our guess*.
"""

import dataclasses

import numpy as np
from numpy.typing import NDArray

from coachlib.coaching.simulation.what_if import joined_releases
from coachlib.study.hidden_lane.hidden_bowler import N_ERRORS, HiddenBowler, as_said
from coachlib.study.hidden_lane.hidden_law import Floats, HiddenLaw, Surface, hidden_surface
from coachlib.study.hidden_lane.hidden_oil import passes_over
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.lane import FIRST_BOARD, LAST_BOARD, POCKET_BOARD
from coachlib.world.line import Line

USUAL_BALL = Ball(name="usual")
SAME_SIDE_FRAC = 0.8
N_PATHS = 16
"""Balls thrown to know where one of them rolls."""

_FEET = (14.0, 30.0)
_AIMS_BOARDS = np.arange(-10.0, 0.5, 0.5)


@dataclasses.dataclass(frozen=True)
class Other:
    """One of them: who, on which stance, and whether on the other side of the lane."""

    bowler: HiddenBowler
    feet_board: float
    is_across: bool


def drawn_others(rng: np.random.Generator, n_others: int) -> tuple[Other, ...]:
    """Return bowlers drawn at random."""
    return tuple(_drawn(rng) for _ in range(n_others))


def passes_of_others(others: tuple[Other, ...], film_um: Floats, law: HiddenLaw) -> Floats:
    """Return how often they pass over each cell when each throws one ball, shape (120, 39).

    Each aims anew, at the pocket, on the film as it is, in the own frame of the one who practises. [µm]
    """
    passes = np.zeros_like(film_um)
    for is_across in (False, True):
        there = [other for other in others if other.is_across == is_across]
        if there:
            seen_um = film_um[:, ::-1] if is_across else film_um
            more = passes_over(_paths(there, hidden_surface(seen_um, USUAL_BALL, law)), len(there))
            passes += more[:, ::-1] if is_across else more
    return passes


def _drawn(rng: np.random.Generator) -> Other:
    speed, revs, rotation = rng.normal((17.5, 300.0, 45.0), (1.0, 60.0, 8.0))
    bowler = Bowler(
        speed_mph=float(np.clip(speed, 14.0, 21.0)),
        rev_rate_rpm=float(np.clip(revs, 120.0, 450.0)),
        axis_rotation_deg=float(np.clip(rotation, 20.0, 70.0)),
        axis_tilt_deg=12.0,
    )
    return Other(as_said(bowler), float(rng.uniform(*_FEET)), bool(rng.random() > SAME_SIDE_FRAC))


def _paths(others: list[Other], surface: Surface) -> NDArray[np.floating]:
    """Return the paths of these bowlers' balls, shape (61, n_others * 16) [board]."""
    errors = np.zeros((N_PATHS, N_ERRORS))
    errors[:, :6] = np.random.default_rng(0).standard_normal((N_PATHS, 6))
    pairs = zip(others, _lines(others, surface), strict=True)
    thrown = joined_releases([other.bowler.releases([line], errors) for other, line in pairs])
    return surface.roll(thrown, USUAL_BALL, keep_path=True).path_board


def _lines(others: list[Other], surface: Surface) -> list[Line]:
    """Return each one's line from their stance that meets the pocket best with no error."""
    aims, zero = [], np.zeros((1, N_ERRORS))
    for other in others:
        laydown = other.feet_board - other.bowler.bowler.laydown_offset_boards
        targets = np.clip(laydown + _AIMS_BOARDS, FIRST_BOARD, LAST_BOARD).tolist()
        aims.append([Line(other.feet_board, target) for target in targets])
    pairs = zip(others, aims, strict=True)
    thrown = joined_releases([other.bowler.releases(lines, zero) for other, lines in pairs])
    arrival = np.nan_to_num(surface.roll(thrown, USUAL_BALL).arrival_board).reshape(len(others), -1)
    best = np.abs(arrival - POCKET_BOARD).argmin(axis=1)
    return [lines[int(number)] for lines, number in zip(aims, best, strict=True)]
