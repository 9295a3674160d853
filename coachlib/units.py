"""The only conversion factors of the library.

People's units (boards, feet, mph, rpm, degrees, pounds) stand at the border, SI inside the physics. Each
factor is exact by definition of the international inch, pound and mile, except the board, which is the lane's
width of 41.5 in divided by its 39 boards.
"""

import math

LANE_WIDTH_IN = 41.5  # USBC lane specification, quoted second-hand: 41 1/2 in +/- 1/2 in
N_BOARDS = 39
BOARD_IN = LANE_WIDTH_IN / N_BOARDS
IN_M = 0.0254
FT_M = 0.3048
MILE_M = 1609.344
LB_KG = 0.45359237


def boards_to_in(width_boards: float) -> float:
    """Return a width in inches."""
    return width_boards * BOARD_IN


def in_to_boards(width_in: float) -> float:
    """Return a width in boards."""
    return width_in / BOARD_IN


def ft_to_boards(length_ft: float) -> float:
    """Return a length along the lane counted in board widths, for angles against the boards."""
    return length_ft * 12.0 / BOARD_IN


def mph_to_mps(speed_mph: float) -> float:
    """Return a speed in metres a second."""
    return speed_mph * MILE_M / 3600.0


def mps_to_mph(speed_mps: float) -> float:
    """Return a speed in miles an hour."""
    return speed_mps * 3600.0 / MILE_M


def kmh_to_mph(speed_kmh: float) -> float:
    """Return a speed in miles an hour."""
    return speed_kmh * 1000.0 / MILE_M


def mph_to_kmh(speed_mph: float) -> float:
    """Return a speed in kilometres an hour."""
    return speed_mph * MILE_M / 1000.0


def kg_to_lb(mass_kg: float) -> float:
    """Return a mass in pounds."""
    return mass_kg / LB_KG


def rpm_to_radps(rate_rpm: float) -> float:
    """Return a rotation rate in radians a second."""
    return rate_rpm * 2.0 * math.pi / 60.0
