"""Invented evenings: the same for the same seed, a frame on each lane in turn, nothing hidden given away."""

import dataclasses
import itertools

import pytest

import coachlib as cl
from coachlib.study.hidden_lane.demo_evening import LANES, N_EVENINGS, N_FRAMES, STUDENTS, demo_evenings


@pytest.fixture(scope="module")
def left_evenings():
    return demo_evenings(STUDENTS[1], seed=5)


def _session_of(evening):
    session = evening.start
    for step in evening.steps:
        session = _after(session, *step)
    return session


def _after(session, kind, payload):
    if kind == "shot":
        return cl.observe(session, payload["shot"])
    return cl.change(session, **payload) if kind == "change" else session


def test_the_same_seed_is_the_same_evening_and_another_is_not(left_evenings):
    assert demo_evenings(STUDENTS[1], seed=5) == left_evenings
    assert demo_evenings(STUDENTS[1], seed=6)[0].steps != left_evenings[0].steps


def test_each_evening_is_a_frame_on_each_lane_in_turn(left_evenings):
    assert len(left_evenings) == N_EVENINGS
    for evening in left_evenings:
        session = _session_of(evening)
        first_balls = [seen for seen in session.shots if not seen.shot.is_spare]
        assert [seen.lane for seen in first_balls] == [LANES[at % 2] for at in range(N_FRAMES)]


def test_a_spare_ball_follows_each_ball_that_left_pins(left_evenings):
    shots = [seen.shot for seen in _session_of(left_evenings[0]).shots]
    assert any(shot.is_spare for shot in shots)
    for before, after in itertools.pairwise(shots):
        is_spare_due = not before.is_spare and bool(before.leave)
        if before.leave is not None:
            assert after.is_spare == is_spare_due
        if after.is_spare:
            assert set(after.leave) <= set(before.leave)


def test_advice_is_given_after_each_first_ball_and_is_about_it(left_evenings):
    session, n_advised = left_evenings[0].start, 0
    for kind, payload in left_evenings[0].steps:
        if kind == "advice":
            n_advised += 1
            assert payload["advice"].session == session
        session = _after(session, kind, payload)
    assert n_advised == N_FRAMES


def test_some_moves_are_taken_and_some_are_not(left_evenings):
    wanted = taken = 0
    for evening in left_evenings:
        steps = [step for step in evening.steps if step[0] != "shot"]
        for (kind, payload), (after, change) in itertools.pairwise(steps):
            if kind == "advice" and payload["advice"].kind == "line":
                wanted += 1
                taken += after == "change" and change.get("line") == payload["advice"].new_line
    assert 0 < taken < wanted


def test_the_coach_has_the_numbers_as_said_and_not_the_real_ones(left_evenings):
    student = STUDENTS[1]
    assert student.said.rev_rate_rpm is None
    assert student.real.rev_rate_rpm is not None
    assert all(evening.start.bowler == student.said for evening in left_evenings)
    assert student.said == dataclasses.replace(
        student.real, rev_rate_rpm=None, axis_rotation_deg=None, arrow_sd_boards=0.97, drift_boards=None
    )


def test_start_and_slide_board_show_the_drift(left_evenings):
    # invented: the left-hander drifts 1 board inside, give or take half a board; some 36 balls are noted
    drifts = [
        seen.shot.slide_board - seen.shot.start_board
        for evening in left_evenings
        for seen in _session_of(evening).shots
        if seen.shot.slide_board is not None
    ]
    assert 15 < len(drifts) < N_EVENINGS * N_FRAMES
    assert sum(drifts) / len(drifts) == pytest.approx(1.0, abs=0.4)


def test_a_seed_that_is_none_is_refused():
    with pytest.raises(cl.InputError, match="seed is -1; expected 0 to 1,000,000"):
        demo_evenings(STUDENTS[0], seed=-1)
