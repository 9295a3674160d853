"""Made-up patterns with one thing changed at a time: arithmetic of their definition."""

import numpy as np
import pytest

import coachlib as cl
from coachlib.world.oil_shape import ramp_pattern


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
