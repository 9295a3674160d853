"""Throw racks: arrivals in, standing pins out."""

import dataclasses

import numpy as np
from numpy.typing import ArrayLike, NDArray

from coachlib.errors import checked_number
from coachlib.physics.pins.rack.contact import ACROSS, ALONG, AT, AXIS, MASS, N_COLUMNS, SPIN, VELOCITY
from coachlib.physics.pins.rack.floor import deck_of
from coachlib.physics.pins.rack.loop import ASLEEP, AWAKE, BALL, GONE, N_PINS, is_upright, run
from coachlib.physics.pins.rack.numbers import RackNumbers, law_table
from coachlib.physics.pins.rack.shape import part_table
from coachlib.units import BOARD_IN, FT_M, IN_M, LB_KG, mph_to_mps
from coachlib.world.array_field import checked_columns
from coachlib.world.lane import CENTRE_BOARD, HEAD_PIN_FT
from coachlib.world.pins import ALL_PINS, pin_board, pin_ft

STEP_MS = 0.025
_START_M = -0.35
_LIMIT_S = 3.0
_LB_PER_OZ = 1.0 / 16.0
_LIMITS = {
    "arrival_board": (0.0, 40.0, "boards", "Count at the head pin from the bowler's own side."),
    "entry_deg": (-15.0, 20.0, "deg", "Positive is towards the inside."),
    "speed_mph": (4.0, 35.0, "mph", "Give the speed at the pins."),
    "ball_weight_lb": (6.0, 16.0, "lb", "If this is kg, convert it with units.kg_to_lb."),
}


@dataclasses.dataclass(frozen=True)
class ThrownRacks:
    """What a batch of racks left.

    Parameters
    ----------
    standing : ndarray of bool, shape (n, 10)
        Pins 1 to 10 in the own frame; a pin that slid and still stands counts as standing.
    is_settled : ndarray of bool, shape (n,)
        False where something still moved at the time limit of 3 s.
    time_s : ndarray, shape (n,)
        When the rack was read. [s]
    """

    standing: NDArray[np.bool_]
    is_settled: NDArray[np.bool_]
    time_s: NDArray[np.float64]


def throw_racks(
    arrival_board: ArrayLike,
    entry_deg: ArrayLike,
    speed_mph: ArrayLike,
    ball_weight_lb: ArrayLike,
    *,
    seed: int = 0,
    first_index: int = 0,
    numbers: RackNumbers | None = None,
    step_ms: float = STEP_MS,
) -> ThrownRacks:
    """Simulate one rack for each arrival.

    Parameters
    ----------
    arrival_board, entry_deg, speed_mph, ball_weight_lb : array_like
        Where the ball's path crosses the head-pin plane, its angle there, speed at the pins and weight; of
        one shape or scalars. [board], [deg], [mph], [lb]
    seed, first_index : int
        Rack *i* of the batch scatters by ``(seed, first_index + i)``, so that a batch cut in pieces gives
        the same racks.
    numbers : RackNumbers, optional
        Other numbers than the recommended ones.
    step_ms : float
        Time step. [ms]

    Raises
    ------
    InputError
        If a value is off the lane or out of range.

    Notes
    -----
    Valid for: a ball in full roll. Assumes rigid bodies, one contact a pair of zones, no air. Not modelled:
    the sweep bar, worn coatings, a tilted lane, machine parts higher than the kickbacks. One rack is chaotic:
    the same seed gives the same racks on one machine, and only the same statistics on another.
    """
    arrivals, _ = checked_columns(_LIMITS, (arrival_board, entry_deg, speed_mph, ball_weight_lb))
    step_ms = checked_number("step_ms", step_ms, 0.001, 0.1, "ms", "0.025 is the step of the table.")
    numbers = numbers or RackNumbers()
    racks = [
        throw_rack(arrival, np.random.default_rng((seed, first_index + number)), numbers, step_ms)
        for number, arrival in enumerate(arrivals)
    ]
    standing, settled, times = zip(*racks, strict=True) if racks else ((), (), ())
    return ThrownRacks(
        np.array(standing, dtype=bool).reshape(-1, N_PINS),
        np.array(settled, dtype=bool),
        np.array(times, dtype=float),
    )


