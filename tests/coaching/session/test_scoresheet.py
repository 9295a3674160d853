"""A score sheet becomes balls and back; what cannot be a game is told by its frame.

Published: the sample sheet of R. C. Martin, "The Bowling Game Kata", 2005, first page, from memory: its pins
felled, with leaves of our own (the sheet prints counts only). The rest are invariants.
"""

import dataclasses

import pytest
from hypothesis import given
from hypothesis import strategies as st

from coachlib.coaching.session.scoresheet import (
    FrameLeaves,
    games_of,
    marks_of,
    rolls_of,
    sheet_steps,
)
from coachlib.coaching.session.session import Session, observe
from coachlib.errors import InputError
from coachlib.records.log.events import stepped
from coachlib.world import game
from coachlib.world.bowler import Bowler
from coachlib.world.line import Line
from coachlib.world.pins import ALL_PINS
from coachlib.world.shot import Shot

START = Session(bowler=Bowler(), line=Line(22, 11))
SAMPLE = (1, 4, 4, 5, 6, 4, 5, 5, 10, 0, 1, 7, 3, 6, 4, 10, 2, 8, 6)
SAMPLE_MARKS = ("14", "45", "6/", "5/", "X", "-1", "7/", "6/", "X", "2/6")


def _shots(frames: list[FrameLeaves]) -> tuple[Shot, ...]:
    """Return the balls that a sheet adds to a session without any."""
    return tuple(payload["shot"] for _, payload in sheet_steps(START, frames).steps)


def _frames(rolls: tuple[int, ...]) -> list[FrameLeaves]:
    """Return a sheet with so many pins felled by each ball, the lowest pins first."""
    found: list[FrameLeaves] = []
    for frame in game.frames(rolls):
        standing, leaves = ALL_PINS, []
        for pins in frame.rolls:
            leaves.append(standing[pins:])
            standing = standing[pins:] or ALL_PINS
        found.append(tuple(leaves))
    return found


@st.composite
def _games(draw: st.DrawFn) -> list[FrameLeaves]:
    """Draw a game with any leaves, stopped anywhere."""
    frames: list[FrameLeaves] = []
    n_balls = draw(st.integers(0, 21))
    before, frame = ALL_PINS, ()
    for _ in range(n_balls):
        leave = tuple(sorted(draw(st.sets(st.sampled_from(before)))))
        frame = (*frame, leave)
        before = leave or ALL_PINS
        is_last = len(frames) == 9
        n_most = 3 if is_last and (not frame[0] or (len(frame) > 1 and not frame[1])) else 2
        if len(frame) == n_most or (not is_last and not leave):
            frames.append(frame)
            before, frame = ALL_PINS, ()
            if is_last:
                break
    return [*frames, frame] if frame else frames


def test_the_sample_sheet_has_its_marks_and_sum() -> None:
    frames = _frames(SAMPLE)
    assert rolls_of(frames) == SAMPLE
    assert marks_of(frames) == SAMPLE_MARKS
    assert game.score(rolls_of(frames)) == 133


@given(_games())
def test_balls_and_back(frames: list[FrameLeaves]) -> None:
    shots = _shots(frames)
    assert games_of(shots) == ((tuple(frames),) if frames else ())
    fresh = [place == 0 or frame[place - 1] == () for frame in frames for place in range(len(frame))]
    assert [not shot.is_spare for shot in shots] == fresh


@given(st.lists(_games(), min_size=1, max_size=2))
def test_several_games_follow_each_other(games: list[list[FrameLeaves]]) -> None:
    whole = [frames for frames in games[:-1] if game.is_complete(rolls_of(frames))]
    shots = [shot for frames in (*whole, games[-1]) for shot in _shots(frames)]
    expected = tuple(tuple(frames) for frames in (*whole, games[-1]) if frames)
    assert games_of(shots) == expected


def test_perfect_game_is_twelve_first_balls() -> None:
    shots = _shots(_frames((10,) * 12))
    assert shots == (Shot(leave=()),) * 12
    assert all(shot.is_strike for shot in shots)


