"""Eyes: they err, they miss things, and they never leave a shot with nothing."""

import dataclasses
import statistics

import numpy as np
import pytest

from coachlib.study.hidden_lane.eye import CLASS_ONLY_FRAC, UNSEEN_FRAC, Eye, TrueBall, drawn_eye, noted

BALL = TrueBall(16.2, 17.4, 9.3, 43.0, 0.5, 17.1, (10,))
EYE = Eye(0.6, 0.9)


def shots(ball=BALL, n=1500):
    return [noted(ball, EYE, np.random.default_rng(seed)) for seed in range(n)]


def test_what_is_noted_lies_around_what_was():
    seen = shots()
    crossed = np.array([shot.crossed_board for shot in seen if shot.crossed_board is not None])
    arrival = np.array([shot.arrival for shot in seen if isinstance(shot.arrival, float)])
    assert crossed.mean() == pytest.approx(16.2, abs=0.08)
    assert crossed.std() == pytest.approx(0.62, abs=0.06)  # and rounded to the half board
    assert arrival.mean() == pytest.approx(17.4, abs=0.12)
    assert arrival.std() == pytest.approx(0.91, abs=0.09)
    assert {shot.leave for shot in seen} == {(10,), None}


def test_each_field_is_missing_as_often_as_said():
    seen = shots()
    for name in ("crossed_board", "arrival", "leave", "speed_mph", "motion"):
        share = np.mean([getattr(shot, name) is None for shot in seen])
        assert share == pytest.approx(UNSEEN_FRAC[name], abs=0.04)
    told = [shot.arrival for shot in seen if shot.arrival is not None]
    assert np.mean([isinstance(one, str) for one in told]) == pytest.approx(CLASS_ONLY_FRAC, abs=0.04)


def test_something_is_always_seen():
    assert all((shot.crossed_board, shot.arrival, shot.leave) != (None, None, None) for shot in shots())


def test_a_gutter_ball_has_no_arrival_and_no_breakpoint():
    lost = TrueBall(3.0, np.nan, np.nan, np.nan, np.nan, 17.0, tuple(range(1, 11)))
    for shot in shots(lost, 60):
        assert (shot.arrival, shot.breakpoint_ft, shot.motion) == (None, None, None)


def test_motion_follows_where_it_turned():
    names = {}
    for later_ft in (-12.0, 0.0, 7.0, 18.0):
        noticed = (shot.motion for shot in shots(dataclasses.replace(BALL, later_ft=later_ft), 80))
        names[later_ft] = statistics.mode(filter(None, noticed))
    assert names == {-12.0: "early", 0.0: "even", 7.0: "late", 18.0: "skid_long"}


def test_the_eyes_errors_do_not_hang_on_the_ball():
    other = dataclasses.replace(BALL, crossed_board=20.2, leave=())
    for seed in range(40):
        one, two = (noted(ball, EYE, np.random.default_rng(seed)) for ball in (BALL, other))
        assert (one.crossed_board is None) == (two.crossed_board is None)
        if one.crossed_board is not None:
            assert two.crossed_board - one.crossed_board == 4.0


def test_boards_stay_on_the_lane():
    edge = dataclasses.replace(BALL, crossed_board=0.6, arrival_board=39.9)
    boards = [shot.crossed_board for shot in shots(edge, 200) if shot.crossed_board is not None]
    assert min(boards) == 0.0


def test_eyes_differ():
    assert drawn_eye(np.random.default_rng(1)) != drawn_eye(np.random.default_rng(2))
