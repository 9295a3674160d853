"""A session is a replay of its events: undo, correction and the lane of the pair are one mechanism."""

import dataclasses

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import coachlib as cl
from coachlib.coaching.session.lane_history import ball_before
from coachlib.coaching.session.session import session_at

HIGH = cl.Shot(crossed_board=11, arrival="high")
LIGHT = cl.Shot(crossed_board=12, arrival="light")


@pytest.fixture
def session():
    return cl.Session(bowler=cl.Bowler(hand="left"), line=cl.Line(22, 11), lane="7")


def test_observe_returns_a_new_session_and_keeps_the_old(session):
    after = cl.observe(session, HIGH)
    assert session.shots == ()
    assert [seen.shot for seen in after.shots] == [HIGH]
    assert after.shots[0].number == 1
    assert after.shots[0].line == cl.Line(22, 11)


def test_change_and_undo(session):
    seen = cl.observe(session, HIGH)
    moved = cl.change(seen, line=cl.Line(24, 12))
    assert moved.line == cl.Line(24, 12)
    assert cl.undo(moved) == seen
    assert cl.undo(cl.undo(moved)) == session


def test_a_change_that_changes_nothing_is_no_event(session):
    assert cl.change(session, line=cl.Line(22, 11)) is session


def test_undo_of_nothing(session):
    with pytest.raises(cl.InputError, match="nothing to undo"):
        cl.undo(session)


def test_correct_an_earlier_shot(session):
    three = cl.observe(cl.observe(cl.observe(session, HIGH), HIGH), HIGH)
    mended = cl.correct(three, 2, LIGHT)
    assert [seen.shot for seen in mended.shots] == [HIGH, LIGHT, HIGH]
    assert mended.shots[1].line == three.shots[1].line
    with pytest.raises(cl.InputError, match="number is 9; expected a ball of this session, 1 to 3"):
        cl.correct(three, 9, LIGHT)


def test_a_correction_is_taken_back_by_undo(session):
    two = cl.observe(cl.observe(session, HIGH), HIGH)
    mended = cl.correct(cl.correct(two, 1, LIGHT), 1, cl.Shot(arrival="nose"))
    assert cl.undo(cl.undo(mended)) == two
    assert cl.undo(mended).shots[0].shot == LIGHT


def test_a_correction_that_changes_nothing_is_no_event(session):
    seen = cl.observe(session, HIGH)
    assert cl.correct(seen, 1, HIGH) is seen


def test_a_correction_counts_in_the_games_of_the_lane(session):
    two = cl.observe(cl.observe(session, HIGH), HIGH)
    mended = cl.correct(two, 1, cl.Shot(leave=(), is_spare=True))
    assert (two.games_now, mended.games_now) == (pytest.approx(0.2), pytest.approx(0.1))
    assert mended.lanes == ("7",)


def test_the_session_as_it_stood_at_a_ball(session):
    one = cl.observe(session, HIGH)
    later = cl.observe(cl.change(one, line=cl.Line(24, 12)), LIGHT)
    assert session_at(later, 1) == one
    assert session_at(later, 2) == later
    assert session_at(cl.correct(later, 2, HIGH), 2).shots[1].shot == HIGH
    with pytest.raises(cl.InputError, match="number is 3; expected a ball of this session, 1 to 2"):
        session_at(later, 3)


def test_the_ball_before_is_that_of_this_lane_and_line(session):
    one = cl.observe(session, HIGH)
    assert ball_before(one) is None
    spare = cl.observe(cl.observe(one, cl.Shot(leave=(), is_spare=True)), HIGH)
    assert ball_before(spare) == one
    pair = cl.change(cl.observe(cl.change(one, lane="8"), HIGH), lane="7")
    assert ball_before(cl.observe(pair, HIGH)) == one
    moved = cl.observe(cl.change(one, line=cl.Line(24, 12)), HIGH)
    faster = cl.observe(cl.change(one, bowler=cl.Bowler(hand="left", speed_mph=17.5)), HIGH)
    assert ball_before(moved) is ball_before(faster) is None


def test_each_lane_of_the_pair_keeps_its_own_line_ball_and_games(session):
    seven = cl.observe(cl.change(session, line=cl.Line(24, 12), games_on_lane=1.0), HIGH)
    eight = cl.change(seven, lane="8", line=cl.Line(20, 10), games_on_lane=0.0)
    back = cl.change(eight, lane="7")
    assert back.line == cl.Line(24, 12)
    assert back.games_now == pytest.approx(1.1)
    assert back.lanes == ("7", "8")
    assert cl.change(back, lane="8").line == cl.Line(20, 10)
    assert cl.undo(back) == eight