def test_all_ten_after_a_ball_in_the_gutter_is_a_spare_and_no_strike() -> None:
    shots = _shots([(ALL_PINS, ())])
    assert [shot.is_strike for shot in shots] == [False, False]
    assert marks_of([(ALL_PINS, ())]) == ("-/",)


@pytest.mark.parametrize(
    ("frames", "told"),
    [
        ([((4,), (7,))], r"frame 1 is \(\(4,\), \(7,\)\); expected only pins of 4 still standing\. Tap"),
        ([((), ())], r"frame 1 is .*; expected two balls, or one for a strike"),
        ([((10,),), ((),)], r"frame 1 is .*; expected two balls"),
        ([((),), ()], r"frame 2 is \(\); expected at least one ball"),
        ([((),)] * 9 + [((1,), (1,), ())], r"frame 10 is .*; expected no ball after the end of the game"),
        ([((),)] * 13, r"frame 10 is .*; expected no ball after the end"),
        ([((4, 11),)], r"leave holds 11; expected pins 1 to 10"),
    ],
)
def test_what_is_no_game_is_told(frames: list[FrameLeaves], told: str) -> None:
    for reading in (rolls_of, marks_of, _shots):
        with pytest.raises(InputError, match=told):
            reading(frames)


@pytest.mark.parametrize(
    ("shots", "told"),
    [
        ([Shot(leave=(10,)), Shot(arrival="high")], r"ball 2 has no pins noted; expected the pins it left"),
        ([Shot(leave=(10,)), Shot(leave=())], r"ball 2 is logged as a first ball with pins 10 standing"),
        ([Shot(leave=()), Shot(leave=(), is_spare=True)], r"ball 2 is logged as a spare ball with ten pins"),
        ([Shot(leave=(4,)), Shot(leave=(7,), is_spare=True)], r"expected only pins of 4 still standing"),
    ],
)
def test_balls_that_are_no_game_are_told(shots: list[Shot], told: str) -> None:
    with pytest.raises(InputError, match=told):
        games_of(shots)


def _after(session: Session, frames: list[FrameLeaves], first_ball: int = 1) -> Session:
    for kind, payload in sheet_steps(session, frames, first_ball).steps:
        session = stepped(session, kind, payload)
    return session


@given(_games(), st.integers(0, 20))
def test_sheet_adds_the_balls_that_are_missing(frames: list[FrameLeaves], n_logged: int) -> None:
    session = START
    for shot in _shots(frames)[:n_logged]:
        session = observe(session, dataclasses.replace(shot, crossed_board=11.0, leave=None))
    done = _after(session, frames)
    assert [(seen.shot.leave, seen.shot.is_spare) for seen in done.shots] == [
        (shot.leave, shot.is_spare) for shot in _shots(frames)
    ]
    crossed = [seen.shot.crossed_board for seen in done.shots]
    assert crossed == [11.0] * len(session.shots) + [None] * (len(crossed) - len(session.shots))
    assert sheet_steps(done, frames) == ((), ())


def test_spares_that_were_not_logged_stay_out_and_are_told() -> None:
    session = START
    for _ in range(3):
        session = observe(session, Shot(crossed_board=11.0))
    frames = [((10,), ()), ((),), ((4,), (4,))]
    steps, left_out = sheet_steps(session, frames)
    assert left_out == (1,)
    assert [kind for kind, _ in steps] == ["correct", "correct", "correct", "shot"]
    assert [seen.shot.leave for seen in _after(session, frames).shots] == [(10,), (), (4,), (4,)]


def test_second_game_of_a_session() -> None:
    session = observe(START, Shot(leave=()))
    done = _after(session, [((7,), ())], first_ball=2)
    assert [seen.shot.leave for seen in done.shots] == [(), (7,), ()]


def test_sheet_that_does_not_match_the_log_is_told() -> None:
    session = observe(observe(START, Shot(leave=(10,))), Shot(leave=(), is_spare=True))
    with pytest.raises(
        InputError, match=r"ball 2 is logged as a spare ball; expected the first ball of frame 2"
    ):
        sheet_steps(session, [((),), ((10,), ())])
