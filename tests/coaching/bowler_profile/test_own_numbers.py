"""A bowler's own numbers: told from invented balls with known numbers, offered, never taken over unasked.

Limiting cases on invented balls: what was put in comes out to within its own error.
"""

import dataclasses

import numpy as np
import pytest

import coachlib as cl
from coachlib.coaching.bowler_profile import own_numbers as own_numbers_module
from coachlib.coaching.bowler_profile.bowler_estimate import BowlerEstimate, Estimate
from coachlib.coaching.bowler_profile.own_numbers import own_numbers, with_numbers
from coachlib.coaching.simulation.observer import CROSSING_SD_BOARDS

LINE = cl.Line(22, 12)


def _session(shots, bowler=None, lines=None):
    session = cl.Session(bowler or cl.Bowler(), LINE)
    for at, shot in enumerate(shots):
        if lines is not None:
            session = cl.change(session, line=lines[at])
        session = cl.observe(session, shot)
    return session


def _number(numbers, field):
    return next(one for one in numbers if one.field == field)


def _told(session, field):
    return _number(own_numbers([session], session.bowler), field)


def _spread_of(values, wanted_sd):
    """Return the values with exactly this spread about their mean."""
    values = np.asarray(values)
    return values.mean() + (values - values.mean()) * wanted_sd / values.std(ddof=1)


def test_speed_is_the_mean_and_its_spread_is_without_the_eyes_error():
    speeds = _spread_of(np.random.default_rng(5).normal(16.0, 0.6, 40), np.hypot(0.5, 0.33))
    session = _session([cl.Shot(crossed_board=12, speed_mph=float(one)) for one in speeds])
    mean, varies = (_told(session, field) for field in ("speed_mph", "speed_sd_mph"))
    assert (mean.told, mean.is_offered) == (round(float(speeds.mean()), 1), True)
    assert (varies.told, varies.is_offered) == (0.5, False)  # the usual spread is kept already


def test_the_spread_at_the_arrows_is_without_the_eyes_error():
    crossed = _spread_of(np.random.default_rng(5).normal(12.0, 1.0, 60), np.hypot(1.6, CROSSING_SD_BOARDS))
    session = _session([cl.Shot(crossed_board=float(one)) for one in crossed])
    aim = _told(session, "arrow_sd_boards")
    assert aim.told == pytest.approx(1.6)
    assert aim.is_offered
    assert "(60 balls)" in aim.words


def test_a_target_beyond_the_arrows_tells_no_spread_there():
    lines = [cl.Line(22, 12, 40.0)] * 12
    session = _session([cl.Shot(crossed_board=12)] * 12, lines=lines)
    assert _told(session, "arrow_sd_boards").told is None


@pytest.mark.parametrize("walk", ["slide", "walk"])
def test_the_way_of_walking_is_told_where_several_stances_were_noted(walk):
    # derived, world/levers: a walker 15 ft back who looks 15 ft out slides half as far as they stand
    feet = np.tile([18.0, 22.0, 26.0, 30.0], 4)
    slides = feet if walk == "slide" else 12.0 + (feet - 6.5 - 12.0) * 0.5 + 6.5
    shots = [
        cl.Shot(crossed_board=12, start_board=float(start), slide_board=float(slide))
        for start, slide in zip(feet, slides + np.random.default_rng(5).normal(0, 0.4, 16), strict=True)
    ]
    other = "walk" if walk == "slide" else "slide"
    number = _told(_session(shots, cl.Bowler(walk=other)), "walk")
    assert (number.told, number.is_offered) == (walk, True)


def test_one_stance_does_not_tell_how_they_walk():
    shots = [cl.Shot(crossed_board=12, start_board=22.0, slide_board=22.0 + off) for off in (0.0, 0.5) * 8]
    number = _told(_session(shots), "walk")
    assert number.told is None
    assert "walk test" in number.words


@pytest.mark.parametrize(("hand", "side"), [("right", "left"), ("left", "right")])
def test_a_steady_drift_is_told_with_its_side(hand, side):
    shots = [cl.Shot(crossed_board=12, start_board=22.0, slide_board=22.5 + one) for one in (0.5, 1.0) * 8]
    number = _told(_session(shots, cl.Bowler(hand=hand)), "drift_boards")
    assert number.told == 1.2 or number.told == 1.3  # 1.25
    assert f"boards {side} of the straight walk" in number.words