def throw_rack(
    arrival: NDArray[np.float64], rng: np.random.Generator, numbers: RackNumbers, step_ms: float
) -> tuple[NDArray[np.bool_], bool, float]:
    """Simulate one rack; return the pins standing, whether all came to rest, and when [s]."""
    bodies, laws = set_rack(arrival, rng, numbers)
    state = np.array([ASLEEP] * N_PINS + [AWAKE])
    cg_m = numbers.pin_cg_in * IN_M
    time_s, is_settled = run(
        bodies, part_table(numbers), deck_of(numbers), laws, state, cg_m, step_ms / 1000.0, _LIMIT_S, True
    )
    standing = [state[pin] != GONE and is_upright(bodies, pin, cg_m) for pin in range(N_PINS)]
    return np.array(standing), is_settled, time_s


def set_rack(
    arrival: NDArray[np.float64], rng: np.random.Generator, numbers: RackNumbers
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Return ten pins near their spots with a rolling ball in front of them, and the laws of this rack."""
    spots_in = numbers.spot_sd_in * rng.standard_normal((N_PINS, 2))
    spots_in = np.clip(spots_in, -numbers.spot_cut_in, numbers.spot_cut_in)
    mass_oz = numbers.mass_sd_oz * rng.standard_normal(N_PINS)
    mass_oz = np.clip(mass_oz, -numbers.mass_cut_oz, numbers.mass_cut_oz)
    bodies = still_bodies(numbers, numbers.pin_mass_lb + mass_oz * _LB_PER_OZ, arrival[3])
    for pin in ALL_PINS:
        spot_m = ((pin_ft(pin) - HEAD_PIN_FT) * FT_M, board_m(pin_board(pin)))
        bodies[pin - 1, AT : AT + 2] = np.array(spot_m) + spots_in[pin - 1] * IN_M
        bodies[pin - 1, AT + 2] = numbers.pin_cg_in * IN_M
    roll_ball(bodies, arrival, numbers)
    shift = numbers.restitution_sd * rng.standard_normal()
    factor = float(np.exp(numbers.friction_log_sd * rng.standard_normal()))
    return bodies, law_table(numbers, shift, factor)


def still_bodies(numbers: RackNumbers, pin_mass_lb: ArrayLike, ball_weight_lb: float) -> NDArray[np.float64]:
    """Return ten pins and a ball at rest, all at the origin, with masses and inertias in SI."""
    mass = np.append(np.broadcast_to(pin_mass_lb, N_PINS), ball_weight_lb) * LB_KG
    across_in = np.append(np.full(N_PINS, numbers.pin_gyration_across_in), numbers.ball_rg_in)
    along_in = np.append(np.full(N_PINS, numbers.pin_gyration_along_in), numbers.ball_rg_in)
    bodies = np.zeros((N_PINS + 1, N_COLUMNS))
    bodies[:, AXIS + 2] = 1.0
    bodies[:, MASS] = mass
    bodies[:, ACROSS], bodies[:, ALONG] = mass * (across_in * IN_M) ** 2, mass * (along_in * IN_M) ** 2
    return bodies


def roll_ball(bodies: NDArray[np.float64], arrival: NDArray[np.float64], numbers: RackNumbers) -> None:
    """Put the ball in front of the pins, rolling, its path aimed at the arrival on the head-pin plane."""
    board, angle_rad, speed_mps = arrival[0], np.radians(arrival[1]), mph_to_mps(arrival[2])
    radius_m = numbers.ball_radius_in * IN_M
    heading = np.array([np.cos(angle_rad), np.sin(angle_rad), 0.0])
    bodies[BALL, AT : AT + 3] = [_START_M, board_m(board) + _START_M * np.tan(angle_rad), radius_m]
    bodies[BALL, VELOCITY : VELOCITY + 3] = speed_mps * heading
    # Rolling: the turn rate is (up x velocity) / radius.
    turn = np.array([-heading[1], heading[0], 0.0]) * speed_mps / radius_m
    bodies[BALL, SPIN : SPIN + 3] = bodies[BALL, ACROSS] * turn


def board_m(board: float) -> float:
    """Return how far a board of the own frame is from the lane's centre, positive towards the inside [m]."""
    return (board - CENTRE_BOARD) * BOARD_IN * IN_M
