"""The friction of a hidden lane: forms of law that the coach's model does not know.

The model's law falls with the square of the film (:mod:`coachlib.physics.friction`). A hidden lane follows
one of three others, drawn by its seed, each written over ``x``, film through half film:

``power``    ``1 / (1 + x**steepness)``, never with the square
``mixed``    ``1 / (1 + b x)**steepness``, as in mixed lubrication, with a long tail in much oil
``falling``  ``exp(-x**steepness ln 2)``, and a wet friction that rises with the film, as on a Stribeck curve

All start at the dry friction and are halved at the half film. Half films were fitted so that seven bowlers
on two patterns arrive on average where the model's law brings them
(``python tests/benchmarks/season_law.py`` fits them again). So a hidden lane is another law, not another
sport. Covers and pads count as in the model: what a ball brings along is not hidden. Every number is *our
guess*.
"""

import dataclasses
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from coachlib.physics.friction import FrictionLaw, Grip, grip_of
from coachlib.physics.kernel import march
from coachlib.physics.kinematics import Ground
from coachlib.physics.motion import BOARD_M, launch_of, path_of
from coachlib.units import FT_M
from coachlib.world.ball import Ball
from coachlib.world.lane import HEAD_PIN_FT
from coachlib.world.path import Path
from coachlib.world.release import Release

Form = Literal["power", "mixed", "falling"]
Floats = NDArray[np.float64]

N_ROWS = 120
ROW_FT = HEAD_PIN_FT / N_ROWS
"""Rows of a hidden film, from the foul line to the head pin [ft]."""

CARRIER = Grip(dry_coef=0.6, wet_coef=0.0, rolling_coef=0.003, half_film_um=1.0)
"""The march knows one form of law. It is handed the film on which that form has the wanted friction."""

STEEPNESS: dict[Form, tuple[float, ...]] = {
    "power": (1.5, 1.7, 2.5, 3.0),
    "mixed": (1.8, 2.2, 2.6, 3.0),
    "falling": (0.8, 0.95, 1.1, 1.3),
}
HALF_LAMBDA: dict[Form, tuple[float, ...]] = {
    "power": (0.357, 0.442, 0.681, 0.783),
    "mixed": (0.407, 0.461, 0.500, 0.530),
    "falling": (0.354, 0.455, 0.528, 0.609),
}
"""Film over roughness at which half of the dry friction is left, fitted for each steepness."""

WET_COEF: dict[Form, float] = {"power": 0.010, "mixed": 0.006, "falling": 0.010}
RISE_COEF_PER_UM = 0.001
"""How much a falling law's wet friction rises with the film (our guess) [1/µm]."""

_WET_SPREAD, _DRY_SPREAD = 0.15, 0.06
_DRY_COEF = 0.24


@dataclasses.dataclass(frozen=True)
class HiddenLaw:
    """One lane's law.

    Parameters
    ----------
    form : {"power", "mixed", "falling"}
        See the module.
    steepness : float
        The exponent.
    half_lambda : float
        Film over roughness at which half of the dry friction is left.
    dry_coef, wet_coef : float
        Friction without film and with much of it.
    """

    form: Form
    steepness: float
    half_lambda: float
    dry_coef: float = _DRY_COEF
    wet_coef: float = 0.010

    def coef(self, film_um: Floats, ball: Ball) -> Floats:
        """Return the friction of a ball over a film, same shape, a pure number."""
        grip = grip_of(ball, FrictionLaw(self.dry_coef, self.wet_coef, self.half_lambda))
        over, rise = film_um / grip.half_film_um, 0.0 * film_um
        if self.form == "power":
            left = 1.0 / (1.0 + over**self.steepness)
        elif self.form == "mixed":
            left = (1.0 + (2.0 ** (1.0 / self.steepness) - 1.0) * over) ** -self.steepness
        else:
            left, rise = 0.5 ** (over**self.steepness), RISE_COEF_PER_UM * film_um
        return np.asarray(grip.wet_coef + rise + (grip.dry_coef - grip.wet_coef) * left)


def drawn_law(rng: np.random.Generator) -> HiddenLaw:
    """Return a law drawn at random."""
    form: Form = ("power", "mixed", "falling")[int(rng.integers(3))]
    which = int(rng.integers(len(STEEPNESS[form])))
    wet, dry = np.exp(rng.normal(0.0, (_WET_SPREAD, _DRY_SPREAD)))
    return HiddenLaw(
        form=form,
        steepness=STEEPNESS[form][which],
        half_lambda=HALF_LAMBDA[form][which],
        dry_coef=_DRY_COEF * float(dry),
        wet_coef=WET_COEF[form] * float(wet),
    )


@dataclasses.dataclass(frozen=True)
class Surface:
    """What a ball rolls on: the film as the march reads it, and the friction law that goes with it."""

    ground: Ground
    grip: Grip

    def roll(self, release: Release, ball: Ball, keep_path: bool = False) -> Path:
        """Return where balls go."""
        return path_of(release, march(launch_of(release, ball), self.ground, self.grip, 2 * keep_path))


def hidden_surface(film_um: Floats, ball: Ball, law: HiddenLaw) -> Surface:
    """Return what a ball rolls on over a film, shape (120, 39) in the own frame [µm]."""
    carried = np.sqrt(np.maximum(CARRIER.dry_coef / law.coef(film_um, ball) - 1.0, 0.0))
    return Surface(ground_under(carried), CARRIER)


def ground_under(film_um: Floats) -> Ground:
    """Return a film, shape (120, 39) in the own frame, as the march reads it."""
    edges_m = np.linspace(0.0, HEAD_PIN_FT, N_ROWS + 1) * FT_M
    return Ground(edges_m, np.hstack([film_um[:, :1], film_um, film_um[:, -1:]]), BOARD_M)