def test_boards_a_mph_come_out_as_put_in():
    # the trade's 2 boards a mph, put in without noise; misses at the target are taken out by the lever
    shots = [
        cl.Shot(crossed_board=12.0, arrival=17.5 - 2.0 * (speed - 17.0), speed_mph=speed)
        for speed in (15.0, 16.0, 17.0, 18.0) * 4
    ]
    words = [one.words for one in own_numbers([_session(shots)], cl.Bowler())]
    assert any("A mph faster hit 2.0 boards lighter, give or take 0.0" in text for text in words)


def test_revs_that_another_number_could_stand_in_for_are_not_offered(monkeypatch):
    told, film = Estimate(250.0, 20.0, 300.0, 80.0), Estimate(0.9, 0.2, 0.95, 0.24)
    rotation = Estimate(40.0, 6.0, 45.0, 15.0)
    for tied, is_offered in (((("rev_rate_rpm", "axis_rotation_deg"),), False), ((), True)):
        found = BowlerEstimate(told, rotation, film, tied, 20)
        monkeypatch.setattr(own_numbers_module, "estimate_bowler", lambda _, found=found: found)
        shots = [cl.Shot(arrival="high")]
        revs = _number(own_numbers([_session(shots)], cl.Bowler()), "rev_rate_rpm")
        assert revs.is_offered is is_offered
        assert ("another number would explain them too" in revs.words) is not is_offered
        assert "250 rpm, give or take 20" in revs.words


def test_where_no_lane_fits_the_balls_nothing_is_claimed(tmp_path):
    from coachlib.review.demo_log import write_demo_log

    logbook = write_demo_log(tmp_path)
    sessions = [logbook.replay(row.key) for row in logbook.sessions() if row.bowler_name == "Oskar"]
    revs = _number(own_numbers(sessions[::-1], sessions[0].bowler), "rev_rate_rpm")
    assert not revs.is_offered
    assert revs.words == "Revs: 20 balls of one lane do not show it. Film it or count it."


def test_what_the_practice_lane_hides_is_recovered():
    # the hidden bowler of the demo evenings, read off the lane itself; two standard errors
    from coachlib.study.hidden_lane.demo_evening import FIRST_EVENING, STUDENTS, demo_evenings

    student = STUDENTS[1]
    sessions = []
    for evening in demo_evenings(student, 1):
        session = evening.start
        for kind, payload in evening.steps:
            if kind != "advice":
                session = cl.observe(session, **payload) if kind == "shot" else cl.change(session, **payload)
        sessions.append(session)
    numbers = own_numbers(sessions, student.said)
    lane = cl.PracticeLane(
        cl.load_pattern("house_41"), student.real, cl.load_ball(student.ball_name), 1110, student.line
    )
    hidden = lane.hidden.bowler
    assert FIRST_EVENING.year == 2026
    assert _number(numbers, "speed_mph").told == pytest.approx(hidden.bowler.speed_mph, abs=0.5)
    assert _number(numbers, "drift_boards").told == pytest.approx(1.0, abs=0.3)


def test_few_balls_tell_nothing_and_say_how_many_are_needed():
    session = _session([cl.Shot(crossed_board=12, speed_mph=17.0)] * 3)
    numbers = own_numbers([session], session.bowler)
    assert not any(one.is_offered for one in numbers)
    assert (
        _number(numbers, "speed_mph").words == "Speed: note a speed of at least 10 balls. So far you noted 3."
    )
    assert own_numbers([], cl.Bowler())[0].told is None
    assert any("easure it" in one.words for one in numbers)  # no log tells the laydown offset


def test_only_what_is_chosen_is_taken_over():
    speeds = [15.0, 15.2] * 10
    session = _session([cl.Shot(crossed_board=12, speed_mph=one) for one in speeds])
    bowler = cl.Bowler(speed_mph=17.0)
    numbers = own_numbers([session], bowler)
    assert with_numbers(bowler, numbers, ()) == bowler
    assert with_numbers(bowler, numbers, ["speed_mph"]) == dataclasses.replace(bowler, speed_mph=15.1)
    with pytest.raises(cl.InputError, match=r"fields is 'walk'; expected one of .*speed_mph"):
        with_numbers(bowler, numbers, ["walk"])
