"""What balls do to the oil: they lift film where they roll and lay part of it down again farther on.

Each pass takes a share of the film under the ball. Oil lifted by surface that does not touch again (a
flaring ball shows the lane fresh surface) leaves the lane; oil in a track that rolls over itself is laid
down again within some feet, also past the oil's end. So a plastic ball carries down and a strongly flaring
one only strips.

It gives the mean drift, not what one lane does. Not modelled: oil that creeps sideways or dries, absorption
into the cover over games, the machine's own unevenness.

References
----------
.. [1] Direction: older covers moved oil down the lane, flare reduced it; T. Thompson, "Breakdown and
   carrydown - then and now". No measured share was found; the numbers are our guess, set so that three
   games of four bowlers thin the busiest strip by about half and bring the same ball in about a board higher.
"""

import dataclasses
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from coachlib.errors import checked_number
from coachlib.interpolation import between_rows
from coachlib.physics.friction import fresh_frac, roughness_um
from coachlib.physics.motion import simulate
from coachlib.physics.scatter import scattered
from coachlib.units import N_BOARDS
from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler
from coachlib.world.hand import Hand
from coachlib.world.lane import HEAD_PIN_FT, TARGET_FT
from coachlib.world.oil import OilPattern
from coachlib.world.path import Path
from coachlib.world.release import release_on_line
from coachlib.world.usual import as_usual

N_PATHS = 64
ROUND_BALLS = 6
"""So many balls are thrown between two looks at the changed lane."""

BALLS_A_GAME = 9
"""Balls that one bowler throws in a game on each lane of a pair (about 17 in all; common practice)."""

_STRIP_BOARDS = (-0.8, 0.0, 0.8)
"""A pass wears a strip as wide as the ball's foot and as uneven as its laydown: three boards (our guess)."""


@dataclasses.dataclass(frozen=True)
class WearLaw:
    """The parameters, all *our guess*.

    Parameters
    ----------
    lift_frac : float
        Share of the film under the ball that a hybrid cover at 2000 grit takes in one pass.
    lift_roughness_um : float
        Its roughness; twice the roughness lifts twice as much, up to `most_lift_frac`. [µm]
    most_lift_frac : float
        No pass takes more.
    carry_ft : float
        Distance within which a track lays down 63 % of what it carries. [ft]
    reactive_carry_frac : float
        Share of the oil in the track that pearl, hybrid and solid covers do not drink.
    """

    lift_frac: float = 0.03
    lift_roughness_um: float = 0.381
    most_lift_frac: float = 0.12
    carry_ft: float = 10.0
    reactive_carry_frac: float = 0.3


DEFAULT_WEAR = WearLaw()


@dataclasses.dataclass(frozen=True)
class Thrower:
    """Someone who plays on the lane: who, with which ball, on which line.

    Parameters
    ----------
    bowler : Bowler
        Hand and spreads count.
    ball : Ball
        Cover, surface and flare count.
    laydown_board, target_board : float
        Own frame of this bowler. [board]
    target_ft : float, default 15
        Distance of the target. [ft]
    """

    bowler: Bowler
    ball: Ball
    laydown_board: float
    target_board: float
    target_ft: float = TARGET_FT


def wear_after_games(
    pattern: OilPattern,
    throwers: Sequence[Thrower],
    n_games: float,
    seed: int = 0,
    law: WearLaw = DEFAULT_WEAR,
) -> OilPattern:
    """Return a lane after some games of a few bowlers who stay on their lines.

    Parameters
    ----------
    pattern : OilPattern
        With film.
    throwers : sequence of Thrower
        Who plays on this lane.
    n_games : float
        Games on the pair; each bowler throws about 9 balls a game on each lane.
    seed : int
        For the release errors.
    law : WearLaw, optional
        The parameters.

    Returns
    -------
    OilPattern
        Same length and kind; film up to the pins, where some was carried.
    """
    n_games = checked_number("n_games", n_games, 0, 30, "games")
    n_balls = round(n_games * BALLS_A_GAME)
    for first in range(0, n_balls, ROUND_BALLS):
        for number, thrower in enumerate(throwers):
            pattern = wear_after(pattern, thrower, min(n_balls - first, ROUND_BALLS), seed + number, law)
    return pattern


