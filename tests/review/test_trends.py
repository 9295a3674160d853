"""Trends over sessions: each figure against one counted by hand, and the bounds of a spread against a table.

Published: the 5 % and 95 % points of chi-square with 9 degrees of freedom, 3.325 and 16.919, as printed in
tables of it (R. A. Fisher, "Statistical Methods for Research Workers", 1925, table III; from memory); the
classes of accuracy of US Bowler, July 2012, p. 11. The rest is counted by hand on a short session.
"""

import math

import numpy as np
import pytest

from coachlib.coaching.advice.advice import line_after
from coachlib.coaching.session.session import Session
from coachlib.errors import InputError
from coachlib.records import Logbook, Student, Students
from coachlib.review.trends import (
    Count,
    Followed,
    accuracy_class,
    session_trend,
    spread,
    student_trends,
)
from coachlib.world.bowler import ACCURACY_SD_BOARDS, Bowler
from coachlib.world.line import Line, Move
from coachlib.world.shot import Shot

LINE = Line(22, 11)


@pytest.fixture
def students(tmp_path):
    return Students(Logbook(tmp_path / "logbook.sqlite"))


def _trend(students, *steps, bowler=None):
    key = students.add(Student(f"Student {len(students.listed())}", bowler=bowler or Bowler()))
    students.logbook.append_all(students.start(key, LINE, lane="7"), steps)
    (trend,) = student_trends(students.logbook, key)
    return trend


def _shot(**noted):
    return "shot", {"shot": Shot(**noted)}


def _advice(feet, eyes, kind="line"):
    return "advice", {"kind": kind, "move": Move(feet, eyes), "rule_ids": ["A1"]}


def _move(feet, eyes):
    return "change", {"line": Line(feet, eyes)}


def test_spread_and_its_bounds():
    found = spread([float(n) for n in range(10)])
    assert (found.n_balls, found.mean) == (10, 4.5)
    assert found.sd == pytest.approx(math.sqrt(82.5 / 9), rel=1e-12)
    assert found.sd_low == pytest.approx(math.sqrt(82.5 / 16.919), rel=1e-4)
    assert found.sd_high == pytest.approx(math.sqrt(82.5 / 3.325), rel=2e-4)


def test_bounds_hold_the_true_spread_nine_times_in_ten():
    draw = np.random.default_rng(5)
    found = [spread(draw.normal(0.0, 1.3, 12).tolist()) for _ in range(2000)]
    n_held = sum(one.sd_low <= 1.3 <= one.sd_high for one in found)
    assert n_held / 2000 == pytest.approx(0.9, abs=0.027)  # four standard errors of 2000 draws


def test_nothing_and_one_ball_have_no_spread():
    assert spread([]) is None
    assert spread([3.0]) == (1, 3.0, None, None, None)


@pytest.mark.parametrize(("name", "sd_boards"), ACCURACY_SD_BOARDS.items())
def test_class_of_accuracy_is_the_published_one(name, sd_boards):
    unit = np.array([-1.0, 1.0] * 10) * math.sqrt(19 / 20)  # spread exactly 1
    assert accuracy_class(list(sd_boards * unit)) == name
    assert accuracy_class(list(sd_boards * unit[:9])) is None


def test_aim_is_measured_from_the_target_of_each_ball_at_the_arrows(students):
    trend = _trend(
        students,
        _shot(crossed_board=12.0),
        _move(25, 13),
        _shot(crossed_board=12.0),
        ("change", {"line": Line(25, 9, 40.0)}),
        _shot(crossed_board=30.0),
        _move(25, 13),
        _shot(crossed_board=30.0, is_spare=True),
        _shot(arrival="high"),
    )
    assert (trend.arrow_miss_boards.n_balls, trend.arrow_miss_boards.mean) == (2, 0.0)
    assert trend.arrow_miss_boards.sd == pytest.approx(math.sqrt(2.0))
    assert (trend.n_balls, trend.n_first_balls) == (5, 4)


def test_speed_and_arrival_by_lane(students):
    trend = _trend(
        students,
        _shot(arrival=19.5, speed_mph=16.0),
        _shot(arrival="light", speed_mph=17.0),
        ("change", {"lane": "8"}),
        _shot(arrival=17.0),
        _shot(crossed_board=11.0, speed_mph=9.0, is_spare=True),
    )
    assert trend.speed_mph[:2] == (2, 16.5)
    assert {lane: err[:2] for lane, err in trend.arrival_err_boards.items()} == {
        "7": (2, pytest.approx((2.0 - 1.5) / 2)),
        "8": (1, -0.5),
    }


