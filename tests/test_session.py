"""A session is a replay of its events: undo, correction and the lane of the pair are one mechanism."""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

import coachlib as cl

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
        ({"lne": cl.Line(20, 10)}, "lne is no field of Setting; expected bowler, line"),
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
