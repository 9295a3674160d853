"""Usual shapes of oil for a lane known by its length and kind."""

import pytest

import coachlib as cl
from coachlib.world.oil_shape import with_typical_film


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


def test_of_other_kinds_nothing_is_known():
    with pytest.raises(
        cl.InputError, match="kind is 'other' and the pattern has no film; expected 'house' or 'flat'"
    ):
        with_typical_film(cl.OilPattern("x", 40.0, "other"))


def test_volume_in_the_wrong_unit():
    with pytest.raises(cl.InputError, match=r"volume_ml is 0.025; expected 1 to 60 mL"):
        with_typical_film(cl.OilPattern("x", 40.0), 0.025)
