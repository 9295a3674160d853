"""What is usual of a release that nobody measured: against published averages and the trade's ladder."""

import dataclasses

import pytest

import coachlib as cl
from coachlib.coaching.session.ball_reading import miss_lever
from coachlib.coaching.simulation.paths import what_is_assumed
from coachlib.world.levers import is_hooking
from coachlib.world.release import release_on_line
from coachlib.world.usual import as_usual, throws_straight, usual_revs_rpm, with_hook_of

PLASTIC, HYBRID = cl.load_ball("plastic_spare"), cl.load_ball("hybrid_2000")


@pytest.mark.parametrize(
    ("speed_mph", "low_rpm", "high_rpm"), [(16, 250, 250), (18, 300, 350), (20, 400, 400)]
)
def test_revs_go_with_speed_as_the_trade_says(speed_mph: float, low_rpm: float, high_rpm: float) -> None:
    # Common practice, no first-hand source; 20 rpm is less than anybody counts from behind.
    assert low_rpm - 20 <= usual_revs_rpm(cl.Bowler(speed_mph=float(speed_mph))) <= high_rpm + 20


def test_a_club_bowler_stands_between_women_and_men_of_the_tour() -> None:
    # P. Dougherty, Times Union, 29 Sep 2020: 297 rpm at 17.83 mph (women), 436 at 18.61 (men), at most 570.
    assert 297 <= usual_revs_rpm(cl.Bowler(speed_mph=17.83)) <= 297 * 1.2
    assert usual_revs_rpm(cl.Bowler(speed_mph=18.61)) < 436
    assert usual_revs_rpm(cl.Bowler(speed_mph=24.0, is_two_handed=True)) == 570


def test_seniors_juniors_and_slow_bowlers_are_not_taken_for_300_rpm() -> None:
    ages = (40.0, 72.0, 11.0)
    grown, old, young = (usual_revs_rpm(cl.Bowler(speed_mph=15.0, age_years=age)) for age in ages)
    assert usual_revs_rpm(cl.Bowler()) == 300
    assert old < grown < 260
    assert young < grown
    assert as_usual(cl.Bowler(age_years=72.0)).speed_mph < 17.0  # type: ignore[operator]


def test_what_was_said_of_the_hook_sets_revs_and_rotation_apart() -> None:
    some, usual, big = (as_usual(cl.Bowler(speed_mph=17.0, hook=hook)) for hook in ("some", None, "big"))
    assert some.rev_rate_rpm < usual.rev_rate_rpm < big.rev_rate_rpm  # type: ignore[operator]
    assert some.axis_rotation_deg < usual.axis_rotation_deg < big.axis_rotation_deg  # type: ignore[operator]
    counted = cl.Bowler(speed_mph=17.0, rev_rate_rpm=330.0, hook="big")
    assert as_usual(counted).rev_rate_rpm == 330.0


@pytest.mark.parametrize(
    ("known", "ball", "is_straight"),
    [
        ({}, PLASTIC, True),
        ({}, HYBRID, False),
        ({}, None, False),
        ({"hook": "straight"}, HYBRID, True),
        ({"hook": "some"}, PLASTIC, False),
        ({"rev_rate_rpm": 300.0}, PLASTIC, False),
        ({"rev_rate_rpm": 300.0, "hook": "straight"}, HYBRID, False),
        ({"rev_rate_rpm": 150.0}, HYBRID, True),
        ({"rev_rate_rpm": 150.0, "axis_rotation_deg": 35.0}, HYBRID, False),
        ({"axis_rotation_deg": 5.0}, HYBRID, True),
    ],
)
def test_who_throws_straight(known: dict[str, object], ball: cl.Ball | None, is_straight: bool) -> None:
    bowler = cl.Bowler(**known)  # type: ignore[arg-type]
    assert throws_straight(bowler, ball) is is_straight
    if is_straight:
        assert not is_hooking(bowler, ball)
        assert miss_lever(with_hook_of(bowler, ball), 15.0) == 4.0


def test_a_plastic_ball_of_unknown_revs_goes_straight_everywhere() -> None:
    line = cl.Line(18, 11)
    session = cl.Session(bowler=cl.Bowler(), line=line, ball=PLASTIC, pattern=cl.load_pattern("house_41"))
    assert ("rotation", "0° (a straight ball)") in what_is_assumed(session.bowler, PLASTIC, session.pattern)
    declared = dataclasses.replace(session.bowler, hook="straight")
    release = release_on_line(declared, 11.5, 11.0)
    path = cl.simulate(release, PLASTIC, session.pattern, hand="right")
    assert path.arrival_board[0] == pytest.approx(11.5 - 0.5 * 4, abs=1e-6)  # geometry alone


def test_old_bowlers_load_without_a_hook() -> None:
    assert cl.load_bowler("club_right").hook is None
    with pytest.raises(cl.InputError, match="hook"):
        cl.Bowler(hook="a lot")  # type: ignore[arg-type]
