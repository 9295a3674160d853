"""One absolute value per conversion, each way; a conversion is exact or wrong."""

import pytest

from coachlib import units

EXACT = pytest.approx
PAIRS = [
    # international inch, foot, mile and pound: exact by the agreement of 1 July 1959
    (units.ft_to_m, units.m_to_ft, 60.0, 18.288),
    (units.mph_to_mps, units.mps_to_mph, 17.9, 8.002016),
    (units.mph_to_kmh, units.kmh_to_mph, 17.0, 27.358848),
    (units.lb_to_kg, units.kg_to_lb, 16.0, 7.25747792),
    (units.rpm_to_radps, units.radps_to_rpm, 300.0, 31.41592653589793),
    # 39 boards on 41.5 in: USBC lane specification, quoted second-hand
    (units.boards_to_in, units.in_to_boards, 39.0, 41.5),
]


@pytest.mark.parametrize(("there", "back", "given", "expected"), PAIRS)
def test_conversion_both_ways(there, back, given, expected):
    assert there(given) == EXACT(expected, rel=1e-9)
    assert back(expected) == EXACT(given, rel=1e-9)


def test_board_widths_along_the_lane():
    assert units.ft_to_boards(41.5 / 12) == EXACT(39.0, rel=1e-12)