def wear_after(
    pattern: OilPattern, thrower: Thrower, n_balls: float, seed: int = 0, law: WearLaw = DEFAULT_WEAR
) -> OilPattern:
    """Return a lane after some balls of one bowler on one line.

    More than a handful of `n_balls` at once do not see how the lane changed under them; the rest is as in
    :func:`wear_after_games`.
    """
    bowler, ball = as_usual(thrower.bowler, thrower.ball), thrower.ball
    meant = release_on_line(bowler, thrower.laydown_board, thrower.target_board, thrower.target_ft)
    balls = scattered(meant, bowler, N_PATHS, seed, thrower.target_ft)
    return worn(pattern, simulate(balls, ball, pattern, bowler.hand), ball, n_balls, bowler.hand, law)


def worn(
    pattern: OilPattern,
    path: Path,
    ball: Ball,
    n_balls: float,
    hand: Hand = "right",
    law: WearLaw = DEFAULT_WEAR,
) -> OilPattern:
    """Return a lane after balls rolled on the given paths.

    Parameters
    ----------
    pattern : OilPattern
        With film.
    path : Path
        Where they rolled, boards kept, in the own frame of `hand`; `n_balls` are shared among its shots.
    ball : Ball
        Cover, surface and flare count.
    n_balls, hand, law
        How many in all, whose they are, and the parameters.
    """
    n_balls = checked_number("n_balls", n_balls, 0, 1000, "balls")
    laid = pattern.own_film_um(hand)
    film_um = np.zeros((int(HEAD_PIN_FT / pattern.step_ft), N_BOARDS))
    film_um[: len(laid)] = laid
    middle_ft = (np.arange(len(film_um)) + 0.5) * pattern.step_ft
    middle = between_rows(path.path_board, middle_ft)
    boards = np.hstack([middle + aside for aside in _STRIP_BOARDS])
    lift = min(law.lift_frac * roughness_um(ball) / law.lift_roughness_um, law.most_lift_frac)
    drunk = 0.0 if ball.cover in ("plastic", "urethane") else 1.0 - law.reactive_carry_frac
    carries = (1.0 - fresh_frac(ball)) * (1.0 - drunk)
    stays = float(1.0 - np.exp(-pattern.step_ft / law.carry_ft))
    _roll(film_um, boards, n_balls, lift, carries, stays)
    name = pattern.name if pattern.name.endswith(" worn") else f"{pattern.name[:54]} worn"
    return pattern.with_own_film(film_um, hand, name)


def _roll(
    film_um: NDArray[np.float64],
    boards: NDArray[np.float64],
    n_balls: float,
    lift_frac: float,
    carries_frac: float,
    stays_frac: float,
) -> NDArray[np.float64]:
    """Change `film_um` in place, row after row; return what each path still carries [µm boards]."""
    each = n_balls / boards.shape[1]
    carried = np.zeros(boards.shape[1])
    for row, place in zip(film_um, boards, strict=True):
        on_lane = np.flatnonzero(np.isfinite(place))
        below = np.clip(place[on_lane].astype(int), 1, N_BOARDS - 1) - 1
        above_share = np.clip(place[on_lane] - 1.0 - below, 0.0, 1.0)
        cells = np.concatenate([below, below + 1])
        passes = each * np.concatenate([1.0 - above_share, above_share])
        total = np.bincount(cells, passes, minlength=N_BOARDS)
        lifted = row * (1.0 - (1.0 - lift_frac) ** total)
        row -= lifted
        per_pass = np.divide(lifted, total, out=np.zeros(N_BOARDS), where=total > 0.0)
        taken = (passes * per_pass[cells]).reshape(2, -1).sum(axis=0)
        carried[on_lane] += taken * carries_frac
        laid = carried[on_lane] * stays_frac
        carried[on_lane] -= laid
        row += np.bincount(cells, np.tile(laid, 2) * passes / max(each, 1e-300), minlength=N_BOARDS)
    return carried
