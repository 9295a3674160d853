"""Oil patterns: measures, hands, and what is refused."""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.oil import thinned

BOARDS = np.arange(1, 40)


def even(film_um=1.0, length_ft=40, **more):
    return cl.OilPattern.from_film(np.full((length_ft, 39), film_um), **more)


def test_known_by_length_and_kind_alone():
    pattern = cl.OilPattern("x", 41.0, "flat")
    assert not pattern.has_film
    assert pattern.rule_of_31_board == 10.0
    with pytest.raises(cl.InputError, match="no film"):
        _ = pattern.volume_ml


@pytest.mark.parametrize(
    ("volume_ml", "length_ft", "film_um"), [(25, 40, 1.95), (27, 42, 2.00), (27, 48, 1.75)]
)
def test_volume(volume_ml, length_ft, film_um):
    # derived: 25 mL on 40 ft is a mean of 1.95 um over the whole width, 27 mL on 42 ft 2.00 um
    assert even(1.0, length_ft).volume_ml == pytest.approx(volume_ml / film_um, rel=5e-3)


def test_both_ratios():
    across = np.select([BOARDS <= 10, BOARDS < 30], [0.5, 2.0], 0.5)
    across[2:7] = across[32:37] = 0.25
    pattern = cl.OilPattern.from_film(np.tile(across, (40, 1)))
    assert pattern.ratio_middle == pytest.approx(8.0)
    assert pattern.ratio_second_arrows == pytest.approx(2.0 / 0.375)
    only_middle = np.tile(np.where(abs(BOARDS - 20) < 5, 1.0, 0.0), (40, 1))
    assert cl.OilPattern.from_film(only_middle).ratio_middle == np.inf
    assert even().ratio_middle == even().ratio_second_arrows == pytest.approx(1.0)


def test_ramp():
    slope = np.tile(np.interp(BOARDS, (6, 16, 30, 36), (0.5, 2.0, 2.0, 0.5)), (40, 1))
    pattern = cl.OilPattern.from_film(slope)
    assert pattern.ramp_boards("right") == pytest.approx(10.0)
    assert pattern.ramp_boards("left") == pytest.approx(6.0)
    assert even().ramp_boards() == 0.0


def test_hands_see_it_from_their_own_side():
    film = np.tile(np.arange(39.0) / 10, (30, 1))
    pattern = cl.OilPattern.from_film(film)
    np.testing.assert_array_equal(pattern.own_film_um("right"), film)
    np.testing.assert_array_equal(pattern.own_film_um("left"), film[:, ::-1])
    assert pattern.with_own_film(pattern.own_film_um("left"), "left", pattern.name) == pattern


def test_from_film():
    film = np.zeros((50, 39))
    film[:42] = 1.0
    pattern = cl.OilPattern.from_film(film, step_ft=1.0, name="ours")
    assert (pattern.name, pattern.length_ft, pattern.kind) == ("ours", 42.0, "other")
    assert len(pattern.film_um) == 50
    assert cl.OilPattern.from_film(film[:42], step_ft=0.5).length_ft == 21.0


@pytest.mark.parametrize(
    ("film", "message"),
    [
        (np.ones((40, 38)), r"film_um has shape \(40, 38\); expected rows of 39 numbers"),
        (np.ones(39), r"film_um has shape \(39,\)"),
        ("thick", "film_um has shape"),
        ([[1.0] * 39, [1.0] * 38], "film_um has shape"),
        (np.zeros((40, 39)), "film_um holds no film at all"),
        (
            np.where(np.arange(40)[:, None] == 3, -1.0, np.ones(39)),
            r"film_um, row 4, board 1: is -1; expected 0 to 30 um",
        ),
        (np.full((40, 39), np.nan), "film_um, row 1, board 1: is nan"),
        (np.full((40, 39), 31.0), "is 31; expected 0 to 30 um. Measure again; if it is mL"),
        (np.ones((61, 39)), r"film_um is 61 ft long; expected at most 60 ft"),
        (np.ones((10, 39)), r"length_ft is 10.0; expected 20 to 55 ft"),
    ],
)
def test_film_that_is_refused(film, message):
    with pytest.raises(cl.InputError, match=message):
        cl.OilPattern.from_film(film)


def test_other_numbers_that_are_refused():
    with pytest.raises(cl.InputError, match=r"step_ft is 0.01; expected 0.25 to 10 ft"):
        even(step_ft=0.01)
    with pytest.raises(cl.InputError, match="factor is -1; expected 0 to 5"):
        thinned(even(), -1)


def test_film_is_kept_as_given_and_cannot_be_changed():
    film = np.ones((40, 39))
    pattern = cl.OilPattern.from_film(film)
    film[0, 0] = 9.0
    assert pattern.film_array_um[0, 0] == 1.0
    with pytest.raises(ValueError, match="read-only"):
        pattern.film_array_um[0, 0] = 9.0


def test_equal_by_their_film():
    assert even() == even()
    assert even() != even(1.5)
    assert hash(even()) == hash(even())
    assert dataclasses.replace(even(), name="other").film_um == even().film_um


def test_thinned():
    assert thinned(even(2.0), 0.75) == even(1.5)
