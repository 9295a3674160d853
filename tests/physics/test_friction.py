"""The friction law: its ends, and what a ball brings to it."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.physics.friction import DEFAULT_LAW, FrictionLaw, fresh_frac, grip_of, roughness_um
from tests.marching import friction_coef

BALL = cl.load_ball("hybrid_2000")


def with_(**changes):
    return dataclasses.replace(BALL, **changes)


def test_ends_and_middle_of_the_law():
    # limiting cases: bare lane, drowned lane, and the film at which half is left
    half_um = grip_of(BALL).half_film_um
    dry, middle, wet = friction_coef(np.array([0.0, half_um, 1e6]), BALL)
    assert (dry, wet) == (pytest.approx(0.24), pytest.approx(0.010, abs=1e-9))
    assert middle == pytest.approx((0.24 + 0.010) / 2)


def test_friction_falls_with_film():
    assert (np.diff(friction_coef(np.linspace(0.0, 5.0, 50), BALL)) < 0).all()


def test_dry_friction_stays_below_the_federation_s_rig_limit():
    # USBC specification as quoted second-hand: at most 0.32 on the test rig
    assert max(friction_coef(np.zeros(1), cl.load_ball(name))[0] for name in cl.ball_names()) < 0.32


def test_covers_hold_the_dry_lane_in_the_trade_s_order():
    # common practice, no source: plastic least, then urethane, then the reactive ones
    holds = [grip_of(with_(cover=cover)).dry_coef for cover in ("plastic", "urethane", "solid")]
    assert holds[0] < holds[1] < holds[2]


def test_duller_reaches_through_more_film():
    films = [grip_of(with_(grit=grit)).half_film_um for grit in (500.0, 1000.0, 2000.0, 4000.0)]
    assert films == sorted(films, reverse=True)
    assert grip_of(with_(is_polished=True)).half_film_um < films[-1]


@pytest.mark.parametrize(("grit", "uin"), [(500, 35), (1000, 25), (2000, 15), (3000, 11), (4000, 8)])
def test_roughness_of_usual_pads(grit, uin):
    assert roughness_um(with_(grit=grit)) == pytest.approx(uin * 0.0254)


def test_roughness_between_pads_and_as_measured():
    assert 15 * 0.0254 < roughness_um(with_(grit=1500)) < 25 * 0.0254
    assert roughness_um(with_(roughness_um=0.5, is_polished=True)) == 0.5


def test_no_flare_no_fresh_surface():
    assert fresh_frac(with_(differential_in=0.0)) == 0.0
    assert fresh_frac(with_(pin_distance_in=0.0)) == 0.0
    assert fresh_frac(with_(pin_distance_in=6.75)) == pytest.approx(0.0, abs=1e-12)
    assert fresh_frac(BALL) > fresh_frac(with_(pin_distance_in=5.0)) > 0.0


def test_fresh_surface_carries_no_oil():
    flares = grip_of(BALL).track_frac
    assert flares < grip_of(with_(differential_in=0.01)).track_frac <= DEFAULT_LAW.track_frac


def test_law_is_handed_through():
    grip = grip_of(BALL, FrictionLaw(dry_coef=0.2, wet_coef=0.02, rolling_coef=0.001, wipe_ft=2.0))
    assert (grip.dry_coef, grip.wet_coef, grip.rolling_coef, grip.wipe_ft) == (0.2, 0.02, 0.001, 2.0)
