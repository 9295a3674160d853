"""What is usual of a release that nobody measured: by speed, age, hands, ball and how much it hooks.

References
----------
.. [1] Speed and revs that go together, e.g. 16 mph with about 250 rpm, 18 with 300 to 350, 20 with about 400:
   common practice, no first-hand source. Checked in tests/world/test_usual.py.
.. [2] P. Dougherty, Times Union, 29 Sep 2020: tour averages of 436 rpm at 18.6 mph (men) and 297 rpm at
   17.8 mph (women), at most 570 rpm. Second-hand; checked in tests/world/test_usual.py.

How revs and rotation fall with age, what two hands add and what "some" and "big" hook mean is *our guess*.
"""

import dataclasses

from coachlib.world.ball import Ball
from coachlib.world.bowler import Bowler, Hook

UNKNOWN_SPEED_MPH, UNKNOWN_REVS_RPM, UNKNOWN_ROTATION_DEG, UNKNOWN_TILT_DEG = 17.0, 300.0, 45.0, 13.0
"""What a grown-up club bowler who does not know is taken for (common practice, no source)."""

REVS_PER_MPH = 40.0
"""How many more revs go with a mph more of speed (common practice, see [1]) [rpm/mph]."""

YOUNG_YEARS, OLD_YEARS = 14.0, 60.0
YOUNG_SPEED_MPH, OLD_SPEED_MPH = 13.0, 15.5
YOUNG_REVS_FRAC, REVS_FRAC_PER_YEAR, LEAST_OLD_REVS_FRAC = 0.85, 0.01, 0.7
TWO_HANDED_REVS_FRAC = 1.4
TURNED_LESS_DEG = 5.0
"""Below the first age and from the second on speed, revs and rotation are lower (our guess)."""

STRAIGHT_REVS_RPM = 200.0
"""Up to so many revs a ball of unknown rotation is read as straight (rule of thumb) [rpm]."""

STRAIGHT_ROTATION_DEG = 10.0
"""So little rotation hooks two boards or three at most in the motion model: a straight ball [deg]."""

STRAIGHT_USUAL_RPM = 150.0
_HOOK_REVS_FRAC: dict[Hook, float] = {"straight": 1.0, "some": 0.8, "big": 1.35}
_HOOK_ROTATION_DEG: dict[Hook, float] = {"straight": 0.0, "some": 35.0, "big": 55.0}
_LEAST_REVS_RPM, _MOST_REVS_RPM = 80.0, 570.0


def throws_straight(bowler: Bowler, ball: Ball | None = None) -> bool:
    """Return whether a bowler's ball goes straight, so that geometry alone says where to move.

    Parameters
    ----------
    bowler : Bowler
        What was counted stands before what was said. A ball of hardly any rotation goes straight, and one of
        few revs and unknown rotation; with revs not known what was said of the hook decides.
    ball : Ball, optional
        With nothing said a plastic ball goes straight.
    """
    if bowler.rev_rate_rpm is None and bowler.hook is not None:
        return bowler.hook == "straight"
    if bowler.axis_rotation_deg is not None:
        return bowler.axis_rotation_deg <= STRAIGHT_ROTATION_DEG
    if bowler.rev_rate_rpm is not None:
        return bowler.rev_rate_rpm <= STRAIGHT_REVS_RPM
    return ball is not None and ball.cover == "plastic"


def with_hook_of(bowler: Bowler, ball: Ball | None) -> Bowler:
    """Return the bowler with a straight ball declared where the ball in the hand alone says so."""
    if bowler.rev_rate_rpm is None and bowler.hook is None and throws_straight(bowler, ball):
        return dataclasses.replace(bowler, hook="straight")
    return bowler


def as_usual(bowler: Bowler, ball: Ball | None = None) -> Bowler:
    """Return the bowler with everything that leaves the hand known; what was not is as usual for such a one.

    Parameters
    ----------
    bowler : Bowler
        As far as they are known.
    ball : Ball, optional
        It counts for the hook alone, see :func:`throws_straight`.
    """
    is_straight = throws_straight(bowler, ball)
    changes: dict[str, float] = {}
    if bowler.speed_mph is None:
        changes["speed_mph"] = usual_speed_mph(bowler)
    if bowler.rev_rate_rpm is None:
        changes["rev_rate_rpm"] = STRAIGHT_USUAL_RPM if is_straight else usual_revs_rpm(bowler)
    if bowler.axis_rotation_deg is None:
        changes["axis_rotation_deg"] = 0.0 if is_straight else usual_rotation_deg(bowler)
        changes |= {"axis_rotation_sd_deg": 0.0} if is_straight else {}
    if bowler.axis_tilt_deg is None:
        changes["axis_tilt_deg"] = UNKNOWN_TILT_DEG
    return dataclasses.replace(bowler, **changes) if changes else bowler  # type: ignore[arg-type]


def usual_speed_mph(bowler: Bowler) -> float:
    """Return the speed at the hand that is usual at this age [mph]."""
    age_years = _age_years(bowler)
    if age_years < YOUNG_YEARS:
        return YOUNG_SPEED_MPH
    return OLD_SPEED_MPH if age_years >= OLD_YEARS else UNKNOWN_SPEED_MPH


def usual_revs_rpm(bowler: Bowler) -> float:
    """Return the revs that go with this bowler's speed, age, hands and hook [rpm]."""
    speed_mph = usual_speed_mph(bowler) if bowler.speed_mph is None else bowler.speed_mph
    revs_rpm = UNKNOWN_REVS_RPM + REVS_PER_MPH * (speed_mph - UNKNOWN_SPEED_MPH)
    revs_rpm *= TWO_HANDED_REVS_FRAC if bowler.is_two_handed else 1.0
    revs_rpm *= _age_frac(bowler) * (1.0 if bowler.hook is None else _HOOK_REVS_FRAC[bowler.hook])
    return min(max(revs_rpm, _LEAST_REVS_RPM), _MOST_REVS_RPM)


def usual_rotation_deg(bowler: Bowler) -> float:
    """Return the axis rotation that is usual at this age with this hook [deg]."""
    is_less = not YOUNG_YEARS <= _age_years(bowler) < OLD_YEARS
    rotation_deg = UNKNOWN_ROTATION_DEG if bowler.hook is None else _HOOK_ROTATION_DEG[bowler.hook]
    return max(rotation_deg - (TURNED_LESS_DEG if is_less else 0.0), 0.0)


def _age_frac(bowler: Bowler) -> float:
    age_years = _age_years(bowler)
    if age_years < YOUNG_YEARS:
        return YOUNG_REVS_FRAC
    return max(1.0 - REVS_FRAC_PER_YEAR * max(age_years - OLD_YEARS, 0.0), LEAST_OLD_REVS_FRAC)


def _age_years(bowler: Bowler) -> float:
    """Return the age; one of between where it is not known."""
    return YOUNG_YEARS if bowler.age_years is None else bowler.age_years