def test_a_new_lane_starts_with_the_present_line(session):
    assert cl.change(session, lane="8").line == session.line


@pytest.mark.parametrize(
    ("games", "phase"), [(0, "fresh"), (0.69, "fresh"), (0.7, "blending"), (1.5, "opening"), (2.5, "worn")]
)
def test_phase_by_games(session, games, phase):
    assert dataclasses.replace(session, games_on_lane=games).phase == phase


def test_first_balls_count_as_games_and_spares_do_not(session):
    for _ in range(7):
        session = cl.observe(session, HIGH)
        session = cl.observe(session, cl.Shot(leave=(), is_spare=True))
    assert session.games_now == pytest.approx(0.7)
    assert session.phase == "blending"
    assert cl.change(session, games_on_lane=2.0).games_now == 2.0


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"line": (20, 10)}, "line is"),
        ({"games_on_lane": -1}, "expected 0 to 60 games"),
    ],
)
def test_a_refused_change_leaves_everything_as_it_was(session, changes, said):
    before = cl.observe(session, HIGH)
    with pytest.raises(cl.InputError, match=said):
        cl.change(before, **changes)
    assert before == cl.observe(session, HIGH)


STEPS = st.lists(
    st.one_of(
        st.sampled_from([HIGH, LIGHT]).map(lambda shot: lambda s: cl.observe(s, shot)),
        st.integers(18, 30).map(lambda feet: lambda s: cl.change(s, line=cl.Line(feet, 12))),
        st.sampled_from(["7", "8"]).map(lambda lane: lambda s: cl.change(s, lane=lane)),
        st.sampled_from([HIGH, LIGHT]).map(lambda shot: lambda s: cl.correct(s, 1, shot) if s.shots else s),
    ),
    max_size=12,
)


@given(STEPS)
def test_undo_all_the_way_back(steps):
    start = cl.Session(bowler=cl.Bowler(), line=cl.Line(22, 11), lane="7")
    trail = [start]
    for step in steps:
        after = step(trail[-1])
        if after != trail[-1]:
            trail.append(after)
    for expected in reversed(trail[:-1]):
        assert cl.undo(trail.pop()) == expected


@pytest.mark.parametrize(
    ("number", "said"),
    [(True, "1 to 1"), (0, "1 to 1"), (2, "1 to 1"), ("1", "1 to 1"), (None, "1 to 1"), (1.0, "1 to 1")],
)
def test_correct_names_the_field(session, number, said):
    with pytest.raises(cl.InputError) as caught:
        cl.correct(cl.observe(session, HIGH), number, LIGHT)
    expected = (
        f"number is {number!r}; expected a ball of this session, {said}. Look it up in the list of shots."
    )
    assert caught.value.fields == {"number": expected}


def test_correct_before_the_first_ball(session):
    with pytest.raises(cl.InputError, match=r"and none was entered yet\. Enter a shot first\."):
        cl.correct(session, 1, LIGHT)


@pytest.mark.parametrize(
    "step",
    [
        lambda: cl.observe("x", HIGH),
        lambda: cl.change("x", lane="8"),
        lambda: cl.undo("x"),
        lambda: cl.correct("x", 1, HIGH),
    ],
)
def test_every_door_wants_a_session(step):
    with pytest.raises(
        cl.InputError, match=r"session is 'x'; expected a Session\. Make one with Session"
    ) as caught:
        step()
    assert list(caught.value.fields) == ["session"]


def test_every_door_wants_a_shot(session):
    for step in (lambda: cl.observe(session, 17), lambda: cl.correct(session, 1, 17)):
        with pytest.raises(cl.InputError, match=r"shot is 17; expected a Shot\. Make one with Shot"):
            step()


def test_a_lane_is_one_lane_with_or_without_spaces(session):
    eight = cl.change(session, lane=" 8 ", line=cl.Line(20, 10))
    assert eight.lane == "8"
    seven = cl.change(eight, lane="7")
    assert cl.change(seven, lane=" 8").line == cl.Line(20, 10)
    assert cl.change(eight, lane="8 ") is eight


@pytest.mark.parametrize("lane", ["", "  ", 8, np.array([7, 8])])
def test_a_lane_has_a_name(session, lane):
    with pytest.raises(cl.InputError, match="expected a text of 1 to 20 letters"):
        cl.change(session, lane=lane)
