"""Usual shapes of oil for a lane known by length and kind; ramps by the arithmetic of their definition."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.oil_shape import ramp_pattern, with_typical_film


@pytest.mark.parametrize("kind", ["house", "flat"])
@pytest.mark.parametrize("length_ft", [32.0, 40.5, 47.0])
def test_volume_length_and_sides(kind, length_ft):
    pattern = with_typical_film(cl.OilPattern("x", length_ft, kind), 24.0)
    film = pattern.film_array_um
    assert pattern.volume_ml == pytest.approx(24.0)
    assert (film == film[:, ::-1]).all()
    oiled_ft = pattern.step_ft * sum(row.any() for row in film)
    assert length_ft <= oiled_ft <= length_ft + 1.0
    assert film[0, 19] > film[-6, 19]


def test_house_is_steeper_than_flat():
    house, flat = (with_typical_film(cl.OilPattern("x", 40.0, kind)) for kind in ("house", "flat"))
    assert house.ratio_middle > 3 * flat.ratio_middle


def test_a_film_that_is_there_stays():
    house = cl.load_pattern("house_41")
    assert with_typical_film(house) is house


@pytest.mark.parametrize(
    ("kind", "volume_ml", "text"),
    [
        ("other", 25.0, "kind is 'other' and the pattern has no film; expected 'house' or 'flat'"),
        ("house", 0.025, "volume_ml is 0.025; expected 1 to 60 mL"),
    ],
)
def test_other_kinds_and_a_volume_in_the_wrong_unit_are_refused(kind, volume_ml, text):
    with pytest.raises(cl.InputError, match=text):
        with_typical_film(cl.OilPattern("x", 40.0, kind), volume_ml)


def test_ratio_one_is_the_same_film_on_every_board():
    film = ramp_pattern(1.0).film_array_um
    assert np.ptp(film, axis=1).max() == 0.0


@pytest.mark.parametrize("ratio", [2.0, 10.0])
@pytest.mark.parametrize("ramp_boards", [1.0, 6.0, 14.0])
def test_inside_over_outside_is_the_ratio(ratio, ramp_boards):
    row = ramp_pattern(ratio, ramp_boards).film_array_um[20]
    assert row[19] / row[0] == pytest.approx(ratio, rel=1e-9)
    assert list(row) == pytest.approx(list(row[::-1]))


@pytest.mark.parametrize("ramp_boards", [4.0, 8.0, 12.0])
def test_the_ramp_is_as_wide_as_asked_and_its_middle_where_asked(ramp_boards):
    pattern = ramp_pattern(5.0, ramp_boards, middle_board=10.0)
    assert pattern.ramp_boards() == pytest.approx(ramp_boards, rel=0.15)  # whole boards, see OilPattern
    row = pattern.film_array_um[10]
    assert row[9] == pytest.approx(0.5 * (row[0] + row[19]))


def test_volume_and_length_are_as_asked():
    pattern = ramp_pattern(4.0, length_ft=39.0, volume_ml=22.0)
    assert pattern.volume_ml == pytest.approx(22.0)
    assert (pattern.length_ft, len(pattern.film_um) * pattern.step_ft) == (39.0, 39.0)


@pytest.mark.parametrize(
    ("arguments", "text"),
    [
        ({"ratio": 0.5}, "ratio is 0.5; expected 1 to 100"),
        ({"ratio": 3.0, "ramp_boards": 0.0}, "ramp_boards is 0.0; expected 0.5 to 18 boards"),
        ({"ratio": 3.0, "middle_board": 30.0}, "middle_board is 30.0; expected 3 to 18 boards"),
        ({"ratio": 3.0, "volume_ml": float("nan")}, "volume_ml is nan; expected 1 to 60 mL"),
        ({"ratio": 3.0, "length_ft": 70.0}, "length_ft is 70.0; expected 20 to 55 ft"),
    ],
)
def test_wrong_values_are_named(arguments, text):
    with pytest.raises(cl.InputError, match=text):
        ramp_pattern(**arguments)
