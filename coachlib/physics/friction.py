"""How much the lane holds the ball: one law of film and surface, and what a ball brings to it.

Coulomb friction whose coefficient falls as the film under the ball grows against the roughness that has to
reach through it::

    coef   = wet + (dry * grip - wet) / (1 + (film / half film)**2)
    half film = half_lambda * sqrt((ball roughness * bite)**2 + lane roughness**2)

The oil a ball carries in its own track counts as film too, as far as the track is not fresh.

Every number here was chosen so that published *bands* hold (speed loss 2 to 4 mph, +1 mph is 1 to 3 boards,
the hook begins near the oil's end, a house pattern forgives two boards and a flat one hardly half a board);
none was measured on a lane, because no open measurement of ball paths was found. One measured bowler would
beat every default.

References
----------
.. [1] Coulomb friction preferred over viscous drag by experiment: UC Davis sports biomechanics laboratory,
   "Bowling dynamics: ball dynamics".
.. [2] Step model 0.04 in the oil, 0.20 past it, quoted second-hand from Frohlich, Am. J. Phys. 72 (2004)
   1170; federation limit on the test rig 0.32. The defaults lie between.
"""

import dataclasses
import math

import numpy as np
from numpy.typing import NDArray

from coachlib.world.ball import Ball, Cover

STANDARD_GRAVITY_MPS2 = 9.80665
_UIN_UM = 0.0254

_PAD_GRIT = (500.0, 1000.0, 2000.0, 3000.0, 4000.0)
_PAD_ROUGHNESS_UIN = (35.0, 25.0, 15.0, 11.0, 8.0)  # common practice, no published table found
POLISHED_UIN = 5.0  # common practice: 4 to 6

_GRIP: dict[Cover, float] = {"plastic": 0.55, "urethane": 0.75, "pearl": 1.04, "hybrid": 1.0, "solid": 0.97}
_BITE: dict[Cover, float] = {"plastic": 0.6, "urethane": 1.6, "pearl": 0.8, "hybrid": 1.0, "solid": 1.25}


@dataclasses.dataclass(frozen=True)
class FrictionLaw:
    """The parameters of the law, each with its grade.

    Parameters
    ----------
    dry_coef : float
        Ball on bare lane. *Calibrated* on bands; 0.20 passes too, with lines 3 to 4 boards farther out.
    wet_coef : float
        Film carries the ball. *Calibrated*.
    half_lambda : float
        Film over roughness at which half of the dry friction is left. *Calibrated*; 0.5 to 1.0 all pass.
    lane_roughness_um : float
        Roughness of the lane itself; keeps polish from floating for ever. *Our guess*. [µm]
    track_frac : float
        Share of the film met that a track which never changes carries along. *Our guess*.
    wipe_ft : float
        Distance after which the oil in the track follows the oil met. *Our guess*. [ft]
    flare_scale_in : float
        Differential at which 63 % of the contact is fresh surface. *Our guess*. [in]
    rolling_coef : float
        Rolling resistance. *Our guess*; twice as much changes no arrival by 0.01 board.
    """

    dry_coef: float = 0.24
    wet_coef: float = 0.010
    half_lambda: float = 0.7
    lane_roughness_um: float = 0.20
    track_frac: float = 0.5
    wipe_ft: float = 4.0
    flare_scale_in: float = 0.03
    rolling_coef: float = 0.003


DEFAULT_LAW = FrictionLaw()


@dataclasses.dataclass(frozen=True)
class Grip:
    """The law written out for one ball: what the kernel needs.

    Parameters
    ----------
    dry_coef, wet_coef : float or ndarray, shape (n_shots,)
        Friction without film and with much film; one for all shots, or one each.
    rolling_coef : float
        Friction when rolling.
    half_film_um : float
        Film at which half of the difference between dry and wet is left. [µm]
    track_frac : float
        Share of the film in the ball's own track that counts as film under it.
    wipe_ft : float
        How slowly that track follows the film met. [ft]
    """

    dry_coef: float | NDArray[np.float64]
    wet_coef: float | NDArray[np.float64]
    rolling_coef: float
    half_film_um: float
    track_frac: float = 0.0
    wipe_ft: float = 4.0


def grip_of(ball: Ball, law: FrictionLaw = DEFAULT_LAW) -> Grip:
    """Return the friction law for one ball, of which cover, surface and flare count."""
    rough_um = math.hypot(roughness_um(ball) * _BITE[ball.cover], law.lane_roughness_um)
    return Grip(
        dry_coef=law.dry_coef * _GRIP[ball.cover],
        wet_coef=law.wet_coef,
        rolling_coef=law.rolling_coef,
        half_film_um=law.half_lambda * rough_um,
        track_frac=(1.0 - fresh_frac(ball, law)) * law.track_frac,
        wipe_ft=law.wipe_ft,
    )


def roughness_um(ball: Ball) -> float:
    """Return the ball's surface roughness Ra: as measured, or as usual for the last pad [µm].

    The pad is a poor witness: a 500 pad by hand on a ball at 3000 was scanned at 1651 on average (federation
    blog "Hot off the press", issue 6). Grade of the table: common practice, no source.
    """
    if ball.roughness_um is not None:
        return ball.roughness_um
    if ball.is_polished:
        return POLISHED_UIN * _UIN_UM
    log_uin = np.interp(np.log(ball.grit), np.log(_PAD_GRIT), np.log(_PAD_ROUGHNESS_UIN))
    return float(np.exp(log_uin)) * _UIN_UM


def fresh_frac(ball: Ball, law: FrictionLaw = DEFAULT_LAW) -> float:
    """Return which share of the contact is fresh surface, because the track wanders (our guess)."""
    spread_in = ball.differential_in + ball.intermediate_in
    return 1.0 - math.exp(-spread_in * abs(math.sin(2.0 * ball.pin_angle_rad)) / law.flare_scale_in)
