"""Which property of a ball matters how much: each changed alone over its usual range, on one line.

Ranges are what is usual or allowed, so that a row can be read as "as far as one could go with this". In the
model the surface comes first on every shipped pattern and bowler asked; so it did in a federation study
of 18 ball variables.

References
----------
.. [1] USBC, Ball Motion Study, 2008, quoted second-hand in trade articles: the first three of 18
   variables are related to surface roughness or texture. Checked in
   tests/published/test_balls_published.py.
"""

import dataclasses
from typing import Any

from coachlib.coaching.session.session import Session
from coachlib.coaching.simulation.what_if import ball_and_pattern, simulate_lines

RANGES: dict[str, tuple[dict[str, Any], dict[str, Any]]] = {
    "surface, fine to coarse (4000 to 500 grit)": (
        {"grit": 4000.0, "is_polished": False, "roughness_um": None},
        {"grit": 500.0, "is_polished": False, "roughness_um": None},
    ),
    "cover, pearl to solid": ({"cover": "pearl"}, {"cover": "solid"}),
    "differential, 0.010 to 0.055 in": (
        {"differential_in": 0.010, "intermediate_in": 0.0},
        {"differential_in": 0.055, "intermediate_in": 0.0},
    ),
    "pin to axis, 1 to 3 3/8 in": ({"pin_distance_in": 1.0}, {"pin_distance_in": 3.375}),
    "intermediate differential, 0 to 0.015 in": ({"intermediate_in": 0.0}, {"intermediate_in": 0.015}),
    "radius of gyration, 2.60 to 2.48 in": ({"rg_in": 2.60}, {"rg_in": 2.48}),
    "weight, 14 to 16 lb": ({"weight_lb": 14.0}, {"weight_lb": 16.0}),
}


@dataclasses.dataclass(frozen=True)
class BallEffect:
    """What one property does over its usual range.

    Parameters
    ----------
    name : str
        The property and its range, weaker end first.
    arrival_change_boards : float
        Arrival at the stronger end less that at the weaker one, + inside. [boards]
    skid_change_ft : float
        Change of where the hook begins. [ft]
    entry_change_deg : float
        Change of the entry angle. [deg]
    """

    name: str
    arrival_change_boards: float
    skid_change_ft: float
    entry_change_deg: float


def ball_effects(session: Session) -> tuple[BallEffect, ...]:
    """Return what each property of the session's ball does on its line, the greatest effect first.

    Parameters
    ----------
    session : Session
        Bowler, ball, pattern and line count.

    Notes
    -----
    The differential acts here through fresh cover (our guess) and through the inertia about the axis; by
    mechanics the swing of a core moves the ball by at most 0.15 board
    (tests/published/test_full_tensor.py). Weight does nothing to the path of a rigid ball with the same
    radius of gyration; it counts at the pins.
    """
    ball, _ = ball_and_pattern(session)
    effects = []
    for name, ends in RANGES.items():
        balls = (dataclasses.replace(ball, **changes) for changes in ends)
        low, high = (simulate_lines(dataclasses.replace(session, ball=one)) for one in balls)
        pairs = zip(*((one.arrival_board, one.hook_ft, one.entry_deg) for one in (high, low)), strict=True)
        # without the noise of the last digits, never -0
        effects.append(BallEffect(name, *(round(float(one[0] - other[0]), 6) + 0.0 for one, other in pairs)))
    return tuple(sorted(effects, key=lambda one: -abs(one.arrival_change_boards)))
