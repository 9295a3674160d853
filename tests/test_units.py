"""One absolute value per conversion, each way that is used; a conversion is exact or wrong."""

import pytest

from coachlib import units

EXACT_VALUES = [
    # international inch, foot, mile and pound: exact by the agreement of 1 July 1959
    (lambda length_ft: length_ft * units.FT_M, 60.0, 18.288),
    (units.mph_to_mps, 17.9, 8.002016),
    (units.mps_to_mph, 8.002016, 17.9),
    (units.mph_to_kmh, 17.0, 27.358848),
    (units.kmh_to_mph, 27.358848, 17.0),
    (units.kg_to_lb, 7.25747792, 16.0),
    (units.rpm_to_radps, 300.0, 31.41592653589793),
    # 39 boards on 41.5 in: USBC lane specification, quoted second-hand
    (units.boards_to_in, 39.0, 41.5),
    (units.in_to_boards, 41.5, 39.0),
    (units.ft_to_boards, 41.5 / 12, 39.0),
]


@pytest.mark.parametrize(("convert", "given", "expected"), EXACT_VALUES)
def test_conversion(convert, given, expected):
    assert convert(given) == pytest.approx(expected, rel=1e-12)