def test_pins_strikes_and_single_pin_spares(students):
    trend = _trend(
        students,
        _shot(leave=()),
        _shot(leave=(10,)),
        _shot(leave=(), is_spare=True),
        _shot(leave=(7,)),
        _shot(leave=(7,), is_spare=True),
        _shot(leave=(4, 9)),
        _shot(leave=(), is_spare=True),  # made, but of two pins
        _shot(leave=(10,)),  # its spare ball was not logged
        _shot(arrival="nose"),
    )
    assert trend.single_pin_spares == Count(1, 2)
    assert trend.strikes == Count(1, 5)
    assert trend.first_ball_pins[:2] == (5, pytest.approx((10 + 9 + 9 + 8 + 9) / 5))


def test_advice_followed_and_what_it_brought(students):
    trend = _trend(
        students,
        _shot(arrival=20.5),
        _advice(2, 1),
        _move(24, 12),
        _shot(arrival=18.5),  # followed: 3 boards off, then 1
        _advice(0, 0, "stay"),
        _shot(arrival=20.0),
        _advice(2, 1),
        _shot(leave=(10,), is_spare=True),
        _shot(arrival=19.5),  # not followed: 2.5, then 2; the spare ball in between says nothing
        _advice(2, 1),  # no ball after it
    )
    assert trend.advice == Followed(2, 1, 3.0, 1.0, 2.5, 2.0)


def test_advice_on_another_lane_waits_for_that_lane(students):
    trend = _trend(
        students,
        _shot(arrival=20.5),
        _advice(2, 1),
        ("change", {"lane": "8"}),
        _shot(arrival=17.5),
        ("change", {"lane": "7", "line": Line(24, 12)}),
        _shot(arrival=17.5),
    )
    assert trend.advice[:4] == (1, 1, 3.0, 0.0)


def test_advice_that_moves_no_feet_or_cannot_be_read_is_not_counted(students):
    """An advice may hold anything that can be written; only what is a move counts."""
    advice = [
        {"kind": "speed", "move": Move(speed_mph=0.5)},
        {"kind": "line"},
        {"headline": "2 and 1"},
        {"kind": "line", "move": {"feet": 2}},
        {"kind": "line", "move": {"feet_boards": 40.0}},
    ]
    steps = [step for one in advice for step in (_shot(arrival="high"), ("advice", one))]
    assert _trend(students, *steps, _shot(arrival="high")).advice == Followed(0, 0, None, None, None, None)


def test_advised_target_at_another_distance_is_compared_on_the_same_line(students):
    said = ("advice", {"kind": "line", "move": Move(target_ft=5.0)})
    line = line_after(Session(bowler=Bowler(name="Student 0"), line=LINE), Move(target_ft=5.0))
    assert line.target_ft == 20.0
    trend = _trend(students, _shot(arrival=18.5), said, ("change", {"line": line}), _shot(arrival=17.5))
    assert trend.advice[:2] == (1, 1)


def test_session_in_which_nothing_was_seen(students):
    trend = _trend(students)
    nobody = Followed(0, 0, *[None] * 4)
    assert trend[2:] == (0, 0, None, None, None, {}, (0, 0), None, (0, 0), nobody, None, 0.97, False)


def test_sessions_come_oldest_first_and_only_of_the_student(students):
    keys = [students.add(Student(name)) for name in ("Ilta", "Oskari")]
    started = [students.start(key, LINE) for key in (keys[0], keys[1], keys[0])]
    assert [trend.key for trend in student_trends(students.logbook, keys[0])] == [started[0], started[2]]
    with pytest.raises(InputError, match="'nobody'; expected the key of a student"):
        student_trends(students.logbook, "nobody")


def test_one_session_has_the_same_figures_alone(students):
    key = students.add(Student("Ilta"))
    session_key = students.start(key, LINE)
    students.logbook.append_all(session_key, [_shot(arrival=19.0), _advice(2, 1), _shot(leave=(10,))])
    alone = session_trend(students.sessions(key)[0], students.logbook.story(session_key))
    assert (alone,) == student_trends(students.logbook, key)
    assert isinstance(students.logbook.replay(session_key), Session)


def test_the_drift_is_that_of_who_slides_straight_ahead(students):
    shots = [_shot(crossed_board=12, start_board=22, slide_board=slide) for slide in (23.0, 24.0)]
    drift = _trend(students, *shots).drift_boards
    assert drift[:2] == (2, 1.5)
    assert _trend(students, *shots, bowler=Bowler(walk="walk")).drift_boards is None
